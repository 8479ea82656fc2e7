"""The fly cutter's bit: its edge ten times full size with a bar of true length, arc and widths; and the same in millimetres for DXF."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from evenpitch.sheet.drawing import Arc, Drawing, Item, Label, Line, Path, Point
from evenpitch.sheet.drawings.lettering import LINE, TEXT, label, lines_of

UNIT = 82 / 360
"""Millimetres of paper to one unit: the same lettering as in the other pictures."""

SCALES = (10, 5, 2, 1)
"""How many times full size; the first that the paper holds."""

HOLDS = (150.0, 118.0)
"""Width and height of the bit itself that the paper holds beside its figures, mm."""

BAR = 50.0
"""The bar of true length, mm."""


Place = Callable[[Point], Point]
"""Millimetres of the work to units of the picture."""


@dataclass(frozen=True, slots=True)
class BitShown:
    """Half of the edge: (half width, depth from its end) in mm, from the end outwards; the arc; widths to check it by.

    `arc`: radius, how far its centre is off the centre line and its depth below the end, the greatest distance of the flank from it.
    `words`: for which gear, `short` in a few.
    """

    edge: tuple[Point, ...]
    arc_radius: float
    arc_off_centre: float
    arc_depth: float
    arc_worst: float
    checks: tuple[Point, ...]
    words: str
    short: str


def scale_of(bit: BitShown) -> int:
    """How many times full size the bit is drawn: ten, or less where it is too large for the paper."""
    wide, deep = 2 * max(x for x, _ in bit.edge), max(y for _, y in bit.edge)
    return next((times for times in SCALES if wide * times <= HOLDS[0] and deep * times <= HOLDS[1]), 1)


def fly_bit_picture(bit: BitShown) -> Drawing:
    """The bit as it stands in the work, its end down, at a stated scale that the printed sheet keeps."""
    times = scale_of(bit)
    unit = times / UNIT
    half, deep = max(x for x, _ in bit.edge) * unit, max(y for _, y in bit.edge) * unit
    width = max(2 * half + 190, BAR / UNIT + 40, 360)
    middle, low = width / 2, 5.6 * LINE + 14

    def at(point: Point) -> Point:
        return middle + point[0] * unit, low + point[1] * unit

    right = [at(point) for point in bit.edge]
    left = [(2 * middle - x, y) for x, y in reversed(right)]
    top = low + deep + 26
    shank = ((left[0][0], top), *left, *right, (right[-1][0], top))
    items: list[Item] = [Path(shank, "thick"), Line((middle, low - 12), (middle, top + 4), "centre")]
    items += _arcs(bit, at)
    for number, (w, depth) in enumerate(bit.checks):
        items += _width(at, w, depth, width, number)
    items += _bar(width)
    words = (f"one arc a flank: R {bit.arc_radius:.3f}", _centre_words(bit), f"flank within {bit.arc_worst * 1000:.1f} µm of it")
    items += lines_of((middle, 4.1 * LINE), words, "middle")
    height = top + 16
    return Drawing(
        "fly-bit", f"Fly cutter's bit, {times} : 1", _says(bit), round(width, 1), round(height, 1), tuple(items),
        f"{bit.words}. {times} : 1 on the printed sheet, if the bar measures {BAR:.0f} mm. Thick: the edge; dashed: one arc a flank.",
        true=round(width, 1) * UNIT,
    )  # fmt: skip


def _centre_words(bit: BitShown) -> str:
    where = "above" if bit.arc_depth >= 0 else "beyond"
    return f"centre {bit.arc_off_centre:.3f} off, {abs(bit.arc_depth):.3f} {where} the end"


def _arcs(bit: BitShown, at: Place) -> list[Item]:
    """The arc of each flank over the depth of the edge."""
    depths = [depth for _, depth in bit.edge]
    low, high = min(depths), max(depths)
    points = []
    for k in range(25):
        depth = low + (high - low) * k / 24
        rise = bit.arc_radius**2 - (depth - bit.arc_depth) ** 2
        if rise <= 0:
            continue
        side = -1.0 if bit.arc_off_centre > max(x for x, _ in bit.edge) else 1.0
        points.append((bit.arc_off_centre + side * math.sqrt(rise), depth))
    return [Path(tuple(at((sign * x, y)) for x, y in points), "dashed") for sign in (1.0, -1.0)]


def _width(at: Place, half: float, depth: float, width: float, number: int) -> list[Item]:
    """A width to check the bit by, at its depth."""
    left, right = at((-half, depth)), at((half, depth))
    right_words = f"{2 * half:.3f}"
    return [
        Line(left, right, "thin"),
        Line((6, left[1]), (left[0] - 4, left[1]), "thin"),
        Line((right[0] + 4, right[1]), (width - 6, right[1]), "thin"),
        label((width - 6, right[1] + 4), right_words, "end", bold=True),
        label((6, left[1] + 4), f"at {depth:.3f}"),
    ]


def _bar(width: float) -> list[Item]:
    long = BAR / UNIT
    left, y = (width - long) / 2, 26.0
    ticks = [Line((left + long * k / 5, y - 4), (left + long * k / 5, y + 4), "medium") for k in range(6)]
    return [
        Line((left, y), (left + long, y), "thick"),
        *ticks,
        label((width / 2, 6), f"1 : 1, this bar is {BAR:.0f} mm on paper", "middle"),
    ]


def _says(bit: BitShown) -> str:
    widths = "; ".join(f"{2 * half:.3f} mm wide {depth:.3f} mm from the end" for half, depth in bit.checks)
    arc = f"Arc R {bit.arc_radius:.3f} mm, {_centre_words(bit)}; the flank stands within {bit.arc_worst * 1000:.1f} µm of it."
    return f"{bit.words}: {widths}. {arc}"


def fly_bit_for_dxf(bit: BitShown) -> Drawing:
    """The edge in millimetres at true scale, its end at y = 0 and its middle at x = 0, with the arc of each flank."""
    half, deep = max(x for x, _ in bit.edge), max(y for _, y in bit.edge)
    width = 2.8 * half
    pen = width / 360
    edge = (*((-x, y) for x, y in reversed(bit.edge)), *bit.edge)
    items: list[Item] = [Path(edge, "thick"), Line((0.0, -0.1 * deep), (0.0, 1.1 * deep), "centre"), *_true_arcs(bit)]
    items.append(Label((0.0, -0.1 * deep - 1.4 * TEXT * pen), bit.short, "middle", size=TEXT))
    low = -0.1 * deep - 2.2 * TEXT * pen
    return Drawing(
        "bit-outline", "Fly cutter's bit in millimetres", _says(bit), width, 1.1 * deep - low, tuple(items),
        "Millimetres, true scale; 0, 0 in the middle of the end of the edge.", (-width / 2, low), pen,
    )  # fmt: skip


def _true_arcs(bit: BitShown) -> Sequence[Item]:
    """The arc itself, from the end of the edge to its far end, on both sides."""
    hollow = bit.arc_off_centre > max(x for x, _ in bit.edge)
    depths = [depth for _, depth in bit.edge]
    angles = [
        math.degrees(math.asin(max(-1.0, min(1.0, (depth - bit.arc_depth) / bit.arc_radius))))
        for depth in (min(depths), max(depths))
    ]
    first, last = min(angles), max(angles)
    right, left = (bit.arc_off_centre, bit.arc_depth), (-bit.arc_off_centre, bit.arc_depth)
    facing, away = (180 - last, 180 - first), (first, last)
    return (
        Arc(right, bit.arc_radius, *(facing if hollow else away), "dashed"),
        Arc(left, bit.arc_radius, *(away if hollow else facing), "dashed"),
    )
