"""The involute function and its inverse, over the whole range, without losing digits at either end."""

from __future__ import annotations

import math
from fractions import Fraction

from evenpitch.quantity.units import Radian
from evenpitch.sources.citations import cites

_SERIES_BELOW = 0.5
"""Below this angle tan α − α loses digits; the series does not, and 24 terms of it hold full double precision."""


def _tangent_series(terms: int) -> tuple[float, ...]:
    """Coefficients of α³, α⁵ ... of tan α, from tan′ = 1 + tan²."""
    tangent = [Fraction(1)]
    for n in range(1, terms + 1):
        tangent.append(sum((tangent[i] * tangent[n - 1 - i] for i in range(n)), Fraction(0)) / (2 * n + 1))
    return tuple(float(value) for value in tangent[1:])


_COEFFICIENTS = _tangent_series(24)


@cites("ISO 21771:2007", formula="inv α = tan α − α")
def involute(angle: Radian) -> float:
    """The involute function: polar angle of an involute at the point of pressure angle `angle` (−π/2 < angle < π/2), rad."""
    if abs(angle) >= _SERIES_BELOW:
        return math.tan(angle) - angle
    square = angle * angle
    total = 0.0
    for coefficient in reversed(_COEFFICIENTS):
        total = total * square + coefficient
    return total * square * angle


@cites("ISO 21771:2007", formula="α from inv α = tan α − α, by Newton on t − atan t with t = tan α")
def inverse_involute(value: float) -> Radian:
    """The pressure angle whose involute function is `value`, rad; odd, so a negative value gives a negative angle.

    There is no closed form. t − atan t is convex, so Newton comes down on the root from above and cannot miss it.
    """
    if value < 0.0:
        return Radian(-inverse_involute(-value))
    if value == 0.0:
        return Radian(0.0)
    tangent = math.cbrt(3.0 * value) if value < 1.0 else value + math.pi / 2
    for _ in range(60):
        step = (_from_tangent(tangent) - value) * (1.0 + 1.0 / (tangent * tangent))
        tangent -= step
        if abs(step) <= 2e-16 * tangent:
            break
    return Radian(math.atan(tangent))


def _from_tangent(tangent: float) -> float:
    angle = math.atan(tangent)
    return involute(Radian(angle)) if angle < _SERIES_BELOW else tangent - angle
