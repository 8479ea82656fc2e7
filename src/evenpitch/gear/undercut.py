"""Undercut by a rack, and where the usable flank begins. A form cutter hides undercut, but the mate still interferes there."""

from __future__ import annotations

import math

from evenpitch.gear.gear import Gear
from evenpitch.gear.rack import RACKS
from evenpitch.gear.sizes import diameter_at_roll, pitch_diameter, transverse_pressure_angle
from evenpitch.quantity.units import Millimetre
from evenpitch.sources.citations import cites


@cites("ISO 21771:2007", formula="x_min = h_a* − z sin² α_t / (2 cos β)")
def least_shift(gear: Gear) -> float:
    """The least shift at which a rack of this depth, with sharp corners at its addendum, does not undercut the tooth."""
    sine = math.sin(transverse_pressure_angle(gear))
    return float(RACKS[gear.depth].addendum - gear.teeth * sine * sine / (2.0 * math.cos(gear.helix)))


@cites("ISO 21771:2007", formula="z_min = 2 (h_a* − x) cos β / sin² α_t")
def least_teeth(gear: Gear) -> float:
    """The number of teeth, not rounded, below which a rack of this depth undercuts at this shift (17.1 at 20°, 31.9 at 14½°)."""
    sine = math.sin(transverse_pressure_angle(gear))
    return float(2.0 * (RACKS[gear.depth].addendum - gear.shift) * math.cos(gear.helix) / (sine * sine))


def is_undercut(gear: Gear) -> bool:
    """True where a rack of this depth would cut into the foot of the tooth."""
    return gear.shift < least_shift(gear)


@cites("ISO 21771:2007", formula="ρ_F = d sin α_t / 2 − (h_a* − x) m_n / sin α_t, not below 0")
def form_roll(gear: Gear) -> Millimetre:
    """Length of roll where the flank that an equal rack can reach begins, mm; 0 (the base cylinder) where it is undercut."""
    sine = math.sin(transverse_pressure_angle(gear))
    reach = (RACKS[gear.depth].addendum - gear.shift) * gear.module
    return Millimetre(max(0.0, pitch_diameter(gear) * sine / 2.0 - reach / sine))


@cites("ISO 21771:2007", formula="d_F = √(d_b² + 4 ρ_F²)")
def form_diameter(gear: Gear) -> Millimetre:
    """Diameter where the usable flank begins, mm."""
    return diameter_at_roll(gear, form_roll(gear))
