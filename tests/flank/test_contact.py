"""The closed-form contact: fourth order in the nodes, and the same as the slices."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest

from evenpitch.flank.envelope import by_slices, deviations
from evenpitch.flank.setting import Setting
from evenpitch.flank.trace import PLACES, flank_trace
from flank.shop import cut, gear, made_for, numbered


def test_halving_the_nodes_distance_cuts_the_error_eight_times() -> None:
    """Fourth order, as far as a millionth of a micrometre."""
    wanted = gear(24, helix=30)
    setting = Setting(wanted.helix, 0.0, wanted.root_radius + 30)
    u = np.linspace(wanted.u_start + 0.3 * (wanted.u_end - wanted.u_start), wanted.u_end, 157)
    true = flank_trace(numbered(35, nodes=3000), wanted, wanted.q, setting, u, 1).delta
    nodes = (12, 24, 48, 96, 192)
    errors = [1e3 * np.abs(flank_trace(numbered(35, nodes=n), wanted, wanted.q, setting, u, 1).delta - true).max() for n in nodes]
    for coarse, fine in pairwise(errors):
        assert fine < 1e-6 or coarse / fine > 8
    assert errors[-1] < 1e-5


@pytest.mark.parametrize(
    ("teeth", "helix", "form", "swing", "offset", "sink"),
    [
        (24, 0, 26, 0.0, 0.0, 0.0),
        (24, 0, 24, 1.0, 0.0, 0.0),
        (24, 20, None, 0.25, 0.05, 0.05),
        (24, -20, None, -0.5, -0.05, 0.0),
        (24, 15, 26, 0.0, 0.0, 0.0),
        (17, 25, 21, 0.0, 0.0, 0.0),
        (12, 20, 17, -2.0, 0.0, 0.1),
        (40, 45, 135, 0.3, 0.02, -0.02),
    ],
)
def test_closed_form_and_slices_agree(
    teeth: int, helix: float, form: int | None, swing: float, offset: float, sink: float
) -> None:
    wanted = gear(teeth, helix=helix)
    made = cut(
        wanted, made_for(wanted, nodes=768) if form is None else numbered(form, nodes=768), swing=swing, offset=offset, sink=sink
    )
    u = np.linspace(wanted.u_start, wanted.u_end, 61)
    middle, first = np.zeros(61), np.zeros(61, dtype=np.int64)
    for sense in (1, -1):
        apart = 1e3 * np.abs(deviations(made, u, middle, first, sense) - by_slices(made, u, middle, first, sense))
        assert np.median(apart) < 0.001
        assert apart.max() < 0.05


def test_a_sharp_corner_digs_deeper_on_the_trailing_side() -> None:
    """24 teeth, module 2, -30 degrees, cutter 35: start of trace -77, -57, -39 um for corners 0, 1/8, 1/4 module (independent method)."""
    wanted = gear(24, helix=-30)
    setting = Setting(wanted.helix, 0.0, wanted.root_radius + 30)
    start = np.array([wanted.u_start])
    for corner, printed in ((0.0, -77.0), (0.125, -57.0), (0.25, -39.0)):
        found = flank_trace(numbered(35, corner=corner, nodes=768), wanted, wanted.q, setting, start, 1)
        assert 1e3 * found.delta[0] == pytest.approx(printed, abs=0.5)
        assert PLACES[found.by[0]] == "corner"
        assert abs(found.zeta[0]) > 2.5  # the form itself touches within a millimetre of the middle


def test_flat_sides_in_straight_feed_leave_the_plain_slot() -> None:
    """A slitting saw of 2 mm in a spur gear: the flank is the plane y = 1, known without any contact."""
    from evenpitch.flank.forms import vee_form
    from evenpitch.quantity.units import Millimetre, Radian

    wanted = gear(60, helix=0)
    made = cut(wanted, vee_form(Radian(0.0), Millimetre(2.0), Millimetre(70.0)))
    u = np.linspace(wanted.u_start, wanted.u_end, 11)
    found = deviations(made, u, np.zeros(11), np.zeros(11, dtype=np.int64), 1)
    radius = wanted.radius(u + found / math.cos(wanted.base_helix))
    plane = wanted.lever * (wanted.angle(u + found) - np.arcsin(1 / radius))
    assert 1e3 * np.abs(found - plane).max() < 1e-4
