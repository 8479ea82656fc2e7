"""Play and dither: what a backlash makes of a motion that turns round, and a scale of one that trembles."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Any

import numpy as np

from evenpitch.link.passing import Pass
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


def opened(made: Pass, per_pulse: float, backlash: float, *, other_side: bool) -> Pass:
    """The pass seen behind the play, at the work; radian. `other_side`: it begins with the play to be closed, the work ahead by it.

    Zero is where the work stands with the flank seated that a rising motion seats, so that a play closed before the pass changes nothing.
    """
    if not len(made.number) or backlash <= 0:
        return made
    first = made.before[0] - made.after[0] + per_pulse * made.number[0]
    driven = np.concatenate([[first], per_pulse * made.number])
    far = through_play(driven, backlash, first + backlash / 2 if other_side else None) + backlash / 2
    shift = far - driven
    ends = (made.ends[0] + float(shift[0]), made.ends[1] + float(shift[-1]))
    return replace(made, before=made.before + shift[:-1], after=made.after + shift[1:], ends=ends)


@dataclass(frozen=True, slots=True)
class Dither:
    """A trembling table on a counter: `moves` of the count where a still one makes `still`, `reversals` among them, over `seconds`.

    `either_way` mm; `hysteresis`: counts that would keep it quiet.
    """

    either_way: float
    per_second: float
    moves: int
    still: int
    reversals: int
    hysteresis: int
    seconds: float

    def facts(self) -> dict[str, Any]:
        """Under the fixed keys of the machine-readable answer."""
        return {
            "counts": self.moves, "counts_still": self.still, "reversals": self.reversals, "hysteresis_counts": self.hysteresis,
            "seconds": self.seconds,
        }  # fmt: skip


PER_CYCLE = 40
"""Places looked at in one tremble; a sine is within 0.3 % of its height between them."""
MOST_PLACES = 500_000


def dither(place: Callable[[Any], Array], span: float, either_way: float, per_second: float, count: float) -> Dither:
    """What the counter makes of a table that moves as `place` (mm at times in s) and trembles beside; the first seconds of a long pass."""
    seconds = min(span, MOST_PLACES / (PER_CYCLE * per_second))
    times = np.linspace(0.0, seconds, max(2, math.ceil(seconds * per_second * PER_CYCLE)))
    still = place(times)
    moves, reversals = count_moves(still + either_way * np.sin(2 * math.pi * per_second * times), count)
    needed = hysteresis_needed(2 * either_way, count)
    return Dither(either_way, per_second, moves, count_moves(still, count)[0], reversals, needed, seconds)
