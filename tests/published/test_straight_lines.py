"""Straight lines in print: a thermometer's calibration, and a reference regression set.

Both are typed from memory; the printed results test the typing.
"""

import numpy as np
import pytest

from evenpitch.checking.least_squares import straight_line

TEMPERATURES = (21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511)
CORRECTIONS = (-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160)

NORRIS = """0.1 0.2 338.8 337.4 118.1 118.2 888.0 884.6 9.2 10.1 228.1 226.5 668.5 666.3 998.5 996.3 449.1 448.6 778.9 777.0 559.2 558.2
0.3 0.4 0.1 0.6 778.1 775.5 668.8 666.9 339.3 338.0 448.9 447.5 10.8 11.6 557.7 556.0 228.3 228.1 998.0 995.8 888.8 887.6
119.6 120.2 0.3 0.3 0.6 0.3 557.6 556.8 339.3 339.1 888.0 887.2 998.5 999.0 778.9 779.0 10.2 11.1 117.6 118.3 228.9 229.2
668.4 669.1 449.2 448.9 0.2 0.5"""


def test_thermometer():
    """JCGM 100:2008, example H.3, printed: −0.1712 (0.0029), 0.00218 (0.00067), s 0.0035, r −0.930; from memory."""
    found = straight_line(TEMPERATURES, CORRECTIONS, about=20)
    at, slope = found.term("at"), found.term("slope")
    assert (at.value, at.u) == pytest.approx((-0.1712, 0.0029), abs=5e-5)
    assert (slope.value, slope.u) == pytest.approx((0.00218, 0.00067), abs=5e-6)
    assert found.s == pytest.approx(0.0035, abs=5e-5)
    assert found.correlation("at", "slope") == pytest.approx(-0.930, abs=5e-4)


def test_thermometer_at_30_degrees():
    """H.3.4, printed: predicted correction −0.1494 with u 0.0041; from memory."""
    found = straight_line(TEMPERATURES, CORRECTIONS, about=30)
    assert (found.term("at").value, found.term("at").u) == pytest.approx((-0.1494, 0.0041), abs=5e-5)


def test_reference_regression_norris():
    """NIST statistical reference data, Norris, certified values; from memory."""
    numbers = np.array(NORRIS.split(), float).reshape(-1, 2)
    reading, reference = (numbers[:, 0], numbers[:, 1])
    assert len(numbers) == 36
    found = straight_line(reading, reference)
    swapped = straight_line(reference, reading)
    best = min((found, swapped), key=lambda one: abs(one.term("slope").value - 1.00211681802045))
    assert best.term("at").value == pytest.approx(-0.262323073774029, rel=1e-9)
    assert best.term("slope").value == pytest.approx(1.00211681802045, rel=1e-11)
    assert best.term("at").u == pytest.approx(0.232818234301152, rel=1e-9)
    assert best.term("slope").u == pytest.approx(0.000429796848199937, rel=1e-9)
    assert best.s == pytest.approx(0.884796396144373, rel=1e-9)
