"""The parts of the machine seen from above: column, arbor, table with head and tail, blank, cutter."""

from __future__ import annotations

import math

from evenpitch.sheet.drawing import Item, Label, Line, Path, Point
from evenpitch.sheet.drawings.floor_plan import (
    CENTRE,
    COLUMN,
    HALF_TABLE,
    TOP,
    View,
    box_on_table,
    cutter_plane,
    half_table,
    nose_direction,
    on_table,
)
from evenpitch.sheet.drawings.lettering import TEXT, WIDTH, label


def column() -> list[Item]:
    """The column of the machine, hatched, along the top."""
    left, right, low = 78.0, 282.0, TOP - COLUMN
    edge = ((left, TOP - 2), (left, low), (right, low), (right, TOP - 2))
    return [Path(edge, "thick", "hatch", closed=True), label((WIDTH / 2, low + 11), "column", "middle", patch=True)]


def table(view: View) -> list[Item]:
    """The table broken off at both ends, with the head, the tailstock and the motor on it."""
    half, wide = half_table(view), HALF_TABLE
    right = ((half, -wide), (half - 4, -wide / 3), (half, wide / 4), (half - 7, wide))
    left = ((-half, wide), (-half + 8, wide / 4), (-half, -wide / 3), (-half + 4, -wide))
    items: list[Item] = [Path(tuple(on_table(view, x, y) for x, y in right + left), "thick", closed=True)]
    items += [Line(on_table(view, -half, s * 16), on_table(view, half, s * 16), "thin") for s in (-1, 1)]
    end, near, far = head_place(view)
    items.append(Path(_ends(view, end, near, far, -29.0, 29.0), "thick", "paper", closed=True))
    items.append(Path(_ends(view, -end, far - 38, far, -17.0, 17.0), "thick", "paper", closed=True))
    if view.motor:
        items.append(Path(_ends(view, end, near + 1, far - 1, -49.0, -29.0), "medium", "paper", closed=True))
    items += [*_word(view, end * (near + far) / 2, 2, "head"), *_word(view, -end * (far - 19), -1, "tail")]
    if view.motor:
        items += _word(view, end * (near + far) / 2, -39, "motor")
    return items


def head_place(view: View) -> tuple[float, float, float]:
    """Which end the head stands at (−1 left, +1 right), and where it begins and ends along the table."""
    far = half_table(view) - 10
    return -1.0 if view.head_end == "left" else 1.0, max(view.face * view.scale / 2 + 12, far - 58), far


def _ends(view: View, end: float, near: float, far: float, low: float, high: float) -> tuple[Point, ...]:
    return box_on_table(view, min(end * near, end * far), max(end * near, end * far), low, high)


def _word(view: View, along: float, across: float, text: str) -> list[Label]:
    """A word lying on the table, turned with it."""
    x, y = on_table(view, along, across - 0.28 * TEXT)
    return [label((x, y), text, "middle", turn=view.table_turn)]


def work(view: View) -> list[Item]:
    """Mandrel, and the blank with its tooth lines as they lie on the upper half of a cylinder."""
    half, out = view.face * view.scale / 2, view.outside * view.scale / 2
    end, near, far = head_place(view)
    items: list[Item] = [
        Line(on_table(view, end * near, s * 5), on_table(view, -end * (far - 38), s * 5), "medium") for s in (-1, 1)
    ]
    items.append(Path(box_on_table(view, -half, half, -out, out), "thick", "wash", closed=True))
    items += [Path(points, "thin") for points in _tooth_lines(view, half, out)]
    items.append(Line(on_table(view, -end * (far - 39), 0), on_table(view, end * (near - 1), 0), "centre"))
    return items


def _tooth_lines(view: View, half: float, out: float) -> list[tuple[Point, ...]]:
    """Helices seen from above; on the top their direction is exactly `tooth_line`, towards the sides they crowd."""
    count = max(9, min(25, int(out / 2) | 1))
    gain = -view.sign * math.tan(math.radians(view.beta)) / out
    lines = []
    for k in range(-2 * count, 2 * count + 1):
        around = k * math.pi / count
        track = [(x, around + gain * x) for x in (-half, -half / 2, 0.0, half / 2, half)]
        seen = [on_table(view, x, out * math.sin(a)) for x, a in track if abs(a) < 0.5 * math.pi]
        if len(seen) > 1:
            lines.append(tuple(seen))
    return lines


def arbor(view: View) -> list[Item]:
    """The arbor from the column (or the milling head) past the cutter; where it was, if it has been swung."""
    dx, dy = nose_direction(view)
    sx, sy = -dy, dx
    nose = 112.0

    def spot(along: float, across: float) -> Point:
        return CENTRE[0] + along * dx + across * sx, CENTRE[1] + along * dy + across * sy

    back = -(TOP - COLUMN - CENTRE[1]) if view.swings == "table" or view.hand == "none" else -100.0
    items: list[Item] = [Line(spot(back, s * 6), spot(nose - 8, s * 6), "medium") for s in (-1, 1)]
    blocks = [(nose - 8, nose + 4, 11)] + ([(-146, -92, 25)] if view.swings == "milling head" else [])
    for start, end, wide in blocks:
        corners = (spot(start, -wide), spot(start, wide), spot(end, wide), spot(end, -wide))
        items.append(Path(corners, "thick", "paper", closed=True))
    items.append(Line(spot(back + 4 if view.swings == "table" else -150, 0), spot(nose + 12, 0), "centre"))
    return items


def cutter(view: View) -> list[Item]:
    """The cutter seen from above: a solid strip in its plane, as long as its diameter, to the scale of the blank."""
    ux, uy = cutter_plane(view)
    half = view.cutter_outside * view.scale / 2
    thick = max(2.4, 0.06 * half)
    corners = ((-half, -thick), (half, -thick), (half, thick), (-half, thick))
    points = tuple((CENTRE[0] + a * ux - b * uy, CENTRE[1] + a * uy + b * ux) for a, b in corners)
    return [Path(points, "none", "ink", closed=True)]
