"""Chordal thickness for the gear-tooth vernier: straight across the tooth, at a height below the tip."""

from __future__ import annotations

import math

from evenpitch.gear.gear import Gear
from evenpitch.gear.sizes import addendum, outside_diameter
from evenpitch.gear.thickness import tooth_thickness
from evenpitch.gear.virtual import virtual_teeth
from evenpitch.quantity.units import Millimetre, Radian
from evenpitch.sources.citations import cites

_EMGT = "Elements of Metric Gear Technology, Tables 10-1 to 10-4"


@cites(_EMGT, formula="ψ = s_n / (z_v m_n)")
def half_angle(gear: Gear, thickness: Millimetre | None = None) -> Radian:
    """Half the angle of the tooth at the centre of the virtual gear, rad, for a normal arc thickness (usually without thinning)."""
    arc = tooth_thickness(gear) if thickness is None else thickness
    return Radian(arc / (virtual_teeth(gear) * gear.module))


@cites(_EMGT, formula="s̄ = z_v m_n sin ψ")
def chordal_thickness(gear: Gear, thickness: Millimetre | None = None) -> Millimetre:
    """Chord across the tooth in the normal plane at the pitch cylinder, mm, for a normal arc thickness (usually without thinning)."""
    return Millimetre(virtual_teeth(gear) * gear.module * math.sin(half_angle(gear, thickness)))


@cites(_EMGT, formula="h̄ = h_a + (z_v m_n / 2) (1 − cos ψ)")
def chordal_height(gear: Gear) -> Millimetre:
    """Height of the tip above that chord, mm, on a blank of the true outside diameter."""
    rise = math.sin(half_angle(gear) / 2.0) ** 2
    return Millimetre(addendum(gear) + virtual_teeth(gear) * gear.module * rise)


@cites(_EMGT, formula="h̄ + (d_a,measured − d_a) / 2")
def chordal_height_on(gear: Gear, outside_found: Millimetre) -> Millimetre:
    """Height to set on the vernier for a blank measured at `outside_found` mm, mm."""
    return Millimetre(chordal_height(gear) + (outside_found - outside_diameter(gear)) / 2.0)


@cites("common practice", formula="thickness error = 2 tan α_n × error of the radius")
def thickness_error_per_radius(gear: Gear) -> float:
    """Error of the thickness read for each unit of error of the blank's radius, where the height is not corrected."""
    return 2.0 * math.tan(gear.pressure_angle)


@cites("Machinery's Handbook", formula="s_c = s_n cos² α_n")
def constant_chord(gear: Gear) -> Millimetre:
    """Chord where an equal rack touches both flanks of the tooth at once, mm; independent of the count of teeth."""
    return Millimetre(tooth_thickness(gear) * math.cos(gear.pressure_angle) ** 2)


@cites("Machinery's Handbook", formula="h_c = h_a − (s_n / 2) sin α_n cos α_n")
def constant_chord_height(gear: Gear) -> Millimetre:
    """Height of the tip above the constant chord, mm."""
    return Millimetre(addendum(gear) - tooth_thickness(gear) / 4.0 * math.sin(2.0 * gear.pressure_angle))
