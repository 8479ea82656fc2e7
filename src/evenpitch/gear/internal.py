"""An internal gear as a mate: it cannot be form-milled on this kind of rig, but its pinion can, so its sizes are wanted.

Convention: the count is positive, and a positive shift moves the tool outward and makes the space wider. A ring is then described
by its twin, the external gear with the same count, module, angles and shift: what is a tooth there is a space here. So the span
inside a spur ring over k spaces is the span of the twin over k teeth.
"""

from __future__ import annotations

import math

from evenpitch.gear.gear import Gear
from evenpitch.gear.involute import inverse_involute, involute
from evenpitch.gear.rack import rack_addendum, rack_dedendum
from evenpitch.gear.sizes import base_diameter, pitch_diameter, transverse_pressure_angle
from evenpitch.quantity.units import Millimetre, Radian
from evenpitch.sources.citations import cites


@cites("ISO 21771:2007", formula="inv φ = inv α_t − D_M/(z m_n cos α_n) + π/(2z) + 2 x tan α_n / z")
def ring_pin_pressure_angle(twin: Gear, pin: Millimetre) -> Radian:
    """Transverse pressure angle at the centre of a pin or ball in a space of the ring, rad."""
    z = twin.teeth
    return inverse_involute(
        involute(transverse_pressure_angle(twin))
        - pin / (z * twin.module * math.cos(twin.pressure_angle))
        + math.pi / (2 * z)
        + 2.0 * twin.shift * math.tan(twin.pressure_angle) / z
    )


@cites("ISO 21771:2007", formula="M = d_c − D_M;  odd: d_c cos(90°/z) − D_M")
def between_pins(twin: Gear, pin: Millimetre) -> Millimetre:
    """Size between two pins (spur) or balls (spur or helical) in opposite spaces of the ring, mm. No pin fits a helical ring."""
    centre = base_diameter(twin) / math.cos(ring_pin_pressure_angle(twin, pin))
    out_of_line = math.cos(math.pi / (2 * twin.teeth)) if twin.teeth % 2 else 1.0
    return Millimetre(centre * out_of_line - pin)


@cites("Elements of Metric Gear Technology, section 10.3", formula="φ = tan α_v − η;  D_M = d_b (tan α_v − tan φ)")
def best_ring_pin(twin: Gear) -> Millimetre:
    """The pin that touches the flanks of a spur ring on the cylinder d + 2 x m, mm; η is half the space angle at the base circle."""
    middle = pitch_diameter(twin) + 2.0 * twin.shift * twin.module
    at_contact = math.tan(math.acos(min(1.0, base_diameter(twin) / middle)))
    half_space = math.pi / (2 * twin.teeth) + involute(transverse_pressure_angle(twin))
    half_space += 2.0 * twin.shift * math.tan(twin.pressure_angle) / twin.teeth
    # Contact one pin radius outside the centre along the common tangent: tan φ = tan α_v − D/d_b, and inv φ = half space − D/d_b.
    angle = at_contact - half_space
    return Millimetre(base_diameter(twin) * (at_contact - math.tan(angle)))


@cites("ISO 21771:2007", formula="inv α_wt = inv α_t + 2 (x_2 − x_1) tan α_n / (z_2 − z_1);  a = a_0 cos α_t / cos α_wt")
def ring_centre_distance(pinion: Gear, twin: Gear) -> Millimetre:
    """Centre distance of a pinion inside a ring without backlash, mm."""
    rise = 2.0 * (twin.shift - pinion.shift) * math.tan(pinion.pressure_angle) / (twin.teeth - pinion.teeth)
    working = inverse_involute(involute(transverse_pressure_angle(pinion)) + rise)
    return Millimetre((base_diameter(twin) - base_diameter(pinion)) / (2.0 * math.cos(working)))


@cites("ISO 21771:2007", formula="d_a = d − 2 (h_a* − x) m_n")
def ring_inside_diameter(twin: Gear) -> Millimetre:
    """Diameter over the tips of the ring, mm, its tooth tips being innermost."""
    return Millimetre(pitch_diameter(twin) - 2.0 * (rack_addendum(twin.depth, twin.module) - twin.shift * twin.module))


@cites("ISO 21771:2007", formula="d_f = d + 2 (h_f* + x) m_n")
def ring_root_diameter(twin: Gear) -> Millimetre:
    """Diameter at the bottom of the ring's spaces, mm."""
    return Millimetre(pitch_diameter(twin) + 2.0 * (rack_dedendum(twin.depth, twin.module) + twin.shift * twin.module))
