"""Span (base tangent): the size over several teeth between parallel anvils, and over how many it can be taken."""

from __future__ import annotations

import math
from dataclasses import dataclass

from evenpitch.gear.gear import Gear
from evenpitch.gear.involute import involute
from evenpitch.gear.sizes import (
    base_diameter,
    base_helix,
    base_pitch,
    diameter_at_roll,
    outside_diameter,
    pitch_diameter,
    pressure_angle_at,
    roll_length_at,
    transverse_pressure_angle,
)
from evenpitch.gear.undercut import form_roll
from evenpitch.quantity.units import Millimetre
from evenpitch.sources.citations import cites


@cites("ISO 21771:2007", formula="W_k = m_n cos α_n [π (k − ½) + z inv α_t] + 2 x m_n sin α_n")
def nominal_span(gear: Gear, teeth_spanned: int) -> Millimetre:
    """Span over `teeth_spanned` teeth without thinning, mm; the involute of the transverse angle, the cosine of the normal one."""
    angle, module = gear.pressure_angle, gear.module
    across = math.pi * (teeth_spanned - 0.5) + gear.teeth * involute(transverse_pressure_angle(gear))
    return Millimetre(module * math.cos(angle) * across + 2.0 * gear.shift * module * math.sin(angle))


@cites("ISO 21771:2007", "DIN 3967:1978", formula="W_k − T cos α_n")
def span_target(gear: Gear, teeth_spanned: int) -> Millimetre:
    """Span over `teeth_spanned` teeth with the thinning T (normal arc) of the gear, mm."""
    return Millimetre(nominal_span(gear, teeth_spanned) - gear.thinning * math.cos(gear.pressure_angle))


@cites(
    "ISO 21771:2007",
    "Elements of Metric Gear Technology, section 10.2",
    formula="k = (z/π) [tan α_v / cos² β_b − (2x/z) tan α_n − inv α_t] + ½,  cos α_v = d_b / (d + 2 x m_n)",
)
def teeth_to_span(gear: Gear) -> float:
    """The number of teeth, not rounded, whose span touches the flanks on the cylinder d + 2 x m_n."""
    at_middle = pressure_angle_at(
        gear, Millimetre(max(pitch_diameter(gear) + 2.0 * gear.shift * gear.module, base_diameter(gear)))
    )
    bracket = (
        math.tan(at_middle) / math.cos(base_helix(gear)) ** 2
        - 2.0 * gear.shift / gear.teeth * math.tan(gear.pressure_angle)
        - involute(transverse_pressure_angle(gear))
    )
    return gear.teeth / math.pi * bracket + 0.5


def usual_spanned(gear: Gear) -> int:
    """Teeth to span where the maker names none: the nearest whole number, not below 2, moved into the admissible range."""
    usual = max(2, math.floor(teeth_to_span(gear) + 0.5))
    reach = span_reach(gear)
    return min(max(usual, reach.least), reach.most) if reach else usual


def spanned(gear: Gear) -> int:
    """Teeth spanned: the maker's choice, or the usual one."""
    return gear.spanned if gear.spanned is not None else usual_spanned(gear)


@cites("ISO 21771:2007", formula="d_M = √(d_b² + (W cos β_b)²)")
def span_contact_diameter(gear: Gear, span: Millimetre) -> Millimetre:
    """Diameter on which the anvils touch for a span of `span` mm."""
    return diameter_at_roll(gear, Millimetre(span * math.cos(base_helix(gear)) / 2.0))


@cites("ISO 21771:2007", formula="b = W sin β_b")
def face_needed(gear: Gear, span: Millimetre) -> Millimetre:
    """Least face on which a span of `span` mm can be taken square, mm; 0 for a spur gear."""
    return Millimetre(span * math.sin(base_helix(gear)))


@cites("DIN 3960:1987", formula="b ≥ W sin β_b + b_M cos β_b,  b_M = 1.2 + 0.018 W")
def face_wanted(gear: Gear, span: Millimetre) -> Millimetre:
    """Face on which the anvils also find a working width, mm (from memory); equal to 0 for a spur gear, which needs none."""
    if gear.helix == 0.0:
        return Millimetre(0.0)
    return Millimetre(face_needed(gear, span) + (1.2 + 0.018 * span) * math.cos(base_helix(gear)))


@dataclass(frozen=True, slots=True)
class SpanReach:
    """The numbers of teeth, least to most, whose span touches both outer flanks between the form circle and the tip."""

    least: int
    most: int

    def holds(self, teeth_spanned: int) -> bool:
        """True where that many teeth can be spanned."""
        return self.least <= teeth_spanned <= self.most


@cites("ISO 21771:2007", formula="d_F < d_M < d_a")
def span_reach(gear: Gear) -> SpanReach | None:
    """Every number of teeth that may be spanned, or None where there is none; the face is a separate question."""
    lean, none = math.cos(base_helix(gear)), span_target(gear, 0)
    low, high = form_roll(gear), roll_length_at(gear, outside_diameter(gear))
    least = max(1, math.floor((2.0 * low / lean - none) / base_pitch(gear)) + 1)
    most = math.ceil((2.0 * high / lean - none) / base_pitch(gear)) - 1
    return SpanReach(least, most) if least <= most else None


def span_can_be_taken(gear: Gear, teeth_spanned: int) -> bool:
    """True where the flanks reach the anvils and, on a helical gear of known face, the face is wide enough."""
    reach = span_reach(gear)
    wide = gear.face is None or gear.face >= face_needed(gear, span_target(gear, teeth_spanned))
    return reach is not None and reach.holds(teeth_spanned) and wide
