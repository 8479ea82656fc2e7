"""Cutters and measuring instruments owned."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from evenpitch.quantity.pitch import Pitch
from evenpitch.quantity.units import Millimetre, Radian

Numbering = Literal["dp", "module"]
"""dp: No. 1 is the rack end; module: No. 1 is the smallest count."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cutter:
    """A form-relieved gear cutter. `made_for`: the count of teeth its form is exact for, if known; `tip_corner`: radius."""

    pitch: Pitch
    pressure_angle: Radian
    number: str
    numbering: Numbering
    made_for: int | None = None
    outside: Millimetre | None = None
    width: Millimetre | None = None
    teeth: int | None = None
    tip_corner: Millimetre | None = None

    def name(self) -> str:
        """As it is marked: "12 DP No. 2"."""
        return f"{self.pitch.words()} No. {self.number}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Instrument:
    """A measuring instrument. `least`..`most`: its range; `U`: expanded uncertainty of one reading, k = 2; `sizes`: pins, balls, blocks."""

    kind: str
    least: Millimetre | None = None
    most: Millimetre | None = None
    division: Millimetre | None = None
    U: Millimetre | None = None
    sizes: tuple[Millimetre, ...] = ()
