"""Irrational numbers as fractions."""

import math
from fractions import Fraction

import pytest

from evenpitch.quantity.irrational import PI, PI_ERROR, cos_exact, cosine, of_float, pi, sin_exact, sine, tangent


def test_pi():
    """50 decimals of pi (from memory, and by a second series in the witnesses)."""
    assert pi(50).value == Fraction("3.14159265358979323846264338327950288419716939937511")
    assert Fraction(1, 10**50) == PI_ERROR
    assert float(PI) == math.pi


@pytest.mark.parametrize(
    ("degrees", "value"),
    [
        (0, 0),
        (30, Fraction(1, 2)),
        (90, 1),
        (150, Fraction(1, 2)),
        (180, 0),
        (210, Fraction(-1, 2)),
        (270, -1),
        (-30, Fraction(-1, 2)),
        (390, Fraction(1, 2)),
    ],
)
def test_sines_that_are_fractions_are_exact(degrees, value):
    found = sine(Fraction(degrees))
    assert (found.value, found.error) == (value, 0)


def test_cosine_and_tangent():
    assert cosine(Fraction(60)).value == Fraction(1, 2)
    assert float(cos_exact(Fraction(20))) == pytest.approx(math.cos(math.radians(20)), rel=1e-15)
    found = tangent(Fraction(45))
    assert abs(found.value - 1) <= found.error
    assert found.error < Fraction(1, 10**29)
    with pytest.raises(ZeroDivisionError):
        tangent(Fraction(90))


def test_sine_of_45_squares_to_a_half():
    found = sine(Fraction(45), 40)
    assert abs(found.value**2 - Fraction(1, 2)) <= 2 * found.error


def test_digits_are_those_asked_for():
    few, many = sin_exact(Fraction(20), 10), sin_exact(Fraction(20), 60)
    assert few.denominator <= 10**10
    assert abs(few - many) <= Fraction(1, 10**10)


def test_a_float_is_the_fraction_it_is():
    found = of_float(0.1)
    assert found.value == Fraction(0.1)
    assert abs(found.value - Fraction(1, 10)) <= found.error
