"""Form error of numbered cutters. Own figures of the workshop's scenario, computed apart from this program; no figure in print."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cutting.gears import A, P, helical
from evenpitch.cutting.helicaltip import helical_tip_error
from evenpitch.cutting.tiperror import floor_error, space_half_width, substitute_error, tip_error
from evenpitch.gear.gear import Gear
from evenpitch.gear.involute import involute
from evenpitch.gear.virtual import cutter_form_teeth


@pytest.mark.parametrize(
    ("gear", "made_for", "micrometres"),
    [(A, 55, 89.5), (A, 68, 50.1), (A, 80, 25.0), (A, 97, 0.0), (A, 135, -33.4),
     (P, 55, 79.7), (P, 68, 50.1), (P, 80, 31.3), (P, 135, -12.5), (P, 200, -33.4)],
)  # fmt: skip
def test_tip_error_of_the_scenario(gear: Gear, made_for: int, micrometres: float) -> None:
    assert 1000 * tip_error(gear.teeth, made_for, gear.module, gear.pressure_angle) == pytest.approx(micrometres, abs=0.05)


@pytest.mark.parametrize(("made_for", "micrometres"), [(26, 99), (35, 14)])
def test_helical_tip_error_of_the_scenario(made_for: int, micrometres: float) -> None:
    assert 1000 * helical_tip_error(helical(28), made_for, 63.0) == pytest.approx(micrometres, abs=0.5)


@pytest.mark.parametrize(
    ("teeth", "module", "degrees", "outside", "rule"),
    # the corrected rule, five cases of the scenario, against the envelope solved numerically
    [(28, 2, 20, 63, 37.6), (56, 2, 20, 63, 71.3), (24, 2, 30, 63, 46.6), (20, 2.5, 40, 70, 62.4), (40, 1.5, 15, 55, 46.8)],
)
def test_form_teeth_are_near_the_count_whose_cutter_errs_nothing(
    teeth: int, module: float, degrees: float, outside: float, rule: float
) -> None:
    gear = helical(teeth, module, degrees)
    form = cutter_form_teeth(gear, outside)
    assert form == pytest.approx(rule, abs=0.05)
    low, high = form - 1.6, form + 1.6
    assert helical_tip_error(gear, low, outside) > 0 > helical_tip_error(gear, high, outside)


def test_the_disc_on_a_straight_groove_agrees_with_the_outlines() -> None:
    nearly_straight = Gear(
        teeth=97,
        pitch=A.pitch,
        module=A.module,
        pressure_angle=A.pressure_angle,
        helix=math.radians(1e-4),
        hand="right",
        depth="14.5",
    )
    for made_for in (55, 68, 80, 135):
        by_disc = helical_tip_error(nearly_straight, made_for, 70.0)
        by_outline = tip_error(97, made_for, A.module, A.pressure_angle)
        assert by_disc == pytest.approx(by_outline, rel=0.09)


@given(st.integers(12, 200), st.floats(0.5, 6), st.sampled_from([14.5, 20.0, 25.0]))
def test_a_form_on_its_own_count_errs_nothing(teeth: int, module: float, degrees: float) -> None:
    alpha = math.radians(degrees)
    assert tip_error(teeth, teeth, module, alpha) == 0.0
    assert floor_error(teeth, teeth, module, alpha, module) == 0.0


@given(st.integers(20, 130), st.integers(1, 60))
def test_fewer_teeth_relieve_the_tip_and_more_leave_it_heavy(teeth: int, more: int) -> None:
    alpha = math.radians(20)
    assert tip_error(teeth + more, teeth, 2.0, alpha) > 0 > tip_error(teeth, teeth + more, 2.0, alpha)


def test_half_width_lies_on_the_involute() -> None:
    module, teeth, alpha = 2.0, 30, math.radians(20)
    half = space_half_width(teeth, module, alpha, 1.7)
    radius = math.hypot(half, 30 + 1.7)
    start = math.pi / (2 * teeth) - involute(alpha)
    assert math.atan2(half, 31.7) == pytest.approx(start + involute(math.acos(30 * math.cos(alpha) / radius)), abs=1e-12)


def test_inside_the_base_circle_the_flank_is_radial() -> None:
    alpha = math.radians(20)
    low, lower = space_half_width(12, 2.0, alpha, -1.5), space_half_width(12, 2.0, alpha, -2.0)
    assert low / (12 - 1.5) == pytest.approx(lower / (12 - 2.0), rel=1e-12)


def test_a_module_cutter_for_a_pitch_near_it_is_sunk_to_the_right_width() -> None:
    error, extra = substitute_error(113, P.module, P.pressure_angle, 113, 1.6, 0.98 * P.module)
    assert abs(error) < 0.02
    wanted = space_half_width(113, P.module, P.pressure_angle, 0.0)
    assert space_half_width(113, 1.6, P.pressure_angle, extra) == pytest.approx(wanted, abs=1e-9)
    assert extra < 0
