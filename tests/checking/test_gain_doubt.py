"""The whole uncertainty of a scale's gain, and the ratio with the gain taken out."""

from __future__ import annotations

import math

import numpy as np
import pytest

from checking.made import scale
from evenpitch.checking.gain_doubt import gain_budget, whole_gain
from evenpitch.checking.measured import Measured
from evenpitch.checking.readings import ScaleReading
from evenpitch.checking.scale import calibrate_scale
from evenpitch.job.commissioning import commission_scale
from evenpitch.quantity.units import Kelvin, Millimetre
from job.shop import museum_mill, order


def test_one_kelvin_and_the_blocks_over_a_hundred_millimetres():
    """11.5/√3 = 6.64 µm in a metre for 1 K of steel, 0.3 µm over 100 mm is 3: root of the squares with 5 is 8.83 (by hand)."""
    budget = gain_budget(Measured(1e-4, 5e-6), Millimetre(100.0))
    assert budget.u == pytest.approx(math.sqrt(5**2 + 6.6395**2 + 3**2), abs=1e-3)
    doubt = whole_gain(Measured(1e-4, 5e-6), budget).U
    assert doubt == pytest.approx(2 * 8.835e-6, rel=1e-3)


def test_warmth_and_blocks_that_no_repetition_shows_are_covered():
    """Each trial its own difference of warmth within 1 K and its own error of the blocks: scatter alone covers few of them."""
    rng, alone, whole = np.random.default_rng(41), [], []
    for _ in range(200):
        gain, warm, block = rng.uniform(-3e-4, 3e-4), rng.uniform(-1, 1), rng.normal(0, 3e-4)
        bent = scale(rng, gain=gain + 11.5e-6 * warm + block / 300, sd=0.0005, reach=300.0)
        made = commission_scale(bent)
        alone.append(abs(made.calibration.gain.value - gain) <= made.calibration.gain.U)
        whole.append(abs(made.gain.value - gain) <= made.gain.U)
    assert np.mean(whole) >= 0.93
    assert np.mean(alone) < 0.5


def test_the_ratio_with_the_gain_taken_out():
    """A scale that reads 100 µm in a metre too much turns the work too far: the lead to enter is L (1 + 0.0001)."""
    rng = np.random.default_rng(42)
    gears = [work.gear for work in order([{"teeth": 28, "pitch": "mn 2", "pressure_angle": "20", "helix": "20",
                                           "hand": "right", "face": "20 mm"}]).works]  # fmt: skip
    made = commission_scale(scale(rng, gain=1e-4, reach=400.0), rig=museum_mill(), gears=gears, kelvin=Kelvin(0.5))
    (one,) = made.corrected
    assert one.lead == pytest.approx(514.3825, abs=1e-4)
    assert one.enter / one.lead - 1 == pytest.approx(made.calibration.gain.value, rel=1e-6)
    assert one.ratio.pulses / one.ratio.counts == pytest.approx(192_000 * 0.001 / one.enter, rel=1e-8)


def test_no_ratio_is_corrected_by_a_gain_that_is_not_shown():
    clean = [ScaleReading(o.run, o.direction, o.reference, o.reading) for o in scale(np.random.default_rng(43), gain=2e-6)]
    assert not calibrate_scale(clean).gain.value > 2e-5
    assert commission_scale(clean, rig=museum_mill()).corrected == ()
