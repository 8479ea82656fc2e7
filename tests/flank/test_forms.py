"""Cutter forms: points splined, corners kept, straight sides straight."""

from __future__ import annotations

import math

import numpy as np
import pytest

from evenpitch.flank.forms import points_form, vee_form
from evenpitch.flank.setting import Setting
from evenpitch.flank.trace import flank_trace
from evenpitch.flank.wanted import Array, WantedFlank
from evenpitch.quantity.units import Millimetre, Radian
from flank.shop import gear, numbered


def left(form, wanted: WantedFlank) -> Array:  # type: ignore[no-untyped-def]
    """Profile in um."""
    u = np.linspace(wanted.u_start, wanted.u_end, 41)
    return (
        1e3
        * flank_trace(form, wanted, wanted.q, Setting(wanted.helix, 0.0, wanted.root_radius + form.outside_radius), u, 1).delta
    )


@pytest.mark.parametrize(("count", "within"), [(12, 0.05), (30, 0.005)])
def test_points_of_a_numbered_form_cut_as_the_form_does(count: int, within: float) -> None:
    wanted = gear(30, helix=12)
    sharp = numbered(40, corner=0.0)
    pieces = [piece for piece in sharp.plus if piece.where in ("below", "form", "beyond")]
    points = np.concatenate([np.column_stack([piece.w, piece.R]) for piece in pieces])
    points = points[np.concatenate([[True], np.hypot(*np.diff(points, axis=0).T) > 1e-4])]
    some = points[np.unique(np.linspace(0, len(points) - 1, count * len(pieces)).astype(int))]
    form = points_form(some, Millimetre(60.0), corner=Millimetre(0.5))
    assert np.abs(left(form, wanted) - left(numbered(40), wanted)).max() < within


def test_straight_sides_by_two_points_by_many_and_by_their_angle_are_one() -> None:
    wanted, rise = gear(60, helix=0), math.tan(math.radians(20))
    vee = left(vee_form(Radian(math.radians(40)), Millimetre(1.2), Millimetre(70.0), corner=Millimetre(0.3)), wanted)
    for depths in ((0.0, 8.0), (0.0, 1.0, 3.0, 8.0), (0.5, 4.0, 8.0)):
        points = np.array([[0.6 + depth * rise, 35 - depth] for depth in depths])
        assert np.abs(left(points_form(points, Millimetre(70.0), corner=Millimetre(0.3)), wanted) - vee).max() < 1e-4


def test_a_corner_of_the_outline_is_kept_sharp() -> None:
    rise = math.tan(math.radians(20))
    points = np.array([[0.3, 35.0], [0.6, 34.6], [0.6 + 2 * rise, 32.6], [0.6 + 8 * rise, 26.6]])
    form = points_form(points, Millimetre(70.0))
    fans = [
        piece for piece in form.plus if piece.where == "corner" and np.ptp(piece.R) == 0.0 and piece.R[0] == pytest.approx(34.6)
    ]
    assert len(fans) == 1
    straight = [piece for piece in form.plus if piece.where == "form"][-1]
    assert np.allclose(np.diff(straight.w) / -np.diff(straight.R), rise)
