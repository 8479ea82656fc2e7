"""Readings that close on themselves: places, their doubt, several pitches at once, extremes freed of their bias."""

from __future__ import annotations

import math
import os

import numpy as np
import pytest

from checking.gears_read import S, pitches, read, turns
from evenpitch.checking.extremes import DRAWS, Extreme, largest_single, total, unbiased
from evenpitch.checking.spacing import PitchSet, from_places, half_difference, mean_of, spacing
from evenpitch.quantity.refusal import Refusal

FULL = os.environ.get("EVENPITCH_FULL") == "1"

TWELVE = (3, -2, 5, 1, -4, 0, 2, -6, 4, -3, 7, -1)
"""Comparator readings, µm, of the case G7-06 of tests/data/gears.json (ISO/TR 10064-1 definitions; derived there)."""


def test_twelve_readings_close_as_the_worked_case_does() -> None:
    found = spacing(12, [PitchSet((tuple(value / 1000 for value in TWELVE),))])
    single = [2.5, -2.5, 4.5, 0.5, -4.5, -0.5, 1.5, -6.5, 3.5, -3.5, 6.5, -1.5]
    ends = [2.5, 0.0, 4.5, 5.0, 0.5, 0.0, 1.5, -5.0, -1.5, -5.0, 1.5, 0.0]
    assert np.allclose(found.single * 1000, single)
    assert np.allclose(np.roll(found.cumulative, -1) * 1000, ends)
    assert found.f_p * 1000 == pytest.approx(6.5)
    assert found.F_p * 1000 == pytest.approx(10.0)
    assert found.f_u * 1000 == pytest.approx(10.0)


@pytest.mark.parametrize("count", [5, 12, 97, 400])
def test_doubt_grows_to_mid_circle(count: int) -> None:
    """u(c_k) = s √(k (z − k)/z): circle closure, J. Res. NIST 103(2) 1998."""
    found = spacing(count, [PitchSet(((0.0,) * count,), 1, S)])
    k = np.arange(count)
    assert np.allclose(found.u_at(), S * np.sqrt(k * (count - k) / count))
    assert found.u_mid == pytest.approx(S * math.sqrt((count // 2) * (count - count // 2) / count))
    assert found.u_single == pytest.approx(S * math.sqrt((count - 1) / count))


def test_mid_circle_of_the_wheel() -> None:
    """3 µm a reading on 97 spaces: 14.8 µm at mid-circle (own figure of the job, by the closure formula)."""
    assert spacing(97, [PitchSet(((0.0,) * 97,), 1, 0.003)]).u_mid * 1000 == pytest.approx(14.8, abs=0.05)


def test_rounds_over_several_pitches_help_at_mid_circle() -> None:
    rng = np.random.default_rng(8)
    curve = 0.02 * np.sin(turns(97))
    one = spacing(97, [read(curve, rng)])
    both = spacing(97, [read(curve, rng), read(curve, rng, over=8), read(curve, rng, over=24)])
    assert both.u_mid < 0.35 * one.u_mid
    off = both.cumulative - (curve - curve[0])
    assert np.abs(off).max() < 5 * both.u_mid


def test_without_scatter_every_set_gives_the_same_places() -> None:
    curve = 0.01 * np.cos(3 * turns(30)) + 0.002 * np.cos(11 * turns(30))
    for sets in ([1], [7], [1, 6], [6, 10, 1]):
        found = spacing(30, [PitchSet((tuple(np.roll(curve, -k) - curve + 5.0),), k) for k in sets])
        assert np.allclose(found.cumulative, curve - curve[0], atol=1e-12)


def test_pitches_with_a_divisor_in_common_tie_nothing_together() -> None:
    with pytest.raises(Refusal, match="shares no divisor with 96"):
        spacing(96, [PitchSet(((0.0,) * 96,), 8)])


def test_a_round_must_hold_every_space() -> None:
    with pytest.raises(ValueError, match="every space"):
        spacing(97, [PitchSet(((0.0,) * 96,))])


def test_scatter_comes_from_the_rounds() -> None:
    rng = np.random.default_rng(2)
    found = spacing(97, [PitchSet(read(np.zeros(97), rng, 6, s=0.005).rounds, 1, 0.001)])
    assert found.from_rounds
    assert found.s.value == pytest.approx(0.005, rel=0.1)
    assert found.s.freedom == 5 * 96


@pytest.mark.long
def test_places_lie_within_their_stated_doubt() -> None:
    """95 ± 1 % of 10 000 trials, each space; a tenth of them otherwise."""
    trials = 10_000 if FULL else 1_000
    rng = np.random.default_rng(11)
    curve = 0.02 * np.sin(turns(97)) + 0.007 * np.sin(40 * turns(97))
    step, true = pitches(curve), curve - curve[0]
    within, seen = 0, 0
    for _ in range(trials):
        found = spacing(97, [PitchSet((tuple(step + rng.normal(0, S, 97)),), 1, S)])
        bound = found.factor * found.u_at()[1:]
        within += int((np.abs(found.cumulative - true)[1:] <= bound).sum())
        seen += 96
    assert 0.94 <= within / seen <= 0.96


GEARS = {
    "near perfect, 97 teeth": (97, 0.0003, 5, 0.0, 0),
    "wheel and worm, 97 teeth": (97, 0.020, 1, 0.007, 40),
    "small pinion, 28 teeth": (28, 0.006, 1, 0.002, 12),
}
"""Three stated gears: count, amplitude and waves of two of its waves, mm."""


@pytest.mark.long
@pytest.mark.parametrize("name", GEARS)
@pytest.mark.parametrize("extreme", [total, largest_single])
def test_the_interval_of_an_extreme_covers_the_truth(name: str, extreme: Extreme) -> None:
    """At least 94 % of trials, one round of readings; and the likeliest size is nearer than what was read."""
    trials, draws = (1_000, DRAWS) if FULL else (100, DRAWS // 2)
    count, first, h1, second, h2 = GEARS[name]
    rng = np.random.default_rng(5)
    curve = first * np.sin(h1 * turns(count) + 0.7) + second * np.sin(h2 * turns(count))
    true = float(extreme(curve))
    made = [unbiased(spacing(count, [read(curve, rng)]), extreme, draws) for _ in range(trials)]
    assert sum(one.low <= true <= one.high for one in made) >= 0.94 * trials
    read_bias = np.mean([one.read - true for one in made])
    assert abs(np.mean([one.corrected - true for one in made])) < 0.5 * read_bias


def test_without_scatter_nothing_is_corrected() -> None:
    places = from_places(20, [tuple(0.01 * np.sin(turns(20)))], 1e-12)
    assert unbiased(places).corrected == pytest.approx(places.F_p, rel=1e-6)


def test_mean_and_half_difference_of_flanks() -> None:
    right = spacing(40, [PitchSet((tuple(pitches(0.01 * np.sin(turns(40)))),))])
    left = spacing(40, [PitchSet((tuple(pitches(-0.01 * np.sin(turns(40)))),))])
    assert np.allclose(mean_of([right, left]).cumulative, 0, atol=1e-15)
    assert np.allclose(half_difference(right, left).cumulative, right.cumulative)
    assert mean_of([right, left]).u_mid == pytest.approx(right.u_mid / math.sqrt(2))
