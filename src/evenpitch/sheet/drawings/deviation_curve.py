"""Picture of the spacing: each space's deviation round the gear, what the head's map expects, total pitch against its limit."""

from __future__ import annotations

from collections.abc import Sequence

from evenpitch.sheet.drawing import Arrow, Circle, Drawing, Item, Line, Path, Point
from evenpitch.sheet.drawings.framing import framed
from evenpitch.sheet.drawings.lettering import label
from evenpitch.sheet.drawings.points import minus, nice

LEFT, RIGHT, LOW, HIGH = 52.0, 262.0, 66.0, 226.0
MOST_TICKS = 6


def deviation_curve(
    um: Sequence[float],
    value: float,
    uncertainty: float,
    limit: float,
    cls: int,
    *,
    expected: Sequence[float] = (),
    flank: str = "",
) -> Drawing:
    """`um`: deviation of space 1 to the last, µm, + ahead; `expected`: by the map of the head, on the same zero; empty where none is."""
    shown = [value - sum(um) / len(um) for value in um]
    told = [one - sum(expected) / len(expected) for one in expected]
    spread = max([limit / 2, *(abs(one) for one in (*shown, *told))]) * 1.08
    grid = _grid(spread)

    def at(place: float, height: float) -> Point:
        x = LEFT + place / max(len(um) - 1, 1) * (RIGHT - LEFT)
        return x, (LOW + HIGH) / 2 + height / spread * (HIGH - LOW) / 2

    zero = at(0, 0)[1]
    items: list[Item] = [
        Line((LEFT, LOW), (LEFT, HIGH)),
        Line((LEFT, LOW), (RIGHT, LOW)),
        Line((LEFT, zero), (RIGHT, zero), "centre"),
    ]
    for tick in grid:
        y = at(0, tick)[1]
        items += [Line((LEFT - 5, y), (LEFT, y), "thin"), label((LEFT - 8, y - 5), minus(tick), "end")]
    for space in _spaces(len(um)):
        x = at(space - 1, 0)[0]
        items += [Line((x, LOW - 5), (x, LOW), "thin"), label((x, LOW - 20), str(space), "middle")]
    if told:
        items.append(Path(tuple(at(place, one) for place, one in enumerate(told)), "dashed"))
    items.append(Path(tuple(at(place, one) for place, one in enumerate(shown)), "medium"))
    high, low = (shown.index(pick(shown)) for pick in (max, min))
    top, foot = at(high, shown[high]), at(low, shown[low])
    items += [Circle(top, 4, "medium", "ink"), Circle(foot, 4, "medium", "ink")]
    items += [Line(top, (RIGHT + 30, top[1]), "thin"), Line(foot, (RIGHT + 30, foot[1]), "thin")]
    items += _dimension(RIGHT + 24, foot[1], top[1], f"{value:.0f} ± {uncertainty:.0f}")
    half = limit / 2 / spread * (HIGH - LOW) / 2
    items += _dimension(RIGHT + 66, zero - half, zero + half, f"{limit:.0f}")
    items.append(label((RIGHT + 66, LOW - 20), f"class {cls}", "middle"))
    items.append(label((8, HIGH + 12), "µm" + (f", {flank} flank" if flank else "")))
    items.append(label((LEFT, LOW - 40), "space"))
    x = LEFT + 52.0
    items += [Line((x, LOW - 35), (x + 26, LOW - 35)), label((x + 32, LOW - 40), "measured")]
    if told:
        items += [Line((x + 112, LOW - 35), (x + 138, LOW - 35), "dashed"), label((x + 144, LOW - 40), "head's map")]
    says = (
        f"Deviation of each space; highest at space {high + 1}, lowest at space {low + 1}: "
        f"{value:.0f} ± {uncertainty:.0f} µm against {limit:.0f} of class {cls}."
    )
    return framed(
        "deviation", "Deviation of each space", says, HIGH + 34, items, f"Highest at space {high + 1}, lowest at {low + 1}."
    )


def _grid(spread: float) -> tuple[float, ...]:
    pitch = nice(2 * spread / MOST_TICKS)
    most = int(spread // pitch)
    return tuple(pitch * step for step in range(-most, most + 1))


def _spaces(count: int) -> tuple[int, ...]:
    if count < 6:
        return tuple(range(1, count + 1))
    pitch = max(1, int(nice(count / 5)))
    inner = [space for space in range(pitch, count, pitch) if 0.12 * count < space < 0.88 * count]
    return (1, *inner, count)


def _dimension(x: float, low: float, high: float, words: str) -> list[Item]:
    middle = (low + high) / 2
    return [
        Line((x - 8, high), (x + 8, high), "thin"),
        Line((x - 8, low), (x + 8, low), "thin"),
        Arrow(((x, low), (x, high)), both=True),
        label((x + 5, middle), words, "middle", bold=True, turn=90, patch=True),
    ]
