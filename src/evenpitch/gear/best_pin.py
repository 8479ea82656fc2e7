"""The pin that touches the flanks half-way up, where its reading says most about the thickness."""

from __future__ import annotations

import math

from evenpitch.gear.gear import Gear
from evenpitch.gear.halving import bisect
from evenpitch.gear.involute import involute
from evenpitch.gear.sizes import base_diameter, base_helix, pitch_diameter, pressure_angle_at, transverse_pressure_angle
from evenpitch.gear.thickness import transverse_thickness
from evenpitch.quantity.units import Millimetre
from evenpitch.sources.citations import cites


@cites("Elements of Metric Gear Technology, section 10.3", "derived here", formula="tan φ − tan α_v = cos² β_b (inv φ + η)")
def best_pin(gear: Gear) -> Millimetre:
    """The pin that touches the flanks on the cylinder d + 2 x m_n, mm. η is half the space angle at the base cylinder."""
    base, square = base_diameter(gear), math.cos(base_helix(gear)) ** 2
    middle = Millimetre(max(base, pitch_diameter(gear) + 2.0 * gear.shift * gear.module))
    at_contact = math.tan(pressure_angle_at(gear, middle))
    half_space = (
        math.pi / gear.teeth - transverse_thickness(gear) / pitch_diameter(gear) - involute(transverse_pressure_angle(gear))
    )

    def too_far(tangent: float) -> float:
        return tangent - at_contact - square * (tangent - math.atan(tangent) + half_space)

    tangent = bisect(too_far, at_contact, at_contact + math.pi + abs(half_space) + 100.0 * (1.0 - square))
    return Millimetre(base * math.sqrt(square) * (tangent - math.atan(tangent) + half_space))
