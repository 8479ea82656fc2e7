"""Pitch: the size of a tooth as the trade writes it, kept exact and in the system it was typed in."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from evenpitch.quantity.units import INCH, Millimetre, Radian

PitchKind = Literal["module", "diametral pitch", "circular pitch"]
Plane = Literal["normal", "transverse"]


@dataclass(frozen=True, slots=True)
class Pitch:
    """A tooth size. `value`: module in mm, diametral pitch in teeth per inch, or circular pitch in mm; exact.

    `plane_named`: whether the plane stood in what was typed; two pitches are the same whether it did or not.
    """

    kind: PitchKind
    value: Fraction
    plane: Plane = "normal"
    inch: bool = False
    plane_named: bool = field(default=False, compare=False)

    def module(self) -> Millimetre:
        """The module in the plane the pitch was given in, mm."""
        if self.kind == "module":
            return Millimetre(float(self.value))
        if self.kind == "diametral pitch":
            return Millimetre(float(INCH / self.value))
        return Millimetre(float(self.value) / math.pi)

    def normal_module(self, helix: Radian) -> Millimetre:
        """The module in the normal plane of a gear of that helix angle, mm."""
        return Millimetre(self.module() * math.cos(helix)) if self.plane == "transverse" else self.module()

    def words(self, *, helical: bool = False) -> str:
        """As the trade says it: "12 DP", "module 2", "17/64 in circular pitch", with "transverse" where it is so.

        `helical`: of a gear on which the two planes differ, so that "normal" is said too.
        """
        plane = f" {self.plane}" if helical or self.plane == "transverse" else ""
        if self.kind == "module":
            return f"module {_plain(self.value)}{plane}"
        if self.kind == "diametral pitch":
            return f"{_plain(self.value)} DP{plane}"
        if self.inch:
            return f"{self.value / INCH} in circular pitch{plane}"
        return f"{_plain(self.value)} mm circular pitch{plane}"


def _plain(value: Fraction) -> str:
    return f"{float(value):.7g}"
