"""A wave in the scale's readings: fitted at a known period, or searched for among those the readings can show."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from evenpitch.checking.least_squares import Array, fit
from evenpitch.checking.measured import Measured
from evenpitch.checking.readings import ScaleReading
from evenpitch.quantity.refusal import refuse
from evenpitch.sources.citations import cites

MOST_PERIODS = 400
BY_CHANCE = 0.01
SHARPEN = 24
AT_ONCE = 32


@dataclass(frozen=True, slots=True)
class Wave:
    """amplitude × sin(2π x/period + phase), mm and radian. `chance`: how likely so large a wave is where there is none."""

    period: float
    amplitude: Measured
    phase: float
    chance: float

    def shown(self) -> bool:
        """Whether the wave can be told from scatter."""
        return self.chance < BY_CHANCE


@cites("derived here", formula="error = a + ε (x − x̄) + h dir/2 + p sin(2πx/P) + q cos(2πx/P); A = √(p² + q²)")
def wave_at(readings: Sequence[ScaleReading], period: float) -> Wave:
    """The wave of one period, fitted together with gain and reversal."""
    x, error, plain = _arrays(readings)
    if len(readings) < len(plain) + 4:
        raise refuse(
            "readings", len(readings), f"at least {len(plain) + 4} readings", "A wave has two terms more.", "Read more places."
        )
    angle = 2 * math.pi * x / period
    try:
        found = fit({**plain, "sin": np.sin(angle), "cos": np.cos(angle)}, error)
    except ValueError:
        spacing = f"places a whole number of {period:g} mm apart"
        do = "Read places that are no whole number of periods apart, such as a third."
        raise refuse(
            "period", f"{period:g} mm", "places spread over the period", f"These are {spacing}: every wave looks flat.", do
        ) from None
    p, q = found.term("sin"), found.term("cos")
    amplitude, u = amplitude_of(p.value, q.value, found.covariance[-2:, -2:])
    return Wave(
        period,
        Measured(amplitude, u, found.freedom),
        math.atan2(q.value, p.value),
        _chance(found.covariance, found.terms, found.freedom),
    )


@cites("JCGM 100:2008, 5.1.2", formula="u_A² = (p² u_p² + 2 p q u_pq + q² u_q²)/A²")
def amplitude_of(p: float, q: float, covariance: Array) -> tuple[float, float]:
    """Amplitude of p sin + q cos, and its standard uncertainty; for a wave near 0 the mean of the two u."""
    amplitude = math.hypot(p, q)
    if amplitude * amplitude <= float(np.trace(covariance)):
        return amplitude, math.sqrt(float(np.trace(covariance)) / 2)
    toward = np.array([p, q]) / amplitude
    return amplitude, math.sqrt(float(toward @ covariance @ toward))


def _chance(covariance: Array, terms: Array, freedom: int) -> float:
    """The F test of the two last terms."""
    from scipy.special import fdtrc

    inside = covariance[-2:, -2:]
    if not inside.any():
        return 0.0
    ratio = float(terms[-2:] @ np.linalg.solve(inside, terms[-2:])) / 2
    return float(fdtrc(2, freedom, ratio))


def _arrays(readings: Sequence[ScaleReading]) -> tuple[Array, Array, dict[str, Array]]:
    x = np.array([one.reference for one in readings])
    error = np.array([one.error for one in readings])
    side = np.array([0.5 if one.direction == "up" else -0.5 for one in readings])
    plain = {"at": np.ones(len(x)), "gain": x - x.mean()}
    return x, error, {**plain, "reversal": side} if len(set(side.tolist())) > 1 else plain


@cites("derived here", formula="the P in 2·spacing … range that leaves least")
def strongest_wave(readings: Sequence[ScaleReading]) -> Wave | None:
    """The wave that explains most, among periods from twice the closest spacing to the range read; None where nothing is shown.

    Its chance is multiplied by the number of periods that were tried.
    """
    x, error, plain = _arrays(readings)
    places = np.unique(np.round(x, 2))
    if len(places) < 8 or len(readings) < len(plain) + 6:
        return None
    reach, spacing = float(np.ptp(x)), float(np.min(np.diff(places)))
    most = min(MOST_PERIODS, math.floor(reach / (2 * spacing)) * 2)
    periods = reach / np.linspace(1.0, max(most / 2, 1.5), max(most, 8))
    base = np.linalg.qr(np.column_stack(list(plain.values())))[0]
    rest = error - base @ (base.T @ error)
    best = _sharpened(periods, int(np.argmax(_explained(x, rest, base, periods))), x, rest, base)
    wave = wave_at(readings, best)
    chance = min(1.0, wave.chance * len(periods))
    found = Wave(wave.period, wave.amplitude, wave.phase, chance)
    return found if found.shown() else None


def _sharpened(periods: Array, at: int, x: Array, rest: Array, base: Array) -> float:
    """The best period between its two neighbours."""
    low, high = periods[min(at + 1, len(periods) - 1)], periods[max(at - 1, 0)]
    between = 1 / np.linspace(1 / high, 1 / low, SHARPEN)
    return float(between[int(np.argmax(_explained(x, rest, base, between)))])


def _explained(x: Array, rest: Array, base: Array, periods: Array) -> Array:
    """Sum of squares that a wave of each period takes away; some dozens of periods at once, so that memory stays small."""
    found = [_explained_by(x, rest, base, periods[start : start + AT_ONCE]) for start in range(0, len(periods), AT_ONCE)]
    return np.concatenate(found)


def _explained_by(x: Array, rest: Array, base: Array, periods: Array) -> Array:
    angle = 2 * math.pi * x[None, :] / periods[:, None]
    sine, cosine = np.sin(angle), np.cos(angle)
    sine -= (sine @ base) @ base.T
    cosine -= (cosine @ base) @ base.T
    ss, cc, sc = (sine**2).sum(axis=1), (cosine**2).sum(axis=1), (sine * cosine).sum(axis=1)
    s, c = sine @ rest, cosine @ rest
    whole = ss * cc - sc**2
    plain = whole > 1e-6 * np.maximum(ss * cc, 1e-12)
    taken = (s**2 * cc - 2 * s * c * sc + c**2 * ss) / np.where(plain, whole, 1.0)
    return np.where(plain, taken, 0.0)
