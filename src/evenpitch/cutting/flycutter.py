"""The fly cutter, when no cutter in the drawer will do: outline of its bit, one arc per flank, widths to check it by."""

from __future__ import annotations

import math
from dataclasses import dataclass

from evenpitch.gear.involute import involute
from evenpitch.quantity.units import Millimetre, Radian
from evenpitch.sources.citations import cites

RELIEF_DEGREES = (8.0, 12.0)
"""Relief behind the edge; common practice. With no rake the edge is the form itself."""

ARC_BELOW_PITCH = 1.1
"""The arc goes through the flank at the tip, on the pitch line, and this many modules below it; common practice."""


@dataclass(frozen=True, slots=True)
class BitPoint:
    """A point of the flank: half width of the space and depth below the outside circle, mm."""

    half_width: Millimetre
    depth: Millimetre


@dataclass(frozen=True, slots=True)
class FlankArc:
    """One arc for a flank: its radius; its centre, off the centre line and below the outside circle. `least`..`most`: how far the
    true flank lies outside the arc, mm (negative: inside)."""

    radius: Millimetre
    off_centre: Millimetre
    below_outside: Millimetre
    least: Millimetre
    most: Millimetre


@dataclass(frozen=True, slots=True)
class FlyCutter:
    """The bit: the flank from tip to floor, the arc that stands in for it, and the widths at tip, pitch line and floor."""

    outline: tuple[BitPoint, ...]
    arc: FlankArc
    checks: tuple[BitPoint, BitPoint, BitPoint]


@dataclass(frozen=True, slots=True)
class SpaceForm:
    """The space wanted: a gear of `teeth` (a fraction on a helix: its form teeth), no shift; module, heights in mm."""

    teeth: float
    module: Millimetre
    pressure_angle: Radian
    addendum: Millimetre
    dedendum: Millimetre


@cites("ISO 21771:2007", formula="half width = ρ sin(π/2z − inv α + inv α_ρ), depth = r_a − ρ cos(...)")
def flank_point(form: SpaceForm, radius: Millimetre) -> BitPoint:
    """The flank of the space at `radius` mm from the work's axis; radial inside the base circle."""
    pitch = form.teeth * form.module / 2
    base = pitch * math.cos(form.pressure_angle)
    at = Radian(math.acos(min(1.0, base / radius)))
    angle = math.pi / (2 * form.teeth) - involute(form.pressure_angle) + involute(at)
    return BitPoint(Millimetre(radius * math.sin(angle)), Millimetre(pitch + form.addendum - radius * math.cos(angle)))


def fly_cutter(form: SpaceForm, points: int = 25) -> FlyCutter:
    """The bit for a space, drawn with `points` points from the tip to the floor."""
    pitch = form.teeth * form.module / 2
    tip, floor = pitch + form.addendum, pitch - form.dedendum
    outline = tuple(flank_point(form, Millimetre(tip + (floor - tip) * i / (points - 1))) for i in range(points))
    marks = (flank_point(form, Millimetre(tip)), flank_point(form, Millimetre(pitch)), flank_point(form, Millimetre(floor)))
    return FlyCutter(outline, _arc(form, tip, pitch, floor), marks)


@cites("derived here", formula="circle through the flank at the tip, on the pitch line and 1.1 m below it")
def _arc(form: SpaceForm, tip: float, pitch: float, floor: float) -> FlankArc:
    base = pitch * math.cos(form.pressure_angle)
    lowest = max(floor, base, pitch - ARC_BELOW_PITCH * form.module)
    first, second, third = (flank_point(form, Millimetre(radius)) for radius in (tip, pitch, lowest))
    x, y = _centre(first, second, third)
    radius = math.hypot(first.half_width - x, first.depth - y)
    start = max(floor, base)
    places = (flank_point(form, Millimetre(start + (tip - start) * i / 200)) for i in range(201))
    gaps = [math.hypot(place.half_width - x, place.depth - y) - radius for place in places]
    return FlankArc(Millimetre(radius), Millimetre(x), Millimetre(y), Millimetre(min(gaps)), Millimetre(max(gaps)))


def _centre(first: BitPoint, second: BitPoint, third: BitPoint) -> tuple[float, float]:
    """Centre of the circle through three points."""
    ax, ay, bx, by, cx, cy = (
        *(first.half_width, first.depth),
        *(second.half_width, second.depth),
        *(third.half_width, third.depth),
    )
    double = 2 * (ax * (by - cy) + bx * (cy - ay) + cx * (ay - by))
    a, b, c = ax * ax + ay * ay, bx * bx + by * by, cx * cx + cy * cy
    x = (a * (by - cy) + b * (cy - ay) + c * (ay - by)) / double
    y = (a * (cx - bx) + b * (ax - cx) + c * (bx - ax)) / double
    return x, y
