"""Thousands of passes at once: each the helix that one pass leaves, counts and pulses rounded, the head's waves on top."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from evenpitch.link.motion import eccentric
from evenpitch.link.passing import Linked
from evenpitch.link.pulse_train import Array
from evenpitch.sources.citations import cites

NEWTON = 2
"""Steps after the table of one turn; two leave nothing but rounding."""


@dataclass(frozen=True, slots=True)
class PassPlan:
    """What all passes share: table places (mm), crank (mean mm/s, unevenness, turns a second), waves of the work.

    `waves`: (times in a turn of the work, amplitude in radian); `cycle`: (pulses of one wave of the motor, amplitude in radian).
    `base_radius` mm. `link.timing.latency` is the only delay: nothing here is held back by a drive.
    """

    places: Array
    mean: float
    unevenness: float
    turns: float
    link: Linked
    waves: tuple[tuple[float, float], ...]
    cycle: tuple[float, float]
    base_radius: float


@dataclass(frozen=True, slots=True)
class PassChance:
    """What differs from pass to pass, one value each: phase of the crank, where within a count, phases of waves and motor."""

    crank: Array
    offset: Array
    waves: Array
    motor: Array


@dataclass(frozen=True, slots=True)
class PassSums:
    """Of each pass, µm along the base tangent: slope over the face, range about the line, range in all."""

    slope: Array
    form: Array
    total: Array


def by_chance(plan: PassPlan, count: int, random: np.random.Generator) -> PassChance:
    """So many passes."""
    turn = 2 * math.pi
    return PassChance(
        turn * random.random(count),
        random.random(count),
        turn * random.random((count, len(plan.waves))),
        turn * random.random(count),
    )


@cites(
    "derived here", formula="e = r_b (2π s/N_w + Σ A sin(h θ + p) − 2π x/L),  s = floor((2 floor(x(t − τ)/q + φ) P + Q)/(2 Q))"
)
def track(plan: PassPlan, chance: PassChance) -> Array:
    """Error of each pass (rows) at each place (columns), µm."""
    x, link = plan.places, plan.link
    seen = (
        _seen(plan, chance)
        if plan.unevenness
        else np.broadcast_to(x - plan.mean * link.timing.latency, (len(chance.crank), len(x)))
    )
    counts = np.floor(seen / link.count + chance.offset[:, None])
    pulses = np.floor(counts * (link.pulses / link.per_counts) + 0.5)
    angle = pulses * (2 * math.pi / link.pulses_per_turn)
    size, every = plan.cycle[1], plan.cycle[0]
    error = angle - x * (2 * math.pi / link.lead)
    for place, (per_turn, amplitude) in enumerate(plan.waves):
        error += amplitude * np.sin(per_turn * angle + chance.waves[:, place, None])
    error += size * np.sin(pulses * (2 * math.pi / every) + chance.motor[:, None])
    return np.asarray(error * (1000 * plan.base_radius), float)


def _seen(plan: PassPlan, chance: PassChance) -> Array:
    """Where the table stood a delay before it came to each place."""
    pace, k = 2 * math.pi * plan.turns, plan.unevenness
    start = (chance.crank - k * np.sin(chance.crank))[:, None]
    u = eccentric(plan.places * (pace / plan.mean) + start, k, NEWTON) - pace * plan.link.timing.latency
    return np.asarray((u - k * np.sin(u) - start) * (plan.mean / pace), float)


def sums(error: Array, places: Array) -> PassSums:
    """Least-squares line of each pass, and what is left of it."""
    centred = places - places.mean()
    slope = error @ (centred / (centred @ centred))
    face = float(places[-1] - places[0])
    rest = error - slope[:, None] * centred
    return PassSums(slope * face, rest.max(axis=1) - rest.min(axis=1), error.max(axis=1) - error.min(axis=1))


def helix_passes(plan: PassPlan, count: int, seed: int = 1, batch: int = 500) -> PassSums:
    """So many passes by chance, in batches that stay close to the processor."""
    random = np.random.default_rng(seed)
    found = []
    for first in range(0, count, batch):
        chance = by_chance(plan, min(batch, count - first), random)
        found.append(sums(track(plan, chance), plan.places))
    return PassSums(*(np.concatenate([getattr(part, name) for part in found]) for name in ("slope", "form", "total")))
