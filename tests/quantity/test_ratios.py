"""Exact ratios. Link ratios of a 192 000-pulse head and a 1 µm scale, normal module 2, 20°: derived for the workshop's job."""

from fractions import Fraction
from itertools import pairwise

import pytest

from evenpitch.quantity.irrational import PI, sin_exact
from evenpitch.quantity.ratios import absolute_targets, as_decimal, best_bounded, convergents, decimal_error, round_half_up


@pytest.mark.parametrize(
    ("value", "whole"), [("1/2", 1), ("-1/2", 0), ("3/2", 2), ("-3/2", -1), ("7/5", 1), ("8/5", 2), ("0", 0), ("-8/5", -2)]
)
def test_a_half_goes_up(value, whole):
    assert round_half_up(Fraction(value)) == whole


def test_absolute_targets_close():
    targets = absolute_targets(192_000, 97)
    moves = [after - before for before, after in pairwise(targets)]
    assert len(targets) == 98
    assert (targets[0], targets[-1]) == (0, 192_000)
    assert (moves.count(1979), moves.count(1980)) == (60, 37)  # derived: 60 x 1979 + 37 x 1980 = 192 000
    assert max(abs(Fraction(target) - Fraction(192_000 * k, 97)) for k, target in enumerate(targets)) == Fraction(48, 97)


def _per_count(teeth, pulses, count):
    lead = PI * 2 * teeth / sin_exact(Fraction(20), 40)
    return pulses * Fraction(count) / lead


@pytest.mark.parametrize(
    ("teeth", "pulses", "count", "bound", "best"),
    [
        (28, 192_000, "0.001", 999, "215/576"),
        (56, 192_000, "0.001", 999, "148/793"),
        (24, 64_000, "0.005", 255, "45/62"),
        (24, 64_000, "0.005", 1023, "667/919"),
        (24, 64_000, "0.005", 4095, "2046/2819"),
        (24, 192_000, "0.001", 1023, "442/1015"),
        (24, 192_000, "0.001", 4095, "685/1573"),
        (24, 192_000, "0.001", 65535, "6138/14095"),
        (24, 64_000, "0.005", 2**31 - 1, "15941487/21964346"),
    ],
)
def test_link_ratios(teeth, pulses, count, bound, best):
    """Derived: run-skipping tree against convergents and brute force, in a program of its own."""
    assert best_bounded(_per_count(teeth, pulses, count), bound, bound) == Fraction(best)


@pytest.mark.parametrize(
    ("value", "num", "den", "best"),
    [
        ("4/5", 100, 100, "4/5"),
        ("1/1000", 60, 60, "1/60"),
        ("1000", 60, 60, "60"),
        ("3/2", 1, 1, "1"),
        ("5/2", 10, 1, "2"),
        ("2/5", 1, 10, "1/3"),
    ],
)
def test_bounds_bite(value, num, den, best):
    """By hand. Of two as near, the one of smaller parts: 5/2 lies midway between 2 and 3."""
    assert best_bounded(Fraction(value), num, den) == Fraction(best)


def test_pi():
    """355/113 is the best up to three digits, 22/7 up to two (known since antiquity; from memory)."""
    assert best_bounded(PI, 99, 99) == Fraction(22, 7)
    assert best_bounded(PI, 999, 999) == Fraction(355, 113)
    assert convergents(PI, 4) == (Fraction(3), Fraction(22, 7), Fraction(333, 106), Fraction(355, 113))
    assert convergents(Fraction(7, 5)) == (Fraction(1), Fraction(3, 2), Fraction(7, 5))
    assert convergents(0.5)[-1] == Fraction(1, 2)


@pytest.mark.parametrize(
    ("value", "num", "den"), [(Fraction(0), 5, 5), (Fraction(-1), 5, 5), (Fraction(1), 0, 5), (Fraction(1), 5, 0)]
)
def test_no_ratio_without_turning(value, num, den):
    with pytest.raises(ValueError, match="above 0"):
        best_bounded(value, num, den)


def test_what_decimals_cost():
    """0.725789 written 0.73, 0.726, 0.7258 (derived: 49 µm, 2.5 µm, 0.13 µm on a 25 mm face, b tan beta_b 8.49 mm)."""
    ratio = _per_count(24, 64_000, "0.005")
    assert as_decimal(ratio, 2) == Fraction(73, 100)
    slopes = [float(decimal_error(ratio, places)) * 8494 for places in (2, 3, 4)]
    assert slopes == pytest.approx([49, 2.5, 0.13], abs=0.5)
    assert decimal_error(Fraction(1, 4), 2) == 0
