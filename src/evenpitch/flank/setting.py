"""How the cutter is set on the machine: swing, off-centre, centre distance."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from evenpitch.flank.wanted import NOTHING, SQUARE
from evenpitch.quantity.units import Millimetre, Radian


@dataclass(frozen=True, slots=True)
class Setting:
    """`swing` of the table (rad, + suits a right-hand helix), `offset` of the cutter from the work axis (mm), `centre` distance (mm)."""

    swing: float
    offset: float
    centre: float

    def mirrored(self) -> Setting:
        """The setting as the other flank sees it: half a turn about the line from gear to cutter changes only the offset's sign."""
        return Setting(self.swing, -self.offset, self.centre)


@dataclass(frozen=True, slots=True)
class Settings:
    """Many settings at once, each a column of numbers (rigs, 1): swing (rad), offset and centre (mm)."""

    swing: NDArray[np.float64]
    offset: NDArray[np.float64]
    centre: NDArray[np.float64]

    def mirrored(self) -> Settings:
        """As the other flank sees them."""
        return Settings(self.swing, -self.offset, self.centre)


def usual_setting(
    root_radius: Millimetre,
    cutter_radius: Millimetre,
    helix: Radian,
    *,
    swing_error: Radian = SQUARE,
    offset: Millimetre = NOTHING,
    sink: Millimetre = NOTHING,
) -> Setting:
    """Swing = helix, cutter on centre and touching the root circle, each with its error; `sink` + is deeper."""
    return Setting(helix + swing_error, offset, root_radius + cutter_radius - sink)


SWING_LIMIT = math.radians(50)
"""No milling machine swings its table or head further (common practice: 45 degrees)."""
