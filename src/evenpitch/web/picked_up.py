"""A tooth picked up again: touches as typed become an offset, and by one press an entry that every target after it goes by."""

from __future__ import annotations

from collections.abc import Mapping

from evenpitch.job.picking_up import PickedUp, Touch
from evenpitch.quantity.read_angle import read_angle
from evenpitch.quantity.read_number import read_whole
from evenpitch.quantity.refusal import Fault, Refusal, refuse
from evenpitch.quantity.units import RADIAN_PER_ARCSEC, degrees
from evenpitch.store.book import Book
from evenpitch.web.machine import Place, Pressed, press
from evenpitch.web.opened import Clock

PLACES = 4
SIDES = ("left", "right")


def touches_of(teeth: int, typed: Mapping[str, str]) -> tuple[Touch, ...]:
    """The touches of a form, space.0, left.0, right.0 and on; a place with neither side typed is left out."""
    faults: list[Fault] = []
    found = []
    for at in range(PLACES):
        sides = [typed.get(f"{side}.{at}", "").strip() for side in SIDES]
        if not any(sides):
            continue
        try:
            space = read_whole(typed.get(f"space.{at}", ""), field=f"space.{at}", least=1, most=teeth)
            left, right = (degrees(read_angle(text, field=f"{side}.{at}")) for side, text in zip(SIDES, sides, strict=True))
            found.append(Touch(space, float(left), float(right)))
        except Refusal as refusal:
            faults += refusal.faults
    if faults:
        raise Refusal(*faults)
    return tuple(found)


def offset_of(found: PickedUp) -> tuple[float, float]:
    """Offset and U as they go into the record, seconds of arc to a tenth."""
    return round(found.offset.value / RADIAN_PER_ARCSEC, 1), round(found.offset.U / RADIAN_PER_ARCSEC, 1)


def write_offset(book: Book, place: Place, teeth: int, found: PickedUp, now: Clock, *, last_seen: int | None = None) -> Pressed:
    """The entry "picked up" of an issued plan. `teeth`: of the gear that was picked up; a Refusal where the plan cuts another."""
    if teeth != place.cutting.spaces:
        likely = f"The job was changed after plan {place.issued.number} was issued."
        raise refuse("teeth", teeth, f"{place.cutting.spaces}", likely, "Issue the plan that is cut to, then pick up.")
    offset, u = offset_of(found)
    return press(book, place, "picked up", now, last_seen=last_seen, offset=offset, u=u)
