"""Picture of a calibration: what the fitted line leaves, place by place, each with its bar of U."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from evenpitch.sheet.drawing import Drawing, Item, Line, Path
from evenpitch.sheet.drawings.framing import framed
from evenpitch.sheet.drawings.lettering import label
from evenpitch.sheet.drawings.points import nice

LEFT, RIGHT, LOW, HIGH = 44.0, 346.0, 46.0, 176.0
MOST_BARS = 40


@dataclass(frozen=True, slots=True)
class PlaceShown:
    """One place: where, mm; what is left and its U, µm."""

    at: float
    left: float
    U: float


def calibration_plot(places: Sequence[PlaceShown], words: str) -> Drawing:
    """Diamonds with their bars over the travel; zero as a centre line. Many places: every so many are drawn."""
    shown = places[:: max(1, -(-len(places) // MOST_BARS))]
    reach = nice(max([*(abs(one.left) + one.U for one in shown), 0.1]))
    first, last = shown[0].at, shown[-1].at
    wide = (last - first) or 1.0

    def x(at: float) -> float:
        return LEFT + 12 + (at - first) / wide * (RIGHT - LEFT - 24)

    def y(value: float) -> float:
        return (LOW + HIGH) / 2 + value / reach * (HIGH - LOW) / 2

    items: list[Item] = [Line((LEFT, LOW), (LEFT, HIGH), "medium"), Line((LEFT, y(0)), (RIGHT, y(0)), "centre")]
    for value in (-reach, 0.0, reach):
        items += [
            Line((LEFT - 4, y(value)), (LEFT, y(value)), "thin"),
            label((LEFT - 7, y(value) - 5), f"{value:g}".replace("-", "−"), "end"),
        ]
    for one in shown:
        items += _place(x(one.at), y(one.left), y(one.left - one.U), y(one.left + one.U))
    items += [label((x(first), LOW - 18), f"{first:g}", "middle"), label((x(last), LOW - 18), f"{last:g} mm", "middle")]
    items += [label((LEFT, HIGH + 10), "µm left"), label((4, 8), words)]
    worst = max(shown, key=lambda one: abs(one.left))
    says = f"{words}; most is left at {worst.at:g} mm: {worst.left:.1f} µm ± {worst.U:.1f}."
    return framed("calibration", "What the line leaves", says, HIGH + 32, items, "Bars: U of a place.")


def _place(x: float, y: float, low: float, high: float) -> list[Item]:
    bar = [
        Line((x, low), (x, high), "medium"),
        Line((x - 3, low), (x + 3, low), "medium"),
        Line((x - 3, high), (x + 3, high), "medium"),
    ]
    return [*bar, Path(((x - 4, y), (x, y - 4), (x + 4, y), (x, y + 4)), "medium", "ink", closed=True)]
