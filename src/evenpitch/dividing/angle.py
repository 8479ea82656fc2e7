"""One move through an angle."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import lcm

from evenpitch.dividing.by_hand import Compound, Direct, Simple
from evenpitch.dividing.compound import CLOSES_WITHIN_ARCSEC, circle_pairs, compound_way
from evenpitch.dividing.counts import check_head, checked_pulses
from evenpitch.dividing.methods import Method
from evenpitch.dividing.pulsed import Pulses
from evenpitch.dividing.rank import HEAD_ERROR_ARCSEC, ranked
from evenpitch.dividing.simple import circles_of, nearest_on_circle
from evenpitch.quantity.ratios import round_half_up
from evenpitch.quantity.refusal import refuse
from evenpitch.rig.head import ChangeGears, Head, Plate
from evenpitch.rig.link import MotorOn
from evenpitch.sources.citations import cites

MOST_COMPOUNDS = 12


@cites("Machinery's Handbook 1916", "OD1644, lesson 1, task 1", formula="turns = angle K/360")
def angle_ways(
    degrees: Fraction,
    head: Head,
    plates: Sequence[Plate],
    pulses_per_turn: Fraction | None = None,
    *,
    motor_on: MotorOn | None = None,
    head_error_arcsec: float = HEAD_ERROR_ARCSEC,
) -> tuple[Method, ...]:
    """The ways of turning the work once through an angle, best first; errors are those of the one move.

    Every exact direct and simple way; where no circle is exact, those that come within 60″ and the compound moves that come nearer
    than any of them; the nearest pulse. An error of one move adds up if the move is repeated.
    """
    if not 0 < degrees <= 360:
        likely = "A move of nothing is none." if degrees == 0 else "One move turns the work once round at most, and has no sign."
        raise refuse("angle", degrees, "more than 0 and up to 360 degrees", likely, "Type the angle of one move.")
    check_head(head, plates, ChangeGears(()))
    pulses = checked_pulses(pulses_per_turn) if motor_on != "plate drive" else None
    turns = degrees * head.ratio / 360
    found: list[Method] = [*_direct(degrees, head, turns)]
    simple = [_simple(head, turns, circle) for circle in circles_of(tuple(plates))]
    exact = [way for way in simple if way.exact]
    found += exact or [way for way in simple if way.worst_error_arcsec <= CLOSES_WITHIN_ARCSEC and way.crank_turns()]
    if not exact:
        found += _compounds(head, turns, tuple(plates), min((abs(way.move_error) for way in simple), default=Fraction(1)))
    if pulses is not None and round_half_up(turns * pulses / head.ratio):  # less than half a pulse is no move
        found.append(_pulses(head, turns, pulses))
    return ranked(found, motor_on=motor_on, head_error_arcsec=head_error_arcsec)


def _direct(degrees: Fraction, head: Head, turns: Fraction) -> list[Direct]:
    holes = degrees * (head.direct or 0) / 360
    if not holes or holes.denominator != 1 or head.direct is None:
        return []
    return [Direct(divisions=None, head_ratio=head.ratio, wanted=turns, plate_holes=head.direct, spaces=holes.numerator)]


def _simple(head: Head, turns: Fraction, circle: int) -> Simple:
    holes, error = nearest_on_circle(turns, circle)
    whole, spaces = divmod(holes, circle)
    return Simple(
        divisions=None,
        head_ratio=head.ratio,
        wanted=turns,
        move_error=error,
        whole_turns=whole,
        circle=circle,
        spaces=spaces,
    )


def _compounds(head: Head, turns: Fraction, plates: tuple[Plate, ...], better_than: Fraction) -> list[Compound]:
    found = []
    for pair in circle_pairs(plates):
        way = compound_way(None, head, 1, turns, pair, round(turns * lcm(*pair)))
        if way is not None and abs(way.move_error) < better_than and way.worst_error_arcsec <= CLOSES_WITHIN_ARCSEC:
            found.append(way)
    return sorted(found, key=lambda way: (abs(way.move_error), way.circle))[:MOST_COMPOUNDS]


def _pulses(head: Head, turns: Fraction, pulses_per_turn: Fraction) -> Pulses:
    wanted = turns * pulses_per_turn / head.ratio
    sent = round_half_up(wanted)
    return Pulses(
        divisions=None,
        head_ratio=head.ratio,
        wanted=turns,
        move_error=(sent - wanted) * head.ratio / pulses_per_turn,
        pulses_per_turn=pulses_per_turn,
        counts=((sent, 1),),
        worst_space=abs(sent - wanted),
        closing=sent - wanted,
    )
