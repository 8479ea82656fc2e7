"""Shifts of a pair: the sum that a centre distance asks for, with or without backlash, and the shortened addendum."""

from __future__ import annotations

import math

from evenpitch.gear.gear import Gear
from evenpitch.gear.involute import inverse_involute, involute
from evenpitch.gear.mesh import reference_centre_distance, working_pressure_angle
from evenpitch.gear.rack import rack_addendum
from evenpitch.gear.sizes import transverse_pressure_angle
from evenpitch.quantity.units import Millimetre, Radian
from evenpitch.sources.citations import cites


@cites("ISO 21771:2007", formula="x_1 + x_2 = (z_1 + z_2) (inv α_wt − inv α_t) / (2 tan α_n)")
def shift_sum(gear: Gear, mate: Gear, centre_distance: Millimetre) -> float:
    """Sum of the shifts with which the pair has no backlash at that centre distance (mm); the gears' own shifts play no part."""
    rise = involute(working_pressure_angle(gear, mate, centre_distance)) - involute(transverse_pressure_angle(gear))
    return (gear.teeth + mate.teeth) * rise / (2.0 * math.tan(gear.pressure_angle))


@cites("ISO 21771:2007", formula="Σ x_E = Σ x − j / (2 m_n tan α_n)")
def generating_shift_sum(gear: Gear, mate: Gear, centre_distance: Millimetre, backlash: Millimetre) -> float:
    """Sum of the shifts that also leave a normal circular backlash of `backlash` mm (arc on the pitch cylinders)."""
    return shift_sum(gear, mate, centre_distance) - backlash / (2.0 * gear.module * math.tan(gear.pressure_angle))


@cites("ISO 21771:2007", formula="inv α_wt = inv α_t + 2 (x_1 + x_2) tan α_n / (z_1 + z_2)")
def pressure_angle_of_shifts(gear: Gear, mate: Gear) -> Radian:
    """Working pressure angle of the pair without backlash, by its shifts alone, rad."""
    rise = 2.0 * (gear.shift + mate.shift) * math.tan(gear.pressure_angle) / (gear.teeth + mate.teeth)
    return inverse_involute(involute(transverse_pressure_angle(gear)) + rise)


@cites("Elements of Metric Gear Technology", formula="h_a1 = (h_a* + y − x_2) m_n,  y = (a − a_0) / m_n")
def shortened_addendum(gear: Gear, mate: Gear, centre_distance: Millimetre) -> Millimetre:
    """Addendum of `gear` shortened so that the clearance of the rack is kept, mm; the standard leaves this free."""
    spread = (centre_distance - reference_centre_distance(gear, mate)) / gear.module
    return Millimetre(rack_addendum(gear.depth, gear.module) + (spread - mate.shift) * gear.module)
