"""A made-up rig with known errors, commissioned many times: each error lies within its stated U in 95 of 100 trials."""

import math
import os

import numpy as np
import pytest

from checking.made import ARCSEC, RATIO, bar, scale
from evenpitch.checking.head import know_head
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
