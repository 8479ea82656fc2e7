"""The tooth space that one cutter leaves: what is wanted and the cutter to scale, what is left magnified by a stated factor."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise

from evenpitch.sheet.drawing import Anchor, Drawing, Item, Line, Path, Point
from evenpitch.sheet.drawings.framing import framed
from evenpitch.sheet.drawings.lettering import LINE, TEXT, WIDTH, label, lines_of
from evenpitch.sheet.drawings.points import minus, nice

_MIDDLE = WIDTH / 2
_STRIDE = 3.5
"""Units from one point of the cutter's section to the next."""

_HAIR = 0.4
"""Units of difference that are too thin to hatch."""


Place = Callable[[Point], Point]
"""Millimetres of the work to units of the picture."""


@dataclass(frozen=True, slots=True)
class FlankLeft:
    """One flank from the start of inspection to the tip: points wanted and left (magnified) in mm, across and from the work axis;
    µm at each, + takes too much."""

    wanted: tuple[Point, ...]
    left: tuple[Point, ...]
    um: tuple[float, ...]
    pitch_um: float


@dataclass(frozen=True, slots=True)
class SpaceLeft:
    """The space: both flanks, the cutter's section (mm), radii of floor, pitch and tip circle (mm), and the factor."""

    right: FlankLeft
    left: FlankLeft
    cutter: tuple[Point, ...]
    root: float
    pitch: float
    tip: float
    times: int


def cut_space(space: SpaceLeft, cutter: str) -> Drawing:
    """The space upright at mid face; the difference hatched: open where too much is taken, upright where metal is left."""
    half = max(abs(x) for x, _ in (*space.right.wanted, *space.left.wanted))
    scale = min(172 / (space.tip - space.root), 104 / half)
    low = 70.0

    def at(point: Point) -> Point:
        return _MIDDLE + point[0] * scale, low + (point[1] - space.root) * scale

    top = low + (space.tip - space.root) * scale
    pitch_y = at((0.0, space.pitch))[1]
    items: list[Item] = [
        Line((_MIDDLE, low - 14), (_MIDDLE, top + 12), "centre"),
        Line((8, pitch_y), (WIDTH - 8, pitch_y), "centre"),
    ]
    for flank in (space.left, space.right):
        items += _difference(flank, at)
    items.append(Path(_apart([at(point) for point in _within(space)]), "dashed"))
    for flank in (space.left, space.right):
        items.append(Path(tuple(map(at, flank.wanted)), "thick"))
        items.append(Path(tuple(map(at, flank.left)), "medium"))
    items += _lands(space, at)
    items += _figures(space.left, -1.0, pitch_y, low, top) + _figures(space.right, 1.0, pitch_y, low, top)
    items += _key(scale, space.times)
    height = top + 30 + 3 * LINE
    return framed("cut-space", "The space it leaves", _says(space, cutter), height, items, _caption(space, cutter))


def _within(space: SpaceLeft) -> list[Point]:
    """The cutter's section as far as it stands in the work, and a little above."""
    above = space.tip + 0.04 * (space.tip - space.root)
    return [point for point in space.cutter if point[1] <= above]


def _apart(points: list[Point]) -> tuple[Point, ...]:
    """Fewer points, none nearer than a few units to the one before; the ends stay."""
    kept = points[:1]
    for point in points[1:-1]:
        if math.dist(point, kept[-1]) >= _STRIDE:
            kept.append(point)
    return (*kept, *points[-1:])


def _difference(flank: FlankLeft, at: Place) -> list[Item]:
    """What lies between wanted and left, piece by piece of one sign."""
    wanted, left = [at(point) for point in flank.wanted], [at(point) for point in flank.left]
    signs = [0 if _near(a, b) else (1 if um > 0 else -1) for a, b, um in zip(wanted, left, flank.um, strict=True)]
    edges = [0, *(k + 1 for k, (a, b) in enumerate(pairwise(signs)) if a != b), len(signs)]
    items: list[Item] = []
    for first, past in pairwise(edges):
        if signs[first] == 0:
            continue
        piece = slice(max(first - 1, 0), past + 1)
        around = (*wanted[piece], *reversed(left[piece]))
        items.append(Path(around, "none", "hatch" if signs[first] > 0 else "upright", closed=True))
    return items


def _near(one: Point, other: Point) -> bool:
    return abs(one[0] - other[0]) + abs(one[1] - other[1]) < _HAIR


def _lands(space: SpaceLeft, at: Place) -> list[Item]:
    """The tops of the teeth beside the space."""
    items: list[Item] = []
    for flank, side in ((space.left, -1.0), (space.right, 1.0)):
        x, y = at(flank.wanted[-1])
        items.append(Path(((x, y), (x + side * 34, y - 2)), "thick"))
    return items


def _figures(flank: FlankLeft, side: float, pitch_y: float, low: float, top: float) -> list[Item]:
    x = 4.0 if side < 0 else WIDTH - 4
    anchor: Anchor = "start" if side < 0 else "end"
    name = "left flank" if side < 0 else "right flank"
    return [
        *lines_of((x, top + 14 + LINE), (name, f"tip: {deed(flank.um[-1])}"), anchor, bold=1),
        label((x, pitch_y + 5), deed(flank.pitch_um), anchor),
        label((x, pitch_y - TEXT), "pitch line", anchor, patch=True),
        *lines_of((x, min(low + LINE, pitch_y - TEXT - LINE - 3)), (deed(flank.um[0]), "at its start"), anchor),
    ]


def deed(um: float) -> str:
    """What a cutter does there: "takes 17 µm", "leaves 3 µm"."""
    size = f"{abs(um):.0f}" if abs(um) >= 9.95 else f"{abs(um):.1f}"
    if float(size) == 0:
        return "0 µm"
    return f"{'takes' if um > 0 else 'leaves'} {size} µm"


def _key(scale: float, times: int) -> list[Item]:
    bar = nice(20 / scale)
    y = 32.0
    words = f"left, difference × {times}" if times > 1 else "left"
    return [
        Line((8, y), (8 + bar * scale, y), "thick"), Line((8, y - 4), (8, y + 4), "medium"),
        Line((8 + bar * scale, y - 4), (8 + bar * scale, y + 4), "medium"), label((14 + bar * scale, y - 5), f"{bar:g} mm"),
        Line((150, y), (180, y), "thick"), label((186, y - 5), "wanted"),
        Line((8, y - 22), (40, y - 22), "dashed"), label((46, y - 27), "cutter"),
        Line((150, y - 22), (180, y - 22), "medium"), label((186, y - 27), words),
    ]  # fmt: skip


def _says(space: SpaceLeft, cutter: str) -> str:
    parts = [
        f"{name} flank: at the tip {deed(flank.um[-1])}, at its start {minus(flank.um[0], 1, sign=True)} µm"
        for name, flank in (("right", space.right), ("left", space.left))
    ]
    return f"{cutter}: " + "; ".join(parts) + ". + takes too much."


def _caption(space: SpaceLeft, cutter: str) -> str:
    much = f"difference {space.times} times" if space.times > 1 else "difference to scale too"
    return f"{cutter}. Space and cutter to scale at mid face, {much}. Open hatch: takes too much; upright hatch: leaves metal."
