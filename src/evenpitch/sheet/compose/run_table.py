"""The run table of the sheet: a box for every space, where it lies every way the rig has, and how to go on by hand."""

from __future__ import annotations

from evenpitch.dividing.methods import Compound, Differential, Direct, Method, PlatePulses, Pulses
from evenpitch.dividing.positions import Position, positions
from evenpitch.job.plan import GearPlan
from evenpitch.quantity.showing import dms, grouped
from evenpitch.sheet.document import Table, TableRow

TEN = 10


def run_table(gear: GearPlan, columns: int = 3) -> Table | None:
    """None where there is no way to divide. The crank's place stands at every tenth space, for who goes on by hand."""
    method = gear.indexing.chosen
    if method is None:
        return None
    n = gear.gear.teeth
    by_hand = gear.indexing.by_hand if isinstance(method, Pulses) else None
    hand = {place.space: place for place in positions(by_hand, n)} if by_hand is not None and _counts_up(by_hand) else {}
    rows = []
    for place in positions(method, n):
        last = place.move == n
        angle = "0° again" if last else dms(place.angle * 360)
        words = _place(method, place)
        if last:
            words = "must take nothing"
        elif place.space % TEN == 1 and place.space in hand and place.move:
            words = f"{words}\n{_briefly(hand[place.space])}"
        rows.append(TableRow((str(place.space), angle, words)))
    return Table(
        ("space", "angle", _head(method)),
        tuple(rows),
        right=(0, 1),
        heavy=TEN,
        columns=columns,
        boxes=True,
        note=_note(method, by_hand),
    )


def _counts_up(method: Method) -> bool:
    """Whether spaces come in the order 1, 2, 3, so that a crank place belongs to a space number."""
    return method.skip == 1


def _head(method: Method) -> str:
    if isinstance(method, Pulses):
        return "pulses"
    if isinstance(method, PlatePulses):
        return "crank; plate pulses"
    return "hole" if isinstance(method, Direct) else "crank from the datum"


def _place(method: Method | None, place: Position) -> str:
    if method is None:
        return ""
    if isinstance(method, Pulses):
        return grouped(place.pulse or 0)
    if isinstance(method, Direct):
        return f"hole {place.hole} of {place.circle}"
    crank = f"{place.turns} turn{'s' * (place.turns != 1)} + {place.hole} of {place.circle}"
    if isinstance(method, PlatePulses):
        return f"{crank}; {grouped(place.pulse or 0)}"
    if isinstance(method, Compound):
        return f"{crank}; plate {place.plate_hole} of {place.plate_circle}"
    return crank


def _briefly(place: Position) -> str:
    """The crank's place from the datum, narrow: "12 + 7/20" turns."""
    return f"{place.turns} + {place.hole}/{place.circle}"


def _note(method: Method, by_hand: Method | None) -> str:
    if isinstance(method, Pulses):
        hand = (
            f" By hand from any space: {by_hand.words()}; its place from the datum, turns + spaces, stands at every tenth."
            if by_hand is not None
            else ""
        )
        return f"Pulses count from the datum, never from the space before.{hand}"
    if isinstance(method, Differential):
        return (
            "The crank is counted against the plate, which its gears turn as well: whole turns and spaces as they pass the pin."
        )
    if isinstance(method, Compound):
        return "Crank first, then crank and plate together; always in that order."
    return "Spaces are counted, not holes: the sector shows one hole more."
