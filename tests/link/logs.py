"""Made-up logs: rig A, 24 teeth, a one-way pass by crank, 60 mm in a minute (recipe G1 to G5, derived for this project)."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from evenpitch.link.pulse_train import Array, link_target

LEAD = 440.899316356121615
ARCSEC = math.pi / 648_000
P, Q, COUNT, TURN, WORM = 2046, 2819, 0.005, 64_000, 40


@dataclass(frozen=True)
class Made:
    """Columns of one log: time, place as the table reads (mm), feed, direction, counts, pulses, work angle (radian), residual (arcsec)."""

    time: Array
    place: Array
    speed: Array
    counts: Array
    pulses: Array
    work: Array
    residual: Array
    jump_at: float


def made(
    random: np.random.Generator,
    rows: int = 600,
    *,
    sd: float = 5.0,
    lost: int = 0,
    ratio: float = 0.0,
    worm: float = 0.0,
    table: float = 0.0,
    latency: float = 0.002,
    both_ways: bool = False,
    play: float = 0.0,
    controller_lag: bool = False,
) -> Made:
    """One log. `sd`, `worm`, `play` in arcsec; `table`: noise in mm; `controller_lag`: the count column runs ahead of the pulses."""
    t = np.sort(0.05 + 59.95 * random.random(rows))
    w, k, c = 2 * math.pi, 0.6, 0.3
    x = t - k / w * (np.sin(w * t + c) - math.sin(c))
    v, d = 1 - k * np.cos(w * t + c), np.ones(rows)
    if both_ways:
        top = x.max()
        back = x > top / 2
        x, v, d = np.where(back, top - x, x), np.where(back, -v, v), np.where(back, -1.0, 1.0)
    n = np.floor((x - latency * v) / COUNT + 0.37).astype(np.int64)
    s = np.floor((2 * n * P * (1 + ratio) + Q) / (2 * Q)).astype(np.int64)
    at, phase = random.uniform(10, 50), random.uniform(0, 2 * math.pi)
    base = 2 * math.pi * (s - lost * (x > at)) / TURN + d * play * ARCSEC / 2
    work = base + worm * ARCSEC * np.sin(WORM * base + phase)
    shown = COUNT * np.floor(x / COUNT + random.random()) + table * random.standard_normal(rows)
    noise = sd * random.standard_normal(rows)
    residual = (work - 2 * math.pi * shown / LEAD) / ARCSEC + noise
    counts = np.floor(x / COUNT + 0.37).astype(np.int64) if controller_lag else n
    return Made(t, shown, v, counts, s, work + noise * ARCSEC, residual, at)


def exact_pulses(counts: Array) -> Array:
    """Pulses due."""
    return link_target(counts, P, Q)
