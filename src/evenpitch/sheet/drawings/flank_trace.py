"""Profile and helix traces as an inspection would draw them: micrometres against the flank or the face, with the tolerance band."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from evenpitch.sheet.drawing import Anchor, Drawing, Item, Line, LineClass, Path, Point
from evenpitch.sheet.drawings.framing import framed
from evenpitch.sheet.drawings.lettering import LINE, TEXT, label
from evenpitch.sheet.drawings.points import minus, nice

_LEFT, _RIGHT = 52.0, 344.0
_TALL = 168.0
_LOW = 46.0
_SMALLEST = 4.0
"""Micrometres that the scale spans at least."""


@dataclass(frozen=True, slots=True)
class Traced:
    """One trace: places (mm along the flank or the face) with µm, + takes too much. `pen`: dashed for what is foretold, other for what
    was before a change, medium for the second flank."""

    name: str
    points: tuple[Point, ...]
    pen: LineClass = "dashed"

    def total(self) -> float:
        """The total deviation, µm."""
        return max(um for _, um in self.points) - min(um for _, um in self.points)


def flank_trace(
    key: str, title: str, traces: Sequence[Traced], band: float | None, marks: Sequence[tuple[float, str]], along: str
) -> Drawing:
    """Traces over each other. `band`: height of the tolerance band, µm, laid over the last trace; `marks`: places named below the axis."""
    low, high, every = _range(traces, band)
    first, last = traces[0].points[0][0], traces[0].points[-1][0]
    rows = len(traces) + (band is not None)

    def at(place: float, um: float) -> Point:
        across = (place - first) / (last - first) if last != first else 0.5
        return _LEFT + across * (_RIGHT - _LEFT), _LOW + (um - low) / (high - low) * _TALL

    items: list[Item] = []
    if band is not None:
        floor = _floor(traces[-1], band)
        corners = (at(first, floor), at(last, floor), at(last, floor + band), at(first, floor + band))
        items.append(Path(corners, "thin", "hatch", closed=True))
    items += _scale(low, high, every)
    items.append(Line(at(first, 0.0), at(last, 0.0), "thick"))
    for place, words in marks:
        x = at(place, 0.0)[0]
        anchor: Anchor = "start" if x < _LEFT + 20 else "end" if x > _RIGHT - 20 else "middle"
        items += [Line((x, _LOW - 6), (x, _LOW + _TALL), "centre"), label((x, _LOW - 6 - TEXT), words, anchor)]
    items += [Path(tuple(at(*point) for point in trace.points), trace.pen) for trace in traces]
    items += _key(traces, band, _LOW + _TALL + 22 + LINE * (rows - 1))
    items.append(label((_LEFT - 44, 6), "µm, + takes too much"))
    height = _LOW + _TALL + 22 + LINE * rows
    return framed(key, title, _says(traces, band), height, items, _caption(band, along))


def _floor(trace: Traced, band: float) -> float:
    """Where the band begins, so that the trace lies in its middle."""
    values = [um for _, um in trace.points]
    return (max(values) + min(values) - band) / 2


def _range(traces: Sequence[Traced], band: float | None) -> tuple[float, float, float]:
    values = [0.0, *(um for trace in traces for _, um in trace.points)]
    if band is not None:
        floor = _floor(traces[-1], band)
        values += [floor, floor + band]
    spread = max(max(values) - min(values), _SMALLEST)
    every = nice(spread / 6)
    return math.floor(min(values) / every) * every, max(every, math.ceil(max(values) / every) * every), every


def _scale(low: float, high: float, every: float) -> list[Item]:
    items: list[Item] = [Line((_LEFT, _LOW), (_LEFT, _LOW + _TALL), "medium"), Line((_LEFT, _LOW), (_RIGHT, _LOW), "medium")]
    digits = max(0, -math.floor(math.log10(every)))
    for k in range(round((high - low) / every) + 1):
        y = _LOW + k * every / (high - low) * _TALL
        text = minus(low + k * every, digits, sign=True)
        items += [Line((_LEFT - 5, y), (_LEFT, y), "medium"), label((_LEFT - 8, y - 5), text, "end")]
    return items


def _key(traces: Sequence[Traced], band: float | None, top: float) -> list[Item]:
    items: list[Item] = []
    for row, trace in enumerate(traces):
        y = top - row * LINE
        items += [Line((_LEFT, y + 5), (_LEFT + 40, y + 5), trace.pen), label((_LEFT + 48, y), _named(trace))]
    if band is not None:
        y = top - len(traces) * LINE
        box = ((_LEFT, y), (_LEFT + 40, y), (_LEFT + 40, y + 10), (_LEFT, y + 10))
        items += [Path(box, "thin", "hatch", closed=True), label((_LEFT + 48, y), f"band of the class: {_figure(band)} µm")]
    return items


def _named(trace: Traced) -> str:
    return f"{trace.name}: {_figure(trace.total())} µm in all"


def _figure(um: float) -> str:
    return f"{um:.0f}" if um >= 9.95 else f"{um:.1f}"


def _says(traces: Sequence[Traced], band: float | None) -> str:
    ends = [
        f"{_named(trace)}, {minus(trace.points[0][1], 1, sign=True)} to {minus(trace.points[-1][1], 1, sign=True)} µm"
        for trace in traces
    ]
    allowed = "" if band is None else f" The class allows {_figure(band)} µm."
    return "; ".join(ends) + "." + allowed


def _caption(band: float | None, along: str) -> str:
    laid = "" if band is None else " The band may be laid at any height; here the last trace lies in its middle."
    return f"{along}. Thick: the flank wanted.{laid}"
