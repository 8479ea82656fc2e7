"""Picture of spans read round the blank: flat says the depth is even, and a bore off the axis does not show."""

from __future__ import annotations

from collections.abc import Sequence

from evenpitch.sheet.drawing import Drawing, Item, Line, Path, Point
from evenpitch.sheet.drawings.framing import framed
from evenpitch.sheet.drawings.lettering import label
from evenpitch.sheet.drawings.points import nice

LEFT, RIGHT, LOW, HIGH = 84.0, 344.0, 52.0, 190.0
MANY = 24
"""More places than these are drawn as a line."""


def span_round_blank(
    spans: Sequence[tuple[int, float]], uncertainty: float, least: float, most: float, teeth: int, words: str
) -> Drawing:
    """`spans`: (space, mm). Two thick lines are the limits; a diamond with its bar for every place, of many a line between two of ± U."""
    values = [value for _, value in spans]
    low = min(*values, least) - 1.5 * uncertainty
    high = max(*values, most) + 1.5 * uncertainty

    def at(space: float, value: float) -> Point:
        x = LEFT + 10 + (space - 1) / max(teeth - 1, 1) * (RIGHT - LEFT - 20)
        return x, LOW + (value - low) / (high - low) * (HIGH - LOW)

    band = (at(1, least)[1], at(1, most)[1])
    items: list[Item] = [
        Path(((LEFT, band[0]), (RIGHT, band[0]), (RIGHT, band[1]), (LEFT, band[1])), "none", "hatch", closed=True),
        Line((LEFT, LOW), (LEFT, HIGH)),
        Line((LEFT, LOW), (RIGHT, LOW)),
        Line((LEFT, band[0]), (RIGHT, band[0]), "thick"),
        Line((LEFT, band[1]), (RIGHT, band[1]), "thick"),
    ]
    items += _limits(least, most, band)
    if len(spans) > MANY:
        items += _crowd([at(space, value) for space, value in spans], at(1, values[0])[1] - at(1, values[0] - uncertainty)[1])
    for space, value in spans if len(spans) <= MANY else ():
        x, y = at(space, value)
        bar = (at(space, value - uncertainty)[1], at(space, value + uncertainty)[1])
        items.append(Line((x, bar[0]), (x, bar[1])))
        items += [Line((x - 4, end), (x + 4, end)) for end in bar]
        items.append(Path(((x - 5, y), (x, y + 6), (x + 5, y), (x, y - 6)), "none", "ink", closed=True))
    for space in dict.fromkeys((1, *range(int(nice(teeth / 5)), int(0.9 * teeth), max(1, int(nice(teeth / 5)))), teeth)):
        x = at(space, 0)[0]
        items += [Line((x, LOW - 5), (x, LOW), "thin"), label((x, LOW - 20), str(space), "middle")]
    items += [label((8, HIGH + 12), f"{words}, mm"), label((LEFT, LOW - 40), "space")]
    spread = (max(values) - min(values)) * 1000
    said = f"{words} at {len(spans)} places, {min(values):.3f} to {max(values):.3f} mm"
    says = f"{said}: {spread:.0f} µm apart, read to ±{uncertainty * 1000:.0f}."
    return framed(
        "span-round", f"{words[0].upper()}{words[1:]} round the blank", says, HIGH + 34, items, "Hatched: between the limits."
    )


def _crowd(places: Sequence[Point], bar: float) -> list[Item]:
    """Many places: the readings as a line, their U as two thin ones."""
    return [
        Path(tuple((x, y + bar) for x, y in places), "thin"),
        Path(tuple((x, y - bar) for x, y in places), "thin"),
        Path(tuple(places), "medium"),
    ]


def _limits(least: float, most: float, band: tuple[float, float]) -> list[Item]:
    low, high = band
    if high - low < 18:
        middle = (low + high) / 2
        low, high = middle - 9, middle + 9
    return [label((LEFT - 6, low - 5), f"{least:.3f}", "end"), label((LEFT - 6, high - 5), f"{most:.3f}", "end")]
