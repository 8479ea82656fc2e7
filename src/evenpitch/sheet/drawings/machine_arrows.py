"""Arrows and words of the machine seen from above: the swing, the feed, the turning of work and cutter, the operator."""

from __future__ import annotations

import math

from evenpitch.sheet.drawing import Anchor, Arrow, Block, Circle, Item, Line, Path, Point
from evenpitch.sheet.drawings.floor_plan import (
    CENTRE,
    COLUMN,
    HALF_TABLE,
    TOP,
    View,
    half_table,
    on_table,
    top_of_work_moves,
)
from evenpitch.sheet.drawings.lettering import LINE, WIDTH, label, lines_of
from evenpitch.sheet.drawings.machine_parts import head_place
from evenpitch.sheet.drawings.points import along_arc, minus, polar


def degrees_text(beta: float) -> str:
    """An angle as printed in a picture: two decimals at most, none that are nought."""
    return minus(beta, 2).rstrip("0").rstrip(".") + "°"


def _x(view: View, offset: float) -> float:
    """A place across the sheet, counted from the arbor towards the side whose end goes away."""
    return CENTRE[0] + view.side * offset


def _from(view: View) -> Anchor:
    """Text that starts at a place on that side and runs outwards."""
    return "start" if view.side > 0 else "end"


def _to(view: View) -> Anchor:
    return "end" if view.side > 0 else "start"


def angle(view: View) -> list[Item]:
    """The swing, dimensioned from where the table or the arbor stood before."""
    if view.hand == "none":
        return []
    cx, cy = CENTRE
    words = degrees_text(view.beta)
    if view.swings == "table":
        start = 0.0 if view.side > 0 else 180.0
        items: list[Item] = [Line(CENTRE, (_x(view, 174), cy), "other")]
        items.append(Arrow(along_arc(CENTRE, 164, start, start + view.table_turn, 5), "thin"))
        edge = 150 * math.tan(math.radians(view.beta)) - HALF_TABLE / math.cos(math.radians(view.beta))
        low = min(-18.0, edge - 16) if half_table(view) > 130 else -18.0
        items.append(label((_x(view, 152), cy + low), words, "middle", bold=True))
        return items
    items = [Line(CENTRE, (cx, cy - 136), "other"), Arrow(along_arc(CENTRE, 126, -90.0, -90.0 + view.arbor_turn, 5), "medium")]
    items.append(label((_x(view, 8), cy - 124), words, _from(view), bold=True))
    return items


def swing(view: View) -> list[Item]:
    """What to push: the end of the table that goes away, or the nose of the milling head."""
    if view.hand == "none":
        return [label((_x(view, 88), 52), "table square, 0°", "middle", bold=True)]
    if view.swings == "table":
        x = _x(view, 112)
        return [Block((x, 76), (x, 126)), label((_x(view, 93), 52), "push this end away", "middle", bold=True)]
    nose = "left" if view.hand == "right" else "right"
    place = (2.0 if view.side > 0 else WIDTH - 2, 66.0)
    return [*lines_of(place, ("nose of the head", f"to your {nose}"), _from(view), bold=2)]


def feed(view: View) -> list[Item]:
    """The feed, an outline arrow lying along the table beneath its nearer end."""
    way = -1.0 if view.feed == "left" else 1.0
    words = f"table feeds {view.feed}"
    if view.swings == "milling head":
        x, y = _x(view, -138), CENTRE[1] - 66
        block = Block((x - way * 30, y), (x + way * 30, y))
        place = (2.0 if view.side > 0 else WIDTH - 2, y - 22)
        return [block, *lines_of(place, ("table", f"feeds {view.feed}"), _from(view))]
    middle = _feed_place(view)
    ux, uy = polar((0.0, 0.0), 28.0, view.table_turn)
    block = Block((middle[0] - way * ux, middle[1] - way * uy), (middle[0] + way * ux, middle[1] + way * uy))
    return [block, label((4.0 if view.side > 0 else WIDTH - 4, 52), words, _from(view))]


def _feed_place(view: View) -> Point:
    """Beneath the nearer end and clear of the arbor; at a steep swing out beyond the table's corner instead."""
    turn = math.radians(abs(view.table_turn))
    across = -66.0
    near = (30 - across * math.sin(turn)) / math.cos(turn)
    along = near + 28
    if CENTRE[1] - (along + 28) * math.sin(turn) + across * math.cos(turn) < 74:
        return _x(view, -112), CENTRE[1] - 76
    return on_table(view, -view.side * along, across)


