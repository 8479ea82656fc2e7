"""What was read of a gear, and one cause of what it shows: evidence, the test that separates it, remedy."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from evenpitch.checking.measured import Measured
from evenpitch.checking.runout import Runout
from evenpitch.checking.slip_sizes import SlipSize
from evenpitch.checking.spacing import Spacing
from evenpitch.rig.maps import Harmonic

UM = 1000.0
KNOWN_CHANCE = 0.0008
"""A wave that a part of the rig can make is believed when chance gives one so large this often."""
KNOWN_FLOOR = 0.02
"""Amplitudes below this part of the total pitch tolerance are nobody's trouble, though a part of the rig can make them."""
LEAST = 0.001
"""And below this, in mm, nobody's at all."""


@dataclass(frozen=True, slots=True)
class Cause:
    """`code`: its fixed word; `size`: what it does to the spacing, mm from end to end; `wave`: its waves in a turn, or 0.

    `rank`: 1 for the likeliest of what one thing seen can be, 2 and on for the others.
    """

    code: str
    cause: str
    evidence: str
    test: str
    remedy: str
    size: float
    rank: int = 1
    wave: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Rigged:
    """What the rig can do to a gear: its worm and belt, the sizes of its slips, the head's map, the play, the pulses given out."""

    ratio: Fraction = Fraction(40)
    pulley: Fraction | None = None
    sizes: tuple[SlipSize, ...] = ()
    harmonics: tuple[Harmonic, ...] = ()
    backlash: float | None = None
    pulse: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Evidence:
    """All that was read. `mean`: of the flanks; `half`: half of right less left, where both were read; `flanks`: how many.

    `span_wave`: once-a-turn wave of spans read around, mm; `radius`: of the circle the spacing belongs to; `limit`: F_pT, mm.
    """

    radius: float
    pressure_angle: float
    limit: float
    mean: Spacing | None = None
    half: Spacing | None = None
    flanks: int = 1
    runout: Runout | None = None
    span_wave: Measured | None = None
    rig: Rigged = Rigged()
