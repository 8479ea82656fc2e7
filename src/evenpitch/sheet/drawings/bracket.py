"""Picture of the gear bracket: pitch circles in proportion, shafts named, which drives, which way each turns."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from evenpitch.sheet.drawing import Arrow, Circle, Drawing, Item, Line, Point
from evenpitch.sheet.drawings.framing import framed
from evenpitch.sheet.drawings.lettering import LINE, TEXT, WIDTH, apart, label, text_width, wrap
from evenpitch.sheet.drawings.points import along_arc, polar

TrainKind = Literal["differential", "lead"]

_ENDS = {"differential": (("spindle", "of the head"), ("plate", "drive")), "lead": (("table", "screw"), ("worm", "of the head"))}
_NOTES = {
    "differential": "Pitch circles in proportion. Old charts call the plate drive “worm”.",
    "lead": "Pitch circles in proportion.",
}
_STUD = " On the stud the gear named first meshes back, the second forward."
_SMALL = 34.0
"""A gear drawn smaller than this radius wears its count and its arrow outside."""


@dataclass(frozen=True, slots=True)
class Shaft:
    """One shaft of the train: the gears on it, the first meshing back, the last meshing forward; names beneath it."""

    back: int
    forward: int
    names: tuple[str, ...]
    role: str


def gear_bracket(
    drivers: Sequence[int],
    driven: Sequence[int],
    idlers: Sequence[int] = (),
    test_words: str = "",
    *,
    kind: TrainKind = "differential",
) -> Drawing:
    """Driver to driven, left to right; with two of each the stud carries the first driven and the second driver, in one piece."""
    shafts = chain_of(tuple(drivers), tuple(driven), tuple(idlers), kind)
    scale, centres = _layout(shafts)
    tall = [max(s.back, s.forward) * scale / 2 for s in shafts]
    lowest = min(y - r for (_, y), r in zip(centres, tall, strict=True))
    highest = max(y + r for (_, y), r in zip(centres, tall, strict=True))
    words = wrap("test: " + test_words, WIDTH - 20) if test_words else ()
    blocks = [_names(shaft, largest) for shaft, largest in zip(shafts, tall, strict=True)]
    under = 34 + (max(len(b) for b in blocks) + len(words)) * LINE
    lift = under - lowest
    centres = [(x, y + lift) for x, y in centres]
    items: list[Item] = []
    for place, (shaft, centre) in enumerate(zip(shafts, centres, strict=True)):
        items += _gears(shaft, centre, scale, _away(place, centres), clockwise=place % 2 == 0)
    items += _columns(blocks, centres, tall, under - 14)
    items += [label((10, 8 + (len(words) - 1 - row) * LINE), text) for row, text in enumerate(words)]
    return framed(
        f"gear-bracket-{kind}",
        "Gear bracket",
        _says(shafts, test_words),
        highest + lift + 20,
        items,
        _NOTES[kind] + (_STUD if len(drivers) > 1 else ""),
    )


def chain_of(drivers: tuple[int, ...], driven: tuple[int, ...], idlers: tuple[int, ...], kind: TrainKind) -> tuple[Shaft, ...]:
    """The shafts in the order of the drive; every shaft turns against its neighbours, idlers before the last gear."""
    first, last = _ENDS[kind]
    shafts = [Shaft(drivers[0], drivers[0], first, "driver")]
    shafts += [Shaft(b, c, ("stud",), "") for b, c in zip(driven[:-1], drivers[1:], strict=True)]
    shafts += [Shaft(z, z, ("idler",), "") for z in idlers]
    shafts.append(Shaft(driven[-1], driven[-1], last, "driven"))
    return tuple(shafts)


def _layout(shafts: Sequence[Shaft]) -> tuple[float, list[Point]]:
    """Scale (units a tooth of diameter) and centres: neighbours' pitch circles touch; middle shafts hang a little lower."""
    reach = [(a.forward + b.back) / 2 for a, b in pairwise(shafts)]
    slopes = [0.0] if len(shafts) == 2 else [(-22.0 if k % 2 == 0 else 22.0) for k in range(len(reach))]
    xs, ys = [0.0], [0.0]
    for distance, slope in zip(reach, slopes, strict=True):
        xs.append(xs[-1] + distance * math.cos(math.radians(slope)))
        ys.append(ys[-1] + distance * math.sin(math.radians(slope)))
    radii = [max(s.back, s.forward) / 2 for s in shafts]
    left = min(x - r for x, r in zip(xs, radii, strict=True))
    right = max(x + r for x, r in zip(xs, radii, strict=True))
    scale = min((WIDTH - 32) / (right - left), 62 / max(radii))
    shift = WIDTH / 2 - scale * (left + right) / 2
    return scale, [(shift + scale * x, scale * y) for x, y in zip(xs, ys, strict=True)]


