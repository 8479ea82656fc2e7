"""The wall chart: every count on one's own head, the best way of each kind, with its error."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from evenpitch.dividing.compound import exact_compounds, near_misses
from evenpitch.dividing.counts import check_head, checked_divisions, checked_pulses
from evenpitch.dividing.differential import differential_ways, near_differentials
from evenpitch.dividing.methods import Block, Compound, Differential, Direct, Method, PlatePulses, Pulses, Simple
from evenpitch.dividing.pulses import plate_drive, pulse_way
from evenpitch.dividing.rank import HEAD_ERROR_ARCSEC, ranked
from evenpitch.dividing.simple import direct_ways, simple_ways
from evenpitch.quantity.refusal import refuse
from evenpitch.rig.head import ChangeGears, Head, Plate
from evenpitch.rig.link import MotorOn


@dataclass(frozen=True, slots=True, kw_only=True)
class ChartRow:
    """One count. The best way by hand (simple or direct before gears, gears before compound), and by the motor where there is one."""

    divisions: int
    direct: Direct | None = None
    simple: Simple | None = None
    differential: Differential | None = None
    compound: Compound | Block | None = None
    motor: Pulses | PlatePulses | None = None

    def by_hand(self) -> Method | None:
        """The way to take by hand."""
        return self.simple or self.direct or self.differential or self.compound

    def best(self) -> Method | None:
        """The way to take; None where the count is beyond this head."""
        exact = self.simple or self.direct
        return exact or self.motor or self.differential or self.compound


def chart(
    least: int,
    most: int,
    head: Head,
    plates: Sequence[Plate],
    change_gears: ChangeGears,
    pulses_per_turn: Fraction | None = None,
    *,
    motor_on: MotorOn | None = None,
    head_error_arcsec: float = HEAD_ERROR_ARCSEC,
) -> tuple[ChartRow, ...]:
    """A row for every count from `least` to `most`. Gears and compound moves are looked for only where no circle serves."""
    if checked_divisions(least) > checked_divisions(most):
        raise refuse("chart", f"{least}-{most}", "the smaller count first", "The two may be exchanged.", f"Type {most}-{least}.")
    check_head(head, plates, change_gears)
    pulses = checked_pulses(pulses_per_turn)
    rows = (_row(count, head, tuple(plates), change_gears, head_error_arcsec) for count in range(least, most + 1))
    return tuple(_with_motor(row, head, tuple(plates), pulses, motor_on) for row in rows)


def _row(divisions: int, head: Head, plates: tuple[Plate, ...], gears: ChangeGears, head_error: float) -> ChartRow:
    direct = next(iter(direct_ways(divisions, head)), None)
    simple = next(iter(simple_ways(divisions, head, plates)), None)
    if simple or direct:
        return ChartRow(divisions=divisions, direct=direct, simple=simple)
    trains = differential_ways(divisions, head, plates, gears) or near_differentials(divisions, head, plates, gears)
    exact = exact_compounds(divisions, head, plates)
    compound: Sequence[Method] = exact or tuple(near_misses(divisions, head, plates, exact=False))
    best_train, best_compound = _first(trains, head_error), _first(compound, head_error)
    return ChartRow(
        divisions=divisions,
        simple=best_compound if isinstance(best_compound, Simple) else None,
        differential=best_train if isinstance(best_train, Differential) else None,
        compound=best_compound if isinstance(best_compound, Compound | Block) else None,
    )


def _first(methods: Iterable[Method], head_error: float) -> Method | None:
    return next(iter(ranked(methods, head_error_arcsec=head_error)), None)


def _with_motor(
    row: ChartRow, head: Head, plates: tuple[Plate, ...], pulses: Fraction | None, motor_on: MotorOn | None
) -> ChartRow:
    if pulses is None or pulses < row.divisions:
        return row
    motor = _motor_way(row, head, plates, pulses, motor_on)
    return ChartRow(
        divisions=row.divisions,
        direct=row.direct,
        simple=row.simple,
        differential=row.differential,
        compound=row.compound,
        motor=motor,
    )


def _motor_way(
    row: ChartRow, head: Head, plates: tuple[Plate, ...], pulses: Fraction, motor_on: MotorOn | None
) -> Pulses | PlatePulses | None:
    if motor_on != "plate drive":
        return pulse_way(row.divisions, head, pulses)
    return None if row.simple else next(iter(plate_drive(row.divisions, head, plates, pulses)), None)
