"""A made-up rig with known errors, commissioned many times: each error lies within its stated U in 95 of 100 trials."""

import math
import os

import numpy as np
import pytest

from checking.made import ARCSEC, RATIO, bar, scale
from evenpitch.checking.bar import height_between, turned_by
from evenpitch.checking.head import know_head
from evenpitch.checking.link_proof import ProofMeans, proof_budget, wanted_angle
from evenpitch.checking.periodic import wave_at
from evenpitch.checking.scale import calibrate_scale

FULL = os.environ.get("EVENPITCH_FULL") == "1"
TRIALS = 2000 if FULL else 200
ALLOWED = 0.01 if FULL else 0.04
"""One in a hundred of 2000 trials, two standard deviations; a tenth of the trials scatters √10 times as far."""


def within(hits: list[bool]) -> bool:
    return abs(sum(hits) / len(hits) - 0.95) <= ALLOWED


@pytest.mark.long
def test_scale_errors_are_recovered():
    rng, hits = np.random.default_rng(20), {"gain": [], "reversal": []}
    for _ in range(TRIALS):
        gain, reversal = rng.uniform(-300e-6, 300e-6), rng.uniform(-0.005, 0.005)
        made = calibrate_scale(scale(rng, gain=gain, reversal=reversal, sd=0.0015))
        hits["gain"].append(abs(made.gain.value - gain) <= made.gain.U)
        hits["reversal"].append(abs(made.reversal.value - reversal) <= made.reversal.U)
    assert all(within(one) for one in hits.values()), {name: np.mean(one) for name, one in hits.items()}


@pytest.mark.long
def test_drift_is_recovered():
    rng, hits = np.random.default_rng(21), []
    for _ in range(TRIALS):
        drift = rng.uniform(-0.02, 0.02)
        made = calibrate_scale(scale(rng, drift=drift, gain=50e-6))
        hits.append(abs(made.drift.value - drift) <= made.drift.U)
    assert within(hits), np.mean(hits)


@pytest.mark.long
def test_head_errors_are_recovered():
    rng = np.random.default_rng(22)
    hits: dict[str, list[bool]] = {"wheel": [], "worm": [], "phase": [], "play": [], "closure": []}
    at = np.arange(0, 361, 8.3)
    for _ in range(TRIALS):
        wheel, worm, play, slope = rng.uniform(20, 60), rng.uniform(8, 30), rng.uniform(30, 250), rng.uniform(-60, 60)
        phase = rng.uniform(0, 360)
        waves = ((1, wheel, phase), (40, worm, 90.0))
        made = know_head(bar(rng, waves, backlash=play, degrees=at, runs=2, slope=slope), RATIO)
        found = {one.per_turn: one for one in made.waves}
        hits["wheel"].append(abs(found[1].amplitude.value / ARCSEC - wheel) <= found[1].amplitude.U / ARCSEC)
        hits["worm"].append(abs(found[40].amplitude.value / ARCSEC - worm) <= found[40].amplitude.U / ARCSEC)
        off = abs(math.remainder(found[1].phase - math.radians(phase), 2 * math.pi))
        hits["phase"].append(off <= 1.98 * found[1].phase_u)
        hits["play"].append(abs(made.backlash.value / ARCSEC - play) <= made.backlash.U / ARCSEC)
        hits["closure"].append(abs(made.closure.value / ARCSEC - slope) <= made.closure.U / ARCSEC)
    assert all(within(one) for one in hits.values()), {name: np.mean(one) for name, one in hits.items()}


@pytest.mark.long
def test_a_wave_of_the_scale_is_recovered():
    rng, hits = np.random.default_rng(23), []
    for _ in range(TRIALS):
        amplitude = rng.uniform(0.002, 0.006)
        found = wave_at(scale(rng, gain=1e-4, reversal=0.003, sd=0.001, wave=(7.3, amplitude)), 7.3)
        hits.append(abs(found.amplitude.value - amplitude) <= found.amplitude.U)
    assert within(hits), np.mean(hits)


@pytest.mark.long
def test_the_error_of_the_link_is_recovered():
    """The proof as it is made: table by block and two nulls, a bar whose arm is known within limits, blocks under its ends, an
    indicator read twice; the angle then worked back from the heights with the nominal arm. Nothing of the budget is used but U."""
    rng, hits, lead, means = np.random.default_rng(24), [], 514.3825, ProofMeans()
    U = proof_budget(wanted_angle(50.0, lead), lead, means).U
    for _ in range(TRIALS):
        ratio = rng.uniform(-200e-6, 200e-6)
        moved = 50.0 + rng.normal(0, means.table)
        turned = 2 * math.pi * moved / lead * (1 + ratio) + rng.normal(0, means.repeat) + rng.uniform(-0.5, 0.5) * means.pulse
        arm = means.radius + rng.uniform(-means.arm, means.arm)
        height = height_between(arm, turned) + rng.normal(0, means.indicator, 2).sum() + rng.normal(0, means.blocks)
        error = turned_by(height, means.radius) - 2 * math.pi * 50.0 / lead
        hits.append(abs(error - 2 * math.pi * 50.0 / lead * ratio) <= U)
    assert within(hits), np.mean(hits)
