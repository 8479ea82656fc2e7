"""F_p and f_p are extremes, and scatter inflates extremes: what they are likely to be without it, with an interval, by draws.

The curve as read is shrunk wave by wave to what scatter cannot explain. Of that shape, at every size from nothing upwards, draws
say what would be read; the sizes at which the figure as read is no surprise are the interval.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from evenpitch.checking.least_squares import Array
from evenpitch.checking.spacing import Spacing
from evenpitch.sources.citations import cites

DRAWS = 600
SIZES = 17
TAIL = 0.0025
"""Left out at each end: more than asked is kept inside, for the shape itself is only as good as the readings. Cover found: 96 %."""
SEED = 1328


@dataclass(frozen=True, slots=True)
class Unbiased:
    """An extreme as read, its likeliest true size, and the interval that holds it with 95 in 100. mm."""

    read: float
    corrected: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Extreme:
    """What is taken of a curve: `of` it something that adds up as curves do, and of that the `size`. Curves stand one a row."""

    of: Callable[[Array], Array]
    size: Callable[[Array], Array]

    def __call__(self, curves: Array) -> Array:
        """The extreme of curves."""
        return self.size(self.of(curves))


def _itself(curves: Array) -> Array:
    return curves


def _steps(curves: Array) -> Array:
    return np.asarray(np.roll(curves, -1, axis=-1) - curves)


def _range(curves: Array) -> Array:
    return np.asarray(curves.max(axis=-1) - curves.min(axis=-1))


def _farthest(curves: Array) -> Array:
    return np.asarray(np.maximum(curves.max(axis=-1), -curves.min(axis=-1)))


total = Extreme(_itself, _range)
"""F_p."""
largest_single = Extreme(_steps, _farthest)
"""f_p."""


@cites(
    "JCGM 101:2008", "derived here", formula="the λ at which X(λ c + e) is read as X:  median, 0.25 % and 99.75 % of draws of e"
)
def unbiased(found: Spacing, extreme: Extreme = total, draws: int = DRAWS, seed: int = SEED) -> Unbiased:
    """The extreme freed of its bias."""
    read = float(extreme(found.cumulative))
    scatter = extreme.of(_scatter(found, draws, seed))
    spread = float(np.quantile(extreme.size(scatter), 0.99))
    if spread == 0.0 or read == 0.0:
        return Unbiased(read, read, read, read)
    shapes = [shape for shape in (_shape(found), found.cumulative) if float(extreme(shape)) > 1e-6 * read]
    ends = [_sizes_of(shape, scatter, extreme, read, spread) for shape in shapes]
    return Unbiased(read, ends[0][1], min(one[0] for one in ends), max(one[2] for one in ends))


def _sizes_of(shape: Array, scatter: Array, extreme: Extreme, read: float, spread: float) -> tuple[float, float, float]:
    """Low, likeliest and high size of an extreme whose curve has this shape."""
    size, own = float(extreme(shape)), extreme.of(shape)
    factors = np.linspace(0.0, (read + spread) / size, SIZES)
    seen = np.sort(np.array([extreme.size(factor * own + scatter) for factor in factors]), axis=1)
    last = len(scatter) - 1
    low, likeliest, high = (_crossing(factors, seen[:, round(share * last)], read) * size for share in (1 - TAIL, 0.5, TAIL))
    return low, likeliest, high


def _scatter(found: Spacing, draws: int, seed: int) -> Array:
    """Curves of scatter alone, as the readings scatter."""
    white = np.random.default_rng(seed).standard_normal((draws, found.count))
    size = np.sqrt(found.noise / found.count)[: found.count // 2 + 1]
    return np.asarray(np.fft.irfft(np.fft.rfft(white, axis=1) * size, n=found.count, axis=1))


def _shape(found: Spacing) -> Array:
    """The curve with every wave shrunk by what scatter gives it."""
    waves = np.fft.fft(found.cumulative)
    power = np.abs(waves) ** 2
    kept = np.where(power > found.noise, 1 - found.noise / np.where(power > 0, power, 1.0), 0.0)
    kept[0] = 0.0
    return np.asarray(np.real(np.fft.ifft(waves * kept)))


def _crossing(sizes: Array, seen: Array, read: float) -> float:
    """The size at which a rising quantile reaches what was read; 0 where it begins above it."""
    rising = np.maximum.accumulate(seen)
    if read <= rising[0]:
        return 0.0
    return float(np.interp(read, rising, sizes))
