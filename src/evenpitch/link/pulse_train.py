"""When each pulse leaves: from the counts at which it falls due, through delay and poll, to what the drive lets pass."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from evenpitch.sources.citations import cites

Array = NDArray[np.float64]
Whole = NDArray[np.int64]


@cites("derived here", formula="s(n) = floor((2 n P + Q)/(2 Q))")
def link_target(counts: Any, pulses: int, per_counts: int) -> Whole:
    """Pulses due at each count, in whole numbers, from zero: nothing ever adds up."""
    n = np.asarray(counts, dtype=np.int64)
    return np.asarray((2 * n * pulses + per_counts) // (2 * per_counts), dtype=np.int64)


@cites("derived here", formula="n_k = ceil((2 k − 1) Q/(2 P))")
def firing_counts(first: int, last: int, pulses: int, per_counts: int) -> Whole:
    """The count at which pulse k fires, k from `first` to `last`, both included."""
    k = np.arange(first, last + 1, dtype=np.int64)
    return np.asarray(-((1 - 2 * k) * per_counts // (2 * pulses)), dtype=np.int64)


@cites("derived here", formula="t_i = i/f + max over j ≤ i of (t_j − j/f)")
def rate_limited(times: Array, rate: float) -> Array:
    """Times at which pulses leave when no two may follow closer than 1/rate: exact, in one sweep."""
    steps = np.arange(len(times)) / rate
    return np.maximum.accumulate(times - steps) + steps


def acceleration_limited(times: Array, most: float, acceleration: float, start: float) -> Array:
    """The same with a ramp: pulses a second at most, pulses a second² and the rate from a standstill.

    From pulse to pulse the rate may rise to √(v² + 2a); a late pulse is waited for, and after a gap longer than a pulse at the
    starting rate the motor starts anew.
    """
    out = np.empty(len(times))
    left, rate = -math.inf, start
    for i, due in enumerate(times.tolist()):
        allowed = min(most, math.sqrt(rate * rate + 2 * acceleration))
        soonest = left + 1 / allowed
        if due > soonest:
            gap = due - left
            rate = min(allowed, max(start, 1 / gap)) if math.isfinite(gap) else start
            left = due
        else:
            rate, left = allowed, soonest
        out[i] = left
    return out


@dataclass(frozen=True, slots=True)
class Timing:
    """What stands between a count and its pulse: delay s, poll period s or None, the drive's limits in pulses a second (and second²)."""

    latency: float = 0.0
    poll: float | None = None
    most: float | None = None
    acceleration: float | None = None
    start: float | None = None


def leaving(due: Array, timing: Timing) -> Array:
    """When pulses due at these times leave the drive."""
    if timing.poll:
        due = np.ceil(due / timing.poll) * timing.poll
    due = due + timing.latency
    if timing.most is None:
        return due
    if timing.acceleration is None:
        return rate_limited(due, timing.most)
    return acceleration_limited(due, timing.most, timing.acceleration, timing.start or 0.0)
