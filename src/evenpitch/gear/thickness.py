"""Tooth thickness: on the pitch cylinder, at any diameter, at the tip, and where the tooth comes to a point."""

from __future__ import annotations

import math
from dataclasses import replace

from evenpitch.gear.gear import Gear
from evenpitch.gear.halving import bisect
from evenpitch.gear.involute import inverse_involute, involute
from evenpitch.gear.rack import RACKS
from evenpitch.gear.sizes import (
    base_diameter,
    outside_diameter,
    pitch_diameter,
    pressure_angle_at,
    transverse_pressure_angle,
)
from evenpitch.quantity.units import Millimetre
from evenpitch.sources.citations import cites


@cites("ISO 21771:2007", formula="s_n = m_n (π/2 + 2 x tan α_n)")
def tooth_thickness(gear: Gear) -> Millimetre:
    """Normal arc thickness on the pitch cylinder, mm, without the thinning for backlash."""
    return Millimetre(gear.module * (math.pi / 2 + 2.0 * gear.shift * math.tan(gear.pressure_angle)))


@cites("ISO 21771:2007", formula="s_n − T")
def thinned_thickness(gear: Gear) -> Millimetre:
    """Normal arc thickness on the pitch cylinder, mm, less the thinning T of the gear, taken evenly over the flank."""
    return Millimetre(tooth_thickness(gear) - gear.thinning)


@cites("ISO 21771:2007", formula="s_t = s_n / cos β")
def transverse_thickness(gear: Gear) -> Millimetre:
    """Arc thickness on the pitch circle square to the axis, mm, without the thinning."""
    return Millimetre(tooth_thickness(gear) / math.cos(gear.helix))


@cites("DIN 3967:1978", formula="x_E = x − T / (2 m_n tan α_n)")
def thinned_evenly(gear: Gear) -> Gear:
    """The gear whose shift holds the thinning: the same flanks as a tooth thinned evenly, on the unchanged outside diameter.

    Its addendum and dedendum are not those of the gear; use it for thickness, span and pins only.
    """
    shift = gear.shift - gear.thinning / (2.0 * gear.module * math.tan(gear.pressure_angle))
    return replace(gear, shift=shift, thinning=Millimetre(0.0))


@cites("ISO 21771:2007", formula="s_y = d_y (s_t/d + inv α_t − inv α_y)")
def thickness_at(gear: Gear, diameter: Millimetre) -> Millimetre:
    """Transverse arc thickness at the cylinder `diameter` mm (not inside the base cylinder), mm, without the thinning."""
    angle = transverse_thickness(gear) / pitch_diameter(gear) + involute(transverse_pressure_angle(gear))
    return Millimetre(diameter * (angle - involute(pressure_angle_at(gear, diameter))))


def tip_thickness(gear: Gear) -> Millimetre:
    """Transverse arc thickness at the tip, mm; negative where the flanks would have met inside the outside diameter."""
    return thickness_at(gear, outside_diameter(gear))


@cites("ISO 21771:2007", formula="inv α_y = s_t/d + inv α_t;  d_y = d_b / cos α_y")
def pointed_diameter(gear: Gear) -> Millimetre:
    """Diameter at which the flanks meet in a point, mm."""
    angle = transverse_thickness(gear) / pitch_diameter(gear) + involute(transverse_pressure_angle(gear))
    return Millimetre(base_diameter(gear) / math.cos(inverse_involute(angle)))


@cites("ISO 21771:2007", formula="x for which s_a = 0, by bisection")
def pointed_shift(gear: Gear) -> float:
    """The shift at which the tip of this gear comes to a point (its depth system kept)."""

    def left_at_tip(shift: float) -> float:
        return float(tip_thickness(replace(gear, shift=shift)))

    return bisect(left_at_tip, -RACKS[gear.depth].addendum, 100.0)
