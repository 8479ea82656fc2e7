"""What holds for every gear that is not refused."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from evenpitch.gear.caliper import caliper_jaws, caliper_points
from evenpitch.gear.check import faults_of
from evenpitch.gear.chord import chordal_thickness
from evenpitch.gear.figures import figures
from evenpitch.gear.formcut import at_sink, depth_left, targets
from evenpitch.gear.gear import Gear
from evenpitch.gear.involute import inverse_involute, involute
from evenpitch.gear.limits import rounded, tolerances
from evenpitch.gear.mesh import contact_ratio, mesh, tight_centre_distance
from evenpitch.gear.pin_choice import best_pin, least_pin, pin_contact_diameter, pin_seat
from evenpitch.gear.pins import nominal_over_balls, nominal_over_pins, pin_of, thickness_from_pins
from evenpitch.gear.rack import RACKS
from evenpitch.gear.sizes import base_diameter, base_pitch, outside_diameter, pitch_diameter
from evenpitch.gear.span import nominal_span, span_contact_diameter, span_reach, span_target, spanned, usual_spanned
from evenpitch.gear.thickness import pointed_diameter, thickness_at, thinned_thickness, tooth_thickness
from evenpitch.gear.undercut import form_diameter
from gear.made import spur

ANGLES = (14.5, 17.5, 20.0, 22.5, 25.0, 30.0)


@st.composite
def gears(draw: st.DrawFn, least: int = 5, most: int = 400, **fixed: Any) -> Gear:
    """Gears of every kind that this room does not refuse."""
    helix = draw(st.sampled_from((0.0, 0.0, 5.0, 15.0, 20.0, 30.0, 45.0)))
    gear = spur(
        draw(st.integers(least, most)),
        draw(st.floats(0.2, 12.0)),
        draw(st.sampled_from(ANGLES)),
        helix=math.radians(helix),
        hand=draw(st.sampled_from(("left", "right"))) if helix else "none",
        depth=draw(st.sampled_from(tuple(RACKS))),
        shift=draw(st.floats(-0.4, 0.6)),
        **fixed,
    )
    assume(not faults_of(gear))
    return gear


thinned = st.floats(0.0, 0.05)


@given(st.floats(1e-100, 1.5))
def test_involute_and_back(angle: float) -> None:
    assert inverse_involute(involute(angle)) == pytest.approx(angle, rel=1e-14)


@given(st.floats(-1.5, 1.5))
def test_involute_is_odd_and_grows(angle: float) -> None:
    assert involute(-angle) == -involute(angle)
    assert angle == 0.0 or involute(angle) * angle >= 0.0


@given(gears(), st.integers(1, 60))
def test_one_tooth_more_adds_a_base_pitch(gear: Gear, k: int) -> None:
    assert nominal_span(gear, k + 1) - nominal_span(gear, k) == pytest.approx(base_pitch(gear), rel=1e-9)


@given(gears())
def test_the_teeth_that_can_be_spanned_are_those_that_touch_between_form_circle_and_tip(gear: Gear) -> None:
    reach = span_reach(gear)
    for k in range(1, 40):
        touch = span_contact_diameter(gear, span_target(gear, k))
        between = form_diameter(gear) < touch < outside_diameter(gear)
        assert (reach is not None and reach.holds(k)) is between
    assert reach is None or reach.holds(usual_spanned(gear))


@given(gears(), st.booleans())
def test_thickness_to_pins_and_back(gear: Gear, balls: bool) -> None:
    over = nominal_over_balls if balls else nominal_over_pins
    back = thickness_from_pins(gear, over(gear, pin_of(gear)), pin_of(gear), balls=balls)
    assert back == pytest.approx(tooth_thickness(gear), abs=1e-9 * pitch_diameter(gear))


@given(gears(), thinned)
def test_even_thinning_shows_in_the_span_by_the_cosine(gear: Gear, part: float) -> None:
    thin = replace(gear, thinning=part * gear.module)
    k = spanned(thin)
    loss = tooth_thickness(thin) - thinned_thickness(thin)
    assert nominal_span(thin, k) - span_target(thin, k) == pytest.approx(
        loss * math.cos(gear.pressure_angle), abs=1e-9 * gear.module
    )


@given(gears(least=12), thinned, st.sampled_from((None, 40.0)))
@settings(deadline=None, max_examples=40)
def test_targets_meet_the_span_and_nothing_grows(gear: Gear, part: float, cutter: float | None) -> None:
    gear = replace(gear, thinning=part * gear.module)
    outside = cutter * gear.module if cutter else None
    cut = targets(gear, outside)
    assert cut.span == pytest.approx(span_target(gear, cut.spanned), abs=1e-9 * gear.module)
    assert cut.sink >= 0.0
    assert cut.over_pins <= nominal_over_pins(gear, cut.pin) + 1e-9
    assert cut.over_balls <= cut.over_pins + 1e-9
    assert cut.chordal_thickness <= chordal_thickness(gear) + 1e-9
    deeper = at_sink(gear, cut.sink + 0.01, outside)
    assert deeper.span < cut.span
    assert depth_left(gear, cut.span, deeper.span, outside) == pytest.approx(0.01, abs=1e-9)


@given(gears(least=12))
@settings(deadline=None, max_examples=40)
def test_without_sinking_every_reading_is_nominal(gear: Gear) -> None:
    for outside in (None, 40.0 * gear.module):
        cut = at_sink(gear, 0.0, outside)
        assert cut.span == pytest.approx(nominal_span(gear, cut.spanned), rel=1e-12)
        assert cut.over_balls == pytest.approx(nominal_over_balls(gear, cut.pin), rel=1e-12)
        assert cut.chordal_thickness == pytest.approx(chordal_thickness(gear), rel=1e-9)
        assert cut.thickness == pytest.approx(tooth_thickness(gear), rel=1e-9)


@given(gears(least=18, most=200))
@settings(deadline=None, max_examples=40)
def test_a_helix_of_nothing_is_cut_like_a_spur_gear(gear: Gear) -> None:
    flat = replace(gear, helix=0.0, hand="none", thinning=0.001 * gear.module)
    assume(not faults_of(flat) and span_reach(flat))
    exact, first_order = targets(flat), targets(replace(flat, helix=1e-9, hand="right"), 40.0 * flat.module)
    assert first_order.span_per_depth == pytest.approx(exact.span_per_depth, rel=1e-6)
    assert first_order.balls_per_depth == pytest.approx(exact.balls_per_depth, rel=1e-6)
    assert first_order.chordal_thickness == pytest.approx(exact.chordal_thickness, abs=2e-6 * flat.module)


@given(gears())
def test_a_caliper_never_reads_more_than_the_outside(gear: Gear) -> None:
    assert caliper_jaws(gear) <= caliper_points(gear) <= outside_diameter(gear)


@given(gears())
@settings(deadline=None, max_examples=40)
def test_every_figure_of_a_sound_gear_is_a_finite_number(gear: Gear) -> None:
    for figure in (*figures(gear, cutter_outside=40.0 * gear.module), *figures(gear), *tolerances(gear, 8)):
        assert figure.name
        assert isinstance(figure.value, (int, str)) or math.isfinite(figure.value)


@given(gears())
def test_thickness_vanishes_where_the_tooth_comes_to_a_point(gear: Gear) -> None:
    assert thickness_at(gear, pointed_diameter(gear)) == pytest.approx(0.0, abs=1e-9 * gear.module)
    assert pointed_diameter(gear) >= outside_diameter(gear) * (1 - 1e-12)


@given(gears(least=10))
def test_the_best_pin_touches_in_the_middle(gear: Gear) -> None:
    middle = max(pitch_diameter(gear) + 2 * gear.shift * gear.module, base_diameter(gear))
    assert pin_contact_diameter(gear, best_pin(gear)) == pytest.approx(middle, rel=1e-9)


@given(gears(least=10))
def test_the_least_pin_stands_just_at_the_tips_or_the_root(gear: Gear) -> None:
    seat = pin_seat(gear, least_pin(gear))
    assert min(seat.above_tips, seat.above_root) == pytest.approx(0.0, abs=1e-6 * gear.module + 1e-8)


@given(gears(least=10), st.integers(10, 200))
def test_a_tight_pair_has_no_backlash(gear: Gear, teeth: int) -> None:
    mate = replace(gear, teeth=teeth, shift=0.1, hand={"left": "right", "right": "left", "none": "none"}[gear.hand])
    gear = replace(gear, thinning=0.02 * gear.module, shift=abs(gear.shift))
    assume(not faults_of(mate))
    tight = tight_centre_distance(gear, mate)
    assert mesh(gear, mate, tight).backlash_normal == pytest.approx(0.0, abs=1e-9 * gear.module)
    wider = mesh(gear, mate, tight + 0.05 * gear.module)
    assert wider.backlash_normal > 0.0
    assert wider.contact_ratio < contact_ratio(gear, mate, tight)
    assert wider.backlash_normal < wider.backlash_normal_circular <= wider.backlash_circular


@given(st.floats(0.01, 1e4))
def test_rounding_of_tolerances_stays_near_and_holds_still(value: float) -> None:
    step = 1.0 if value > 10 else 0.5 if value >= 5 else 0.1
    assert abs(rounded(value) - value) <= step / 2 + 1e-6
    assert rounded(rounded(value)) == rounded(value)
