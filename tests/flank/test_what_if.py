"""What if: setting errors on 24 teeth, module 2, cutter 60 mm. Expected figures: the independent method."""

from __future__ import annotations

import math

import numpy as np
import pytest

from evenpitch.flank.envelope import Cut
from evenpitch.flank.facts import flank_facts, sides_apart
from evenpitch.flank.motion import WormError
from evenpitch.flank.picture import space_seen
from evenpitch.flank.setting import usual_setting
from evenpitch.flank.what_if import Change, lead_slope, seen, what_if, worm_shows
from evenpitch.quantity.units import Millimetre, Radian
from flank.shop import SECOND, cut, gear, made_for, numbered


def spur() -> Cut:
    wanted = gear(24, helix=0)
    return cut(wanted, numbered(24, nodes=384))


def helical() -> Cut:
    wanted = gear(24)
    return cut(wanted, made_for(wanted, nodes=192))


@pytest.mark.parametrize(
    ("made", "swing", "total", "slope"),
    [
        (spur, 0.1, 0.24, 0.2), (spur, -0.1, 0.24, 0.2), (spur, 0.25, 1.5, 1.25), (spur, 0.5, 12.3, 6.2), (spur, 1.0, 62.7, 49.8),
        (helical, 0.1, 5.7, 5.5), (helical, -0.1, 5.3, -5.2), (helical, 0.25, 15.0, 14.2), (helical, 0.5, 33.2, 30.7),
        (helical, -0.5, 23.6, -23.1), (helical, -1.0, 40.4, -40.0),
    ],
)  # fmt: skip
def test_swing(made, swing: float, total: float, slope: float) -> None:  # type: ignore[no-untyped-def]
    found = seen(what_if(made(), Change(swing=Radian(math.radians(swing)))), n_profile=101)
    for flank in (found.right, found.left):
        assert 1e3 * flank.profile_figures.total == pytest.approx(total, abs=0.06)
        assert 1e3 * flank.profile_figures.slope == pytest.approx(slope, abs=0.12)
    assert 1e3 * found.equal_slopes == pytest.approx(slope, abs=0.12)


@pytest.mark.parametrize(("made", "right", "left", "slope"), [(spur, -45.8, 45.7, 8.8), (helical, -43.2, 43.2, 7.0)])
def test_off_centre(made, right: float, left: float, slope: float) -> None:  # type: ignore[no-untyped-def]
    found = seen(what_if(made(), Change(offset=Millimetre(0.05))), n_profile=101)
    at = int(np.argmin(np.abs(found.right.u - gear(24, helix=0 if made is spur else 20).u_pitch)))
    assert 1e3 * found.right.profile[at] == pytest.approx(right, abs=0.2)
    assert 1e3 * found.left.profile[at] == pytest.approx(left, abs=0.2)
    assert 1e3 * found.opposite_slopes == pytest.approx(slope, abs=0.1)


@pytest.mark.parametrize(("made", "total", "slope"), [(spur, 21.1, -21.2), (helical, 15.9, -16.0)])
def test_too_deep_and_a_blank_under_size_are_one(made, total: float, slope: float) -> None:  # type: ignore[no-untyped-def]
    for change in (Change(sink=Millimetre(0.05)), Change(blank_under=Millimetre(0.1))):
        found = seen(what_if(made(), change), n_profile=101).right.profile_figures
        assert (1e3 * found.total, 1e3 * found.slope) == pytest.approx((total, slope), abs=0.06)


def test_worm_lead_and_lost_pulse() -> None:
    worm = seen(what_if(helical(), Change(worm=WormError(30 * SECOND, 40.0, math.radians(20)))))
    assert 1e3 * worm.right.helix_figures.total == pytest.approx(6.54, abs=0.03)
    lead = what_if(helical(), Change(lead_ppm=500))
    assert 1e3 * seen(lead).right.helix_figures.total == pytest.approx(2.89, abs=0.01)
    assert 1e3 * lead_slope(lead) == pytest.approx(2.89 * 20 / 18, abs=0.01)
    lost = seen(what_if(helical(), Change(lost=Radian(60 * SECOND), lost_at=Millimetre(1.0))))
    moved = 60 * SECOND * gear().lever
    assert lost.right.helix[-1] - lost.right.helix[0] == pytest.approx(moved, abs=1e-6)
    assert lost.left.helix[-1] - lost.left.helix[0] == pytest.approx(-moved, abs=1e-6)
    assert (worm_shows(40, 40), worm_shows(24, 40), worm_shows(37, 40)) == (1, 3, 37)


def test_facts_of_a_flank() -> None:
    wanted = gear(24, helix=15)
    setting = usual_setting(Millimetre(wanted.root_radius), Millimetre(30.0), Radian(wanted.helix))
    dug = flank_facts(numbered(26, nodes=384), wanted, setting)
    assert dug.trailing
    assert dug.undercut
    assert 1e3 * dug.dug > 10
    assert wanted.u_start < dug.corner_up_to < wanted.u_pitch
    clean = flank_facts(made_for(wanted), wanted, setting)
    assert (clean.corner_up_to, clean.dug, clean.uncut, clean.span_square) == (0.0, 0.0, 0, True)
    below = flank_facts(
        numbered(12, 1, 50), gear(13, 1, 0), usual_setting(Millimetre(gear(13, 1, 0).root_radius), Millimetre(25.0), Radian(0.0))
    )
    assert below.practice_up_to > gear(13, 1, 0).u_start
    assert sides_apart(gear(40, helix=45)) > 5


def test_the_picture_is_to_scale() -> None:
    wanted = gear(24, helix=0)
    setting = usual_setting(Millimetre(wanted.root_radius), Millimetre(30.0), Radian(0.0))
    view = space_seen(numbered(21), wanted, setting, times=50.0)
    for line in view.wanted:
        assert np.hypot(*line.T) == pytest.approx(wanted.radius(view.u))
    gap = np.hypot(*(view.left[0] - view.wanted[0]).T)
    assert gap == pytest.approx(np.abs(view.deviation[0]), rel=1e-6)
    assert np.hypot(*(view.left_magnified[0] - view.wanted[0]).T) == pytest.approx(50 * gap, rel=1e-6)
    assert view.cutter[0] == pytest.approx(view.cutter[-1] * [-1, 1])
    middle = view.left[0][30]
    cutter = view.cutter[view.cutter[:, 0] > 0]
    assert np.interp(middle[1], cutter[:, 1], cutter[:, 0]) == pytest.approx(middle[0], abs=2e-4)
