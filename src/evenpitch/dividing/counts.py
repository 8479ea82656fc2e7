"""What can be divided at all: the count of spaces, the head's ratio, the circles and gears, refused in words where they cannot be."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from evenpitch.quantity.refusal import Fault, Refusal, refuse
from evenpitch.rig.head import ChangeGears, Head, Plate

MOST_DIVISIONS = 1_000_000
"""More spaces than any pulse of any drive met in the trade could tell apart; a limit against slips of the keyboard."""

MOST_RATIO = 10_000
"""Turns of the crank for one turn of the work; a planetary divider in front of a head of 40:1 makes 4000."""

_SLIP = "A sign or a digit may be wrong."


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
    if not 0 < head.ratio <= MOST_RATIO:
        expected = f"more than 0 and up to {MOST_RATIO}"
        likely = "The crank turns this often for one turn of the work; 40 is usual."
        faults.append(
            Fault("head, ratio", _short(head.ratio), expected, likely, "Turn the crank for one turn of the work, and count.")
        )
    if head.direct is not None and head.direct < 1:
        likely = "A plate has holes; 24 is usual."
        faults.append(
            Fault("head, direct", str(head.direct), "1 or more holes", likely, "Leave it out if there is no such plate.")
        )
    circles = [circle for plate in plates for circle in plate.circles if circle < 1]
    faults += [Fault("plate, circles", str(one), "1 or more holes", _SLIP, "Count the circle once.") for one in circles]
    small = [gear for gear in gears.teeth if gear < 1]
    faults += [Fault("change gears, teeth", str(one), "1 or more teeth", _SLIP, "Count the gear once.") for one in small]
    if faults:
        raise Refusal(*faults)


def checked_pulses(pulses_per_turn: Fraction | None) -> Fraction | None:
    """Pulses for one turn of the work, or None; refused unless more than 0."""
    if pulses_per_turn is not None and pulses_per_turn <= 0:
        likely = "One turn of the work takes the pulses of one motor turn times belt and head."
        raise refuse("pulses per turn", pulses_per_turn, "more than 0", likely, "Leave it out if no motor is fitted.")
    return pulses_per_turn


def _short(value: Fraction) -> str:
    return str(value) if len(str(value)) <= 30 else f"{float(value):.6g}" if value < 10**300 else "a very long number"
