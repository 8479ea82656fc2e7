"""Picture of an index plate with the sector set: the circle in use, its spaces counted, the arms outside the two pins."""

from __future__ import annotations

import math
from collections.abc import Sequence

from evenpitch.quantity.showing import several
from evenpitch.sheet.drawing import Arrow, Circle, Drawing, Item, Label, Path, Point
from evenpitch.sheet.drawings.framing import framed
from evenpitch.sheet.drawings.lettering import TEXT, WIDTH, label, text_width
from evenpitch.sheet.drawings.points import along_arc, polar

_CENTRE: Point = (180.0, 192.0)
_RIM = 147.0
_OUTER, _INNER = 136.0, 52.0
_HUB = 20.0
_TOP = 90.0


def hole_angle(hole: float, circle: int, clockwise: bool = True) -> float:
    """Degrees anticlockwise from +x of a hole, the first hole standing at the top."""
    step = 360.0 * hole / circle
    return _TOP - step if clockwise else _TOP + step


def index_plate(circles: Sequence[int], lit_circle: int, spaces: int, *, turns: int = 0, crank_clockwise: bool = True) -> Drawing:
    """The plate seen from the crank: hole angles true, radii spread, the sector holding `spaces` beyond `turns` whole turns."""
    counts = tuple(sorted({*circles, lit_circle}))
    radii = _radii(counts, lit_circle)
    items: list[Item] = [Circle(_CENTRE, _RIM, "thick"), Circle(_CENTRE, _HUB, "medium")]
    for count, radius in zip(counts, radii, strict=True):
        if count != lit_circle:
            items += _plain_circle(count, radius)
    radius = radii[counts.index(lit_circle)]
    items += _lit_circle(lit_circle, radius, spaces, crank_clockwise)
    items += _sector(lit_circle, radius, spaces, crank_clockwise)
    items += _crank_arrow(lit_circle, spaces, crank_clockwise)
    words = _words(lit_circle, spaces, turns)
    items.append(label((WIDTH / 2, 10), words, "middle", bold=True))
    way = "clockwise" if crank_clockwise else "anticlockwise"
    return framed(
        "index-plate",
        "Index plate and sector",
        f"{words}. The crank turns {way}; the sector arms stand outside the two pins.",
        356,
        items,
        "Hole angles true; radii of the circles spread for clearness.",
    )


def _words(circle: int, spaces: int, turns: int) -> str:
    whole = several(turns, "turn")
    if spaces == 0:
        return f"{circle} circle: {whole}, to the same hole"
    part = f"{several(spaces, 'space')} = {spaces + 1} holes"
    return f"{circle} circle: {whole} + {part}" if turns else f"{circle} circle: {part}"


def _radii(counts: Sequence[int], lit: int) -> tuple[float, ...]:
    """Radii by rising count in even steps, but the ring inside the lit circle never too narrow for the numbers."""
    if len(counts) == 1:
        return (_OUTER,)
    room = TEXT + 10
    first = _INNER + 24 if counts[0] == lit else _INNER
    steps = len(counts) - 1
    wide = 0.0 if counts[0] == lit else max(room, (_OUTER - first) / steps)
    even = (_OUTER - first - wide) / (steps if not wide else steps - 1) if steps > 1 or not wide else 0.0
    radii = [first]
    for count in counts[1:]:
        radii.append(radii[-1] + (wide if count == lit else even))
    return tuple(radii)


def _plain_circle(count: int, radius: float) -> list[Item]:
    holes: list[Item] = [Circle(polar(_CENTRE, radius, hole_angle(k, count)), 1.8, "thin") for k in range(count)]
    return [Circle(_CENTRE, radius, "thin"), *holes]


def _lit_circle(count: int, radius: float, spaces: int, clockwise: bool) -> list[Item]:
    size = min(4.6, 0.32 * 2 * math.pi * radius / count)
    items: list[Item] = [Circle(_CENTRE, radius, "thick")]
    for hole in range(count):
        ends = hole in (0, spaces)
        place = polar(_CENTRE, radius, hole_angle(hole, count, clockwise))
        items.append(Circle(place, size + 0.8 if ends else size, "medium", "ink" if ends else "paper"))
    return [*items, *_numbers(count, radius, spaces, clockwise)]


def _numbers(count: int, radius: float, spaces: int, clockwise: bool) -> list[Label]:
    """The number of each space between its two holes, or of every fifth where they would crowd; the last always."""
    inside = radius - TEXT / 2 - 6
    pitch = 2 * math.pi * inside / count
    every = 1 if pitch > text_width("00") + 2 or (spaces < 10 and pitch > text_width("0") + 6) else 5
    if every == 5 and pitch * 5 < text_width("00") + 3:
        every = 10
    chosen = [n for n in range(1, spaces + 1) if n % every == 0]
    if spaces and (not chosen or chosen[-1] != spaces):
        if chosen and (spaces - chosen[-1]) * pitch < text_width("00") + 4:
            chosen.pop()
        chosen.append(spaces)
    return [_number(n, count, inside, spaces, clockwise) for n in chosen]


def _number(n: int, count: int, inside: float, spaces: int, clockwise: bool) -> Label:
    """A number in the middle of its space, or further from the arm where the space is narrower than the number."""
    half = text_width(str(n), n == spaces) / 2 + 1
    holes_wide = half / (2 * math.pi * inside / count)
    hole = min(max(n - 0.5, min(holes_wide, spaces / 2)), max(spaces - holes_wide, spaces / 2))
    x, y = polar(_CENTRE, inside, hole_angle(hole, count, clockwise))
    return label((x, y - 0.28 * TEXT), str(n), "middle", bold=n == spaces, patch=True)


def _sector(count: int, radius: float, spaces: int, clockwise: bool) -> list[Item]:
    """Two arms whose inner edges stand just outside the first and the last pin."""
    if spaces == 0:
        return []
    away = 1.0 if clockwise else -1.0
    pin = math.degrees(6.2 / radius)
    wide = min(8.5, 0.8 * 2 * math.pi * radius * (count - spaces) / count / 2)
    first = hole_angle(0, count, clockwise) + away * pin
    last = hole_angle(spaces, count, clockwise) - away * pin
    return [_arm(first, away, wide), _arm(last, -away, wide)]


def _arm(inner_edge: float, side: float, wide: float) -> Path:
    """An arm from the hub to the rim: its inner edge radial, its body on the `side` away from the pins."""
    tip, foot = polar(_CENTRE, _RIM + 6, inner_edge), polar(_CENTRE, _HUB, inner_edge)
    back = math.degrees(wide / _RIM)
    outer = polar(_CENTRE, _RIM + 6, inner_edge + side * back * 0.5)
    heel = polar(_CENTRE, _HUB, inner_edge + side * math.degrees(min(wide, 10) / _HUB))
    return Path((foot, tip, outer, heel), "thick", "paper", closed=True)


def _crank_arrow(count: int, spaces: int, clockwise: bool) -> list[Item]:
    swept = 360.0 * spaces / count if spaces else 330.0
    way = -1.0 if clockwise else 1.0
    clear = min(6.0, swept / 4)
    points = along_arc(_CENTRE, _RIM + 10, _TOP + way * clear, _TOP + way * (swept - clear), 6)
    return [Arrow(points, "medium")]
