"""Picture of a log: how far the work (or the pulses) stood off along the table, and where something was lost."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from evenpitch.sheet.drawing import Circle, Drawing, Item, Line, Path, Point
from evenpitch.sheet.drawings.axes import Axes, rounded_range
from evenpitch.sheet.drawings.framing import framed
from evenpitch.sheet.drawings.lettering import LINE, label

_LEFT, _RIGHT, _LOW, _TALL = 62.0, 344.0, 58.0, 180.0
_POINTS = 90


@dataclass(frozen=True, slots=True)
class Mark:
    """An event at a table place in mm, in few words."""

    at: float
    words: str


def log_plot(points: Sequence[Point], fitted: Sequence[Point], marks: Sequence[Mark], unit: str) -> Drawing:
    """Readings as dots (a share of them where there are many), what the fit says as a line, events as heavy upright lines."""
    few, line = _thinned(points), _thinned(fitted)
    values = [0.0, *(y for _, y in few), *(y for _, y in line)]
    span = [x for x, _ in points] or [0.0]
    axes = Axes(_LEFT, _RIGHT, _LOW, _LOW + _TALL, (min(span), max(max(span), min(span) + 1e-6)), rounded_range(values))
    items: list[Item] = [*axes.zero(), *axes.items(f"{unit} over mm of table")]
    items += [Circle(axes.at(x, y), 1.5, "thin", "ink") for x, y in few]
    if len(line) > 1:
        items.append(Path(tuple(axes.at(x, y) for x, y in line), "medium"))
    shown = sorted(marks, key=lambda mark: mark.at)[:4]
    top = _LOW + _TALL + 14
    for row, mark in enumerate(shown):
        x = min(_RIGHT, max(_LEFT, axes.at(mark.at, 0.0)[0]))
        y = top + LINE * row
        items.append(Line((x, _LOW), (x, y + 5), "thick"))
        items.append(label((x + 5, y) if x < 190 else (x - 5, y), mark.words, "start" if x < 190 else "end", patch=True))
    rest = f", and {len(marks) - len(shown)} more" if len(marks) > len(shown) else ""
    found = "; ".join(f"{mark.words} at {mark.at:.2f} mm" for mark in shown) + rest if shown else "nothing was lost"
    says = f"The log over {max(span) - min(span):.1f} mm of table: {found}."
    return framed(
        "log", "The log", says, top + LINE * max(1, len(shown)) + 4, items, "Dots are readings, the line is the fit. + is ahead."
    )


def _thinned(points: Sequence[Point]) -> list[Point]:
    """So many of them, in order of the table's place."""
    ordered = sorted(points)
    every = max(1, -(-len(ordered) // _POINTS))
    return list(ordered[::every])
