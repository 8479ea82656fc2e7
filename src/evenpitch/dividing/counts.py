"""What can be divided at all: the count of spaces, the head's ratio, the circles and gears, refused in words where they cannot be."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from evenpitch.quantity.refusal import Fault, Refusal, refuse
from evenpitch.rig.head import ChangeGears, Head, Plate

MOST_DIVISIONS = 1_000_000
"""More spaces than any pulse of any drive met in the trade could tell apart; a limit against slips of the keyboard."""


def checked_divisions(divisions: int) -> int:
    """The count of spaces, or a refusal."""
    if isinstance(divisions, bool) or not isinstance(divisions, int) or not 1 <= divisions <= MOST_DIVISIONS:
        likely = (
            "No work has no spaces, or fewer."
            if isinstance(divisions, int) and divisions < 1
            else "Was a length or an angle typed?"
        )
        raise refuse("divisions", divisions, f"a whole number from 1 to {MOST_DIVISIONS}", likely, "Type the count of spaces.")
    return divisions


def check_head(head: Head, plates: Sequence[Plate], gears: ChangeGears) -> None:
    """Refuse, all at once, a head, circles or gears that cannot be. No plates and no gears are allowed: fewer ways then."""
    faults = []
    if head.ratio <= 0:
        faults.append(
            _fault("head, ratio", head.ratio, "more than 0", "Turns of the crank for one turn of the work; usually 40.")
        )
    if head.direct is not None and head.direct < 1:
        faults.append(
            _fault("head, direct", head.direct, "1 or more holes", "Usually 24; leave it out if there is no such plate.")
        )
    circles = [circle for plate in plates for circle in plate.circles if circle < 1]
    faults += [_fault("plate, circles", circle, "1 or more holes", "Count the circle once.") for circle in circles]
    small = [gear for gear in gears.teeth if gear < 1]
    faults += [_fault("change gears, teeth", gear, "1 or more teeth", "Count the gear once.") for gear in small]
    if faults:
        raise Refusal(*faults)


def checked_pulses(pulses_per_turn: Fraction | None) -> Fraction | None:
    """Pulses for one turn of the work, or None; refused unless more than 0."""
    if pulses_per_turn is not None and pulses_per_turn <= 0:
        likely = "One turn of the work takes the pulses of one motor turn times belt and head."
        raise refuse("pulses per turn", pulses_per_turn, "more than 0", likely, "Leave it out if no motor is fitted.")
    return pulses_per_turn


def _fault(field: str, given: object, expected: str, do: str) -> Fault:
    return Fault(field, str(given), expected, "", do)
