"""Where the motor must stand for each space: whole pulses counted from the datum, also where a turn is not a whole number of them."""

from __future__ import annotations

from fractions import Fraction

from evenpitch.quantity.ratios import absolute_targets
from evenpitch.sources.citations import cites


@cites("derived here", formula="target k = floor(k T/N + 1/2), k = 0 ... N")
def targets_of(total: Fraction, divisions: int) -> tuple[int, ...]:
    """The N + 1 absolute targets of a turn of `total` pulses, T; T need not be whole (a belt of odd teeth)."""
    if total.denominator == 1:
        return absolute_targets(total.numerator, divisions)
    top, bottom = total.numerator, total.denominator * divisions
    return tuple((2 * k * top + bottom) // (2 * bottom) for k in range(divisions + 1))


def counts_of(total: Fraction, divisions: int) -> tuple[tuple[int, int], ...]:
    """(pulses of a move, how many moves), rising: all moves are of two sizes, one apart, or of one."""
    last = (2 * total.numerator + total.denominator) // (2 * total.denominator)
    short = total.numerator // (total.denominator * divisions)
    long_moves = last - short * divisions
    found = ((short, divisions - long_moves), (short + 1, long_moves))
    return tuple(count for count in found if count[1])


@cites("derived here", formula="max |k T/N - target k| = floor(N'/2)/N', N' = N/gcd(T, N)")
def worst_of(total: Fraction, divisions: int) -> Fraction:
    """Greatest distance of any space from its true place, in pulses, the datum taken as true."""
    if total.denominator == 1:
        parts = Fraction(total.numerator, divisions).denominator
        return Fraction(parts // 2, parts)
    targets = targets_of(total, divisions)[:-1]
    top, bottom = total.numerator, total.denominator * divisions
    return Fraction(max(abs(k * top - target * bottom) for k, target in enumerate(targets)), bottom)


def closing_of(total: Fraction) -> Fraction:
    """Pulses over (+) or short (-) when the last target is made: what a turn of the work is off a whole number of pulses."""
    return Fraction((2 * total.numerator + total.denominator) // (2 * total.denominator)) - total
