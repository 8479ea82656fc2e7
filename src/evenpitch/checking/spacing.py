"""Spacing of a gear from comparator readings that close on themselves: each space's place, with a doubt that grows to mid-circle.

Readings over one pitch, or over several, in any number of rounds; each set has its own arbitrary zero, which the closing takes out.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from evenpitch.checking.least_squares import Array
from evenpitch.checking.measured import Measured, coverage_factor
from evenpitch.quantity.refusal import refuse
from evenpitch.sources.citations import cites

ENOUGH = 20
"""Degrees of freedom from which the scatter of the rounds is believed before the figure stated for the instrument."""


@dataclass(frozen=True, slots=True)
class PitchSet:
    """Rounds of readings over `over` pitches, mm, each of all spaces in order; `u`: standard uncertainty of one reading as stated."""

    rounds: tuple[tuple[float, ...], ...]
    over: int = 1
    u: float = 0.003


@dataclass(frozen=True, slots=True, eq=False)
class Spacing:
    """Where the spaces of one flank stand. Lengths in mm along the circle read on; `cumulative[0]`, space 1, is 0.

    `noise`: what scatter alone is expected to give each wave, as the mean square of its transform. `s`: of one reading; it rests
    on the scatter of the rounds where `from_rounds`, else on what was stated.
    """

    count: int
    single: Array
    cumulative: Array
    noise: Array
    s: Measured
    rounds: int
    from_rounds: bool

    @property
    def factor(self) -> float:
        """Coverage factor: of the freedom that s rests on."""
        return coverage_factor(self.s.freedom)

    def u_at(self) -> Array:
        """Standard uncertainty of each space's place relative to space 1."""
        waves = np.arange(self.count)
        places = np.arange(self.count)
        share = 4 * np.sin(np.pi * np.outer(places, waves) / self.count) ** 2
        return np.asarray(np.sqrt(share @ self.noise) / self.count)

    @property
    def u_mid(self) -> float:
        """The same at mid-circle, where it is largest."""
        waves = np.arange(self.count)
        share = 4 * np.sin(np.pi * (self.count // 2) * waves / self.count) ** 2
        return float(math.sqrt(share @ self.noise)) / self.count

    @property
    def u_single(self) -> float:
        """Standard uncertainty of one single pitch deviation."""
        share = 4 * np.sin(np.pi * np.arange(self.count) / self.count) ** 2
        return float(math.sqrt(share @ self.noise)) / self.count

    @property
    def F_p(self) -> float:  # noqa: N802
        """Total cumulative pitch deviation, as read."""
        return float(np.ptp(self.cumulative))

    @property
    def f_p(self) -> float:
        """Largest single pitch deviation, as read."""
        return float(np.abs(self.single).max())

    @property
    def f_u(self) -> float:
        """Largest difference of two neighbouring pitches, the last and the first among them."""
        return float(np.abs(np.diff(self.single, append=self.single[:1])).max())

    def highest(self) -> int:
        """The space furthest ahead, from 1."""
        return int(np.argmax(self.cumulative)) + 1

    def lowest(self) -> int:
        """The space furthest behind, from 1."""
        return int(np.argmin(self.cumulative)) + 1


@cites("NIST J. Res. 103(2) 1998", "ISO/TR 10064-1", formula="d_i = m_i − m̄;  c_(i+1) = c_i + d_i;  u²(c_k) = s² k (z − k)/z")
def spacing(count: int, sets: Sequence[PitchSet]) -> Spacing:
    """The spaces' places that fit all sets best, each set with its own zero. Every round must hold all spaces."""
    for one in sets:
        if any(len(readings) != count for readings in one.rounds):
            raise ValueError("a round does not hold every space")
    s, from_rounds = _one_reading(sets)
    weights = [len(one.rounds) / (s.u if from_rounds else one.u) ** 2 for one in sets]
    waves = np.arange(count)
    told = np.zeros(count)
    fitted = np.zeros(count, complex)
    for one, weight in zip(sets, weights, strict=True):
        over = np.exp(2j * np.pi * waves * one.over / count) - 1
        read = np.fft.fft(np.mean(np.asarray(one.rounds, float), axis=0))
        fitted += weight * np.conj(over) * read
        told += weight * np.abs(over) ** 2
    _refuse_untold(count, sets, told)
    told[0] = math.inf
    curve = np.real(np.fft.ifft(fitted / told))
    rounds = max(len(one.rounds) for one in sets)
    return _made(count, curve, count / told, s, rounds, from_rounds)


@cites("derived here", formula="c_i = (v_i + E(θ_i)) r;  u(c_i − c_1) = √2 u")
def from_places(count: int, rounds: Sequence[Sequence[float]], u: float) -> Spacing:
    """Spacing from places read one by one, mm along the circle, such as indexing under the head with its map taken off."""
    s, from_rounds = _one_reading((PitchSet(tuple(tuple(one) for one in rounds), 1, u),))
    noise = np.full(count, count * s.u**2 / len(rounds))
    noise[0] = 0.0
    return _made(count, np.mean(np.asarray(rounds, float), axis=0), noise, s, len(rounds), from_rounds)


def mean_of(spacings: Sequence[Spacing]) -> Spacing:
    """The mean of both flanks: where the spaces stand, whatever their width."""
    return _joined(spacings, [1 / len(spacings)] * len(spacings))


def half_difference(right: Spacing, left: Spacing) -> Spacing:
    """Half of right less left: what is wrong with the width of the spaces, + wider."""
    return _joined((right, left), (0.5, -0.5))


def _joined(spacings: Sequence[Spacing], weights: Sequence[float]) -> Spacing:
    curve = sum((weight * one.cumulative for one, weight in zip(spacings, weights, strict=True)), np.zeros(spacings[0].count))
    noise = sum((weight**2 * one.noise for one, weight in zip(spacings, weights, strict=True)), np.zeros(spacings[0].count))
    first = spacings[0]
    return _made(first.count, curve, noise, first.s, min(one.rounds for one in spacings), first.from_rounds)


def _made(count: int, curve: Array, noise: Array, s: Measured, rounds: int, from_rounds: bool) -> Spacing:
    single = np.roll(curve, -1) - curve
    return Spacing(count, single, curve - curve[0], noise, s, rounds, from_rounds)


def _one_reading(sets: Sequence[PitchSet]) -> tuple[Measured, bool]:
    """The standard deviation of one reading: pooled from the rounds, each with its own zero, or as stated."""
    square, freedom = 0.0, 0
    for one in sets:
        read = np.asarray(one.rounds, float)
        if len(read) < 2:
            continue
        left = read - read.mean(axis=1, keepdims=True)
        left = left - left.mean(axis=0, keepdims=True)
        square += float((left**2).sum())
        freedom += (read.shape[0] - 1) * (read.shape[1] - 1)
    if freedom >= ENOUGH and square > 0:
        s = math.sqrt(square / freedom)
        return Measured(s, s, freedom), True
    stated = max(one.u for one in sets)
    return Measured(stated, stated), False


def _refuse_untold(count: int, sets: Sequence[PitchSet], told: Array) -> None:
    """Readings over several pitches only, where that number and the count have a divisor in common, leave places untied."""
    least = 1e-12 * float(told.max())
    if float(told[1:].min()) <= least:
        over = ", ".join(str(one.over) for one in sets)
        raise refuse(
            "pitch step",
            f"over {over} pitches",
            f"readings over a number of pitches that shares no divisor with {count}",
            "The readings fall into rows that are not tied to each other.",
            "Add a round over one pitch.",
        )
