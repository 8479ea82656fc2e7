"""Picture of the recut: the size against how much deeper the cutter goes, the band of its limits, the first bite and the last."""

from __future__ import annotations

from evenpitch.sheet.drawing import Arrow, Drawing, Item, Line, Path, Point
from evenpitch.sheet.drawings.framing import framed
from evenpitch.sheet.drawings.lettering import label
from evenpitch.sheet.drawings.points import nice

LEFT, RIGHT, LOW, HIGH = 84.0, 344.0, 58.0, 200.0


def rework_curve(words: str, value: float, least: float, most: float, per_depth: float, deeper: float, first: float) -> Drawing:
    """`value`: as read, mm; `per_depth`: what it loses for each mm deeper; `deeper`, `first`: to the middle, and the first bite, mm."""
    end = max(deeper * 1.25, first * 1.25, 0.02)
    floor = min(value - per_depth * end, least) - 0.006
    top = value + 0.006

    def at(depth: float, size: float) -> Point:
        x = LEFT + depth / end * (RIGHT - LEFT)
        return x, LOW + (size - floor) / (top - floor) * (HIGH - LOW)

    band = (at(0, least)[1], at(0, most)[1])
    middle = value - per_depth * deeper
    items: list[Item] = [
        Path(((LEFT, band[0]), (RIGHT, band[0]), (RIGHT, band[1]), (LEFT, band[1])), "none", "hatch", closed=True),
        Line((LEFT, LOW), (LEFT, HIGH)),
        Line((LEFT, LOW), (RIGHT, LOW)),
        Line((LEFT, band[0]), (RIGHT, band[0]), "thick"),
        Line((LEFT, band[1]), (RIGHT, band[1]), "thick"),
        Line(at(0, value), at(end, value - per_depth * end), "medium"),
    ]
    for depth, said in ((first, f"first {first:.2f}"), (deeper, f"{deeper:.3f} deeper")):
        size = value - per_depth * depth
        items += [Line(at(depth, size), at(depth, floor), "dashed"), _diamond(at(depth, size))]
        place = at(depth, size)
        items.append(
            label((place[0] + 9, place[1] + 6), said, bold=True, patch=True) if depth < 0.62 * end else _before(place, said)
        )
    items += [_diamond(at(0, value)), label((LEFT + 12, at(0, value)[1] + 5), f"read {value:.3f}", patch=True)]
    low, high = band if band[1] - band[0] >= 18 else ((sum(band)) / 2 - 9, sum(band) / 2 + 9)
    items += [label((LEFT - 6, low - 5), f"{least:.3f}", "end"), label((LEFT - 6, high - 5), f"{most:.3f}", "end")]
    pitch = nice(end / 4)
    for step in range(int(end // pitch) + 1):
        x = at(step * pitch, 0)[0]
        items += [Line((x, LOW - 5), (x, LOW), "thin"), label((x, LOW - 20), f"{step * pitch:g}", "middle")]
    items += [
        Arrow(((RIGHT - 40, 14), (RIGHT, 14)), "thin"),
        label((LEFT, 8), "mm deeper; deeper is thinner"),
        label((8, HIGH + 24), f"{words}, mm"),
    ]
    says = (
        f"From {value:.3f} mm, {deeper:.3f} mm deeper brings {words} to {middle:.3f}, "
        f"between {least:.3f} and {most:.3f}; take {first:.2f} first."
    )
    return framed("rework", "How much deeper", says, HIGH + 44, items, "Hatched: between the limits. To scale each way.")


def _diamond(place: Point) -> Path:
    x, y = place
    return Path(((x - 5, y), (x, y + 6), (x + 5, y), (x, y - 6)), "none", "ink", closed=True)


def _before(place: Point, said: str) -> Item:
    return label((place[0] - 6, place[1] + 12), said, "end" if place[0] > 250 else "middle", bold=True, patch=True)
