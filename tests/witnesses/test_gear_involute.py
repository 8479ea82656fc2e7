"""The inverse involute against a root finder of another library, and the flank against a rack rolled numerically."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.optimize import brentq

from evenpitch.gear.gear import Gear
from evenpitch.gear.involute import inverse_involute, involute
from evenpitch.gear.sizes import base_diameter, outside_diameter, pitch_diameter
from evenpitch.gear.thickness import thickness_at
from evenpitch.gear.undercut import form_diameter, is_undercut, least_shift
from gear.made import spur


@pytest.mark.parametrize("value", [1e-6, 1e-4, 0.0149, 0.2, 1.0, 7.0, 300.0])
def test_inverse_involute_by_another_root_finder(value: float) -> None:
    found = brentq(lambda a: math.tan(a) - a - value, 1e-9, math.pi / 2 - 1e-9, xtol=1e-15, rtol=1e-14)
    assert inverse_involute(value) == pytest.approx(found, rel=2e-9 if value < 1e-5 else 1e-12)


@pytest.mark.parametrize("angle", [1e-8, 1e-3, 0.1, 0.4999, 0.5001, 1.2])
def test_involute_by_integration(angle: float) -> None:
    """inv α is the integral of tan² from 0 to α."""
    nodes, weights = np.polynomial.legendre.leggauss(40)
    at = angle * (nodes + 1.0) / 2.0
    assert involute(angle) == pytest.approx(float(np.sum(weights * np.tan(at) ** 2) * angle / 2.0), rel=1e-13)


def rolled_half_space(gear: Gear, radius: float) -> float:
    """Half the angle of the space at that radius, cut by a straight-sided rack with sharp corners rolled on the pitch circle."""
    pitch_radius = pitch_diameter(gear) / 2.0
    tip = (gear.shift - 1.0) * gear.module
    height = np.linspace(tip, radius - pitch_radius, 200_001)
    half_tooth = math.pi * gear.module / 4.0 + (height - gear.shift * gear.module) * math.tan(gear.pressure_angle)
    seen_at = np.arccos(np.clip((pitch_radius + height) / radius, -1.0, 1.0))
    reached = [turn - (radius * np.sin(turn) - half_tooth) / pitch_radius for turn in (seen_at, -seen_at)]
    return float(max(np.max(angle) for angle in reached))


@pytest.mark.parametrize(("teeth", "shift"), [(12, 0.3), (18, 0.0), (24, 0.36), (97, -0.2)])
def test_flank_by_rolling_a_rack(teeth: int, shift: float) -> None:
    gear = spur(teeth, 2.0, shift=shift)
    start = max(form_diameter(gear), base_diameter(gear)) + 0.01
    for diameter in np.linspace(start, outside_diameter(gear), 7):
        tooth = diameter * (math.pi / teeth - rolled_half_space(gear, float(diameter) / 2.0))
        assert thickness_at(gear, float(diameter)) == pytest.approx(tooth, abs=2e-6)


@pytest.mark.parametrize(("change", "cut"), [(-0.2, True), (0.002, False), (0.1, False)])
def test_undercut_by_rolling_a_rack(change: float, cut: bool) -> None:
    """Below the least shift the rack takes metal off the involute just outside the base circle; above it, none from the form circle on."""
    gear = spur(12, 2.0, shift=least_shift(spur(12, 2.0)) + change)
    diameter = max(1.0001 * base_diameter(gear), 1.0001 * form_diameter(gear))
    rolled = diameter * (math.pi / 12 - rolled_half_space(gear, diameter / 2.0))
    assert is_undercut(gear) is cut
    assert (thickness_at(gear, diameter) - rolled > 1e-3) is cut
    assert cut or thickness_at(gear, diameter) == pytest.approx(rolled, abs=1e-6)
