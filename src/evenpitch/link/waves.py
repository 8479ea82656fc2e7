"""What errors that repeat, steps and settings leave on spacing and helix: closed forms. Lengths all in one unit, angles in radian."""

from __future__ import annotations

import math
from fractions import Fraction

from evenpitch.quantity.units import Millimetre, Radian
from evenpitch.sources.citations import cites


def phases(per_turn: Fraction | int, teeth: int) -> int:
    """At how many places of the wave the spaces stand."""
    return (Fraction(per_turn) / teeth).denominator


@cites("derived here", formula="F_p = 2A (z′ even), 2A cos(π/2z′) (z′ odd), 0 (z′ = 1)")
def cumulative_share(per_turn: Fraction | int, teeth: int) -> float:
    """Total cumulative pitch deviation of a wave of amplitude 1, its phase being the worst."""
    met = phases(per_turn, teeth)
    if met == 1:
        return 0.0
    return 2.0 if met % 2 == 0 else 2 * math.cos(math.pi / (2 * met))


@cites("derived here", formula="f_p = 2A |sin(π h/z)|")
def single_share(per_turn: Fraction | int, teeth: int) -> float:
    """Largest single pitch deviation of a wave of amplitude 1, its phase being the worst the spaces meet."""
    if phases(per_turn, teeth) == 1:
        return 0.0
    return 2 * abs(math.sin(math.pi * float(Fraction(per_turn) / teeth)))


@cites("derived here", formula="j_1(k) = sin k/k² − cos k/k")
def bessel(k: float) -> float:
    """Spherical Bessel function of order 1: the share of a wave that a straight line takes up."""
    if abs(k) < 1e-3:
        return k / 3 - k**3 / 30
    return math.sin(k) / (k * k) - math.cos(k) / k


@cites("derived here", formula="f_Hβ = 6 A |j_1(π h b/L)|")
def slope_share(per_turn: float, face: Millimetre, lead: Millimetre) -> float:
    """Largest helix slope deviation of a wave of amplitude 1 along the base tangent; over all phases the mean square is half its square."""
    return 6 * abs(bessel(math.pi * per_turn * face / lead)) if math.isfinite(lead) else 0.0


@cites("derived here", formula="f_fβ ≤ 2A")
def form_share(per_turn: float, face: Millimetre, lead: Millimetre) -> float:
    """Most that a wave of amplitude 1 leaves on the form of the helix; a wave longer than four faces bends it by its arc only."""
    if not math.isfinite(lead):
        return 0.0
    half = math.pi * per_turn * face / lead
    return 2.0 if half > math.pi / 4 else 1 - math.cos(half)


@cites("derived here", formula="F_p = 2e/cos α_t,  f_p = 2e sin(π/z)/cos α_t,  F_r = 2e")
def eccentric_blank(eccentricity: float, teeth: int, transverse_angle: Radian) -> tuple[float, float, float]:
    """F_p, f_p and F_r of a blank that runs out, in the unit of the eccentricity."""
    along = eccentricity / math.cos(transverse_angle)
    return cumulative_share(1, teeth) * along, single_share(1, teeth) * along, 2 * eccentricity


@cites("derived here", formula="f_Hβ = b (g cos α_t ± g_v sin α_t)")
def axis_slopes(face: Millimetre, side: float, upright: float, transverse_angle: Radian) -> tuple[float, float]:
    """Helix slope of the two flanks when the work axis is not along the travel: sideways and upright, radian; mm."""
    plain, other = side * math.cos(transverse_angle), upright * math.sin(transverse_angle)
    return face * (plain + other), face * (plain - other)


@cites("derived here", formula="1/cos ψ − 1")
def cosine_error(tilt: Radian) -> float:
    """Relative error of a scale that is not along the travel."""
    return 1 / math.cos(tilt) - 1


@cites("derived here", formula="x = h_A δ")
def abbe_error(offset: Millimetre, turned: Radian) -> Millimetre:
    """Error of a scale beside the work, where the table turns a little as it moves."""
    return Millimetre(offset * turned)


@cites("derived here", formula="f_Hβ = 6 J ξ (1 − ξ),  F_β = max(J, ...)")
def jump_slope(jump: float, part: float) -> float:
    """Helix slope of one jump at a part of the face."""
    return 6 * jump * part * (1 - part)


@cites("derived here", formula="F_β = J")
def jump_total(jump: float) -> float:
    """Total helix deviation of one jump: below its slope where the jump is in the middle."""
    return abs(jump)


@cites("derived here", formula="E[(6 J ξ (1 − ξ))²] = 36 (a²/3)/30")
def jump_slope_sd(half_width: float) -> float:
    """Standard deviation of the slope from a jump even within ±a at a place even along the face."""
    return math.sqrt(36 * half_width**2 / 3 / 30)


@cites("derived here", formula="f_Hβ = b tan β_b |ε|")
def ratio_slope(face: Millimetre, base_helix: Radian, relative: float) -> Millimetre:
    """Helix slope of a lead or ratio that is off by a part."""
    return Millimetre(face * math.tan(base_helix) * abs(relative))
