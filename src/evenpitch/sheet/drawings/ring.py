"""Picture of the ring of spaces: the blank as it stands under the cutter, what is cut, what is next, where the datum is."""

from __future__ import annotations

import math
from collections.abc import Callable, Collection
from typing import Literal

from evenpitch.sheet.drawing import Circle, Drawing, Item, Line, LineClass, Path, Point
from evenpitch.sheet.drawings.framing import framed
from evenpitch.sheet.drawings.lettering import TEXT, WIDTH, label, text_width
from evenpitch.sheet.drawings.points import along_arc, polar

Way = Literal["clockwise", "anticlockwise"]
_Place = Callable[[float], float]
"""Degrees at which a space stands."""

_RADIUS = 165.0
_LEAST_DEPTH, _MOST_DEPTH = 15.0, 46.0
_STRIP = 15
_STRIP_TALL = 74.0
_ALL_NUMBERED, _MEDIUM_FROM, _BAND_FROM = 24, 110, 150


def ring_of_spaces(
    spaces: int, cut: Collection[int], next_space: int, *, depth_share: float = 0.0, work_turns: Way = "clockwise"
) -> Drawing:
    """Seen from the tailstock, the cutter at the top over the next space; the blank turns under it the way `work_turns`.

    `cut`: numbers of the spaces cut; `depth_share`: whole depth by outside radius, for the depth of the notches.
    """
    done = frozenset(cut)
    low = _STRIP_TALL + 16 if spaces > _BAND_FROM else 6.0
    centre = (WIDTH / 2, low + _RADIUS)
    deep = max(_LEAST_DEPTH, min(depth_share * _RADIUS, _MOST_DEPTH))
    sense = 1.0 if work_turns == "clockwise" else -1.0

    def at(space: float) -> float:
        """Degrees of a space: the next stands at the top, and those after it come on from behind the turning."""
        return 90.0 + sense * 360.0 * (space - next_space) / spaces

    items = _rim(spaces, done, centre, deep, at)
    items += _numbers(spaces, next_space, centre, deep, at)
    items += _datum(spaces, centre, deep, at)
    items += _cutter((centre[0], centre[1] + _RADIUS), spaces)
    items += _middle(spaces, len(done), next_space, centre)
    if spaces > _BAND_FROM:
        items += _strip(spaces, done, next_space, sense)
    says = (
        f"{len(done)} of {spaces} spaces cut; the cutter stands over space {next_space}; the work turns {work_turns} to the next."
    )
    note = f" Below, {_STRIP} spaces about the cutter, enlarged." if spaces > _BAND_FROM else ""
    deeper = "" if deep == depth_share * _RADIUS else ", depth not"
    caption = f"Seen from the tailstock. Angles true{deeper}; round-headed mark: datum, on the tooth before space 1.{note}"
    return framed("ring", "Ring of spaces", says, low + 2 * _RADIUS + 26, items, caption)


def _rim(spaces: int, done: frozenset[int], centre: Point, deep: float, at: _Place) -> list[Item]:
    """The outline: notches where cut (a solid band where too many), short marks where still to cut."""
    pen: LineClass = "thick" if spaces <= _MEDIUM_FROM else "medium"
    if spaces > _BAND_FROM:
        return [Circle(centre, _RADIUS, pen), *_bands(spaces, done, centre, deep, at)]
    points: list[Point] = []
    items: list[Item] = []
    chord = 360.0 / spaces
    for space in range(1, spaces + 1):
        step = at(1.0) - at(0.0)
        edges = [at(space) + step * share for share in (-0.5, -0.27, -0.13, 0.13, 0.27, 0.5)]
        points += along_arc(centre, _RADIUS, edges[0], edges[1], min(chord, 4.0))[:-1]
        if space in done:
            points += [polar(centre, _RADIUS, edges[1]), polar(centre, _RADIUS - deep, edges[2])]
            points += [polar(centre, _RADIUS - deep, edges[3]), polar(centre, _RADIUS, edges[4])]
        else:
            points += along_arc(centre, _RADIUS, edges[1], edges[4], 4.0)
            items.append(Line(polar(centre, _RADIUS, at(space)), polar(centre, _RADIUS - 7, at(space)), "thin"))
        points += along_arc(centre, _RADIUS, edges[4], edges[5], min(chord, 4.0))[1:-1]
    return [Path(tuple(points), pen, "none", closed=True), *items]


