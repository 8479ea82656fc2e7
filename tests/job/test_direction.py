"""The direction table against vectors: x to the operator's right, y to the column, z up; the work's axis along x, the cutter above."""

from __future__ import annotations

import math

import pytest

from evenpitch.job.direction import direction
from evenpitch.quantity.units import Radian, degrees

Vector = tuple[float, float, float]


def cross(a: Vector, b: Vector) -> Vector:
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def groove_at_top(hand: str, beta: float) -> Vector:
    """Tangent, towards +x, of a helix of that hand at the top of the work: (c t, r cos t, ± r sin t) differentiated at the top."""
    sign = 1 if hand == "right" else -1
    return (math.cos(beta), -sign * math.sin(beta), 0.0)


def turned(vector: Vector, angle: float) -> Vector:
    """Turned about z, anticlockwise seen from above."""
    x, y, z = vector
    return (x * math.cos(angle) - y * math.sin(angle), x * math.sin(angle) + y * math.cos(angle), z)


@pytest.mark.parametrize("hand", ["right", "left"])
def test_table_swing_brings_the_groove_into_the_plane_of_the_cutter(hand):
    beta = math.radians(20)
    told = direction(hand, degrees(20), "table")
    right_end_away = "right-hand end away" in told.swing
    swung = turned(groove_at_top(hand, beta), beta if right_end_away else -beta)
    assert swung[1] == pytest.approx(0, abs=1e-12)


@pytest.mark.parametrize("hand", ["right", "left"])
def test_head_swing_brings_the_plane_of_the_cutter_to_the_groove(hand):
    beta = math.radians(20)
    told = direction(hand, degrees(20), "milling head")
    # The arbor points from the column towards the operator (-y); its near end is the nose.
    nose_left = "operator's left" in told.swing
    nose = turned((0.0, -1.0, 0.0), -beta if nose_left else beta)
    assert (nose[0] < 0) == nose_left
    assert ("anticlockwise" not in told.swing) == nose_left
    groove = groove_at_top(hand, beta)
    assert sum(a * b for a, b in zip(nose, groove, strict=True)) == pytest.approx(0, abs=1e-12)


@pytest.mark.parametrize("hand", ["right", "left"])
@pytest.mark.parametrize("feed", ["left", "right"])
@pytest.mark.parametrize("set_by", ["table", "milling head"])
def test_work_follows_the_groove_and_cutter_cuts_against_the_feed(hand, feed, set_by):
    told = direction(hand, degrees(20), set_by, feed)
    # The table moves the work by v; the cutter stays: seen from the work it moves by -v along the groove at the top, so the work
    # must turn about x by the angle that brings the groove there back to the top.
    v = -1.0 if feed == "left" else 1.0
    groove = groove_at_top(hand, math.radians(20))
    drift_of_groove_in_y = -v * groove[1] / groove[0]
    omega: Vector = (drift_of_groove_in_y, 0.0, 0.0)  # top (0, 0, 1) must move by -drift in y: omega x top = (0, -omega_x, 0)
    near = cross(omega, (0.0, -1.0, 0.0))
    assert ("rises" in told.work) == (near[2] > 0)
    # Lower teeth against the feed; lower teeth moving right look anticlockwise to an operator who faces the column.
    lower = -v
    assert ("moving right" in told.cutter) == (lower > 0)
    assert told.cutter.startswith("anticlockwise") == (lower > 0)


def test_a_spur_gear_needs_no_swing():
    told = direction("none", Radian(0.0), "neither")
    assert told.swing_degrees == 0
    assert "square" in told.swing
