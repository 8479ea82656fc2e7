"""Laws of the link: targets close, pulses never add up a rounding, a steady lag moves every tooth alike, a worm that divides hides."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenpitch.link.motion import CrankFeed, PowerFeed
from evenpitch.link.passing import Linked, simulate_pass
from evenpitch.link.pulse_train import Timing, firing_counts, link_target, rate_limited
from evenpitch.link.resolution import rounding_cumulative, rounding_single
from evenpitch.link.waves import cumulative_share, single_share
from evenpitch.quantity.ratios import absolute_targets


@settings(deadline=None)
@given(st.integers(100, 400_000), st.integers(2, 400))
def test_targets_close_and_their_rounding_is_as_the_closed_form_says(total: int, teeth: int) -> None:
    targets = absolute_targets(total, teeth)
    errors = [Fraction(target) - Fraction(total * k, teeth) for k, target in enumerate(targets)]
    assert errors[0] == errors[-1] == 0
    assert max(map(abs, errors)) <= Fraction(1, 2)
    assert max(errors) - min(errors) == pytest.approx(rounding_cumulative(Fraction(total), teeth), abs=1e-9)
    moves = [abs(b - a) for a, b in pairwise(errors)]
    assert max(moves) == pytest.approx(rounding_single(Fraction(total), teeth), abs=1e-9)


@settings(deadline=None)
@given(st.integers(1, 5000), st.integers(1, 5000), st.integers(0, 3000))
def test_a_pulse_fires_at_the_first_count_that_is_owed_it(pulses: int, counts: int, most: int) -> None:
    last = int(link_target(most, pulses, counts))
    fired = firing_counts(1, last, pulses, counts)
    assert (link_target(fired, pulses, counts) >= np.arange(1, last + 1)).all()
    assert (link_target(fired - 1, pulses, counts) < np.arange(1, last + 1)).all()


@settings(max_examples=40, deadline=None)
@given(st.floats(0.2, 5.0), st.floats(0.0, 0.9), st.floats(0.0, 0.02), st.floats(0.0, 0.99))
def test_place_and_time_are_inverse_and_pulses_follow_the_table(mean: float, uneven: float, delay: float, offset: float) -> None:
    motion = CrankFeed(mean, uneven, 1.0, 0.3) if uneven else PowerFeed(mean)
    places = np.linspace(0.0, 8.0, 97)
    assert motion.place(motion.when(places)) == pytest.approx(places, abs=1e-9)
    link = Linked(
        count=0.005, pulses=2046, per_counts=2819, offset=offset, pulses_per_turn=64_000, lead=440.9, timing=Timing(latency=delay)
    )
    found = simulate_pass(motion, link, 3.0)
    assert (np.diff(found.number) == 1).all()
    assert found.longest_delay == pytest.approx(delay, abs=1e-9)


@settings(max_examples=30, deadline=None)
@given(st.floats(0.3, 3.0), st.floats(0.0, 0.02), st.floats(0.0, 0.02))
def test_a_steady_lag_moves_every_place_alike(feed: float, one: float, other: float) -> None:
    def errors(delay: float) -> np.ndarray:
        link = Linked(
            count=0.005,
            pulses=2046,
            per_counts=2819,
            offset=0.4,
            pulses_per_turn=64_000,
            lead=440.9,
            timing=Timing(latency=delay),
        )
        return np.asarray(simulate_pass(PowerFeed(feed), link, 5.0).after)

    apart = errors(one) - errors(other)
    assert float(np.ptp(apart)) < 1e-9


@settings(deadline=None)
@given(st.lists(st.floats(0, 10), min_size=1, max_size=60), st.floats(5, 500))
def test_a_rate_limit_never_hurries_and_never_crowds(times: list[float], rate: float) -> None:
    due = np.sort(np.array(times))
    out = rate_limited(due, rate)
    assert (out >= due - 1e-9).all()
    assert (np.diff(out) >= 1 / rate - 1e-9).all()


@settings(deadline=None)
@given(st.integers(1, 120), st.integers(4, 300))
def test_a_wave_hides_exactly_where_the_count_divides_it(per_turn: int, teeth: int) -> None:
    hidden = per_turn % teeth == 0
    assert (cumulative_share(per_turn, teeth) == 0) is hidden
    assert (single_share(per_turn, teeth) == 0) is hidden
    assert single_share(per_turn, teeth) <= cumulative_share(per_turn, teeth) + 1e-9
