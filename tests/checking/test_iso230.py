"""Positioning figures: ISO 230-2:2014, definitions from memory; data made up; the same formula in a second program."""

import numpy as np
import pytest

from checking.made import case, scale
from evenpitch.checking.iso230 import positioning, positioning_of

KEYS = ("A", "E", "R", "B", "M", "B_mean")


def test_five_places_by_runs():
    given = case("iso230-5pos")
    up, down = (np.transpose(given["inputs"][side]).tolist() for side in ("up", "down"))
    found = positioning(up, down)
    for key in KEYS:
        assert getattr(found, key) == pytest.approx(given["outputs"][key], rel=1e-9)


@pytest.mark.parametrize("name", ["iso-lin-5", "iso-rot-8"])
def test_data_sets(name):
    given = case(name)
    found = positioning(given["inputs"]["up"], given["inputs"]["down"])
    for key in KEYS:
        assert getattr(found, key) == pytest.approx(given["outputs"][key], abs=1e-6)
    one_side = positioning(given["inputs"]["up"])
    assert pytest.approx(given["outputs"]["A_up"], abs=1e-6) == one_side.A
    assert pytest.approx(given["outputs"]["R_up"], abs=1e-6) == one_side.R
    assert one_side.B is None


def test_from_readings_with_a_nudged_start():
    readings = scale(np.random.default_rng(1), reversal=0.004)
    found = positioning_of(readings)
    assert found.places == 11
    assert found.runs == 3
    assert 0.003 < found.B < 0.008
    assert positioning_of(readings[:11]) is None
