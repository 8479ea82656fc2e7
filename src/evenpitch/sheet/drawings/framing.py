"""The last touch on a picture: its frame, and coordinates to a tenth of a unit, which no eye can tell and no page must carry."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from evenpitch.sheet.drawing import Arc, Arrow, Block, Circle, Drawing, Item, Label, Line, Path, Point
from evenpitch.sheet.drawings.lettering import WIDTH


def framed(key: str, title: str, says: str, height: float, items: Iterable[Item], caption: str) -> Drawing:
    """A page picture, 360 units wide."""
    return Drawing(key, title, says, WIDTH, round(height, 1), tuple(map(_tenths, items)), caption)


def _tenths(item: Item) -> Item:
    match item:
        case Line() | Block():
            return replace(item, start=_point(item.start), end=_point(item.end))
        case Arc() | Circle():
            return replace(item, centre=_point(item.centre), radius=round(item.radius, 1))
        case Path() | Arrow():
            return replace(item, points=tuple(map(_point, item.points)))
        case Label():
            return replace(item, at=_point(item.at), turn=round(item.turn, 2))


def _point(point: Point) -> Point:
    return round(point[0], 1), round(point[1], 1)
