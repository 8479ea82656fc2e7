"""Text in pictures: one size, how much room it takes, and how labels keep clear of each other.

One size serves the page and the paper: 15.6 units of a 360-unit picture printed 82 mm wide are 10.1 pt.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from evenpitch.sheet.drawing import Anchor, Label, Point

WIDTH = 360.0
"""Width of every picture, units."""
TEXT = 15.6
LINE = 18.0
"""From one line of text to the next."""
_EM = 0.53
_EM_BOLD = 0.59
"""Mean width of a character in ems: the narrow faces of the pages and a tenth more (measured on a condensed sans)."""
_EM_FIGURES = 0.605
"""Paper prints a label without letters in a typed face, all of whose characters are this wide."""

Box = tuple[float, float, float, float]
"""Left, bottom, right, top."""


def text_width(text: str, bold: bool = False, size: float = TEXT) -> float:
    """Width a text takes at most, units."""
    words = any(letter.isalpha() for letter in text)
    return len(text) * size * ((_EM_BOLD if bold else _EM) if words else _EM_FIGURES)


def label(at: Point, text: str, anchor: Anchor = "start", *, bold: bool = False, turn: float = 0, patch: bool = False) -> Label:
    """A label in the one size of pictures; `at` is on its base line."""
    return Label(at, text, anchor, bold, TEXT, turn, patch)


def lines_of(
    at: Point, texts: Sequence[str], anchor: Anchor = "start", *, bold: int = 0, patch: bool = False
) -> tuple[Label, ...]:
    """Lines of text one beneath the other, the first `bold` of them bold."""
    return tuple(label((at[0], at[1] - row * LINE), text, anchor, bold=row < bold, patch=patch) for row, text in enumerate(texts))


def box(item: Label, pen: float = 1) -> Box:
    """The room a label takes, turned ones included. `pen`: picture units to one unit of the pen, as of a Drawing."""
    size = item.size * pen
    wide = text_width(item.text, item.bold, size)
    left = {"start": 0.0, "middle": -wide / 2, "end": -wide}[item.anchor]
    low, high = -0.22 * size, 0.78 * size
    angle = math.radians(item.turn)
    corners = [(left, low), (left + wide, low), (left + wide, high), (left, high)]
    turned = [(x * math.cos(angle) - y * math.sin(angle), x * math.sin(angle) + y * math.cos(angle)) for x, y in corners]
    xs = [item.at[0] + x for x, _ in turned]
    ys = [item.at[1] + y for _, y in turned]
    return min(xs), min(ys), max(xs), max(ys)


def wrap(text: str, width: float, bold: bool = False) -> tuple[str, ...]:
    """A sentence in lines no wider than `width` units (a longer word stands alone)."""
    lines: list[str] = []
    for word in text.split(" "):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(longer, bold) <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    return tuple(lines)


def apart(places: Sequence[float], rooms: Sequence[float], low: float, high: float) -> tuple[float, ...]:
    """Places along one axis, moved as little as needed so that rooms centred on them neither touch nor leave low to high.

    `places` must rise. Limits: the rooms together must fit between low and high; else they start at low and run on.
    """
    moved = list(places)
    edge = low
    for i, room in enumerate(rooms):
        moved[i] = max(moved[i], edge + room / 2)
        edge = moved[i] + room / 2
    edge = high
    for i in range(len(moved) - 1, -1, -1):
        moved[i] = min(moved[i], edge - rooms[i] / 2)
        edge = moved[i] - rooms[i] / 2
    if edge < low - 1e-9:
        edge = low
        for i, room in enumerate(rooms):
            moved[i] = max(moved[i], edge + room / 2)
            edge = moved[i] + room / 2
    return tuple(moved)
