"""Roots between two signs: both searches against scipy's, and each against a function whose root is known."""

from __future__ import annotations

import math

import pytest
from scipy.optimize import brentq

from evenpitch.gear.halving import bisect, ridders

FUNCTIONS = [
    (lambda x: x * x - 2, 0.0, 2.0),
    (lambda x: math.cos(x) - x, 0.0, 1.0),
    (lambda x: math.exp(x) - 1000, 0.0, 50.0),
    (lambda x: x**3 - x - 2, -1.0, 1.7),
    (lambda x: math.atan(x - 3), -200.0, 200.0),
]


@pytest.mark.parametrize(("function", "low", "high"), FUNCTIONS)
def test_root_is_found_as_by_scipy(function, low, high):
    known = brentq(function, low, high, xtol=1e-14, maxiter=1000)
    assert bisect(function, low, high) == pytest.approx(known, abs=1e-12)
    assert ridders(function, low, high, 1e-13) == pytest.approx(known, abs=1e-12)


def test_ridders_takes_far_fewer_calls_than_halving():
    def counted(search):
        asked = []
        search(lambda x: asked.append(x) or math.exp(x) - 3)
        return len(asked)

    halving = counted(lambda function: bisect(function, 0.0, 2.0))
    chords = counted(lambda function: ridders(function, 0.0, 2.0, 1e-12))
    assert chords * 2 < halving


@pytest.mark.parametrize("search", [bisect, lambda function, low, high: ridders(function, low, high, 1e-9)])
def test_no_change_of_sign_is_said(search):
    with pytest.raises(ValueError, match="no change of sign"):
        search(lambda x: x * x + 1, 0.0, 1.0)
