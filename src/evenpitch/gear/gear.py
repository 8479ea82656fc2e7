"""Gear: one external involute gear, spur or helical, as wanted."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from evenpitch.quantity.pitch import Pitch
from evenpitch.quantity.units import Millimetre, Radian

Hand = Literal["left", "right", "none"]
DepthSystem = Literal["full", "14.5", "stub", "fine", "iso53-a", "iso53-b", "iso53-c", "iso53-d"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Gear:
    """An external gear. Module, pressure angle, shift and thinning are in the normal plane; thinning is arc, over both flanks.

    `spanned` and `pin` are choices of the maker (None: the usual ones); `face` None: not known.
    """

    teeth: int
    pitch: Pitch
    module: Millimetre
    pressure_angle: Radian
    helix: Radian = Radian(0.0)
    hand: Hand = "none"
    face: Millimetre | None = None
    depth: DepthSystem = "full"
    shift: float = 0.0
    thinning: Millimetre = Millimetre(0.0)
    spanned: int | None = None
    pin: Millimetre | None = None
    tolerance_class: int | None = None

    def pitch_words(self) -> str:
        """The size as the trade says it; with its plane on a helical gear, where there are two."""
        return self.pitch.words(helical=bool(self.helix))
