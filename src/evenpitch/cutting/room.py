"""Room on the machine: what stands how high when the cutter is at full depth, what a swung table and a rapid traverse do."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from evenpitch.quantity.units import Millimetre, Radian
from evenpitch.rig.rig import Rig
from evenpitch.sources.citations import cites


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """Heights above the work axis at full depth, mm; None where the rig does not say.

    `arbor`: its axis. `collar`: underside of the arbor collars. `overarm`: its underside. `tailstock`: top of the tailstock.
    `head_room`: between blank and table. `collar_clears`: collar over the tailstock. `over_blank`: overarm over the blank.
    """

    arbor: Millimetre
    collar: Millimetre | None
    overarm: Millimetre | None
    tailstock: Millimetre | None
    head_room: Millimetre | None
    collar_clears: Millimetre | None
    over_blank: Millimetre | None


@cites("derived here", formula="arbor axis above work axis = d_a/2 + D/2 − h")
def arbor_height(blank_outside: Millimetre, cutter_outside: Millimetre, depth: Millimetre) -> Millimetre:
    """Height of the arbor's axis above the work's at full depth, mm."""
    return Millimetre(blank_outside / 2 + cutter_outside / 2 - depth)


@cites("derived here", formula="centre height − d_a/2")
def head_room(centre_height: Millimetre, blank_outside: Millimetre) -> Millimetre:
    """Air between the blank and the table, mm; negative: the blank does not go in."""
    return Millimetre(centre_height - blank_outside / 2)


def room(rig: Rig, blank_outside: Millimetre, cutter_outside: Millimetre, depth: Millimetre) -> Room:
    """All clearances at full depth, as far as the rig is known. The tailstock's top is measured from the table, as its centre is."""
    arbor = arbor_height(blank_outside, cutter_outside, depth)
    centre, top, spindle = rig.head.centre_height, rig.head.tailstock_top, rig.spindle
    collar = None if spindle.collar is None else Millimetre(arbor - spindle.collar / 2)
    overarm = None if spindle.overarm is None else Millimetre(arbor + spindle.overarm)
    tailstock = None if centre is None or top is None else Millimetre(top - centre)
    return Room(
        arbor=arbor,
        collar=collar,
        overarm=overarm,
        tailstock=tailstock,
        head_room=None if centre is None else head_room(centre, blank_outside),
        collar_clears=None if collar is None or tailstock is None else Millimetre(collar - tailstock),
        over_blank=None if overarm is None else Millimetre(overarm - blank_outside / 2),
    )


@cites("derived here", formula="(length / 2) sin β")
def table_end_comes_back(length: Millimetre, swing: Radian) -> Millimetre:
    """How far an end of a swung table comes towards the column, mm, at mid travel; the scale's own thickness comes on top."""
    return Millimetre(length / 2 * math.sin(abs(swing)))


@dataclass(frozen=True, slots=True)
class RapidLoad:
    """What the rapid traverse would ask of a linked motor: pulses a second, and its speed in rpm (None: steps not known)."""

    pulses_per_second: float
    motor_speed: float | None


@cites("derived here", formula="pulses/s = v N / L;  rpm = 60 pulses/s ÷ pulses per turn of the motor")
def rapid_load(rapid: float, pulses_per_turn: Fraction, lead: Millimetre, pulses_per_motor_turn: int | None) -> RapidLoad:
    """The load at a rapid of `rapid` mm/min, `pulses_per_turn` of the work and a lead in mm."""
    rate = rapid / 60 * float(pulses_per_turn) / lead
    return RapidLoad(rate, None if pulses_per_motor_turn is None else 60 * rate / pulses_per_motor_turn)
