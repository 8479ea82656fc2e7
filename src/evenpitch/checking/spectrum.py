"""Waves in a turn that the spacing holds: how large, how likely by chance, and which others would look the same on this count."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from evenpitch.checking.least_squares import Array
from evenpitch.checking.spacing import Spacing
from evenpitch.sources.citations import cites

HALF_OF = math.log(2.0)
"""Median of the square of a wave of scatter, over its mean."""
CONVINCED = 3.0
"""The median must lie so many of its own standard deviations above before scatter of the cutting itself is reckoned with."""


@dataclass(frozen=True, slots=True)
class WaveSeen:
    """amplitude sin(per_turn × angle + phase), mm along the circle; `u`: standard uncertainty of the amplitude.

    `chance`: how likely so large a wave is where there is scatter alone. `looks_like`: the other count that cannot be told from it.
    """

    per_turn: int
    amplitude: float
    u: float
    phase: float
    chance: float
    looks_like: int

    def vector(self) -> complex:
        """Amplitude and phase as one number."""
        return self.amplitude * complex(math.cos(self.phase), math.sin(self.phase))


@cites("derived here", formula="h′ = min(h mod z, z − h mod z)")
def folded(per_turn: int, count: int) -> int:
    """How many waves in a turn the spacing shows of one that the head makes; 0 where the count hides it."""
    rest = per_turn % count
    return min(rest, count - rest)


def seen_as(per_turn: int, count: int, phase: float) -> float:
    """The phase with which the folded wave is seen: turned about where the fold reverses it."""
    return phase if per_turn % count <= count - per_turn % count else math.pi - phase


@cites("derived here", formula="A_h = 2 |C_h|/z;  chance = exp(−|C_h|²/(E|C_h|²))")
def waves(found: Spacing) -> tuple[WaveSeen, ...]:
    """All waves from 1 to half the count."""
    transform = np.fft.fft(found.cumulative)
    expected = scatter_of(found)
    count = found.count
    return tuple(_wave(count, wave, complex(transform[wave]), float(expected[wave])) for wave in range(1, count // 2 + 1))


def _wave(count: int, wave: int, of: complex, expected: float) -> WaveSeen:
    alone = 2 * wave == count
    share = (1 if alone else 2) / count
    power = abs(of) ** 2
    # a wave of half the count has one term only, and its square spreads wider
    chance = (
        math.erfc(math.sqrt(power / (2 * expected))) if alone and expected else math.exp(-power / expected) if expected else 0.0
    )
    phase = math.atan2(of.imag, of.real) + math.pi / 2
    return WaveSeen(wave, share * abs(of), share * math.sqrt(expected / (1 if alone else 2)), phase, chance, count - wave)


def scatter_of(found: Spacing) -> Array:
    """What scatter gives each wave: that of the readings, and as much of the cutting's own as half the waves bear out."""
    power = np.abs(np.fft.fft(found.cumulative)[1:]) ** 2
    noise = found.noise[1:]
    sure = HALF_OF * (1 + CONVINCED / math.sqrt(len(power) / 2))
    if len(power) < 8 or not noise.any() or _median_share(power, noise, 0.0) <= sure:
        return found.noise
    low, high = 0.0, float(np.median(power)) / HALF_OF
    for _ in range(40):
        middle = (low + high) / 2
        low, high = (middle, high) if _median_share(power, noise, middle) > HALF_OF else (low, middle)
    return np.concatenate([[0.0], noise + high])


def _median_share(power: Array, noise: Array, own: float) -> float:
    return float(np.median(power / (noise + own)))
