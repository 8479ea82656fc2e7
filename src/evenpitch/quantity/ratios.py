"""Exact ratios: the best fraction within bounds, absolute targets, what a ratio written as a decimal costs."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import islice

from evenpitch.sources.citations import cites


@cites("derived here", formula="floor(x + 1/2)")
def round_half_up(value: Fraction) -> int:
    """The nearest whole number; a half goes up, always the same way."""
    return (2 * value.numerator + value.denominator) // (2 * value.denominator)


@cites("derived here", formula="target k = floor(k T/N + 1/2), k = 0 ... N")
def absolute_targets(total: int, divisions: int) -> tuple[int, ...]:
    """The N + 1 places of N divisions of `total` pulses, each rounded from the start, so that no rounding ever adds up."""
    return tuple((2 * k * total + divisions) // (2 * divisions) for k in range(divisions + 1))


@cites("derived here", formula="min |x - p/q|, 1 <= p <= P, 1 <= q <= Q")
def best_bounded(value: Fraction | float, largest_num: int, largest_den: int) -> Fraction:
    """The fraction nearest to a number above 0, both its parts from 1 up to their bounds. Of two as near, the one of smaller parts.

    It goes down the tree of Stern and Brocot in whole runs, so that a run of a million costs one division. When the next
    mediant is out of bounds, so is every fraction between the two neighbours: the nearer of them is the answer.
    """
    wanted = Fraction(value)
    if wanted <= 0 or largest_num < 1 or largest_den < 1:
        raise ValueError(f"best_bounded wants a number above 0 and bounds of at least 1: {value}, {largest_num}, {largest_den}")
    a, b = wanted.numerator, wanted.denominator
    low, high = (0, 1), (1, 0)
    moved = True
    while moved:
        run_low = _run(a * low[1] - b * low[0], b * high[0] - a * high[1], low, high, largest_num, largest_den)
        low = (low[0] + run_low * high[0], low[1] + run_low * high[1])
        if low[0] * b == low[1] * a:
            return wanted
        run_high = _run(b * high[0] - a * high[1], a * low[1] - b * low[0], high, low, largest_num, largest_den)
        high = (high[0] + run_high * low[0], high[1] + run_high * low[1])
        if high[0] * b == high[1] * a:
            return wanted
        moved = bool(run_low or run_high)
    ends = [Fraction(*end) for end in (low, high) if end[0] and end[1]]
    return min(ends, key=lambda end: (abs(end - wanted), end.denominator, end.numerator))


def _run(gap: int, gain: int, end: tuple[int, int], other: tuple[int, int], largest_num: int, largest_den: int) -> int:
    """How often `other` can be added to `end` before it passes the number wanted or leaves the bounds."""
    runs = [gap // gain]
    if other[0]:
        runs.append((largest_num - end[0]) // other[0])
    if other[1]:
        runs.append((largest_den - end[1]) // other[1])
    return min(runs)


def convergents(value: Fraction | float, most: int = 40) -> tuple[Fraction, ...]:
    """The convergents of the continued fraction of a number, at most so many; the last is the number itself if it is reached."""
    return tuple(islice(_convergents(Fraction(value)), most))


def _convergents(value: Fraction) -> Iterator[Fraction]:
    p, q, p_before, q_before = 1, 0, 0, 1
    num, den = value.numerator, value.denominator
    while den:
        whole, rest = divmod(num, den)
        p, q, p_before, q_before = whole * p + p_before, whole * q + q_before, p, q
        yield Fraction(p, q)
        num, den = den, rest


def as_decimal(value: Fraction, places: int) -> Fraction:
    """The number as it reads when written with so many decimals."""
    return Fraction(round_half_up(value * 10**places), 10**places)


@cites("derived here", formula="e = x_n/x - 1")
def decimal_error(value: Fraction, places: int) -> Fraction:
    """The relative error of a number other than 0 when written with so many decimals."""
    return as_decimal(value, places) / value - 1
