"""One root of one function between two places where its sign differs."""

from __future__ import annotations

from collections.abc import Callable


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
