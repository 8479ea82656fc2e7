"""Play and dither: what a backlash makes of a motion that turns round, and a scale of one that trembles."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Any

import numpy as np

from evenpitch.link.pulse_train import Array
from evenpitch.sources.citations import cites


@cites("derived here", formula="y_i = min(max(y_(i−1), x_i − B/2), x_i + B/2)")
def through_play(driven: Any, width: float, start: float | None = None) -> Array:
    """The far side of a play of that width. `start`: where the far side stands at first; None: the motion has been upwards.

    Only where the motion turns round is there anything to step through; between the turns it is one sweep.
    """
    x = np.asarray(driven, float)
    if not len(x):
        return x.copy()
    half = width / 2
    y = np.empty(len(x))
    at = x[0] - half if start is None else min(max(start, x[0] - half), x[0] + half)
    signs = np.sign(np.diff(x))
    for i in range(1, len(signs)):
        signs[i] = signs[i] or signs[i - 1]
    cuts = [0, *(np.nonzero(np.diff(signs))[0] + 1).tolist(), len(x) - 1]
    y[0] = at
    for begin, end in pairwise(cuts):
        piece = x[begin + 1 : end + 1]
        rising = signs[begin] >= 0 if len(signs) else True
        y[begin + 1 : end + 1] = np.maximum(at, piece - half) if rising else np.minimum(at, piece + half)
        at = float(y[end])
    return y


@cites("derived here", formula="hysteresis > peak to peak/q")
def hysteresis_needed(peak_to_peak: float, count: float) -> int:
    """Counts of hysteresis that keep a trembling table from chattering."""
    return math.floor(peak_to_peak / count + 1e-9) + 1


def count_moves(places: Any, count: float, hysteresis: int = 0) -> tuple[int, int]:
    """How often the counter moves, and how often it turns round, over places in mm; hysteresis in counts."""
    x = np.asarray(places, float)
    width = hysteresis * count
    settled = through_play(x, width) + width / 2 if width else x
    moves = np.diff(np.floor(settled / count + 1e-9).astype(np.int64))
    signs = np.sign(moves[moves != 0])
    return int(np.abs(moves).sum()), int((np.diff(signs) != 0).sum())
