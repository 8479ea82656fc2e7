"""A pass simulated by events, against tests/data/link.json and a plain loop that marches in time."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest

from evenpitch.link.motion import CrankFeed, Motion, PowerFeed, Tabulated, checked_crank, eccentric
from evenpitch.link.passing import Linked, Pass, simulate_pass, target_at
from evenpitch.link.play import count_moves, hysteresis_needed, through_play
from evenpitch.link.pulse_train import Timing, acceleration_limited, firing_counts, leaving, link_target, rate_limited
from evenpitch.quantity.refusal import Refusal
from link.marching import march, queued
from link.shop import rows

LEAD = 440.899316356121615
BASE = 23.81617511530946


def motion_of(profile: dict[str, float]) -> Motion:
    if profile["k"]:
        return CrankFeed(profile["v0"], profile["k"], profile["f"], profile["phase"])
    return PowerFeed(profile["v0"])


def um(found: Pass, radius: float = BASE) -> tuple[float, float]:
    low, high = found.error_range
    return low * radius * 1000, high * radius * 1000


@pytest.mark.parametrize("case", rows("pass"), ids=lambda case: str(case["id"]))
def test_worked_passes(case: dict[str, Any]) -> None:
    i, out = case["inputs"], case["outputs"]
    timing = Timing(latency=i["tau"], most=i["fmax"])
    link = Linked(
        count=i["count_mm"], pulses=i["P"], per_counts=i["Q"], offset=i["phi"], pulses_per_turn=i["steps_per_rev"], lead=i["lead"],
        timing=timing,
    )  # fmt: skip
    found = simulate_pass(motion_of(i["profile"]), link, i["T"])
    assert (found.pulses, found.done) == (out["steps_total"], out["steps_in_T"])
    assert found.left[found.pulses // 2] == pytest.approx(out["t_mid"], rel=1e-9)
    assert found.longest_delay == pytest.approx(out["max_delay"], abs=1e-6)
    assert um(found, i["r"]) == pytest.approx((out["err_min_um"], out["err_max_um"]), abs=1e-6)


@pytest.mark.parametrize("case", rows("thresholds"), ids=lambda case: str(case["id"]))
def test_counts_at_which_pulses_fire(case: dict[str, Any]) -> None:
    i, out = case["inputs"], case["outputs"]
    assert link_target(i["counts"], i["P"], i["Q"]) == out["steps"]
    fired = firing_counts(1, out["steps"], i["P"], i["Q"])
    assert fired[:8].tolist() == out["first_counts"]
    assert fired[-1] == out["last_count"]
    every = link_target(np.arange(i["counts"] + 1), i["P"], i["Q"])
    assert all(every[n - 1] < k <= every[n] for k, n in enumerate(fired.tolist(), 1))


def linked(count: float, pulses: int, per: int, turn: int, **timing: Any) -> Linked:
    given = Timing(latency=0.002, **{"most": 20_000.0, **timing})
    return Linked(count=count, pulses=pulses, per_counts=per, offset=0.37, pulses_per_turn=turn, lead=LEAD, timing=given)


def test_a_minute_by_crank_at_5_um() -> None:
    """The range of the error, µm, as two programs found it: −3.3205 to 1.5191; 8709 pulses. No outside figure."""
    found = simulate_pass(CrankFeed(1, 0.6, 1.2, 0.3), linked(0.005, 2046, 2819, 64_000), 60.0)
    assert found.pulses == 8709
    assert um(found) == pytest.approx((-3.3205, 1.5191), abs=0.0002)
    assert found.behind_from(0.002) is None


def test_against_a_march_in_time() -> None:
    """Same pulses as a plain loop, within a tick of its times; the loop comes near the true range from inside."""
    motion, link, tick = CrankFeed(1, 0.6, 1.2, 0.3), linked(0.001, 6138, 14095, 192_000), 5e-5
    events, loop = simulate_pass(motion, link, 6.0), march(motion, link, 6.0, tick)
    before = events.left <= 6.0 - tick
    assert loop.numbers[: int(before.sum())] == events.number[before].tolist()
    late = np.array(loop.times[: int(before.sum())]) - events.left[before]
    assert late.min() >= -1e-9
    assert late.max() <= tick + 1e-9
    fine = march(motion, link, 6.0, 1e-5)
    low, high = um(events)
    assert low - 1e-6 <= fine.low * BASE * 1000 <= low + 0.01
    assert high - 0.01 <= fine.high * BASE * 1000 <= high + 1e-6


def test_rate_limit_equals_a_queue() -> None:
    times = np.sort(np.random.default_rng(5).random(4000) * 10)
    assert rate_limited(times, 500.0) == pytest.approx(queued(times.tolist(), 500.0), abs=1e-9)


def test_saturated_link() -> None:
    """Longest delay 94 ms at 200 pulses/s, 152 ms with a ramp of 500 pulses/s² from 20: two programs; no outside figure."""
    motion = CrankFeed(1, 0.9, 1.0, 0.0)
    plain = simulate_pass(motion, linked(0.005, 2046, 2819, 64_000, most=200.0), 20.0)
    assert plain.longest_delay == pytest.approx(0.094, abs=0.001)
    ramped = simulate_pass(motion, linked(0.005, 2046, 2819, 64_000, most=200.0, acceleration=500.0, start=20.0), 20.0)
    assert ramped.longest_delay == pytest.approx(0.152, abs=0.001)
    place = plain.behind_from(0.002)
    assert place is not None
    assert 0 < place < 0.2


def test_asking_at_random_times_gives_the_same_pulses() -> None:
    motion, link = CrankFeed(1, 0.6, 1.2, 0.3), linked(0.005, 2046, 2819, 64_000, most=None)
    found = simulate_pass(motion, link, 10.0)
    times = np.random.default_rng(1).random(500) * 9.9 + 0.01
    assert target_at(motion, link, times).tolist() == np.searchsorted(found.left, times, side="right").tolist()


def test_poll_delays_to_its_tick() -> None:
    due = np.array([0.0101, 0.0199, 0.02])
    assert leaving(due, Timing(latency=0.001, poll=0.01)) == pytest.approx([0.021, 0.021, 0.021])


def test_a_table_that_turns_round_gives_its_pulses_back() -> None:
    motion = Tabulated((0.0, 10.0, 12.0, 22.0), (0.0, 10.0, 10.0, 0.0))
    found = simulate_pass(motion, linked(0.005, 2046, 2819, 64_000), 23.0)
    assert found.number[-1] == 0
    assert found.pulses == 2 * int(found.number.max())
    assert np.abs(np.diff(found.number)).max() == 1
    low, high = um(found)
    assert high - low < 10
    assert motion.speed([1.0, 15.0]) == pytest.approx([1.0, -1.0])


def test_power_feed_and_crank_agree_where_the_crank_is_even() -> None:
    assert CrankFeed(1.0, 0.0, 1.0).when([3.0]) == pytest.approx([3.0])
    assert PowerFeed(2.0).speed([0.0, 1.0]).tolist() == [2.0, 2.0]
    assert CrankFeed(1.0, 0.5, 1.0).speed([0.0]) == pytest.approx([0.5])


def test_keplers_equation_to_rounding() -> None:
    mean = np.linspace(-20, 20, 4001)
    for k in (0.0, 0.4, 0.9, 0.98):
        u = eccentric(mean, k)
        assert np.abs(u - k * np.sin(u) - mean).max() < 1e-9


def test_a_pass_with_no_pulse_has_the_error_of_its_ends() -> None:
    found = simulate_pass(PowerFeed(0.001), linked(0.005, 2046, 2819, 64_000), 0.5)
    assert found.pulses == 0
    assert found.longest_delay == 0
    assert found.error_range == (found.ends[1], found.ends[0])


def test_refusals() -> None:
    with pytest.raises(Refusal, match="stops once a turn"):
        checked_crank(1.0, 1.0, 1.0)
    assert checked_crank(1.0, 0.6, 1.0) == CrankFeed(1.0, 0.6, 1.0)
    with pytest.raises(Refusal, match="rising times"):
        Tabulated((0.0, 0.0), (0.0, 1.0))
    with pytest.raises(Refusal, match="pulses"):
        simulate_pass(PowerFeed(1e6), linked(0.001, 6138, 14095, 192_000), 60.0)


def test_acceleration_limit_lets_an_idle_motor_start_anew() -> None:
    out = acceleration_limited(np.array([0.0, 0.001, 5.0]), 200.0, 500.0, 20.0)
    assert out[0] == 0.0
    assert out[1] > 0.02
    assert out[2] == 5.0


def test_play_follows_only_after_its_width() -> None:
    driven = np.concatenate([np.linspace(0, 10, 101), np.linspace(10, 4, 61)[1:], np.linspace(4, 8, 41)[1:]])
    far = through_play(driven, 2.0)
    y, plain = -1.0, []
    for x in driven.tolist():
        y = min(max(y, x - 1), x + 1)
        plain.append(y)
    assert far == pytest.approx(plain)
    assert through_play([], 1.0).tolist() == []
    assert through_play([1.0], 1.0, 3.0).tolist() == [1.5]


def test_dither_of_a_coarse_scale() -> None:
    """2 µm at 97 Hz on 5 µm counts over 0.4 mm: 315 moves for 80; one count of hysteresis mends it; 6 µm needs 3. Simulated."""
    t = np.arange(0, 2, 1e-5)
    small, large = (0.2 * t + size * np.sin(2 * math.pi * 97 * t) for size in (0.002, 0.006))
    assert count_moves(small, 0.005)[0] == 315
    assert count_moves(small, 0.005, 1) == (80, 0)
    assert count_moves(large, 0.005, 2)[1] == 76
    assert count_moves(large, 0.005, hysteresis_needed(0.012, 0.005)) == (80, 0)
    assert hysteresis_needed(0.002, 0.001) == 3
