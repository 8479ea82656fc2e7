"""Recut of a helical gear by brute force: the disc cutter as a cloud of points, sunk bodily, and what it leaves at one radius."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from evenpitch.checking.least_squares import Array
from evenpitch.gear.formcut import span_per_depth
from evenpitch.gear.gear import Gear
from evenpitch.gear.span import nominal_span, spanned
from evenpitch.job.recutting import DiscCut, disc_cut, recut, span_left
from evenpitch.quantity.units import Millimetre
from job.shop import pair

CUTTER = Millimetre(63.0)
STATIONS = 4001
TURN = 0.35
"""So far round the disc, rad, it is looked for what cuts deepest."""


def _gears() -> list[Gear]:
    return [gear.gear for gear in pair().gears]


def _left_by_the_cloud(cut: DiscCut, sink: float) -> float:
    """Span after sinking, mm. Every circle of the cutter is a row of points; each is screwed back into the middle of the face, and of
    all that pass the radius of the touch the one that stands furthest into the metal is what the flank is.
    """
    wanted = cut.wanted
    (form,) = (piece for piece in cut.form.plus if piece.where == "form")
    radius = math.hypot(wanted.base_radius, cut.touch)
    deepest = -math.inf
    for angle in np.linspace(-TURN, TURN, STATIONS):
        x, y, z = _placed(form.w, form.R, float(angle), cut, sink)
        turned = np.arctan2(y, x) - wanted.q * z
        away = np.hypot(x, y)
        order = np.argsort(away)
        if away[order[0]] < radius < away[order[-1]]:
            deepest = max(deepest, _through(away[order], turned[order], radius))
    taken = wanted.lever * (deepest - float(wanted.angle(np.array([cut.touch]))[0]))
    return float(nominal_span(cut.gear, spanned(cut.gear))) - 2 * taken


def _placed(w: Array, R: Array, angle: float, cut: DiscCut, sink: float) -> tuple[Array, Array, Array]:
    """Points of the cutter in the space of the work: its axis swung by the helix angle, its centre nearer by the sinking."""
    swing, centre = cut.design.swing, cut.design.centre - sink
    across = R * math.sin(angle)
    x = centre - R * math.cos(angle)
    y = w * math.cos(swing) + across * math.sin(swing)
    z = across * math.cos(swing) - w * math.sin(swing)
    return x, y, z


def _through(at: Array, value: Array, place: float) -> float:
    """The value at a place, by a cubic through the four points about it."""
    first = int(np.clip(np.searchsorted(at, place) - 2, 0, len(at) - 4))
    near = slice(first, first + 4)
    return float(np.polynomial.Polynomial.fit(at[near] - place, value[near], 3)(0.0))


@pytest.mark.parametrize("index", [0, pytest.param(1, marks=pytest.mark.full)])
@pytest.mark.parametrize("sink", [0.0, 0.064, 0.2])
def test_the_span_left_is_that_of_the_cloud(index: int, sink: float) -> None:
    """To 0.1 µm."""
    cut = disc_cut(_gears()[index], CUTTER)
    assert cut is not None
    assert span_left(cut, sink) == pytest.approx(_left_by_the_cloud(cut, sink), abs=0.0001)


@pytest.mark.parametrize(
    ("index", "sink", "slope"),
    [(0, 0.0005, 0.732), (1, 0.0005, 0.735), (0, 0.064, 0.738), (1, 0.064, 0.738), (0, 0.2, 0.750), (1, 0.2, 0.744)],
)
def test_what_the_span_loses_by_the_jobs_own_brute_force(index: int, sink: float, slope: float) -> None:
    """28 and 56 teeth, module 2, 20 degrees, a 63 mm cutter: figures worked out beforehand, for the small sinking and two real ones."""
    cut = disc_cut(_gears()[index], CUTTER)
    assert cut is not None
    bare, left = span_left(cut, 0.0), span_left(cut, sink)
    assert bare is not None
    assert left is not None
    assert (bare - left) / sink == pytest.approx(slope, abs=0.0005)


@pytest.mark.parametrize("index", [0, pytest.param(1, marks=pytest.mark.full)])
def test_the_depth_given_brings_the_span_to_what_is_wanted(index: int) -> None:
    gear = _gears()[index]
    cut = disc_cut(gear, CUTTER)
    assert cut is not None
    read, wanted = _left_by_the_cloud(cut, -0.15), _left_by_the_cloud(cut, 0.06)
    found = recut(gear, CUTTER, read, wanted)
    assert found is not None
    assert found.deeper == pytest.approx(0.21, abs=0.0002)
    first_order = (read - wanted) / span_per_depth(gear, CUTTER)
    assert abs(first_order - 0.21) > 0.0002  # what it was before


def test_both_hands_lose_the_same() -> None:
    right = _gears()[0]
    spans = [cut and span_left(cut, 0.1) for cut in (disc_cut(right, CUTTER), disc_cut(replace(right, hand="left"), CUTTER))]
    assert spans[0] == spans[1]


def test_a_span_out_of_reach_is_not_answered() -> None:
    gear = _gears()[0]
    normal = float(nominal_span(gear, spanned(gear)))
    assert recut(gear, CUTTER, normal + 5, normal) is None
