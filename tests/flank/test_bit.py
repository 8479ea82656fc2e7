"""The fly cutter's bit."""

from __future__ import annotations

import math

import numpy as np
import pytest

from evenpitch.flank.bit import best_arc, depth_in_face, fly_bit
from evenpitch.flank.forms import points_form
from evenpitch.flank.setting import Setting
from evenpitch.flank.trace import flank_trace
from evenpitch.flank.wanted import wanted_flank
from evenpitch.quantity.refusal import Refusal
from evenpitch.quantity.units import Millimetre, Radian, inches
from flank.shop import gear


def test_the_bit_of_the_workshop_wheel() -> None:
    """97 teeth, 12 DP, 14 1/2 degrees, whole depth 4.572: widths 4.665, 3.325, 2.276 mm (derived for this program, by the plain space)."""
    module = float(inches(1)) / 12
    wanted = wanted_flank(97, Millimetre(module), Radian(math.radians(14.5)), dedendum=Millimetre(4.572 - module))
    bit = fly_bit(wanted, Millimetre(60.0))
    widths = [width for width, _ in bit.checks]
    assert widths == pytest.approx([2.276, 3.325, 4.665], abs=0.0006)
    assert bit.checks[1][1] == pytest.approx(4.572 - 2.130, abs=0.0006)
    assert 0 < bit.arc.worst < 0.004
    assert bit.arc.radius == pytest.approx(24.575, rel=0.08)


def test_a_bit_ground_to_the_outline_leaves_the_wanted_flank() -> None:
    wanted = gear(24, helix=25)
    bit = fly_bit(wanted, Millimetre(60.0), points=81)
    form = points_form(np.column_stack([bit.radial[:, 0], 30 - bit.radial[:, 1]]), Millimetre(60.0))
    u = np.linspace(wanted.u_start, wanted.u_end - 0.05, 51)
    left = flank_trace(form, wanted, wanted.q, Setting(wanted.helix, 0.0, wanted.root_radius + 30), u, 1).delta
    assert 1e3 * np.abs(left).max() < 0.05


def test_rake_lengthens_the_edge_so_that_the_radii_stay() -> None:
    wanted = gear(30, helix=0)
    plain, raked = fly_bit(wanted, Millimetre(60.0)), fly_bit(wanted, Millimetre(60.0), rake=Radian(math.radians(8)))
    assert np.allclose(plain.outline, plain.radial)
    assert np.allclose(raked.radial, plain.radial)
    along = raked.outline[:, 1]
    radius = np.hypot(30 - along * math.cos(math.radians(8)), along * math.sin(math.radians(8)))
    assert np.allclose(radius, 30 - raked.radial[:, 1])
    assert (along[1:] > raked.radial[1:, 1]).all()
    assert depth_in_face(np.array([30.0]), 30.0, 0.2)[0] == pytest.approx(0.0, abs=1e-12)


def test_too_much_rake_is_refused() -> None:
    with pytest.raises(Refusal):
        fly_bit(gear(30, helix=0), Millimetre(60.0), rake=Radian(math.radians(70)))


def test_the_best_arc_is_the_arc_where_there_is_one_and_the_least_otherwise() -> None:
    turn = np.linspace(0.1, 0.6, 41)
    found = best_arc(3 + 10 * np.sin(turn), 1 + 10 * np.cos(turn))
    assert (found.radius, found.off_centre, found.depth) == pytest.approx((10, 3, 1), abs=1e-4)
    assert found.worst < 1e-6
    bit = fly_bit(gear(30, helix=0), Millimetre(60.0), points=101)
    flank = bit.outline[bit.outline[:, 1] > bit.form_from + 0.4]
    best = best_arc(flank[:, 0], flank[:, 1])
    for dx, dy in ((0.05, 0), (-0.05, 0), (0, 0.05), (0, -0.05)):
        away = np.hypot(flank[:, 0] - best.off_centre - dx, flank[:, 1] - best.depth - dy)
        assert np.ptp(away) / 2 > best.worst
    assert 0 < bit.least_side_relief < bit.relief
