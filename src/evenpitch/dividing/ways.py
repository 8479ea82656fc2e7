"""All ways of dividing by a number on one's own head, best first."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import islice

from evenpitch.dividing.compound import exact_compounds, near_misses
from evenpitch.dividing.counts import check_head, checked_divisions, checked_pulses
from evenpitch.dividing.differential import differential_ways, near_differentials
from evenpitch.dividing.methods import Differential, Method, Pulses
from evenpitch.dividing.pulses import plate_drive, pulse_way
from evenpitch.dividing.rank import HEAD_ERROR_ARCSEC, LeadMethod, ranked
from evenpitch.dividing.simple import block_ways, direct_ways, simple_ways
from evenpitch.rig.head import ChangeGears, Head, Plate
from evenpitch.rig.link import MotorOn

NO_GEARS = ChangeGears(())

MOST_LISTED = 500
"""With everything asked for, no list grows beyond this by ways that are usually left out."""


def ways(
    divisions: int,
    head: Head,
    plates: Sequence[Plate],
    change_gears: ChangeGears = NO_GEARS,
    pulses_per_turn: Fraction | None = None,
    *,
    everything: bool = False,
    lead_method: LeadMethod | None = None,
    motor_on: MotorOn | None = None,
    head_error_arcsec: float = HEAD_ERROR_ARCSEC,
) -> tuple[Method, ...]:
    """The ways of dividing the work into so many spaces, best first.

    Every exact direct, simple, differential (each train of each move) and pulses way; for each pair of circles the smallest exact
    skip; inexact ones that close within 60″ and are not bettered in both error and skip; an inexact train only where none is exact.
    `everything` adds the rest, at most 500 in all: block ways, inexact trains, bettered ones.

    A small count has thousands of exact trains (2 has 2498): they are all told, for "every exact one" is what can be checked by
    plain loops; a page leaves copies out (`without_copies`). A train that divides exactly does not strike inexact ways of larger
    skip from the list: those need no gears, which is what makes them worth having.
    `lead_method`: what cuts the helix of the same work, None for straight work.
    """
    given = (checked_divisions(divisions), head, tuple(plates), change_gears)
    check_head(head, plates, change_gears)
    pulses = checked_pulses(pulses_per_turn)
    found = _usual(*given) + _by_motor(divisions, head, given[2], pulses, motor_on)
    if everything and divisions > 1:
        found += _rest(found, *given)
    return ranked(found, lead_method=lead_method, motor_on=motor_on, head_error_arcsec=head_error_arcsec)


def _usual(divisions: int, head: Head, plates: tuple[Plate, ...], gears: ChangeGears) -> list[Method]:
    direct, simple = direct_ways(divisions, head), simple_ways(divisions, head, plates)
    if divisions == 1:  # the whole turn: nothing to gear or to compound
        return [*direct, *simple]
    compound = exact_compounds(divisions, head, plates)
    missing = near_misses(divisions, head, plates, exact=bool(direct or simple or compound))
    differential = differential_ways(divisions, head, plates, gears, all_trains=True)
    if not differential and not simple:
        differential = near_differentials(divisions, head, plates, gears)
    return [*direct, *simple, *compound, *islice(missing, MOST_LISTED), *differential]


def _by_motor(
    divisions: int, head: Head, plates: tuple[Plate, ...], pulses: Fraction | None, motor_on: MotorOn | None
) -> list[Method]:
    if pulses is None or pulses < divisions:  # fewer pulses than spaces: some would fall together
        return []
    if motor_on == "plate drive":
        return [*plate_drive(divisions, head, plates, pulses)]
    return [pulse_way(divisions, head, pulses)]


def _rest(known: list[Method], divisions: int, head: Head, plates: tuple[Plate, ...], gears: ChangeGears) -> list[Method]:
    """What the usual list leaves out, each kind in its share so that none crowds out the others."""
    room = max(0, MOST_LISTED - len(known))
    seen = set(known)
    kinds: tuple[Iterable[Method], ...] = (
        near_misses(divisions, head, plates, exact=False, least_error=False),
        block_ways(divisions, head, plates),
        near_differentials(divisions, head, plates, gears),
    )
    return list(islice(_in_turn([_unseen(kind, seen) for kind in kinds]), room))


def _unseen(kind: Iterable[Method], seen: set[Method]) -> Iterator[Method]:
    for method in kind:
        if method not in seen:
            seen.add(method)
            yield method


def _in_turn(kinds: list[Iterator[Method]]) -> Iterator[Method]:
    while kinds:
        left = []
        for kind in kinds:
            method = next(kind, None)
            if method is not None:
                yield method
                left.append(kind)
        kinds = left


def without_copies(methods: Iterable[Method]) -> tuple[Method, ...]:
    """For a page: whole turns bring the pin back to its own hole, so the same move on another circle is no other way to a reader;
    nor is another train of the same ratio, of which the simplest stands first."""
    told: set[object] = set()
    kept = []
    for method in methods:
        crank = method.crank()
        words: object = method
        if isinstance(method, Differential):
            turns, _, spaces = method.crank()
            words = (method.crank() if spaces else turns, method.plate_turns_per_work_turn())
        elif crank and crank[2] == 0 and not isinstance(method, Pulses):
            words = method.words()
        if words not in told:
            told.add(words)
            kept.append(method)
    return tuple(kept)
