"""Irrational numbers as fractions, each with the error it carries. Whole-number arithmetic only."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

_GUARD = 12
"""Decimals carried beyond those asked for; they swallow the roundings of the series."""


@dataclass(frozen=True, slots=True)
class Approximate:
    """A fraction that stands for a number that has none: the true number lies within `error` of `value`."""

    value: Fraction
    error: Fraction


@cache
def pi(digits: int = 50) -> Approximate:
    """Pi to so many decimals: pi = 16 arctan(1/5) - 4 arctan(1/239) (Machin, 1706; from memory, checked by a second series)."""
    scale = 10 ** (digits + _GUARD)
    total = 16 * _arctan_of_inverse(5, scale) - 4 * _arctan_of_inverse(239, scale)
    return _rounded(total, digits)


def _arctan_of_inverse(number: int, scale: int) -> int:
    """arctan(1/n) times scale: 1/n - 1/(3 n^3) + 1/(5 n^5) - ..."""
    power = total = scale // number
    place = 1
    while power:
        power //= number * number
        place += 2
        total += power // place if place % 4 == 1 else -(power // place)
    return total


def _rounded(scaled: int, digits: int) -> Approximate:
    """A number scaled by digits and guard, rounded to the digits; half a last digit for the rounding, half for the series."""
    guard = 10**_GUARD
    return Approximate(Fraction((2 * scaled + guard) // (2 * guard), 10**digits), Fraction(1, 10**digits))


PI = pi().value
PI_ERROR = pi().error


def sine(degrees: Fraction, digits: int = 30) -> Approximate:
    """The sine of an angle in degrees. Error 0 where the sine is a fraction (0, 30, 90 degrees and their like: Niven)."""
    angle = degrees % 360
    sign = 1
    if angle >= 180:
        angle, sign = angle - 180, -1
    if angle > 90:
        angle = 180 - angle
    known = {Fraction(0): Fraction(0), Fraction(30): Fraction(1, 2), Fraction(90): Fraction(1)}.get(angle)
    if known is not None:
        return Approximate(sign * known, Fraction(0))
    found = _rounded(_series(angle, digits), digits)
    return Approximate(sign * found.value, found.error)


def _series(degrees: Fraction, digits: int) -> int:
    """sin x times a power of ten, x - x^3/3! + x^5/5! - ..., for 0 < x <= 90 degrees."""
    scale: int = 10 ** (digits + _GUARD)
    turned = degrees * pi(digits + _GUARD).value / 180
    x = turned.numerator * scale // turned.denominator
    term = total = x
    place = 1
    while term:
        place += 2
        term = abs(term) * x // scale * x // scale // ((place - 1) * place)
        total += term if place % 4 == 1 else -term
    return total


def cosine(degrees: Fraction, digits: int = 30) -> Approximate:
    """The cosine of an angle in degrees, as the sine of what it lacks of a right angle."""
    return sine(90 - degrees, digits)


def tangent(degrees: Fraction, digits: int = 30) -> Approximate:
    """The tangent of an angle in degrees: sine over cosine. ZeroDivisionError at a right angle."""
    top, bottom = sine(degrees, digits), cosine(degrees, digits)
    value = top.value / bottom.value
    room = abs(bottom.value) - bottom.error
    return Approximate(value, (top.error + abs(value) * bottom.error) / room)


def sin_exact(degrees: Fraction, digits: int = 30) -> Fraction:
    """The sine as a fraction, within 10^-digits."""
    return sine(degrees, digits).value


def cos_exact(degrees: Fraction, digits: int = 30) -> Fraction:
    """The cosine as a fraction, within 10^-digits."""
    return cosine(degrees, digits).value


def of_float(value: float) -> Approximate:
    """A float as the fraction that it exactly is; as a reading of some real number it carries half its last bit."""
    return Approximate(Fraction(value), Fraction(math.ulp(value)) / 2)
