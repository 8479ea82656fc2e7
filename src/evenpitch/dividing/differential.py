"""Differential indexing: the crank moves against a plate that is geared to the spindle."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import gcd

from evenpitch.dividing.compound import CLOSES_WITHIN_ARCSEC
from evenpitch.dividing.geared import Differential
from evenpitch.dividing.idlers import idlers
from evenpitch.dividing.simple import circles_of
from evenpitch.dividing.trains import Train, every_ratio, ratios_between, trains_by_ratio
from evenpitch.quantity.units import ARCSEC_PER_TURN
from evenpitch.rig.head import ChangeGears, Head, Plate, Sense
from evenpitch.sources.citations import cites

DRAGS_ABOVE = 6
"""Plate turns per turn of the work above which the train drags the plate hard; common practice."""

CrankHoles = tuple[int, int]
"""A circle, and the spaces on it that the crank moves, whole turns included."""


@cites(
    "Practical Treatise on Milling and Milling Machines, pp. 55-57",
    formula="i = K (A - N)/A = K - N s/c, A = K c/s; i > 0: the plate turns with the crank",
)
def plate_turns_needed(divisions: int, ratio: Fraction, crank_turns: Fraction) -> Fraction:
    """Plate turns per turn of the work, + with the crank, so that N moves of s/c against the plate make K turns in all."""
    return ratio - divisions * crank_turns


def crank_moves(divisions: int, head: Head, plates: tuple[Plate, ...], most_turns: float) -> Iterator[CrankHoles]:
    """Every circle, and every crank move on it that wants no more than so many plate turns either way, and not none."""
    for circle in circles_of(plates):
        reach = circle / divisions
        first, last = float(head.ratio - Fraction(most_turns)) * reach, float(head.ratio + Fraction(most_turns)) * reach
        yield from ((circle, holes) for holes in range(max(1, int(first)), int(last) + 1))


def differential_ways(
    divisions: int, head: Head, plates: tuple[Plate, ...], gears: ChangeGears, *, all_trains: bool = False
) -> tuple[Differential, ...]:
    """Every crank move with which one's gears divide exactly, each with its simplest train; or with every train."""
    trains = trains_by_ratio(gears)
    if not trains:
        return ()
    top, bottom = head.ratio.numerator, head.ratio.denominator
    most = float(every_ratio(gears)[-1])
    found = []
    for circle, holes in crank_moves(divisions, head, plates, most):
        turns = top * circle - divisions * holes * bottom
        shared = gcd(turns, circle * bottom)
        fitting = trains.get((abs(turns) // shared, circle * bottom // shared), ()) if turns else ()
        chosen = fitting if all_trains else fitting[:1]
        found += [_way(divisions, head, circle, holes, turns > 0, train, gears.stud_clearance) for train in chosen]
    return tuple(found)


def near_differentials(divisions: int, head: Head, plates: tuple[Plate, ...], gears: ChangeGears) -> tuple[Differential, ...]:
    """For every crank move the nearest train that does not divide exactly but closes within 60″ at the work."""
    if not gears.teeth:
        return ()
    most = float((every_ratio(gears) or (Fraction(0),))[-1])
    found = []
    for circle, holes in crank_moves(divisions, head, plates, most):
        needed = plate_turns_needed(divisions, head.ratio, Fraction(holes, circle))
        slack = float(head.ratio) * CLOSES_WITHIN_ARCSEC / ARCSEC_PER_TURN
        near = [
            ratio
            for ratio in ratios_between(float(abs(needed)) - slack, float(abs(needed)) + slack, gears)
            if ratio != abs(needed)
        ]
        if near and needed:
            ratio = min(near, key=lambda ratio: abs(ratio - abs(needed)))
            train = trains_by_ratio(gears)[ratio.numerator, ratio.denominator][0]
            found.append(_way(divisions, head, circle, holes, needed > 0, train, gears.stud_clearance, ratio))
    return tuple(way for way in found if abs(way.closing_error_arcsec) <= CLOSES_WITHIN_ARCSEC)


def _way(
    divisions: int,
    head: Head,
    circle: int,
    holes: int,
    with_crank: bool,
    train: Train,
    stud_clearance: int,
    inexact_ratio: Fraction | None = None,
) -> Differential:
    wanted, turns = head.ratio / divisions, Fraction(holes, circle)
    error = Fraction(0)
    if inexact_ratio is not None:
        error = head.ratio * turns / (head.ratio - (inexact_ratio if with_crank else -inexact_ratio)) - wanted
    sense: Sense = "with" if with_crank else "against"
    return Differential(
        divisions=divisions,
        head_ratio=head.ratio,
        wanted=wanted,
        move_error=error,
        whole_turns=holes // circle,
        circle=circle,
        spaces=holes % circle,
        train=train,
        plate_sense=sense,
        stud_clearance=stud_clearance,
        idlers=idlers(sense, len(train.drivers), head.idler_test),
    )