def _away(place: int, centres: Sequence[Point]) -> float:
    """Degrees of the direction away from the neighbours, where an arrow and a count stand clear."""
    x, y = centres[place]
    pulls = [(centres[k][0] - x, centres[k][1] - y) for k in (place - 1, place + 1) if 0 <= k < len(centres)]
    if len(pulls) == 1:
        return math.degrees(math.atan2(-pulls[0][1], -pulls[0][0]))
    rise = sum(dy / math.hypot(dx, dy) for dx, dy in pulls)
    return 90.0 if rise < 0 else -90.0


def _gears(shaft: Shaft, centre: Point, scale: float, away: float, *, clockwise: bool) -> list[Item]:
    items: list[Item] = [Circle(centre, z * scale / 2, "thick") for z in sorted({shaft.back, shaft.forward}, reverse=True)]
    items.append(Circle(centre, 3.5, "medium"))
    largest = max(shaft.back, shaft.forward) * scale / 2
    outside = largest < _SMALL
    radius = largest + 6 if outside else largest - 8
    half = math.degrees(20 / radius)
    start, end = (away + half, away - half) if clockwise else (away - half, away + half)
    items.append(Arrow(along_arc(centre, radius, start, end), "medium"))
    if _wears_its_count(shaft, largest):
        x, y = polar(centre, 0.42 * largest, away)
        items.append(label((x, y - 0.28 * TEXT), str(shaft.back), "middle", bold=True))
    return items


def _wears_its_count(shaft: Shaft, largest: float) -> bool:
    return shaft.back == shaft.forward and largest >= _SMALL


def _names(shaft: Shaft, largest: float) -> list[tuple[str, bool]]:
    """What stands beneath a shaft: text and whether bold."""
    count = [] if _wears_its_count(shaft, largest) else [(_count(shaft), True)]
    role = [(shaft.role, True)] if shaft.role else []
    return [*count, *((name, False) for name in shaft.names), *role]


def _count(shaft: Shaft) -> str:
    return f"{shaft.back}" if shaft.back == shaft.forward else f"{shaft.back} + {shaft.forward}"


def _columns(blocks: Sequence[list[tuple[str, bool]]], centres: Sequence[Point], tall: Sequence[float], top: float) -> list[Item]:
    """Names beneath the shafts, moved apart where they would touch, each with a leader from its gear."""
    widths = [max(text_width(text, bold) for text, bold in block) + 9 for block in blocks]
    places = apart([x for x, _ in centres], widths, 2, WIDTH - 2)
    items: list[Item] = []
    for block, (x, y), radius, place in zip(blocks, centres, tall, places, strict=True):
        items.append(Line((x, y - radius - 1), (place, top + 3), "thin"))
        for row, (text, bold) in enumerate(block):
            items.append(label((place, top - 12 - row * LINE), text, "middle", bold=bold))
    return items


def _says(shafts: Sequence[Shaft], test_words: str) -> str:
    parts = []
    for place, shaft in enumerate(shafts):
        gear = f"{shaft.back}" if shaft.back == shaft.forward else f"{shaft.back} and {shaft.forward} fixed together"
        way = "clockwise" if place % 2 == 0 else "anticlockwise"
        role = f", {shaft.role}" if shaft.role else ""
        parts.append(f"{gear} on the {' '.join(shaft.names)}{role}, {way}")
    test = f" Test: {test_words.rstrip('.')}." if test_words else ""
    return "From driver to driven: " + "; ".join(parts).replace("on the idler", "as idler") + "." + test


def turns_alike(drivers: Sequence[int], idlers: Sequence[int] = ()) -> bool:
    """Whether the last gear turns the same way as the first: an even number of meshes between them."""
    return (len(drivers) + len(idlers)) % 2 == 0
