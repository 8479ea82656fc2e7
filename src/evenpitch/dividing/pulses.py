"""Dividing by pulses: absolute targets on the worm shaft, or the differential part added through the plate."""

from __future__ import annotations

from fractions import Fraction

from evenpitch.dividing.differential import DRAGS_ABOVE, crank_moves, plate_turns_needed
from evenpitch.dividing.pulse_targets import closing_of, counts_of, worst_of
from evenpitch.dividing.pulsed import PlatePulses, Pulses
from evenpitch.rig.head import Head, Plate
from evenpitch.sources.citations import cites


@cites("derived here", formula="target k = floor(k T/N + 1/2); exact iff N divides T")
def pulse_way(divisions: int, head: Head, pulses_per_turn: Fraction) -> Pulses:
    """The motor on the worm shaft: each space at its own whole pulse from the datum, never a rounded move repeated."""
    counts = counts_of(pulses_per_turn, divisions)
    return Pulses(
        divisions=divisions,
        head_ratio=head.ratio,
        wanted=head.ratio / divisions,
        move_error=_worst_move(counts, pulses_per_turn, divisions) * head.ratio / pulses_per_turn,
        pulses_per_turn=pulses_per_turn,
        counts=counts,
        worst_space=worst_of(pulses_per_turn, divisions),
        closing=closing_of(pulses_per_turn),
    )


@cites("derived here", formula="plate target k = round(k T i/(K N)), i = K - N s/c")
def plate_drive(divisions: int, head: Head, plates: tuple[Plate, ...], pulses_per_turn: Fraction) -> tuple[PlatePulses, ...]:
    """The motor on the plate: crank moves on every circle, with the plate pulses that make up the count, least plate first.

    Those whose plate pulses in all are a whole number; where there is none, the others, which close within half a pulse.
    """
    found = [_plate_way(divisions, head, *move, pulses_per_turn) for move in crank_moves(divisions, head, plates, DRAGS_ABOVE)]
    moving = sorted((way for way in found if way.pulses_in_all), key=lambda way: (abs(way.pulses_in_all), -way.circle))
    whole = tuple(way for way in moving if way.closing == 0)
    return whole or tuple(moving)


def _plate_way(divisions: int, head: Head, circle: int, holes: int, pulses_per_turn: Fraction) -> PlatePulses:
    turns = plate_turns_needed(divisions, head.ratio, Fraction(holes, circle))
    total = turns * pulses_per_turn / head.ratio
    sign = -1 if total < 0 else 1
    counts = counts_of(abs(total), divisions)
    return PlatePulses(
        divisions=divisions,
        head_ratio=head.ratio,
        wanted=head.ratio / divisions,
        move_error=sign * _worst_move(counts, abs(total), divisions) * head.ratio / pulses_per_turn,
        whole_turns=holes // circle,
        circle=circle,
        spaces=holes % circle,
        pulses_per_turn=pulses_per_turn,
        pulses_in_all=total,
        counts=tuple((sign * pulses, moves) for pulses, moves in counts),
        worst_space=worst_of(abs(total), divisions),
        closing=sign * closing_of(abs(total)),
    )


def _worst_move(counts: tuple[tuple[int, int], ...], total: Fraction, divisions: int) -> Fraction:
    """Made minus wanted, in pulses, of the move that is furthest out."""
    return max((size - total / divisions for size, _ in counts), key=abs)
