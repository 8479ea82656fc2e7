"""Positioning figures in the manner of ISO 230-2 (2014 definitions), from runs at the same places from both sides."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from evenpitch.checking.least_squares import Array
from evenpitch.checking.readings import ScaleReading
from evenpitch.sources.citations import cites

PLACE = 0.02
"""Readings whose references lie within this many mm stand at one place (the start is nudged by a count or so)."""


@dataclass(frozen=True, slots=True)
class Positioning:
    """Accuracy A, systematic error E, repeatability R, reversal B, mean error range M, in the unit of the deviations.

    `both`: from both sides; without it B and M are None and the others hold for the one side. `runs`: fewest at any place.
    """

    A: float
    E: float
    R: float
    B: float | None
    M: float | None
    B_mean: float | None
    both: bool
    places: int
    runs: int

    def facts(self, factor: float = 1.0) -> dict[str, float | None]:
        """Under the fixed keys, in another unit."""
        values = {"A": self.A, "E": self.E, "R": self.R, "B": self.B, "M": self.M}
        return {key: None if value is None else value * factor for key, value in values.items()}


@cites(
    "ISO 230-2:2014",
    formula="R_i = max(2s↑ + 2s↓ + |B_i|, 4s↑, 4s↓); A = max(x̄ + 2s) − min(x̄ − 2s); E = max x̄ − min x̄; B = max |x̄↑ − x̄↓|",
)
def positioning(up: Sequence[Sequence[float]], down: Sequence[Sequence[float]] = ()) -> Positioning:
    """The figures from deviations [place][run]; at least two runs a place. An empty `down` gives those of one side."""
    means_up, spreads_up = _mean_and_spread(up)
    if not len(down):
        return _one_side(means_up, spreads_up, min(map(len, up)))
    means_down, spreads_down = _mean_and_spread(down)
    reversal = means_up - means_down
    each = np.maximum(2 * spreads_up + 2 * spreads_down + np.abs(reversal), np.maximum(4 * spreads_up, 4 * spreads_down))
    means, spreads = np.concatenate([means_up, means_down]), np.concatenate([spreads_up, spreads_down])
    middle = (means_up + means_down) / 2
    return Positioning(
        A=float((means + 2 * spreads).max() - (means - 2 * spreads).min()),
        E=float(np.ptp(means)),
        R=float(each.max()),
        B=float(np.abs(reversal).max()),
        M=float(np.ptp(middle)),
        B_mean=float(reversal.mean()),
        both=True,
        places=len(up),
        runs=min(*map(len, up), *map(len, down)),
    )


def _one_side(means: Array, spreads: Array, runs: int) -> Positioning:
    total = float((means + 2 * spreads).max() - (means - 2 * spreads).min())
    return Positioning(total, float(np.ptp(means)), float(4 * spreads.max()), None, None, None, False, len(means), runs)


def _mean_and_spread(rows: Sequence[Sequence[float]]) -> tuple[Array, Array]:
    return np.array([np.mean(row) for row in rows]), np.array([np.std(row, ddof=1) for row in rows])


def places_of(readings: Sequence[ScaleReading]) -> list[list[ScaleReading]]:
    """The readings gathered by place, rising."""
    found: list[list[ScaleReading]] = []
    for reading in sorted(readings, key=lambda one: one.reference):
        if found and reading.reference - found[-1][0].reference <= PLACE:
            found[-1].append(reading)
        else:
            found.append([reading])
    return found


def positioning_of(readings: Sequence[ScaleReading]) -> Positioning | None:
    """The figures of a scale, mm; None where no place was read twice from one side."""
    up, down = [], []
    for place in places_of(readings):
        from_up = [one.error for one in place if one.direction == "up"]
        from_down = [one.error for one in place if one.direction == "down"]
        if len(from_up) >= 2:
            up.append(from_up)
        if len(from_down) >= 2:
            down.append(from_down)
    if up and len(up) == len(down):
        return positioning(up, down)
    one_side = up or down
    return positioning(one_side) if len(one_side) > 1 else None
