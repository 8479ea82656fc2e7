"""The run table: where crank, plate or motor stands at each space, counted from the datum."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from evenpitch.dividing.methods import Compound, Direct, Method, PlatePulses, Pulses


@dataclass(frozen=True, slots=True)
class Position:
    """After so many moves. `space`: its number, 1 at the datum. `angle`: of the work as wanted, turns.

    `turns`, `hole`: whole turns of the crank against the plate, and the hole its pin stands in, the datum hole being 0, on `circle`.
    `plate_hole`: the same for the plate's own circle of a compound way. `pulse`: the motor's target. None where there is no such thing.
    """

    move: int
    space: int
    angle: Fraction
    turns: int | None = None
    hole: int | None = None
    circle: int | None = None
    plate_hole: int | None = None
    plate_circle: int | None = None
    pulse: int | None = None


def positions(method: Method, divisions: int) -> Iterator[Position]:
    """All N + 1 positions in the order of the moves; the last is space 1 again: it must take nothing."""
    pulses = method.targets() if isinstance(method, Pulses | PlatePulses) else None
    for move in range(divisions + 1):
        space = move * method.skip % divisions
        pulse = pulses[move] if pulses is not None else None
        yield _position(method, move, space + 1, Fraction(space, divisions), pulse)


def _position(method: Method, move: int, space: int, angle: Fraction, pulse: int | None) -> Position:
    if isinstance(method, Direct):
        return Position(move, space, angle, hole=move * method.spaces % method.plate_holes, circle=method.plate_holes)
    crank = method.crank()
    if crank is None:
        return Position(move, space, angle, pulse=pulse)
    whole, circle, spaces = crank
    turns, hole = divmod(move * (whole * circle + spaces), circle)
    if not isinstance(method, Compound):
        return Position(move, space, angle, turns, hole, circle, pulse=pulse)
    sense = 1 if method.plate_sense == "with" else -1
    plate_hole = sense * move * method.plate_spaces % method.plate_circle
    return Position(move, space, angle, turns, hole, circle, plate_hole, method.plate_circle)
