"""Picture of a verdict: a number line with its limits, the reading with its uncertainty above it."""

from __future__ import annotations

from evenpitch.sheet.drawing import Drawing, Filling, Item, Line, Path, Point
from evenpitch.sheet.drawings.framing import framed
from evenpitch.sheet.drawings.lettering import LINE, TEXT, WIDTH, apart, label, text_width, wrap
from evenpitch.sheet.drawings.points import minus

_LEFT, _RIGHT = 12.0, 244.0
_BAR_LOW, _BAR_HIGH = 49.0, 65.0


def verdict_gauge(
    what: str,
    value: float,
    uncertainty: float,
    verdict: str,
    *,
    least: float | None = None,
    most: float | None = None,
    unit: str = "mm",
    digits: int = 3,
    zones: tuple[str, str] = ("", ""),
) -> Drawing:
    """One limit or two. Plain: pass; open hatch: within the uncertainty of a limit, not proven; close hatch: fail.

    `zones`: words for below the least and above the most ("thin", "thick"). The verdict is given, not judged here.
    """
    low, high = _range(value, uncertainty, least, most)

    def at(number: float) -> float:
        return _LEFT + (min(max(number, low), high) - low) / (high - low) * (_RIGHT - _LEFT)

    items: list[Item] = []
    for first, last, fill in _zones(low, high, uncertainty, least, most):
        items.append(Path(_rectangle(at(first), at(last)), "medium", fill, closed=True))
    limits = [limit for limit in (least, most) if limit is not None]
    items += [Line((at(limit), _BAR_LOW - 6), (at(limit), _BAR_HIGH + 6), "thick") for limit in limits]
    items += _limit_words([at(limit) for limit in limits], [minus(limit, digits) for limit in limits])
    items += _zone_words(zones, least, most, at(least if least is not None else low), at(most if most is not None else high))
    items += _reading(at(value), at(value - uncertainty), at(value + uncertainty))
    reading = f"{minus(value, digits)} ± {minus(uncertainty, digits)} {unit}".rstrip()
    middle = min(max(at(value), text_width(reading, bold=True) / 2 + 4), WIDTH - text_width(reading, bold=True) / 2 - 4)
    items.append(label((middle, _BAR_HIGH + 34), reading, "middle", bold=True))
    words = wrap(verdict, WIDTH - _RIGHT - 16, bold=True)
    start = (_BAR_LOW + _BAR_HIGH) / 2 - 0.3 * TEXT + LINE * (len(words) - 1) / 2
    items += [label((_RIGHT + 14, start - row * LINE), text, bold=True) for row, text in enumerate(words)]
    says = f"{what}: {reading}; {_limits_said(least, most, digits, unit)}: {verdict}."
    caption = "Plain: pass. Open hatch: not proven. Close hatch: fail. To scale."
    return framed("gauge", what, says, _BAR_HIGH + 54, items, caption)


def _range(value: float, uncertainty: float, least: float | None, most: float | None) -> tuple[float, float]:
    """Everything with its uncertainty, and a sixth more at each end."""
    ends = [value - uncertainty, value + uncertainty]
    ends += [limit + s * 1.6 * uncertainty for limit in (least, most) if limit is not None for s in (-1, 1)]
    if least is None and most is not None and min(ends) > 0:
        ends.append(0.0 if min(ends) < most else min(ends))
    pad = max(max(ends) - min(ends), 1e-9) / 10
    floor = min(ends) - pad
    return (0.0 if least is None and floor < 0 <= min(ends) else floor), max(ends) + pad


def _zones(
    low: float, high: float, uncertainty: float, least: float | None, most: float | None
) -> list[tuple[float, float, Filling]]:
    """From low to high: fail, not proven, pass, not proven, fail; what a limit does not bound is pass."""
    below = (least - uncertainty, least + uncertainty) if least is not None else (low, low)
    above = (most - uncertainty, most + uncertainty) if most is not None else (high, high)
    zones: list[tuple[float, float, Filling]] = [(low, below[0], "close")]
    if below[1] > above[0]:
        zones += [(below[0], above[1], "hatch"), (above[1], high, "close")]
    else:
        zones += [(below[0], below[1], "hatch"), (below[1], above[0], "none"), (above[0], above[1], "hatch")]
        zones.append((above[1], high, "close"))
    return [zone for zone in zones if zone[1] > zone[0]]


def _rectangle(x0: float, x1: float) -> tuple[Point, ...]:
    return ((x0, _BAR_LOW), (x1, _BAR_LOW), (x1, _BAR_HIGH), (x0, _BAR_HIGH))


def _limit_words(places: list[float], words: list[str]) -> list[Item]:
    rooms = [text_width(text) + 8 for text in words]
    moved = apart(places, rooms, 2, _RIGHT + 30)
    return [label((x, _BAR_LOW - 8 - TEXT), text, "middle") for x, text in zip(moved, words, strict=True)]


def _zone_words(zones: tuple[str, str], least: float | None, most: float | None, left: float, right: float) -> list[Item]:
    """Words of the zones along the foot, left and right ends, pass between."""
    items: list[Item] = []
    if zones[0] and least is not None:
        items.append(label((_LEFT, 6), zones[0]))
    if zones[1] and most is not None:
        items.append(label((_RIGHT, 6), zones[1], "end"))
    if any(zones):
        half = text_width("pass") / 2 + 8
        first = _LEFT + (text_width(zones[0]) if zones[0] else -8) + half
        last = _RIGHT - (text_width(zones[1]) if zones[1] else -8) - half
        items.append(label((min(max((left + right) / 2, first), last), 6), "pass", "middle"))
    return items


def _reading(x: float, low: float, high: float) -> list[Item]:
    y = _BAR_HIGH + 16
    diamond = ((x - 6, y), (x, y + 7), (x + 6, y), (x, y - 7))
    ends: list[Item] = [Line((e, y - 5), (e, y + 5), "medium") for e in (low, high)]
    return [Line((low, y), (high, y), "medium"), *ends, Path(diamond, "none", "ink", closed=True)]


def _limits_said(least: float | None, most: float | None, digits: int, unit: str) -> str:
    parts = [f"least {minus(least, digits)} {unit}".rstrip()] if least is not None else []
    parts += [f"most {minus(most, digits)} {unit}".rstrip()] if most is not None else []
    return ", ".join(parts) or "no limit"
