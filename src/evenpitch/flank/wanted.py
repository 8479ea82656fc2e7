"""The wanted flank: the involute helicoid that the cut is compared with, and the stretch of it that is inspected."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from evenpitch.quantity.units import Millimetre, Radian
from evenpitch.sources.citations import cites

Array = NDArray[np.float64]

NOTHING = Millimetre(0.0)
SQUARE = Radian(0.0)
USUAL_FACE = Millimetre(10.0)
"""Where no face is named."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WantedFlank:
    """Numbers of one gear as the virtual cut needs them. Lengths mm, angles rad; `helix` and `q` are + for a right hand.

    `q` = 2 pi / lead (0 for a spur gear); `half_space` = angle of the flank at the base circle from the middle of the space;
    `lever` = base radius x cos(base helix), mm of normal deviation for one radian of work; `u` is roll length.
    """

    teeth: int
    module: float
    pressure_angle: float
    helix: float
    face: float
    addendum: float
    dedendum: float
    pitch_radius: float
    base_radius: float
    tip_radius: float
    root_radius: float
    transverse_angle: float
    base_helix: float
    half_space: float
    q: float
    lever: float
    u_start: float
    u_end: float

    @property
    def u_pitch(self) -> float:
        """Roll length at the pitch cylinder, mm."""
        return math.sqrt(self.pitch_radius**2 - self.base_radius**2)

    @property
    def u_helix(self) -> float:
        """Roll length at which helix and pitch are taken: the pitch cylinder, or the start of inspection if that is higher."""
        return max(self.u_pitch, self.u_start)

    @property
    def lead(self) -> float:
        """Lead in mm, + for a right hand; infinite for a spur gear."""
        return 2 * math.pi / self.q if self.q else math.inf

    def radius(self, u: Array) -> Array:
        """Radius (mm) at roll length u (mm); a negative u bridges below the base circle and stands for no real roll."""
        return np.sqrt(self.base_radius**2 + np.sign(u) * u * u)

    def roll(self, radius: Array) -> Array:
        """Roll length (mm) at a radius (mm); negative below the base circle, for interpolation only."""
        square = radius * radius - self.base_radius**2
        return np.sign(square) * np.sqrt(np.abs(square))

    def angle(self, u: Array) -> Array:
        """Angle (rad) of the wanted '+' flank from the middle of its space at roll length u (mm); radial below the base circle."""
        xi = np.maximum(u, 0.0) / self.base_radius
        return self.half_space + xi - np.arctan(xi)


@cites("ISO 21771:2007", formula="u = √(ρ² − r_b²); χ(ρ) = π/(2z) − inv α_t + inv(ρ)")
def wanted_flank(
    teeth: int,
    module: Millimetre,
    pressure_angle: Radian,
    helix: Radian = SQUARE,
    face: Millimetre = USUAL_FACE,
    *,
    addendum: Millimetre | None = None,
    dedendum: Millimetre | None = None,
    widening: Millimetre = NOTHING,
    shift: float = 0.0,
    u_start: Millimetre | None = None,
    u_end: Millimetre | None = None,
) -> WantedFlank:
    """The wanted flank of one gear. `helix` + for a right hand; `widening`: transverse arc at the pitch circle, each flank.

    Usual values: addendum module (1 + shift), dedendum module (1.25 - shift); inspected from the start of contact with an
    equal rack, but no nearer than 0.02 module to the base circle, up to the tip.
    """
    high = addendum if addendum is not None else module * (1 + shift)
    deep = dedendum if dedendum is not None else module * (1.25 - shift)
    transverse = math.atan(math.tan(pressure_angle) / math.cos(helix))
    pitch = teeth * module / math.cos(helix) / 2
    base = pitch * math.cos(transverse)
    base_helix = math.atan(math.tan(helix) * math.cos(transverse))
    opened = widening / pitch - 2 * shift * math.tan(pressure_angle) / teeth
    half_space = math.pi / (2 * teeth) - (math.tan(transverse) - transverse) + opened
    reach = high - shift * module
    start = max(pitch * math.sin(transverse) - reach / math.sin(transverse), math.sqrt(0.04 * module * base))
    tip = pitch + high
    return WantedFlank(
        teeth=teeth,
        module=module,
        pressure_angle=pressure_angle,
        helix=helix,
        face=face,
        addendum=high,
        dedendum=deep,
        pitch_radius=pitch,
        base_radius=base,
        tip_radius=tip,
        root_radius=pitch - deep,
        transverse_angle=transverse,
        base_helix=base_helix,
        half_space=half_space,
        q=math.tan(helix) / pitch,
        lever=base * math.cos(base_helix),
        u_start=start if u_start is None else u_start,
        u_end=math.sqrt(tip * tip - base * base) if u_end is None else u_end,
    )
