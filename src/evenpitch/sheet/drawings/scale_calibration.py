"""Picture of a scale calibrated both ways: error against place, the fitted gain thick, what it leaves hatched."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from evenpitch.sheet.drawing import Drawing, Item, Line, Path, Point
from evenpitch.sheet.drawings.framing import framed
from evenpitch.sheet.drawings.lettering import label
from evenpitch.sheet.drawings.points import minus, nice

LEFT, RIGHT, LOW, HIGH = 62.0, 350.0, 62.0, 206.0
MOST_MARKS = 60
"""Marks of one side; of more places every so many are drawn."""


@dataclass(frozen=True, slots=True)
class ErrorAt:
    """The mean error of one place, approached from one side: mm along the scale, µm."""

    at: float
    um: float
    side: Literal["up", "down"]


@dataclass(frozen=True, slots=True)
class LineFound:
    """The fitted line: µm at the middle of the places, µm a mm, and the standard deviation of one reading about it, µm."""

    middle: float
    um: float
    slope: float
    s: float

    def at(self, place: float) -> float:
        """The line at a place, µm."""
        return self.um + self.slope * (place - self.middle)


def scale_calibration(errors: Sequence[ErrorAt], line: LineFound, words: str) -> Drawing:
    """Solid diamonds read towards growing readings, open ones from the other side. `words`: the gain with its U."""
    first, last = min(one.at for one in errors), max(one.at for one in errors)
    wide = (last - first) or 1.0
    ends = [line.at(place) + sign * 2 * line.s for place in (first, last) for sign in (-1, 1)]
    values = [0.0, *ends, *(one.um for one in errors)]
    grid = _grid(min(values), max(values))

    def at(place: float, um: float) -> Point:
        x = LEFT + 12 + (place - first) / wide * (RIGHT - LEFT - 24)
        return x, LOW + (um - grid[0]) / (grid[-1] - grid[0]) * (HIGH - LOW)

    band = (at(first, ends[0]), at(last, ends[2]), at(last, ends[3]), at(first, ends[1]))
    items: list[Item] = [
        Path(band, "none", "hatch", closed=True),
        Line((LEFT, LOW), (LEFT, HIGH), "medium"),
        Line((LEFT, LOW), (RIGHT, LOW), "medium"),
        Line((LEFT, at(first, 0)[1]), (RIGHT, at(first, 0)[1]), "centre"),
        Line(at(first, line.at(first)), at(last, line.at(last)), "thick"),
    ]
    for value in grid:
        y = at(first, value)[1]
        items += [Line((LEFT - 5, y), (LEFT, y), "thin"), label((LEFT - 8, y - 5), _figure(value), "end")]
    for side in ("up", "down"):
        own = [one for one in errors if one.side == side]
        items += [_mark(at(one.at, one.um), solid=side == "up") for one in own[:: max(1, -(-len(own) // MOST_MARKS))]]
    items += [
        label((at(first, 0)[0], LOW - 20), f"{first:g}", "middle"),
        label((RIGHT, LOW - 20), f"{last:g} mm", "end"),
        label((8, HIGH + 32), "µm, reading less reference"),
        label((8, HIGH + 12), words, bold=True),
        label((8, 26), "solid: up; open: from the other side"),
        label((8, 8), "thick: the gain; hatched: one reading, U"),
    ]
    far = max(errors, key=lambda one: abs(one.um - line.at(one.at)))
    says = f"{words}; most is left at {far.at:g} mm: {minus(far.um - line.at(far.at), 1, sign=True)} µm; one reading ±{2 * line.s:.1f} µm."
    return framed("scale-calibration", "The scale, both ways", says, HIGH + 54, items, "µm to scale; mm to scale along.")


def _grid(least: float, most: float) -> tuple[float, ...]:
    pitch = nice((most - least) / 6 or 1.0)
    while -(-most // pitch) - least // pitch > 7:
        pitch = nice(pitch * 1.01)
    return tuple(pitch * k for k in range(int(least // pitch), int(-(-most // pitch)) + 1))


def _figure(value: float) -> str:
    return minus(value, 0 if abs(value - round(value)) < 1e-9 else 2 if abs(value) < 0.1 else 1)


def _mark(at: Point, *, solid: bool) -> Path:
    x, y = at
    return Path(((x - 5, y), (x, y - 5), (x + 5, y), (x, y + 5)), "medium", "ink" if solid else "none", closed=True)
