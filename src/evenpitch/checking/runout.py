"""Runout: a pin in every space under an indicator, and the circle that fits the readings best."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from evenpitch.checking.least_squares import Array, fit
from evenpitch.checking.measured import Measured
from evenpitch.checking.periodic import amplitude_of
from evenpitch.sources.citations import cites

FEWEST = 5
"""Places from which a circle can be fitted with something left over to judge it by."""
RANGE_DOUBT = math.sqrt(2.0)
"""A range is the difference of two readings."""


@dataclass(frozen=True, slots=True, eq=False)
class Runout:
    """Readings by space, mm, + outwards. `eccentricity`: of the fitted circle; `high`: angle of its high point, rad from space 1.

    `u`: of the mean reading of one space. `left`: what the circle leaves, by the order of `spaces`.
    """

    count: int
    spaces: tuple[int, ...]
    values: Array
    u: float
    rounds: int
    eccentricity: Measured
    high: float
    mean: float
    left: Array

    @property
    def F_r(self) -> Measured:  # noqa: N802
        """Highest less lowest."""
        return Measured(float(np.ptp(self.values)), RANGE_DOUBT * self.u)

    def high_space(self) -> int:
        """The space nearest the high point, from 1."""
        return round(self.high / (2 * math.pi) * self.count) % self.count + 1

    def complete(self) -> bool:
        """Whether every space was read."""
        return len(self.spaces) == self.count


@cites("derived here", "ISO/TR 10064-1", formula="r_i = r̄ + a cos θ_i + b sin θ_i;  e = √(a² + b²);  F_r = r_max − r_min")
def runout(count: int, rounds: Sequence[dict[int, float]], u: float) -> Runout:
    """The least-squares circle. `rounds`: reading by space, from 1; `u`: standard uncertainty of one reading as stated, mm."""
    spaces = tuple(sorted({space for one in rounds for space in one}))
    if len(spaces) < FEWEST:
        raise ValueError("too few places for a circle")
    values = np.array([np.mean([one[space] for one in rounds if space in one]) for space in spaces])
    angle = 2 * np.pi * (np.array(spaces) - 1) / count
    found = fit({"mean": np.ones(len(spaces)), "cos": np.cos(angle), "sin": np.sin(angle)}, values)
    a, b = found.term("cos"), found.term("sin")
    own = u / math.sqrt(len(rounds))
    # what the circle leaves is real runout as well as scatter: the larger of the two stands behind e
    scale = max(own / found.s, 1.0) if found.s > 0 else 1.0
    size, doubt = amplitude_of(a.value, b.value, found.covariance[1:, 1:] * scale**2)
    return Runout(
        count=count,
        spaces=spaces,
        values=values,
        u=own,
        rounds=len(rounds),
        eccentricity=Measured(size, doubt or own * math.sqrt(2 / len(spaces)), max(found.freedom, 1)),
        high=math.atan2(b.value, a.value) % (2 * math.pi),
        mean=float(found.term("mean").value),
        left=found.residuals,
    )
