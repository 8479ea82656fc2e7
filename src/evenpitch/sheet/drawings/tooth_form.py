"""The outline of teeth and spaces in one plane: involute flanks, radial below the base circle, arcs at tip and root.

Limits: no fillet at the root and no undercut, as a form cutter leaves them; flanks follow the involute down to the base circle.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache

from evenpitch.gear.gear import Gear
from evenpitch.gear.halving import bisect, ridders
from evenpitch.gear.involute import involute
from evenpitch.gear.sizes import addendum, dedendum, transverse_module, transverse_pressure_angle
from evenpitch.quantity.units import Radian
from evenpitch.sheet.drawing import Point

WITHIN = 1e-9
"""Millimetres of radius to which a place on a flank is found."""


@dataclass(frozen=True, slots=True)
class ToothForm:
    """Teeth in one plane. `teeth` may be broken (what a disc cutter sees); lengths in mm, angles rad; `thinning` arc, both flanks."""

    teeth: float
    module: float
    pressure_angle: float
    addendum: float
    dedendum: float
    shift: float = 0.0
    thinning: float = 0.0

    @property
    def pitch_radius(self) -> float:
        """Half the pitch diameter, mm."""
        return self.teeth * self.module / 2

    @property
    def base_radius(self) -> float:
        """Half the base diameter, mm."""
        return self.pitch_radius * math.cos(self.pressure_angle)

    @property
    def tip_radius(self) -> float:
        """Half the outside diameter, mm."""
        return self.pitch_radius + self.addendum

    @property
    def root_radius(self) -> float:
        """Half the root diameter, mm."""
        return self.pitch_radius - self.dedendum

    def half_tooth(self, radius: float) -> float:
        """Half the angle a tooth takes at a radius, rad; below the base circle that of the base circle."""
        arc = self.module * (math.pi / 2 + 2 * self.shift * math.tan(self.pressure_angle)) - self.thinning
        at_radius = math.acos(min(1.0, self.base_radius / max(radius, self.base_radius)))
        return arc / self.teeth / self.module + involute(Radian(self.pressure_angle)) - involute(Radian(at_radius))

    def half_space(self, radius: float) -> float:
        """Half the angle a tooth space takes at a radius, rad."""
        return math.pi / self.teeth - self.half_tooth(radius)

    def made_for(self, teeth: float) -> ToothForm:
        """The same cutter form made for another count: same pitch, depth and thickness."""
        return replace(self, teeth=teeth)


def end_form(gear: Gear) -> ToothForm:
    """The gear as seen on its end face, square to the axis."""
    slant = math.cos(gear.helix)
    return ToothForm(
        gear.teeth,
        transverse_module(gear),
        transverse_pressure_angle(gear),
        addendum(gear),
        dedendum(gear),
        gear.shift * slant,
        gear.thinning / slant,
    )


def seen_by_cutter(gear: Gear, teeth_seen: float) -> ToothForm:
    """The space across the teeth, as a disc cutter sees it: the form of a spur gear of `teeth_seen` teeth."""
    return ToothForm(teeth_seen, gear.module, gear.pressure_angle, addendum(gear), dedendum(gear), gear.shift, gear.thinning)


def land_radius(form: ToothForm) -> float:
    """The tip radius, or where the flanks meet in a point short of it."""
    if form.half_tooth(form.tip_radius) >= 0:
        return form.tip_radius
    return bisect(form.half_tooth, max(form.root_radius, form.base_radius), form.tip_radius)


def flank_radii(form: ToothForm, chord_error: float) -> tuple[float, ...]:
    """Radii from root to tip whose chords stay within `chord_error` mm of the involute.

    Steps are even in roll angle t, where the curvature radius is r_b t: a step dt leaves r_b t dt² / 8.
    """
    low, high = max(form.root_radius, form.base_radius), land_radius(form)
    start, end = (math.sqrt(max(0.0, (r / form.base_radius) ** 2 - 1)) for r in (low, high))
    step = math.sqrt(8 * chord_error / (form.base_radius * max(end, 1e-9)))
    count = max(1, math.ceil((end - start) / step))
    rolls = [start + (end - start) * k / count for k in range(count + 1)]
    radii = [form.base_radius * math.hypot(1.0, t) for t in rolls]
    radii[0], radii[-1] = low, high
    return (form.root_radius, *radii) if form.root_radius < low - 1e-9 else tuple(radii)


def _arc(radius: float, start: float, end: float, chord_error: float) -> list[tuple[float, float]]:
    """Polar points strictly between two angles on an arc."""
    step = 2 * math.acos(max(0.0, 1 - chord_error / radius))
    count = max(1, math.ceil(abs(end - start) / step))
    return [(radius, start + (end - start) * k / count) for k in range(1, count)]


def tooth_polar(form: ToothForm, middle: float, chord_error: float) -> list[tuple[float, float]]:
    """One tooth as (radius, angle) from root to root, anticlockwise, its middle at an angle; then half of the root arc after it."""
    radii = flank_radii(form, chord_error)
    rising = [(r, middle - form.half_tooth(r)) for r in radii]
    falling = [(r, middle + form.half_tooth(r)) for r in reversed(radii)]
    tip = _arc(radii[-1], rising[-1][1], falling[0][1], chord_error)
    floor_end = middle + 2 * math.pi / form.teeth - form.half_tooth(form.root_radius)
    floor = _arc(form.root_radius, falling[-1][1], floor_end, chord_error)
    return [*rising, *tip, *falling, *floor]


def all_teeth(form: ToothForm, chord_error: float, middle: float = math.pi / 2) -> tuple[Point, ...]:
    """The closed outline of the whole gear about the origin, mm; a tooth stands at `middle`."""
    whole = round(form.teeth)
    points: list[Point] = []
    for k in range(whole):
        points += [
            (r * math.cos(a), r * math.sin(a)) for r, a in tooth_polar(form, middle + 2 * math.pi * k / whole, chord_error)
        ]
    return tuple(points)


def space_right(form: ToothForm, chord_error: float = 0.0005) -> tuple[Point, ...]:
    """The right flank of a tooth space standing upright, floor to tip: x from its middle, y from the pitch line, mm."""
    return tuple(place_at(form, radius) for radius in flank_radii(form, chord_error))


def place_at(form: ToothForm, radius: float) -> Point:
    """A point of the right flank of an upright space: x from its middle, y from the pitch line, mm."""
    angle = form.half_space(radius)
    return radius * math.sin(angle), radius * math.cos(angle) - form.pitch_radius


@lru_cache(maxsize=64)
def open_radius(form: ToothForm) -> float:
    """The radius up to which the space widens upwards: the tip, or less where a few large teeth curl over it."""
    radii = [form.root_radius + (form.tip_radius - form.root_radius) * k / 400 for k in range(401)]
    heights = [place_at(form, r)[1] for r in radii]
    return next((r for r, a, b in zip(radii, heights, heights[1:], strict=False) if b <= a), form.tip_radius)


def half_width(form: ToothForm, height: float) -> float:
    """Half the width of the space at a height above the pitch line, mm.

    Above the tip the flank is continued as far as it still rises.
    """
    low, high = 0.5 * form.pitch_radius, open_radius(replace(form, addendum=form.addendum + form.module))
    if place_at(form, high)[1] <= height or place_at(form, low)[1] >= height:
        return place_at(form, high if place_at(form, high)[1] <= height else low)[0]
    return place_at(form, ridders(lambda radius: place_at(form, radius)[1] - height, low, high, WITHIN))[0]
