"""Strokes: widths, dashes, hatchings and arrow shapes of the drawing office, the same for SVG and DXF.

All in units of the pen (Drawing.pen): the figures of the table "lines, fillings, edges" of the look.
"""

from __future__ import annotations

import math

from evenpitch.sheet.drawing import Arrow, Block, Filling, LineClass, Point

WIDTHS: dict[LineClass, float] = {
    "thick": 2.4,
    "medium": 1.4,
    "thin": 0.8,
    "dashed": 1.8,
    "other": 1.3,
    "centre": 0.9,
    "movement": 2.2,
    "none": 0,
}

DASHES: dict[LineClass, tuple[float, ...]] = {
    "dashed": (7, 4),
    "other": (16, 3, 2, 3, 2, 3),
    "centre": (14, 3, 2, 3),
}

HATCHES: dict[Filling, tuple[float, float]] = {"hatch": (6, 45), "close": (3, 45), "upright": (4, 90)}
"""Distance between the lines of a hatching and their angle from +x, degrees anticlockwise."""

HEAD_LENGTH = 9
HEAD_WIDTH = 6.4


def arrow_heads(arrow: Arrow, pen: float) -> tuple[tuple[Point, Point, Point], ...]:
    """The slim solid heads of an arrow: at its last point, and at its first where it has both."""
    if len(arrow.points) < 2:
        return ()
    ends = (arrow.points, arrow.points[::-1]) if arrow.both else (arrow.points,)
    return tuple(_head(points, _length(arrow, pen)) for points in ends)


def arrow_shaft(arrow: Arrow, pen: float) -> tuple[Point, ...]:
    """The line of an arrow, ending inside its heads so that a thick one does not blunt the tip."""
    inside = _length(arrow, pen) * 0.7
    points = _cut_back(arrow.points, inside)
    return _cut_back(points[::-1], inside)[::-1] if arrow.both else points


def _length(arrow: Arrow, pen: float) -> float:
    return HEAD_LENGTH * pen * (1.5 if arrow.cls == "thick" else 1)


def _head(points: tuple[Point, ...], length: float) -> tuple[Point, Point, Point]:
    tip, foot = points[-1], _cut_back(points, length)[-1]
    along, across = _directions(foot, tip)
    half = length * HEAD_WIDTH / HEAD_LENGTH / 2
    foot = (tip[0] - along[0] * length, tip[1] - along[1] * length)
    return (
        tip,
        (foot[0] + across[0] * half, foot[1] + across[1] * half),
        (foot[0] - across[0] * half, foot[1] - across[1] * half),
    )


def _cut_back(points: tuple[Point, ...], length: float) -> tuple[Point, ...]:
    """The course without its last `length`; its first piece always keeps a stump."""
    kept = points
    while len(kept) > 1:
        last = math.dist(kept[-2], kept[-1])
        if last > length or len(kept) == 2:
            share = min(length / last, 0.9) if last else 0.0
            (x, y), (u, v) = kept[-1], kept[-2]
            return (*kept[:-1], (x + (u - x) * share, y + (v - y) * share))
        length -= last
        kept = kept[:-1]
    return kept


def block_outline(block: Block) -> tuple[Point, ...]:
    """The seven corners of the outline arrow of movement; the shaft is half as wide as the head."""
    along, across = _directions(block.start, block.end)
    length = math.dist(block.start, block.end)
    neck = max(length - block.width * 0.9, length * 0.4)
    shaft, barb = block.width / 4, block.width / 2

    def at(run: float, side: float) -> Point:
        return (
            block.start[0] + along[0] * run + across[0] * side,
            block.start[1] + along[1] * run + across[1] * side,
        )

    return (
        at(0, shaft), at(neck, shaft), at(neck, barb), at(length, 0), at(neck, -barb), at(neck, -shaft), at(0, -shaft),
    )  # fmt: skip


def _directions(start: Point, end: Point) -> tuple[Point, Point]:
    """Unit vectors from start to end and to the left of it; to the right and up where the two coincide."""
    length = math.dist(start, end)
    if length == 0:
        return (1, 0), (0, 1)
    along = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
    return along, (-along[1], along[0])
