"""Two scales with their marks and figures, on which a curve is drawn with the lines of any other picture."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from evenpitch.sheet.drawing import Item, Line, Point
from evenpitch.sheet.drawings.lettering import LINE, TEXT, label, text_width
from evenpitch.sheet.drawings.points import minus, nice

MARKS = 6
"""About how many figures stand along an axis."""


@dataclass(frozen=True, slots=True)
class Axes:
    """A frame of two scales: its place in the picture, and the values at its ends."""

    left: float
    right: float
    low: float
    high: float
    x: tuple[float, float]
    y: tuple[float, float]

    def at(self, x: float, y: float) -> Point:
        """The place of a pair of values."""
        across = (x - self.x[0]) / (self.x[1] - self.x[0])
        up = (y - self.y[0]) / (self.y[1] - self.y[0])
        return self.left + across * (self.right - self.left), self.low + up * (self.high - self.low)

    def items(self, words: str) -> list[Item]:
        """Both axes with figures, and what they are in one line beneath."""
        found: list[Item] = [
            Line((self.left, self.low), (self.left, self.high), "medium"),
            Line((self.left, self.low), (self.right, self.low), "medium"),
        ]
        for value in marks(self.y):
            y = self.at(self.x[0], value)[1]
            found += [
                Line((self.left - 5, y), (self.left, y), "medium"),
                label((self.left - 8, y - 5), figure_at(value, self.y), "end"),
            ]
        edge = -math.inf
        for value in marks(self.x):
            x, text = self.at(value, self.y[0])[0], figure_at(value, self.x)
            half = text_width(text) / 2
            found.append(Line((x, self.low - 5), (x, self.low), "medium"))
            if x - half > edge and x + half < 358:
                found.append(label((x, self.low - 6 - TEXT), text, "middle"))
                edge = x + half + 4
        return [*found, label((8, self.low - 12 - TEXT - LINE), words)]

    def zero(self) -> list[Item]:
        """The long-dot line at 0, where it lies inside."""
        if not self.y[0] < 0 < self.y[1]:
            return []
        return [Line(self.at(self.x[0], 0), self.at(self.x[1], 0), "centre")]


def marks(ends: tuple[float, float]) -> tuple[float, ...]:
    """Round values within a range."""
    every = nice((ends[1] - ends[0]) / MARKS)
    first = math.ceil(ends[0] / every - 1e-9)
    return tuple(k * every for k in range(first, math.floor(ends[1] / every + 1e-9) + 1))


_THOUSANDS = ((1e7, 1e6, "M"), (2e4, 1e3, "k"))
"""From which end of a scale its figures are in millions, or thousands."""


def figure_at(value: float, ends: tuple[float, float]) -> str:
    """A figure of a scale with such ends, short enough to stand beside it."""
    every = nice((ends[1] - ends[0]) / MARKS)
    for least, size, letter in _THOUSANDS:
        if max(map(abs, ends)) >= least:
            return f"{minus(value / size, max(0, -math.floor(math.log10(every / size) + 1e-9)))}{letter if value else ''}"
    return minus(value, max(0, -math.floor(math.log10(every) + 1e-9)))


def rounded_range(values: Sequence[float], least: float = 1e-3) -> tuple[float, float]:
    """A range of round ends that holds all the values."""
    low, high = min(values), max(values)
    every = nice(max(high - low, least) / MARKS)
    return math.floor(low / every) * every, max(math.floor(low / every) * every + every, math.ceil(high / every) * every)
