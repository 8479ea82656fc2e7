"""Units at public signatures, and the few exact factors between them. Inside: millimetre, radian, newton, second."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import NewType

Millimetre = NewType("Millimetre", float)
Radian = NewType("Radian", float)
Newton = NewType("Newton", float)
Second = NewType("Second", float)
Kelvin = NewType("Kelvin", float)

INCH = Fraction(254, 10)
"""Millimetres in an inch, exact by definition (international inch, 1959)."""

ARCSEC_PER_TURN = 1_296_000
RADIAN_PER_ARCSEC = math.pi / 648_000
RADIAN_PER_DEGREE = math.pi / 180


def inches(value: float | Fraction) -> Millimetre:
    """Millimetres of a length in inches."""
    return Millimetre(float(Fraction(value) * INCH)) if isinstance(value, (int, Fraction)) else Millimetre(value * 25.4)


def degrees(value: float | Fraction) -> Radian:
    """Radians of an angle in degrees."""
    return Radian(math.radians(float(value)))


def to_degrees(value: Radian) -> float:
    """Degrees of an angle in radians."""
    return math.degrees(value)
