"""A spur tooth between two spaces whose form cutter was sunk: each flank moved bodily along the centre line of its own space."""

from __future__ import annotations

import math
from collections.abc import Callable

from evenpitch.gear.gear import Gear
from evenpitch.gear.halving import bisect
from evenpitch.gear.involute import involute
from evenpitch.gear.sizes import outside_diameter, pitch_diameter, pressure_angle_at, transverse_pressure_angle
from evenpitch.gear.thickness import pointed_diameter, transverse_thickness
from evenpitch.quantity.units import Millimetre
from evenpitch.sources.citations import cites


def sunk_flank(gear: Gear, radius: float, sink: Millimetre) -> tuple[float, float]:
    """Where the flank point first at `radius` mm stands after the sinking: along the tooth's centre line, and out from it, mm.

    Below the base circle the form is taken as radial (common practice of cutter makers).
    """
    half = transverse_thickness(gear) / pitch_diameter(gear) + involute(transverse_pressure_angle(gear))
    half -= involute(pressure_angle_at(gear, Millimetre(2.0 * radius)))
    half_pitch = math.pi / gear.teeth
    return (
        radius * math.cos(half) - sink * math.cos(half_pitch),
        radius * math.sin(half) - sink * math.sin(half_pitch),
    )


def _moved_to(gear: Gear, short_of: Callable[[float], float]) -> float | None:
    """The radius of the flank point that the sinking brings to a place; None where the tooth is cut away there."""
    low, high = 0.01 * gear.module, pointed_diameter(gear) / 2.0
    return None if short_of(high) <= 0.0 else bisect(short_of, low, high)


@cites("derived here", formula="chord at the height h̄ of the flanks moved by e along their space centre lines")
def sunk_chord(gear: Gear, height: Millimetre, sink: Millimetre) -> Millimetre:
    """Chord across the tooth `height` mm below the tip, mm, after sinking the form cutter of a spur gear by `sink` mm."""
    level = outside_diameter(gear) / 2.0 - height
    radius = _moved_to(gear, lambda r: sunk_flank(gear, r, sink)[0] - level)
    return Millimetre(0.0 if radius is None else max(0.0, 2.0 * sunk_flank(gear, radius, sink)[1]))


@cites("derived here", formula="arc at d of the flanks moved by e along their space centre lines")
def sunk_thickness(gear: Gear, sink: Millimetre) -> Millimetre:
    """Arc thickness on the pitch circle, mm, after sinking the form cutter of a spur gear by `sink` mm."""
    pitch_radius = pitch_diameter(gear) / 2.0
    radius = _moved_to(gear, lambda r: math.hypot(*sunk_flank(gear, r, sink)) - pitch_radius)
    if radius is None:
        return Millimetre(0.0)
    along, out = sunk_flank(gear, radius, sink)
    return Millimetre(max(0.0, 2.0 * pitch_radius * math.atan2(out, along)))
