"""Passes by the thousand against the same sums in a plain loop, and the spread that two programs found for this project."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from evenpitch.link.helix_passes import PassChance, PassPlan, by_chance, helix_passes, sums, track
from evenpitch.link.passing import Linked
from evenpitch.link.pulse_train import Timing
from link.shop import ARCSEC

LINK = Linked(
    count=0.005,
    pulses=2046,
    per_counts=2819,
    offset=0.0,
    pulses_per_turn=64_000,
    lead=440.899316356121615,
    timing=Timing(latency=0.005),
)
PLAN = PassPlan(
    places=np.linspace(16.2, 41.2, 97),
    mean=1.0,
    unevenness=0.6,
    turns=7.5 / (2 * math.pi),
    link=LINK,
    waves=((40.0, 20 * ARCSEC), (1.0, 25 * ARCSEC)),
    cycle=(32.0, 8 * ARCSEC),
    base_radius=23.81617511530946,
)


def plain(plan: PassPlan, chance: PassChance, row: int) -> list[float]:
    """One pass, place by place."""
    link, k, w = plan.link, plan.unevenness, 2 * math.pi * plan.turns
    c, found = float(chance.crank[row]), []
    for x in plan.places.tolist():
        mean = w * x / plan.mean + c - k * math.sin(c)
        u = mean
        for _ in range(60):
            u -= (u - k * math.sin(u) - mean) / (1 - k * math.cos(u))
        t = (u - c) / w - link.timing.latency
        seen = plan.mean * (t - k / w * (math.sin(w * t + c) - math.sin(c)))
        n = math.floor(seen / link.count + float(chance.offset[row]))
        s = (2 * n * link.pulses + link.per_counts) // (2 * link.per_counts)
        angle = 2 * math.pi * s / link.pulses_per_turn
        error = angle - 2 * math.pi * x / link.lead
        for place, (per_turn, size) in enumerate(plan.waves):
            error += size * math.sin(per_turn * angle + float(chance.waves[row, place]))
        error += plan.cycle[1] * math.sin(2 * math.pi * s / plan.cycle[0] + float(chance.motor[row]))
        found.append(1000 * plan.base_radius * error)
    return found


def test_each_pass_equals_the_plain_loop() -> None:
    chance = by_chance(PLAN, 40, np.random.default_rng(6))
    error = track(PLAN, chance)
    loops = np.array([plain(PLAN, chance, row) for row in range(40)])
    assert error == pytest.approx(loops, abs=1e-9)
    ours, x = sums(error, PLAN.places), PLAN.places
    line = [np.polyfit(x, row, 1) for row in loops]
    assert ours.slope == pytest.approx([25 * slope for slope, _ in line], abs=1e-9)
    rest = [np.ptp(row - np.polyval(found, x)) for row, found in zip(loops, line, strict=True)]
    assert ours.form == pytest.approx(rest, abs=1e-9)
    assert ours.total == pytest.approx(np.ptp(loops, axis=1), abs=1e-9)


def test_spread_of_the_slope() -> None:
    """1.02 µm with 97 points over 25 mm, 20 000 passes: two programs; no outside figure."""
    assert helix_passes(PLAN, 20_000, 3).slope.std() == pytest.approx(1.02, abs=0.05)


def test_power_feed_has_a_lag_that_does_not_change() -> None:
    even = replace(PLAN, unevenness=0.0, waves=(), cycle=(32.0, 0.0))
    found = helix_passes(even, 500, 3)
    assert np.abs(found.slope).max() < 2.5
    assert found.form.max() < 6
