"""Tip error a disc cutter leaves on a helical gear, from the contact of the disc with the screw of the groove.

A disc cutter touches a helical groove along a curve, not in one plane, so the outlines of two spur spaces do not tell the error:
on small counts they overstate it by a fifth.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache

from evenpitch.gear.gear import Gear
from evenpitch.gear.halving import ridders
from evenpitch.gear.involute import involute
from evenpitch.gear.rack import rack_addendum, rack_dedendum
from evenpitch.gear.sizes import base_diameter, base_helix, pitch_diameter, transverse_pressure_angle
from evenpitch.quantity.units import Millimetre, Radian
from evenpitch.sources.citations import cites

HELICAL_TIP_HEIGHT = 0.97
"""Height above the pitch cylinder, in addenda, at which the error of a helical tip is taken: just inside its corner."""


WITHIN = 1e-11
"""Millimetres of radius on the form to which a place of contact is found."""
NEAR = 0.03
"""Modules either way in which it is looked for first."""


@dataclass(frozen=True, slots=True)
class _Outline:
    """Axial half width and radius of the cutter at one point of its form, with their slopes by the radius of the form gear."""

    width: float
    radius: float
    width_slope: float
    radius_slope: float


def _outline(made_for: float, gear: Gear, cutter_outside: float, at: float) -> _Outline:
    """The cutter's form is the space of a spur gear of `made_for` teeth; `at` is the radius on that gear."""
    pitch_radius = made_for * gear.module / 2
    base = pitch_radius * math.cos(gear.pressure_angle)
    pressure = math.acos(min(1.0, base / at))
    angle = math.pi / (2 * made_for) - involute(gear.pressure_angle) + involute(Radian(pressure))
    turn = math.tan(pressure) / at
    floor = pitch_radius - rack_dedendum(gear.depth, gear.module)
    sine, cosine = math.sin(angle), math.cos(angle)
    return _Outline(
        at * sine,
        cutter_outside / 2 - (at * cosine - floor),
        sine + at * cosine * turn,
        -(cosine - at * sine * turn),
    )


def _contact(outline: _Outline, centres: float, helix: float, screw: float) -> tuple[float, float, float]:
    """The point (x, y, z) where this circle of the cutter touches the groove: its normal has no moment against the screw."""
    sine, cosine = math.sin(helix), math.cos(helix)
    a = outline.width_slope * (cosine + screw * centres * sine)
    b = screw * (outline.width * outline.width_slope + outline.radius * outline.radius_slope) * cosine
    d = outline.radius_slope * (screw * centres * cosine - sine)
    h = a * a + b * b
    k = math.sqrt(max(0.0, h - d * d))
    s, c = max(((a * d - b * k) / h, (b * d + a * k) / h), ((a * d + b * k) / h, (b * d - a * k) / h), key=lambda pair: pair[1])
    return (
        centres - outline.radius * c,
        outline.width * cosine + outline.radius * s * sine,
        -outline.width * sine + outline.radius * s * cosine,
    )


def _deviation(gear: Gear, made_for: float, cutter_outside: float, sink: float) -> Callable[[float], float]:
    """Deviation along the normal (+ metal left) as a function of the radius on the gear, the cutter `sink` mm too deep."""
    pitch, base = pitch_diameter(gear) / 2, base_diameter(gear) / 2
    screw = math.tan(gear.helix) / pitch
    centres = pitch - rack_dedendum(gear.depth, gear.module) + cutter_outside / 2 - sink
    start = math.pi / (2 * gear.teeth) - involute(transverse_pressure_angle(gear))
    along = base * math.cos(base_helix(gear))
    form_pitch = made_for * gear.module / 2
    form_base = form_pitch * math.cos(gear.pressure_angle)

    def at_radius(radius: float) -> float:
        def polar(form: float) -> tuple[float, float]:
            x, y, z = _contact(_outline(made_for, gear, cutter_outside, form), centres, gear.helix, screw)
            return math.hypot(x, y), math.atan2(y, x) - screw * z

        def past(form: float) -> float:
            return polar(form)[0] - radius

        low, high = form_base * (1 + 1e-9), form_pitch + 3 * gear.module
        about = form_pitch + radius - pitch  # the form is a spur gear's, and as far above its pitch circle within a little
        near = (max(low, about - NEAR * gear.module), about + NEAR * gear.module)
        found, angle = polar(_place(past, *(near if past(near[0]) < 0 < past(near[1]) else (low, high))))
        roll = math.sqrt(found * found - base * base) / base
        return along * (start + roll - math.atan(roll) - angle)

    return at_radius


def _place(past: Callable[[float], float], low: float, high: float) -> float:
    """Where a form reaches the radius wanted. Near its base circle a form may fold back: then the outer place, by halving."""
    if past(low) < 0 < past(high):
        return ridders(past, low, high, WITHIN)
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if past(middle) < 0 else (low, middle)
    return high


@lru_cache(maxsize=512)
@cites(
    "derived here",
    formula="δ = r_b cos β_b [π/2z − inv α_t + inv α_ρ − χ(ρ)], χ from the contact of the disc with the groove",
)
def helical_tip_error(gear: Gear, made_for: float, cutter_outside: Millimetre) -> Millimetre:
    """Error at the tip, mm along the normal, positive = tip relieved, of a disc cutter swung to the helix angle.

    The cutter, `cutter_outside` mm over its teeth and made for `made_for` teeth, is sunk until the flank is right on the pitch
    cylinder. Limits: a pure involute form, an unshifted gear, 12 teeth or more, 45° of helix or less.
    """
    pitch = pitch_diameter(gear) / 2
    tip = pitch + HELICAL_TIP_HEIGHT * rack_addendum(gear.depth, gear.module)
    first, second = 0.0, 0.01
    before = _deviation(gear, made_for, cutter_outside, first)(pitch)
    for _ in range(12):
        now = _deviation(gear, made_for, cutter_outside, second)(pitch)
        if abs(now) < 1e-8 or now == before:
            break
        first, second, before = second, second - now * (second - first) / (now - before), now
    return Millimetre(-_deviation(gear, made_for, cutter_outside, second)(tip))