def work_turn(view: View) -> list[Item]:
    """Which way the top of the work turns in the cut: an outline arrow across it, beside the blank."""
    dx, dy = top_of_work_moves(view)
    end = head_place(view)[0]
    upper = view.swings == "table"
    place = (_x(view, 14), TOP - COLUMN - 18) if upper else (_x(view, 32), CENTRE[1] - 76)
    if view.hand == "none":
        return [*lines_of(place, ("work stands", "still in the cut"), _from(view))]
    x, y = on_table(view, -end * (view.face * view.scale / 2 + 15), 0)
    block = Block((x - 22 * dx, y - 22 * dy), (x + 30 * dx, y + 30 * dy))
    words = ("top of the work", "turns away" if view.near_side_rises else "turns towards you")
    away = (dy > 0) == upper
    tip = (x + 30 * dx, y + 30 * dy) if away else (x - 22 * dx, y - 22 * dy)
    foot = (place[0] + view.side * 30, place[1] - LINE - 6) if upper else (place[0] + view.side * 30, place[1] + 14)
    return [block, Line(foot, tip, "thin"), *lines_of(place, words, _from(view))]


def head_label(view: View) -> list[Item]:
    """Names of arbor and cutter, and of the milling head where it swings."""
    half = view.cutter_outside * view.scale / 2
    cy = CENTRE[1]
    turn = math.radians(abs(view.arbor_turn))
    tip = (_x(view, -half * math.cos(turn) + 3), cy + half * math.sin(turn))
    items: list[Item] = [Line((_x(view, -52), cy + 58), tip, "thin"), label((_x(view, -34), cy + 62), "cutter", _to(view))]
    high = 100.0 if view.swings == "table" else 78.0
    if math.degrees(turn) < 26:  # further round, the body of the milling head stands there
        items.append(label((_x(view, high * math.tan(turn) - 12 / math.cos(turn)), cy + high), "arbor", _to(view)))
    if view.swings == "milling head":
        items += _milling_head(view)
    return items


def _milling_head(view: View) -> list[Item]:
    turn = math.radians(abs(view.arbor_turn))
    edge = 119 * math.sin(turn) + 27 * math.sin(turn) + 25 * math.cos(turn)
    if edge + 68 < 178:
        return [*lines_of((_x(view, edge + 6), CENTRE[1] + 128), ("milling", "head"), _from(view))]
    return [label((WIDTH - 4 if view.side > 0 else 4.0, TOP - COLUMN - 18), "milling head", _to(view))]


def inset(view: View) -> list[Item]:
    """As seen facing the column: the cutter over the work, its turning against the feed."""
    x, y = (48.0 if view.side > 0 else WIDTH - 48), TOP - COLUMN - 56
    way = -1.0 if view.feed == "left" else 1.0
    place = (2.0 if view.side > 0 else WIDTH - 2, TOP - COLUMN - 16)
    over = (35.0, 145.0) if view.feed == "left" else (145.0, 35.0)
    return [
        label(place, "facing the column", _from(view)),
        Path(_saw((x, y), 19.0, way), "medium", "paper", closed=True),
        Circle((x, y), 4.5, "medium"),
        Arrow(along_arc((x, y), 26.0, *over, 10), "medium"),
        Path(((x - 34, y - 19), (x + 34, y - 19), (x + 34, y - 28), (x - 34, y - 28)), "medium", "wash", closed=True),
        Block((x - way * 26, y - 42), (x + way * 26, y - 42)),
    ]


def _saw(centre: Point, radius: float, way: float) -> tuple[Point, ...]:
    """Outline of a cutter whose teeth lead: feed to the left (way −1) anticlockwise, to the right clockwise."""
    points: list[Point] = []
    for k in range(14):
        lead = -way * 360 * k / 14
        points += [polar(centre, radius, lead), polar(centre, radius * 0.8, lead)]
    return tuple(points)


def operator() -> list[Item]:
    """You, at the bottom, facing the column."""
    x, y = WIDTH / 2, 6.0
    shoulders = tuple((x + 26 * c, y + 14 * s) for c, s in (polar((0.0, 0.0), 1.0, a) for a in range(0, 181, 15)))
    figure: list[Item] = [Path(shoulders, "thick", "paper", closed=True), Circle((x, y + 12), 8.5, "thick", "paper")]
    return [*figure, *lines_of((x + 32, y + 16), ("you, facing", "the column"))]
