"""The gears of the museum workshop, for the tests of this room."""

from __future__ import annotations

import math
from fractions import Fraction

from evenpitch.gear.gear import Gear
from evenpitch.quantity.pitch import Pitch

A = Gear(
    teeth=97,
    pitch=Pitch("diametral pitch", Fraction(12)),
    module=25.4 / 12,
    pressure_angle=math.radians(14.5),
    depth="14.5",
    face=19.05,
)
P = Gear(
    teeth=113,
    pitch=Pitch("diametral pitch", Fraction(16)),
    module=25.4 / 16,
    pressure_angle=math.radians(14.5),
    depth="14.5",
    face=15.875,
)


def helical(teeth: int, module: float = 2.0, degrees: float = 20.0) -> Gear:
    """B of the workshop with 28 or 56 teeth, or another of its kind."""
    pitch = Pitch("module", Fraction(str(module)))
    return Gear(
        teeth=teeth,
        pitch=pitch,
        module=module,
        pressure_angle=math.radians(20),
        helix=math.radians(degrees),
        hand="right",
        face=20.0,
    )
