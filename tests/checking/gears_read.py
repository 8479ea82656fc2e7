"""Gears made up, and read with a scatter: what a comparator and a pin under an indicator would show. Lengths in mm."""

from __future__ import annotations

import math
from fractions import Fraction

import numpy as np

from evenpitch.checking.cause import Evidence, Rigged
from evenpitch.checking.least_squares import Array
from evenpitch.checking.runout import runout
from evenpitch.checking.slip_sizes import slip_sizes
from evenpitch.checking.spacing import PitchSet, Spacing, half_difference, mean_of, spacing
from evenpitch.rig.maps import Harmonic
from job.shop import museum_mill

S = 0.003
"""Standard deviation of one reading of a comparator; common practice."""
ALPHA = math.radians(14.5)
WHEEL, PINION = (97, 102.658), (28, 29.797)
"""Count, and pitch radius: the loom's change wheel and the timing pinion."""


def turns(count: int) -> Array:
    """Angle of every space."""
    return 2 * np.pi * np.arange(count) / count


def pitches(curve: Array) -> Array:
    """What a comparator sees of places: like flanks of each space and the next."""
    return np.roll(curve, -1) - curve


def read(curve: Array, rng: np.random.Generator, rounds: int = 1, s: float = S, over: int = 1) -> PitchSet:
    """Rounds of readings over so many pitches, each round with its own zero."""
    wide = np.roll(curve, -over) - curve
    return PitchSet(tuple(tuple(wide + rng.normal(0, s, len(curve)) + rng.normal()) for _ in range(rounds)), over, s)


def evidence(
    count: int,
    radius: float,
    flanks: tuple[Array, ...],
    rng: np.random.Generator,
    *,
    rounds: int = 4,
    radial: Array | None = None,
    way: str = "pulses",
    circles: tuple[int, ...] = (),
    harmonics: tuple[Harmonic, ...] = (),
) -> Evidence:
    """All that an inspection of a made-up gear would bring."""
    made: list[Spacing] = [spacing(count, [read(curve, rng, rounds)]) for curve in flanks]
    circle = None
    if radial is not None:
        circle = runout(count, [{space + 1: radial[space] + rng.normal(0, S) for space in range(count)}], S)
    return Evidence(
        radius=radius,
        pressure_angle=ALPHA,
        limit=0.062 if count == 97 else 0.05,
        mean=mean_of(made),
        half=half_difference(*made) if len(made) == 2 else None,
        flanks=len(made),
        runout=circle,
        rig=Rigged(
            ratio=Fraction(40),
            pulley=Fraction(3),
            sizes=slip_sizes(museum_mill(), way, circles),
            harmonics=harmonics,
            backlash=math.radians(3.2 / 60),
            pulse=2 * math.pi / 192_000,
        ),
    )
