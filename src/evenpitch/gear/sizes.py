"""Sizes of an external involute gear, spur or helical. Lengths in mm, angles in rad; all after ISO 21771."""

from __future__ import annotations

import math

from evenpitch.gear.gear import Gear
from evenpitch.gear.rack import rack_addendum, rack_dedendum
from evenpitch.quantity.units import Millimetre, Radian
from evenpitch.sources.citations import cites


@cites("ISO 21771:2007", formula="m_t = m_n / cos β")
def transverse_module(gear: Gear) -> Millimetre:
    """Module in the plane square to the axis, mm."""
    return Millimetre(gear.module / math.cos(gear.helix))


@cites("ISO 21771:2007", formula="tan α_t = tan α_n / cos β")
def transverse_pressure_angle(gear: Gear) -> Radian:
    """Pressure angle in the plane square to the axis, at the pitch cylinder, rad."""
    return Radian(math.atan(math.tan(gear.pressure_angle) / math.cos(gear.helix)))


@cites("ISO 21771:2007", formula="sin β_b = sin β cos α_n")
def base_helix(gear: Gear) -> Radian:
    """Helix angle at the base cylinder, rad."""
    return Radian(math.asin(math.sin(gear.helix) * math.cos(gear.pressure_angle)))


@cites("ISO 21771:2007", formula="d = z m_n / cos β")
def pitch_diameter(gear: Gear) -> Millimetre:
    """Diameter of the pitch (reference) cylinder, mm."""
    return Millimetre(gear.teeth * transverse_module(gear))


@cites("ISO 21771:2007", formula="d_b = d cos α_t")
def base_diameter(gear: Gear) -> Millimetre:
    """Diameter of the base cylinder, mm."""
    return Millimetre(pitch_diameter(gear) * math.cos(transverse_pressure_angle(gear)))


@cites("ISO 21771:2007", formula="h_a = (h_a* + x) m_n")
def addendum(gear: Gear) -> Millimetre:
    """Height of the tooth outside the pitch cylinder, mm; no shortening of the tip."""
    return Millimetre(rack_addendum(gear.depth, gear.module) + gear.shift * gear.module)


@cites("ISO 21771:2007", formula="h_f = (h_f* − x) m_n")
def dedendum(gear: Gear) -> Millimetre:
    """Depth of the space inside the pitch cylinder, mm, before any sinking for backlash."""
    return Millimetre(rack_dedendum(gear.depth, gear.module) - gear.shift * gear.module)


@cites("ISO 21771:2007", formula="h = h_a + h_f")
def whole_depth(gear: Gear) -> Millimetre:
    """Depth of the tooth space from the outside, mm, before any sinking for backlash."""
    return Millimetre(addendum(gear) + dedendum(gear))


@cites("ISO 21771:2007", formula="d_a = d + 2 h_a")
def outside_diameter(gear: Gear) -> Millimetre:
    """Diameter over the tips, mm."""
    return Millimetre(pitch_diameter(gear) + 2.0 * addendum(gear))


@cites("ISO 21771:2007", formula="d_f = d − 2 h_f")
def root_diameter(gear: Gear) -> Millimetre:
    """Diameter at the bottom of the spaces, mm, before any sinking for backlash."""
    return Millimetre(pitch_diameter(gear) - 2.0 * dedendum(gear))


@cites("ISO 21771:2007", formula="p_n = π m_n")
def circular_pitch(gear: Gear) -> Millimetre:
    """Circular pitch in the normal plane, mm: the pitch that the cutter has."""
    return Millimetre(math.pi * gear.module)


@cites("ISO 21771:2007", formula="p_t = π m_n / cos β")
def transverse_circular_pitch(gear: Gear) -> Millimetre:
    """Circular pitch round the pitch circle, square to the axis, mm."""
    return Millimetre(math.pi * transverse_module(gear))


@cites("ISO 21771:2007", formula="p_bn = π m_n cos α_n")
def base_pitch(gear: Gear) -> Millimetre:
    """Normal base pitch, mm: the difference of two spans over k and k + 1 teeth."""
    return Millimetre(math.pi * gear.module * math.cos(gear.pressure_angle))


@cites("ISO 21771:2007", formula="p_z = π z m_n / sin β")
def lead(gear: Gear) -> Millimetre:
    """Length along the axis in which a tooth goes once round, mm; infinite for a spur gear."""
    return Millimetre(math.pi * gear.teeth * gear.module / math.sin(gear.helix) if gear.helix else math.inf)


@cites("ISO 21771:2007", formula="p_x = π m_n / sin β")
def axial_pitch(gear: Gear) -> Millimetre:
    """Distance along the axis from tooth to tooth, mm; infinite for a spur gear."""
    return Millimetre(math.pi * gear.module / math.sin(gear.helix) if gear.helix else math.inf)


@cites("ISO 21771:2007", formula="cos α_y = d_b / d_y")
def pressure_angle_at(gear: Gear, diameter: Millimetre) -> Radian:
    """Transverse pressure angle where the flank meets the cylinder `diameter` mm (not inside the base cylinder), rad."""
    return Radian(math.acos(min(1.0, base_diameter(gear) / diameter)))


@cites("ISO 21771:2007", formula="ρ_y = ½ √(d_y² − d_b²)")
def roll_length_at(gear: Gear, diameter: Millimetre) -> Millimetre:
    """Length of roll from the base cylinder to the cylinder `diameter` mm, in the transverse plane, mm; 0 inside it."""
    square = diameter * diameter - base_diameter(gear) ** 2
    return Millimetre(0.5 * math.sqrt(max(0.0, square)))


@cites("ISO 21771:2007", formula="d_y = √(d_b² + 4 ρ_y²)")
def diameter_at_roll(gear: Gear, roll: Millimetre) -> Millimetre:
    """Diameter where the flank has that length of roll, mm."""
    return Millimetre(math.hypot(base_diameter(gear), 2.0 * roll))
