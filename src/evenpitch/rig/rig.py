"""Rig: everything one person has to cut with, as one noun."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from evenpitch.rig.head import ChangeGears, Head, Plate
from evenpitch.rig.link import Link
from evenpitch.rig.machine import Spindle, Table
from evenpitch.rig.maps import ErrorMap
from evenpitch.rig.tools import Cutter, Instrument


@dataclass(frozen=True, slots=True, kw_only=True)
class Rig:
    """Only the head's ratio and one plate are needed; the rest may be unknown, empty or absent."""

    name: str
    head: Head
    plates: tuple[Plate, ...]
    change_gears: ChangeGears = ChangeGears(())
    table: Table = Table()
    spindle: Spindle = Spindle()
    link: Link | None = None
    cutters: tuple[Cutter, ...] = ()
    instruments: tuple[Instrument, ...] = ()
    maps: tuple[ErrorMap, ...] = ()

    def pulses_per_turn(self) -> Fraction | None:
        """Pulses of the drive for one turn of the work by the worm shaft; None where the link or a part of it is not known."""
        link = self.link
        if link is None or link.full_steps is None or link.microsteps is None or link.belt is None:
            return None
        return Fraction(link.full_steps * link.microsteps * link.belt.head, link.belt.motor) * self.head.ratio * link.plate_turns

    def latest_map(self) -> ErrorMap | None:
        """The map last made, of one day the one that stands last; or None."""
        return max(reversed(self.maps), key=lambda found: found.date, default=None)
