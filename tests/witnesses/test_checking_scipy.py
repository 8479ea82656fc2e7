"""The fits against another routine: scipy's iterative least squares, which knows nothing of ours."""

import math

import numpy as np
import pytest
from scipy.optimize import curve_fit, least_squares
from scipy.special import stdtrit

from checking.made import ARCSEC, RATIO, artefact, bar, scale
from evenpitch.checking.circle_closure import all_shifts
from evenpitch.checking.head import know_head
from evenpitch.checking.scale import calibrate_scale
from evenpitch.checking.student import student


def test_scale_fit():
    readings = scale(np.random.default_rng(1), gain=-80e-6, reversal=0.004)
    made = calibrate_scale(readings)
    assert not made.drift_fitted
    x = np.array([one.reference for one in readings])
    side = np.array([0.5 if one.direction == "up" else -0.5 for one in readings])
    error = np.array([one.reading - one.reference for one in readings]) * 1e3

    def model(at, a, gain, h):
        return a + gain * (at[0] - x.mean()) + h * at[1]

    terms, covariance = curve_fit(model, np.stack([x, side]), error, p0=(0, 0, 0))
    assert made.gain.value * 1e3 == pytest.approx(terms[1], rel=1e-5)
    assert made.reversal.value * 1e3 == pytest.approx(terms[2], rel=1e-5)
    assert made.gain.u * 1e3 == pytest.approx(math.sqrt(covariance[1, 1]), rel=1e-4)


def test_head_fit_by_amplitude_and_phase():
    readings = bar(np.random.default_rng(2), ((1, 40, 20), (40, 15, 70)), backlash=192, degrees=np.arange(0, 360, 4.1))
    made = know_head(readings, RATIO)
    angle = np.array([one.nominal for one in readings])
    error = np.array([one.error for one in readings]) / ARCSEC
    run = np.array([one.run for one in readings])
    down = np.array([one.direction == "down" for one in readings])

    def rest(p):
        waves = sum(p[4 + 2 * k] * np.sin(h * angle + p[5 + 2 * k]) for k, h in enumerate((1, 40, 80, 2)))
        return p[0] * (run == 1) + p[1] * (run == 2) + p[2] * angle + p[3] * down + waves - error

    found = least_squares(rest, [0, 0, 0, 100, 30, 0.3, 10, 1.0, 1, 0, 1, 0]).x
    for place, per_turn in ((4, 1), (6, 40)):
        one = next(wave for wave in made.waves if wave.per_turn == per_turn)
        assert one.amplitude.value / ARCSEC == pytest.approx(abs(found[place]), rel=1e-4)
        assert math.remainder(one.phase - found[place + 1], math.pi) == pytest.approx(0, abs=1e-4)
    assert made.backlash.value / ARCSEC == pytest.approx(found[3], rel=1e-5)


def test_closure_of_the_joint_fit_and_of_the_means():
    faces = (0, 30, -10, -20, 14, -14)
    readings = artefact(np.random.default_rng(3), faces, ((1, 40, 20),))
    table = np.zeros((6, 6))
    for one in readings:
        table[round(one.nominal * 6 / (2 * math.pi)), one.run - 1] = one.error / ARCSEC
    closed = all_shifts(table.tolist())
    assert np.array(know_head(readings, RATIO).faces) / ARCSEC == pytest.approx(closed.artefact, abs=1e-6)


def test_uncertainty_of_closure_by_trial():
    """u = s √(n − 1)/n of all shifts, found by trial for n = 4 and s = 2: 0.866."""
    rng = np.random.default_rng(4)
    found = [all_shifts(rng.normal(0, 2, (4, 4)).tolist()).head[0] for _ in range(4000)]
    assert np.std(found) == pytest.approx(2 * math.sqrt(3) / 4, rel=0.04)


@pytest.mark.parametrize("freedom", [1, 1.5, 2, 3, 4.7, 9, 30, 101.3, 1e4, 1e6])
def test_students_t(freedom):
    for share in (0.5, 0.95, 0.9545, 0.999):
        assert student(share, freedom) == pytest.approx(float(stdtrit(freedom, (1 + share) / 2)), rel=1e-9)


@pytest.mark.parametrize(("freedom", "printed"), [(1, 12.71), (2, 4.30), (5, 2.57), (10, 2.23), (20, 2.09), (50, 2.01)])
def test_students_t_as_printed(freedom, printed):
    """JCGM 100:2008, table G.2, the column of 95 percent; from memory, and the same in every table of t."""
    assert student(0.95, freedom) == pytest.approx(printed, abs=0.005)
