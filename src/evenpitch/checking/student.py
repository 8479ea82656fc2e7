"""Student's t for any number of degrees of freedom, without the long start of a library of functions."""

from __future__ import annotations

import math
from functools import lru_cache

from evenpitch.gear.halving import ridders
from evenpitch.sources.citations import cites

TINY = 1e-300
TERMS = 500
WITHIN = 1e-13


def _continued(x: float, a: float, b: float) -> float:
    """The continued fraction of the incomplete beta integral, by Lentz's rule; quick for x below (a + 1)/(a + b + 2)."""
    c, d = 1.0, 1.0 - (a + b) * x / (a + 1.0)
    d = 1.0 / (d if abs(d) > TINY else TINY)
    made = d
    for m in range(1, TERMS):
        for term in (
            m * (b - m) * x / ((a + 2 * m - 1.0) * (a + 2 * m)),
            -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1.0)),
        ):
            d = 1.0 + term * d
            c = 1.0 + term / c
            d = 1.0 / (d if abs(d) > TINY else TINY)
            c = c if abs(c) > TINY else TINY
            made *= c * d
        if abs(c * d - 1.0) < 1e-16:
            break
    return made


def _beta(x: float, a: float, b: float) -> float:
    """I_x(a, b), the regularised incomplete beta integral."""
    if not 0.0 < x < 1.0:
        return min(max(x, 0.0), 1.0)
    front = math.exp(math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b) + a * math.log(x) + b * math.log1p(-x))
    if x < (a + 1.0) / (a + b + 2.0):
        return front * _continued(x, a, b) / a
    return 1.0 - front * _continued(1.0 - x, b, a) / b


@cites("JCGM 100:2008, G.3", formula="P(|t| > t_p) = I_x(ν/2, 1/2),  x = ν/(ν + t_p²)")
def outside(t: float, freedom: float) -> float:
    """Probability that |t| is exceeded, both ways together."""
    return _beta(freedom / (freedom + t * t), freedom / 2.0, 0.5)


@lru_cache(maxsize=256)
def student(share: float, freedom: float) -> float:
    """The t that holds `share` of the middle; `freedom` 1 or more, not infinite."""
    high = 2.0
    while outside(high, freedom) > 1.0 - share:
        high *= 2.0
    return ridders(lambda t: outside(t, freedom) - (1.0 - share), 0.0, high, WITHIN)
