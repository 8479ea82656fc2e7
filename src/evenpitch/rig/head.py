"""The dividing head, its plates and its change gears."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from evenpitch.quantity.units import Millimetre, Radian

Sense = Literal["with", "against"]


@dataclass(frozen=True, slots=True)
class IdlerTest:
    """What the head did when tried once: a single pair with this many idlers turned the plate with or against the crank."""

    sense: Sense
    idlers: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """The dividing head. `ratio`: crank turns per turn of the work. `direct`: holes of the plate on the spindle nose.

    `end`: the end of the table it stands at, operator facing the column. `backlash`: at the work.
    """

    ratio: Fraction
    centre_height: Millimetre | None = None
    direct: int | None = None
    end: Literal["left", "right"] | None = None
    backlash: Radian | None = None
    idler_test: IdlerTest | None = None
    tailstock_top: Millimetre | None = None


@dataclass(frozen=True, slots=True)
class Plate:
    """One side of an index plate: its hole circles."""

    circles: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class ChangeGears:
    """The change gears in the box; a gear owned twice is listed twice. `stud_clearance`: teeth that the stud and its nut need."""

    teeth: tuple[int, ...]
    stud_clearance: int = 15
