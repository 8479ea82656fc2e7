"""How the table moves, and when it is where: power feed, a hand on the crank, a table of times and places."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from functools import cached_property
from itertools import pairwise
from typing import Any

import numpy as np
from numpy.typing import NDArray

from evenpitch.quantity.refusal import refuse
from evenpitch.sources.citations import cites

Array = NDArray[np.float64]

_GRID = 2048
_NEWTON = 2


@cites("derived here", formula="u − k sin u = M")
def eccentric(mean: Any, unevenness: float, turns_of_newton: int = _NEWTON) -> Array:
    """u of each M: Kepler's equation, from a table of one turn and then Newton's rule on the whole array."""
    m = np.asarray(mean, float)
    if unevenness == 0:
        return m
    turn = 2 * math.pi
    whole = np.floor(m / turn) * turn
    rest = m - whole
    grid = np.linspace(0.0, turn, _GRID + 1)
    u = np.interp(rest, grid - unevenness * np.sin(grid), grid)
    for _ in range(turns_of_newton):
        slope = np.maximum(1 - unevenness * np.cos(u), 1e-9)
        u -= (u - unevenness * np.sin(u) - rest) / slope
    u += whole
    return u


@dataclass(frozen=True, slots=True)
class PowerFeed:
    """A steady feed, mm/s."""

    feed: float

    def place(self, times: Any) -> Array:
        """Where the table is, mm, at times in s."""
        return self.feed * np.asarray(times, float)

    def when(self, places: Any) -> Array:
        """When it is there, s."""
        return np.asarray(places, float) / self.feed

    def speed(self, times: Any) -> Array:
        """Feed at times, mm/s."""
        return np.full(np.shape(times), self.feed)


@dataclass(frozen=True, slots=True)
class CrankFeed:
    """A hand on the crank: v = v0 (1 − k cos(2π f t + c)). Mean feed mm/s, unevenness k from 0 to below 1, turns a second, phase."""

    mean: float
    unevenness: float
    turns: float
    phase: float = 0.0

    @property
    def pace(self) -> float:
        """2π f, radian a second."""
        return 2 * math.pi * self.turns

    def place(self, times: Any) -> Array:
        """Where the table is, mm, at times in s."""
        t = np.asarray(times, float)
        w, c = self.pace, self.phase
        return np.asarray(self.mean * (t - self.unevenness / w * (np.sin(w * t + c) - math.sin(c))), float)

    def when(self, places: Any) -> Array:
        """When it is there, s: the inverse at those places only, never a march through time."""
        w, c, k = self.pace, self.phase, self.unevenness
        mean = w / self.mean * np.asarray(places, float) + (c - k * math.sin(c))
        return (eccentric(mean, k) - c) / w

    def speed(self, times: Any) -> Array:
        """Feed at times, mm/s."""
        return np.asarray(self.mean * (1 - self.unevenness * np.cos(self.pace * np.asarray(times, float) + self.phase)), float)


@dataclass(frozen=True)
class Tabulated:
    """Times rising, s, and places, mm; straight between them; it may turn round."""

    times: tuple[float, ...]
    places: tuple[float, ...]
    _arrays: tuple[Array, Array] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        t, x = np.asarray(self.times, float), np.asarray(self.places, float)
        if len(t) != len(x) or len(t) < 2 or not (np.diff(t) > 0).all() or not np.isfinite([t, x]).all():
            raise refuse(
                "motion", f"{len(t)} times, {len(x)} places", "two or more finite places at rising times",
                "A time comes twice, or back.", "Mend the table of the motion.",
            )  # fmt: skip
        object.__setattr__(self, "_arrays", (t, x))

    def place(self, times: Any) -> Array:
        """Where the table is, mm, at times in s."""
        t, x = self._arrays
        return np.asarray(np.interp(np.asarray(times, float), t, x), float)

    def speed(self, times: Any) -> Array:
        """Feed at times, mm/s, signed."""
        t, x = self._arrays
        piece = np.clip(np.searchsorted(t, np.asarray(times, float), side="right") - 1, 0, len(t) - 2)
        return np.asarray((np.diff(x) / np.diff(t))[piece], float)

    @cached_property
    def pieces(self) -> tuple[tuple[Array, Array], ...]:
        """Times and places split where the table turns round; standing still belongs to the piece before."""
        t, x = self._arrays
        signs = np.sign(np.diff(x))
        for i in range(1, len(signs)):
            signs[i] = signs[i] or signs[i - 1]
        cuts = [0, *(np.nonzero(np.diff(signs))[0] + 1), len(t) - 1]
        return tuple((t[a : b + 1], x[a : b + 1]) for a, b in pairwise(cuts))


Motion = PowerFeed | CrankFeed | Tabulated


def checked_crank(mean: float, unevenness: float, turns: float, phase: float = 0.0) -> CrankFeed:
    """A hand's feed, or a Refusal: a hand that stops or turns back is not this motion."""
    if not (mean > 0 and 0 <= unevenness < 1 and turns > 0):
        raise refuse(
            "crank", f"{mean:g} mm/s {unevenness:g} {turns:g} Hz", "mean feed above 0, unevenness from 0 to below 1, turns above 0",
            "At 1 the hand stops once a turn.", 'Write e.g. "1 mm/s 0.6 1 Hz".',
        )  # fmt: skip
    return CrankFeed(mean, unevenness, turns, phase)
