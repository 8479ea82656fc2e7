"""The inverse problem and back again."""

from __future__ import annotations

import math

import numpy as np
import pytest

from evenpitch.flank.exact import exact_form
from evenpitch.flank.setting import Setting
from evenpitch.flank.trace import flank_trace
from evenpitch.quantity.refusal import Refusal
from flank.shop import gear


@pytest.mark.parametrize(
    ("teeth", "module", "helix", "outside", "off"),
    [
        (20, 2, 15, 60, 0.0),
        (13, 2, 30, 60, 0.0),
        (40, 1, 10, 80, 0.0),
        (30, 2, 25, 60, 1.5),
        (24, 2, -45, 60, 0.0),
        (60, 3, 20, 80, -1.0),
        (17, 1, 5, 50, 0.0),
        (127, 4, 10, 88, -1.0),
        (40, 1, 10, 60, -1.0),
        (17, 2, 15, 60, -1.5),
        (28, 3, 15, 70, -1.5),
    ],
)
def test_inverse_then_forward_leaves_nothing(teeth: int, module: float, helix: float, outside: float, off: float) -> None:
    wanted = gear(teeth, module, helix)
    setting = Setting(wanted.helix + math.radians(off), 0.0, wanted.root_radius + outside / 2)
    form = exact_form(wanted, setting, outside, nodes=192)
    u = np.linspace(wanted.u_start, wanted.u_end, 101)
    for sense in (1, -1):
        assert 1e3 * np.abs(flank_trace(form, wanted, wanted.q, setting, u, sense).delta).max() < 1e-4


def test_where_the_cutter_cannot_touch_the_very_start_the_cut_tells_what_is_left() -> None:
    """12 teeth swung 1.5 degrees short of the helix: the first hundredth of the flank has no contact. A plain search for what the
    moved cutter takes (every point of the space tried, program written apart) leaves 4 to 8 thousandths of a micrometre there."""
    wanted = gear(12, 1, 20)
    setting = Setting(wanted.helix - math.radians(1.5), 0.0, wanted.root_radius + 30)
    form = exact_form(wanted, setting, 60.0, nodes=1024)
    left = 1e3 * flank_trace(form, wanted, wanted.q, setting, np.linspace(wanted.u_start, wanted.u_end, 101), 1).delta
    assert abs(left[0]) < 0.02
    assert np.abs(left[3:]).max() < 1e-4


def test_made_off_centre_each_side_is_made_for_its_own_flank() -> None:
    wanted = gear()
    setting = Setting(wanted.helix, 0.4, wanted.root_radius + 30)
    form = exact_form(wanted, setting, 60.0)
    assert abs(form.plus[-1].w[0] - form.minus[-1].w[0]) > 0.5
    u = np.linspace(wanted.u_start, wanted.u_end, 31)
    assert max(np.abs(flank_trace(form, wanted, wanted.q, setting, u, sense).delta).max() for sense in (1, -1)) < 1e-6


def test_far_from_the_helix_there_is_no_such_cutter() -> None:
    wanted = gear(24, helix=45)
    with pytest.raises(Refusal):
        exact_form(wanted, Setting(math.radians(-45), 0.0, wanted.root_radius + 30), 60.0)
