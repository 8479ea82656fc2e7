"""One root of one function between two places where its sign differs."""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import pairwise


def bisect(function: Callable[[float], float], low: float, high: float) -> float:
    """The root of `function` between `low` and `high`, to the last bit. ValueError where the signs there do not differ.

    Halving, because it cannot run away and the searches here are short.
    """
    at_low, at_high = function(low), function(high)
    if at_low == 0.0:
        return low
    if at_high == 0.0:
        return high
    if (at_low > 0.0) == (at_high > 0.0):
        raise ValueError(f"no change of sign between {low} and {high}")
    while True:
        middle = 0.5 * (low + high)
        if middle in (low, high):
            return middle
        at_middle = function(middle)
        if at_middle == 0.0:
            return middle
        if (at_middle > 0.0) == (at_low > 0.0):
            low = middle
        else:
            high = middle


def ridders(function: Callable[[float], float], low: float, high: float, within: float) -> float:
    """The root of a smooth `function` between `low` and `high`, `within` so much of it, in a dozen calls where halving takes fifty.

    Ridders' rule: halve, straighten the three values by an exponential, take the chord; the root stays between the ends, which come
    together at least as fast as by halving. ValueError where the signs do not differ. (C. Ridders, IEEE Trans. CAS 26, 1979; from memory.)
    """
    at_low, at_high = function(low), function(high)
    if at_low == 0.0 or at_high == 0.0:
        return low if at_low == 0.0 else high
    if (at_low > 0.0) == (at_high > 0.0):
        raise ValueError(f"no change of sign between {low} and {high}")
    guess = low
    while high - low > within:
        middle = 0.5 * (low + high)
        at_middle = function(middle)
        straight = math.sqrt(at_middle * at_middle - at_low * at_high)
        if at_middle == 0.0 or straight == 0.0 or middle in (low, high):
            return middle
        before, guess = guess, middle + (middle - low) * (1.0 if at_low > at_high else -1.0) * at_middle / straight
        at_guess = function(guess)
        if at_guess == 0.0 or abs(guess - before) < within:
            return guess
        (low, at_low), (high, at_high) = _around(((low, at_low), (middle, at_middle), (guess, at_guess), (high, at_high)))
    return guess


def _around(places: tuple[tuple[float, float], ...]) -> tuple[tuple[float, float], tuple[float, float]]:
    """The two neighbours among the places between which the sign changes."""
    rising = sorted(places)
    return next((a, b) for a, b in pairwise(rising) if (a[1] > 0.0) != (b[1] > 0.0))
