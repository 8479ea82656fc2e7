"""Size over pins or balls in opposite spaces: even and odd, spur and helical, and the way back to the thickness.

A straight pin lies in a helical space at the same radius as a ball. Two such pins meet wide parallel anvils only when their seats
stand exactly opposite, half an axial pitch apart, so pins on a helical gear with an odd count take no cosine; balls do.
"""

from __future__ import annotations

import math

from evenpitch.gear.best_pin import best_pin
from evenpitch.gear.gear import Gear
from evenpitch.gear.involute import inverse_involute, involute
from evenpitch.gear.sizes import (
    axial_pitch,
    base_diameter,
    base_helix,
    pitch_diameter,
    transverse_pressure_angle,
)
from evenpitch.gear.thickness import thinned_evenly
from evenpitch.quantity.refusal import refuse
from evenpitch.quantity.units import Millimetre, Radian
from evenpitch.sources.citations import cites

USUAL_PIN_FACTOR = 1.728
"""Usual pin of the diametral-pitch system: 1.728 / P, 1.728 modules."""


@cites("Machinery's Handbook", formula="D_M = 1.728 / P = 1.728 m_n")
def usual_pin(gear: Gear) -> Millimetre:
    """The usual pin, mm."""
    return Millimetre(USUAL_PIN_FACTOR * gear.module)


def usual_pin_serves(gear: Gear) -> bool:
    """False where the usual pin would fall between the flanks of the thinned tooth (small angle, few teeth, negative shift)."""
    return pin_involute(thinned_evenly(gear), usual_pin(gear)) > 0.0


def pin_of(gear: Gear) -> Millimetre:
    """The pin or ball in use, mm: the maker's choice, the usual one, or, where that falls through, the best one."""
    if gear.pin is not None:
        return gear.pin
    return usual_pin(gear) if usual_pin_serves(gear) else best_pin(thinned_evenly(gear))


@cites("ISO 21771:2007", formula="inv φ = inv α_t + D_M/(z m_n cos α_n) − π/(2z) + 2 x tan α_n / z")
def pin_involute(gear: Gear, pin: Millimetre) -> float:
    """Involute function of the pressure angle at the pin's centre; 0 or less where the pin is too small to touch both flanks."""
    z = gear.teeth
    return (
        involute(transverse_pressure_angle(gear))
        + pin / (z * gear.module * math.cos(gear.pressure_angle))
        - math.pi / (2 * z)
        + 2.0 * gear.shift * math.tan(gear.pressure_angle) / z
    )


@cites("ISO 21771:2007", formula="inv φ = 0")
def smallest_touching_pin(gear: Gear) -> Millimetre:
    """The pin whose centre would stand on the base circle, mm; a smaller one falls between the flanks."""
    missing = -pin_involute(gear, Millimetre(0.0))
    return Millimetre(max(0.0, missing) * gear.teeth * gear.module * math.cos(gear.pressure_angle))


@cites("ISO 21771:2007", formula="φ from inv φ")
def pin_pressure_angle(gear: Gear, pin: Millimetre) -> Radian:
    """Transverse pressure angle at the centre of a pin of `pin` mm, rad. Refusal where the pin falls between the flanks."""
    value = pin_involute(gear, pin)
    if value <= 0.0:
        least = smallest_touching_pin(gear)
        raise refuse(
            "pin",
            f"{pin:.4g} mm",
            f"a pin above {least:.4f} mm",
            "So small a pin falls between the flanks of this gear.",
            f"Take one near {best_pin(gear):.3f} mm, or leave it out.",
        )
    return inverse_involute(value)


@cites("ISO 21771:2007", formula="d_c = d_b / cos φ")
def pin_centre_diameter(gear: Gear, pin: Millimetre) -> Millimetre:
    """Diameter of the circle through the pin centres, mm, without the thinning."""
    return Millimetre(base_diameter(gear) / math.cos(pin_pressure_angle(gear, pin)))


def over_centre_circle(gear: Gear, centre_diameter: Millimetre, pin: Millimetre, *, balls: bool) -> Millimetre:
    """Size over two pins or balls whose centres lie on a circle of that diameter, mm."""
    return Millimetre(centre_diameter * seat_factor(gear, balls=balls) + pin)


@cites("ISO 21771:2007", "AGMA 2002", formula="cos(90°/z) for odd z; 1 for even z and for straight pins on a helical gear")
def seat_factor(gear: Gear, *, balls: bool) -> float:
    """What the centre circle is multiplied by: two opposite spaces of an odd count are half a pitch out of line."""
    in_line = gear.teeth % 2 == 0 or (gear.helix != 0.0 and not balls)
    return 1.0 if in_line else math.cos(math.pi / (2 * gear.teeth))


@cites("ISO 21771:2007", formula="M = d_c + D_M;  odd spur: d_c cos(90°/z) + D_M")
def nominal_over_pins(gear: Gear, pin: Millimetre) -> Millimetre:
    """Over straight pins between wide parallel anvils, mm, without the thinning."""
    return over_centre_circle(gear, pin_centre_diameter(gear, pin), pin, balls=False)


@cites("ISO 21771:2007", formula="M = d_c + D_M;  odd: d_c cos(90°/z) + D_M")
def nominal_over_balls(gear: Gear, ball: Millimetre) -> Millimetre:
    """Over balls in one plane square to the axis, mm, without the thinning."""
    return over_centre_circle(gear, pin_centre_diameter(gear, ball), ball, balls=True)


@cites("ISO 21771:2007", formula="dM/ds_n = cos α_t / (cos β sin φ), × cos(90°/z) where the seat is out of line")
def change_per_thickness(gear: Gear, pin: Millimetre, *, balls: bool) -> float:
    """Change of the size over pins or balls for each unit of normal thickness taken evenly."""
    angle = math.cos(transverse_pressure_angle(gear)) / (math.cos(gear.helix) * math.sin(pin_pressure_angle(gear, pin)))
    return angle * seat_factor(gear, balls=balls)


@cites("ISO 21771:2007", formula="s_t = d [inv φ − D_M/(d_b cos β_b) + π/z − inv α_t],  cos φ = d_b / d_c")
def thickness_from_pins(gear: Gear, measured: Millimetre, pin: Millimetre, *, balls: bool = False) -> Millimetre:
    """Normal arc thickness on the pitch cylinder of the tooth measured, mm, taken as a true involute of this base circle."""
    centre = (measured - pin) / seat_factor(gear, balls=balls)
    at_centre = involute(Radian(math.acos(min(1.0, base_diameter(gear) / centre))))
    across = pin / (base_diameter(gear) * math.cos(base_helix(gear)))
    angle = at_centre - across + math.pi / gear.teeth - involute(transverse_pressure_angle(gear))
    return Millimetre(pitch_diameter(gear) * angle * math.cos(gear.helix))


@cites("derived here", formula="tan β_c = tan β d_c / d")
def pin_lie(gear: Gear, pin: Millimetre) -> Radian:
    """Angle at which a straight pin lies in a helical space, rad: the helix angle of the pin-centre cylinder."""
    return Radian(math.atan(math.tan(gear.helix) * pin_centre_diameter(gear, pin) / pitch_diameter(gear)))


@cites("derived here", formula="b ≥ p_x / 2 (odd count)")
def face_between_pins(gear: Gear) -> Millimetre:
    """How far apart along the axis two straight pins lie on a helical gear, mm; 0 where the seats are in one plane."""
    return Millimetre(0.0 if gear.helix == 0.0 or gear.teeth % 2 == 0 else axial_pitch(gear) / 2.0)
