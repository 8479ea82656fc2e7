"""How fast the table moved, out of counted positions: a line through so many rows that the counting no longer shows."""

from __future__ import annotations

import numpy as np

from evenpitch.link.pulse_train import Array

COUNTS = 12
"""Counts that the rows of one line should cover."""


def speed_of(time: Array, place: Array, count: float) -> Array:
    """Speed, mm/s, signed, at each row: slope of the line through its neighbours."""
    half = _half(time, place, count)
    t, x = time - time[0], place - place[0]
    sums = [np.concatenate([[0.0], np.cumsum(column)]) for column in (np.ones(len(t)), t, x, t * x, t * t)]
    rows = np.arange(len(t))
    low, high = np.maximum(rows - half, 0), np.minimum(rows + half + 1, len(t))
    n, st, sx, stx, stt = (total[high] - total[low] for total in sums)
    spread = n * stt - st * st
    return np.where(spread > 0, (n * stx - st * sx) / np.where(spread > 0, spread, 1.0), 0.0)


def clear_of_turns(time: Array, place: Array, speed: Array, count: float) -> Array:
    """Rows far enough from where the table turns round that their direction is sure; all of them where it never does."""
    half = _half(time, place, count)
    signs = np.sign(speed)
    turns = np.nonzero(np.diff(signs) != 0)[0]
    sure = np.ones(len(time), dtype=bool)
    for turn in turns.tolist():
        sure[max(0, turn - half) : turn + half + 2] = False
    return sure if sure.sum() > len(time) // 2 else np.ones(len(time), dtype=bool)


def _half(time: Array, place: Array, count: float) -> int:
    travelled = float(np.abs(np.diff(place)).sum())
    if not travelled:
        return 1
    rows = COUNTS * count / travelled * len(time)
    return int(np.clip(round(rows / 2), 1, max(1, len(time) // 20)))
