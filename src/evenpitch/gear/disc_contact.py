"""Where a disc cutter touches the flank of a helical space, and how much of a sinking goes across the flank there."""

from __future__ import annotations

import math
from dataclasses import dataclass

from evenpitch.gear.gear import Gear
from evenpitch.gear.halving import ridders
from evenpitch.gear.involute import involute
from evenpitch.gear.sizes import (
    base_diameter,
    base_helix,
    pitch_diameter,
    root_diameter,
    transverse_pressure_angle,
)
from evenpitch.gear.thickness import transverse_thickness
from evenpitch.quantity.units import Millimetre, Radian
from evenpitch.sources.citations import cites

WITHIN = 1e-12
"""Millimetres along the axis to which a place of contact is found."""


@dataclass(frozen=True, slots=True)
class FlankPoint:
    """A point of the right-hand helicoid of one flank, by its roll; numbers that its place and normal are made of."""

    radius: float
    pressure_angle: float
    polar: float
    base_helix: float
    turn_per_mm: float

    def normal(self, along: float) -> tuple[float, float, float]:
        """Unit normal out of the metal when the point stands `along` mm from the middle of the cutter."""
        angle = self.polar + self.turn_per_mm * along + self.pressure_angle
        across = math.cos(self.base_helix)
        return across * math.sin(angle), -across * math.cos(angle), math.sin(self.base_helix)

    def place(self, along: float) -> tuple[float, float, float]:
        """The point itself when it stands `along` mm from the middle of the cutter, mm."""
        angle = self.polar + self.turn_per_mm * along
        return self.radius * math.cos(angle), self.radius * math.sin(angle), along


def flank_point(gear: Gear, roll: Millimetre) -> FlankPoint:
    """The point at that length of roll (mm) on the flank of a space whose centre line is the line of centres."""
    base = base_diameter(gear) / 2.0
    pressure_angle = math.atan2(roll, base)
    thickness = transverse_thickness(gear) / pitch_diameter(gear)
    half_space = math.pi / gear.teeth - thickness - involute(transverse_pressure_angle(gear))
    return FlankPoint(
        radius=math.hypot(base, roll),
        pressure_angle=pressure_angle,
        polar=half_space + involute(Radian(pressure_angle)),
        base_helix=base_helix(gear),
        turn_per_mm=2.0 * math.tan(gear.helix) / pitch_diameter(gear),
    )


def _misses_axis(point: FlankPoint, along: float, centres: float, swing: float) -> float:
    """Triple product of the way from cutter to flank, the normal and the cutter's axis: 0 where the normal meets that axis."""
    x, y, z = point.place(along)
    nx, ny, nz = point.normal(along)
    x -= centres
    return (z * nx - x * nz) * math.cos(swing) - (x * ny - y * nx) * math.sin(swing)


@cites("derived here", formula="[(P − C) × n] · k = 0: the normal of the flank meets the cutter's axis")
def contact_along(gear: Gear, roll: Millimetre, cutter_outside: Millimetre) -> Millimetre | None:
    """How far along the gear's axis from the middle of the cutter it touches the flank at that roll, mm; None: nowhere.

    The cutter stands at full depth (root radius and half its outside diameter between the axes), its axis swung by the helix angle.
    Of two places the one nearer to the middle is meant; the other lies on the far side of the disc.
    """
    point = flank_point(gear, roll)
    centres = (root_diameter(gear) + cutter_outside) / 2.0

    def miss(along: float) -> float:
        return _misses_axis(point, along, centres, gear.helix)

    pace = gear.module / 10.0
    reach = int(cutter_outside / 2.0 / pace)
    here = miss(0.0)
    if here == 0.0:
        return Millimetre(0.0)
    before, after = here, here
    for i in range(reach):
        further_before, further_after = miss(-pace * (i + 1)), miss(pace * (i + 1))
        if (further_before > 0.0) != (before > 0.0):
            return Millimetre(ridders(miss, -pace * (i + 1), -pace * i, WITHIN))
        if (further_after > 0.0) != (after > 0.0):
            return Millimetre(ridders(miss, pace * i, pace * (i + 1), WITHIN))
        before, after = further_before, further_after
    return None


@cites("derived here", formula="δ = e n_x at the contact")
def share_across(gear: Gear, roll: Millimetre, cutter_outside: Millimetre) -> float | None:
    """Metal taken off square to the flank at that roll for each unit the disc cutter is sunk, to first order; None: no contact.

    n_x is the part of the flank's normal along the line of centres. For a spur gear it gives the exact rule of a form cutter.
    """
    along = contact_along(gear, roll, cutter_outside)
    if along is None:
        return None
    share = flank_point(gear, roll).normal(along)[0]
    return share if share > 0.0 else None