def _bands(spaces: int, done: frozenset[int], centre: Point, deep: float, at: _Place) -> list[Item]:
    """A solid band over each unbroken run of cut spaces."""
    runs: list[list[int]] = []
    for space in sorted(done):
        if runs and runs[-1][1] == space - 1:
            runs[-1][1] = space
        else:
            runs.append([space, space])
    items: list[Item] = []
    for first, last in runs:
        outer = along_arc(centre, _RADIUS, at(first - 0.4), at(last + 0.4), 4)
        inner = along_arc(centre, _RADIUS - deep, at(last + 0.4), at(first - 0.4), 4)
        items.append(Path((*outer, *inner), "none", "ink", closed=True))
    return items


def _numbers(spaces: int, next_space: int, centre: Point, deep: float, at: _Place) -> list[Item]:
    """All numbers up to 24 spaces; else the tens (twenties, fifties, where they would crowd), never beside the cutter's own."""
    radius = _RADIUS - deep - 26
    pitch = 2 * math.pi * radius / spaces
    every = 1 if spaces <= _ALL_NUMBERED else next(n for n in (10, 20, 50, 100, 200, 500, 1000) if n * pitch > 42 or n == 1000)
    wanted = [n for n in range(1, spaces + 1) if n % every == 0]
    room = text_width(str(next_space), bold=True) + 18
    items: list[Item] = []
    for n in wanted:
        away = min((n - next_space) % spaces, (next_space - n) % spaces) * pitch
        if away < room or (every > 1 and spaces - n < every * 0.5 and n != next_space):
            continue
        x, y = polar(centre, radius, at(n))
        items.append(label((x, y - 0.28 * TEXT), str(n), "middle"))
    x, y = polar(centre, radius, 90.0)
    return [*items, label((x, y - 0.28 * TEXT), str(next_space), "middle", bold=True)]


def _datum(spaces: int, centre: Point, deep: float, at: _Place) -> list[Item]:
    place = at(0.5)
    head = polar(centre, _RADIUS - deep - 8, place)
    return [Line(polar(centre, _RADIUS, place), head, "thick"), Circle(head, 4.0, "thick", "ink")]


def _cutter(top: Point, spaces: int) -> list[Item]:
    half = min(9.0, max(4.0, 0.27 * 2 * math.pi * _RADIUS / spaces))
    x, y = top
    return [
        Path(
            ((x - half, y + 22), (x + half, y + 22), (x + half, y + 10), (x, y + 2), (x - half, y + 10)),
            "thick",
            "ink",
            closed=True,
        )
    ]


def _middle(spaces: int, done: int, next_space: int, centre: Point) -> list[Item]:
    x, y = centre
    left = spaces - done
    return [
        label((x, y + 12), f"cut {done} of {spaces}", "middle", bold=True),
        label((x, y - 8), f"next space {next_space}", "middle"),
        label((x, y - 28), f"{left} left" if left else "all cut", "middle"),
    ]


def _strip(spaces: int, done: frozenset[int], next_space: int, sense: float) -> list[Item]:
    """Fifteen spaces about the cutter unrolled: those after the next stand where they come from."""
    pitch, top, deep = 22.0, 50.0, 22.0
    left = WIDTH / 2 - pitch * _STRIP / 2
    points: list[Point] = []
    items: list[Item] = []
    for place in range(_STRIP):
        space = int((next_space - sense * (place - _STRIP // 2) - 1) % spaces) + 1
        x = left + (place + 0.5) * pitch
        points.append((x - pitch / 2, top))
        if space in done:
            points += [(x - 6, top), (x - 3, top - deep), (x + 3, top - deep), (x + 6, top)]
        else:
            items.append(Line((x, top), (x, top - 9), "thin"))
        points.append((x + pitch / 2, top))
        if space == next_space or (space % 5 == 0 and abs(place - _STRIP // 2) > 1):
            items.append(label((x, 8), str(space), "middle", bold=space == next_space))
    return [*items, Path(tuple(points), "thick"), *_cutter((WIDTH / 2, top), 60)]
