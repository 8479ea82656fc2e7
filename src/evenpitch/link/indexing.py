"""Which space a row of a log belongs to: indexing shows as pulses without counts."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from evenpitch.link.pulse_train import Array, Whole


@dataclass(frozen=True, slots=True)
class Spaces:
    """`moved`: indexing moves before each row; `target`: pulses that indexing alone has added; `moves`: in all."""

    moved: Whole
    target: Array
    moves: int

    def space(self, row: int, first: int, teeth: int) -> int:
        """Space under the cutter at a row."""
        return (first - 1 + int(self.moved[row])) % teeth + 1


def spaces_of(ahead: Array, pulses_per_turn: float, teeth: int) -> Spaces:
    """`ahead`: pulses less those due to the table, row by row.

    A move may be logged in many rows. Where the level has settled near a whole number of spaces away, it counts as indexed.
    """
    pitch = pulses_per_turn / teeth
    moved = np.zeros(len(ahead), dtype=np.int64)
    if float(np.ptp(ahead)) > 0.5 * pitch:
        moved = np.round((ahead - np.median(ahead[:3])) / pitch).astype(np.int64)
    first = int(moved[0])
    moved = moved - first
    k = moved.astype(float)
    target = np.floor(k * pitch + 0.5)
    return Spaces(moved, target, int(moved.max() - moved.min()))
