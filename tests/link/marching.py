"""The plain way: a loop over ticks of time, as a sampled simulation would do it. Slow, and the second method for the events."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from evenpitch.link.motion import CrankFeed, Motion
from evenpitch.link.passing import Linked


@dataclass(frozen=True, slots=True)
class Marched:
    """Pulse numbers, the tick at which each left, and the range of the error (radian) at the ticks."""

    numbers: list[int]
    times: list[float]
    low: float
    high: float


def march(motion: Motion, link: Linked, span: float, tick: float) -> Marched:
    """Every tick: where the table was a delay ago, pulses due, one pulse if the drive may give one. Crank or power feed."""
    crank = motion if isinstance(motion, CrankFeed) else CrankFeed(float(motion.place(1.0)), 0.0, 1.0)
    v0, w, c = crank.mean, 2 * math.pi * crank.turns, crank.phase
    sine, start, swing, tau = (
        math.sin,
        math.sin(crank.phase),
        v0 * crank.unevenness / (2 * math.pi * crank.turns),
        link.timing.latency,
    )
    most, count, offset = link.timing.most or math.inf, link.count, link.offset
    twice, q, half = 2 * link.pulses, 2 * link.per_counts, link.per_counts
    per_pulse, per_mm = 2 * math.pi / link.pulses_per_turn, 2 * math.pi / link.lead
    numbers, times, low, high = [], [], math.inf, -math.inf
    pulse, next_free, floor = 0, -math.inf, math.floor
    for i in range(1, int(span / tick) + 1):
        t = i * tick
        if t >= tau:
            seen = t - tau
            n = floor((v0 * seen - swing * (sine(w * seen + c) - start)) / count + offset)
            if pulse < (n * twice + half) // q and t >= next_free - 1e-12:
                last = t - tick  # the error is looked at once a tick: here at the last one before the pulse, and at its own
                before = per_pulse * pulse - per_mm * (v0 * last - swing * (sine(w * last + c) - start))
                pulse += 1
                next_free = t + 1 / most
                numbers.append(pulse)
                times.append(t)
                after = per_pulse * pulse - per_mm * (v0 * t - swing * (sine(w * t + c) - start))
                low, high = min(low, before), max(high, after)
    return Marched(numbers, times, low, high)


def queued(times: Sequence[float], rate: float) -> list[float]:
    """Times at which pulses leave a queue that lets one go every 1/rate at most."""
    out, last = [], -math.inf
    for due in times:
        last = max(due, last + 1 / rate)
        out.append(last)
    return out
