"""Scale on the table or encoder on its screw: what the scale buys, on this tooth."""

from __future__ import annotations

import math
from dataclasses import dataclass

from evenpitch.quantity.units import Millimetre, Radian
from evenpitch.sources.citations import cites

USUAL_LASH = Millimetre(0.25)
USUAL_PITCH_ERROR = Millimetre(0.005)
"""Millimetres over a face; common practice, to be measured."""


NOTHING = Millimetre(0.0)


@dataclass(frozen=True, slots=True)
class ScaleBuys:
    """µm on the flank that a screw encoder would leave and the scale does not; `per_um`: µm of flank per µm of table."""

    per_um: float
    lash_um: float
    pitch_um: float
    count_um: float

    def words(self) -> str:
        """In one sentence."""
        return (
            f"On this tooth a scale buys {self.pitch_um:.1f} µm once the lash is always taken up; "
            f"not taken up it would be {self.lash_um:.0f} µm more."
        )


@cites("derived here", formula="Δ = x tan β_b")
def what_the_scale_buys(
    base_helix: Radian,
    lash: Millimetre = USUAL_LASH,
    pitch_error: Millimetre = USUAL_PITCH_ERROR,
    count: Millimetre = NOTHING,
) -> ScaleBuys:
    """What the screw's lash, its pitch error over the face and the encoder's count would put on the flank."""
    slope = math.tan(base_helix)
    return ScaleBuys(slope, lash * slope * 1e3, pitch_error * slope * 1e3, count * slope * 1e3)
