"""Choices and facts: depth systems, teeth to span, pins, undercut, hands, contact of a disc cutter, explanations."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction

import pytest

from evenpitch.gear.caliper import outside_from_points
from evenpitch.gear.check import faults_of
from evenpitch.gear.chord import (
    chordal_height,
    chordal_height_on,
    constant_chord,
    constant_chord_height,
    thickness_error_per_radius,
)
from evenpitch.gear.disc_contact import contact_along, share_across
from evenpitch.gear.figures import figures
from evenpitch.gear.formcut import EVENLY, NO_CONTACT, at_sink, span_per_depth, targets
from evenpitch.gear.halving import bisect
from evenpitch.gear.involute import inverse_involute
from evenpitch.gear.limits import outside_validity, rounded, tolerances
from evenpitch.gear.limits_1995 import limits_1995
from evenpitch.gear.mesh import hands_suit, mesh, pitches_suit, tight_centre_distance, working_pressure_angle
from evenpitch.gear.pin_choice import pin_seat
from evenpitch.gear.pins import pin_pressure_angle, usual_pin
from evenpitch.gear.rack import fine_is_usual, usual_depth
from evenpitch.gear.sizes import axial_pitch, lead, outside_diameter, roll_length_at, transverse_circular_pitch
from evenpitch.gear.span import face_needed, face_wanted, span_can_be_taken, span_reach, spanned, usual_spanned
from evenpitch.gear.undercut import form_diameter, is_undercut, least_teeth
from evenpitch.quantity.pitch import Pitch
from evenpitch.quantity.refusal import Refusal
from gear.made import by_pitch, cases, helical, spur, timing, wheel


def test_usual_depth() -> None:
    assert usual_depth(math.radians(14.5)) == "14.5"
    assert usual_depth(math.radians(20.0)) == "full"


@pytest.mark.parametrize(("teeth_per_inch", "degrees", "asked"), [(20, 20.0, True), (19, 20.0, False), (32, 14.5, False)])
def test_fine_pitch_is_asked_for(teeth_per_inch: int, degrees: float, asked: bool) -> None:
    assert fine_is_usual(Pitch("diametral pitch", Fraction(teeth_per_inch)), math.radians(degrees)) is asked


def test_a_module_is_not_fine_pitch() -> None:
    assert not fine_is_usual(Pitch("module", Fraction(1)), math.radians(20.0))


# Machinery's Handbook and every gear text print 17, 32 and 12 (from memory); 2 / sin² α is their formula.
@pytest.mark.parametrize(("degrees", "printed"), [(20.0, 17), (14.5, 32), (25.0, 11)])
def test_teeth_below_which_a_rack_undercuts(degrees: float, printed: int) -> None:
    assert round(least_teeth(spur(20, 1.0, degrees))) == printed


def test_undercut_and_form_circle() -> None:
    assert is_undercut(spur(12, 1.0))
    assert not is_undercut(spur(12, 1.0, shift=0.3))
    assert form_diameter(spur(12, 1.0)) == pytest.approx(12.0 * math.cos(math.radians(20.0)), rel=1e-12)
    assert form_diameter(spur(40, 1.0)) > 40.0 * math.cos(math.radians(20.0))


def test_every_admissible_span_of_the_wheel() -> None:
    reach = span_reach(wheel())
    assert reach is not None
    assert (reach.least, reach.most) == (6, 10)
    assert not reach.holds(5)
    assert not reach.holds(11)


def test_the_makers_choice_of_span_stands() -> None:
    assert spanned(replace(wheel(), spanned=7)) == 7
    assert usual_spanned(replace(wheel(), spanned=7)) == 8


def test_a_narrow_helical_gear_cannot_be_spanned() -> None:
    assert span_can_be_taken(timing(28), 4)
    assert not span_can_be_taken(replace(timing(28), face=6.9), 4)
    assert span_can_be_taken(replace(timing(28), face=None), 4)
    assert face_wanted(timing(28), 21.55) > face_needed(timing(28), 21.55)
    assert face_wanted(wheel(), 49.3) == 0.0


def test_no_span_reaches_a_short_flank_of_great_shift() -> None:
    short = spur(88, 2.0, 10.0, depth="stub", shift=2.8)
    assert span_reach(short) is None
    assert usual_spanned(short) >= 2
    assert not span_can_be_taken(short, usual_spanned(short))


def test_a_steep_gear_spans_more_than_half_its_teeth() -> None:
    steep = helical(577, 2.4, 59.7, 14.5)
    assert usual_spanned(steep) > 577 / 2
    assert not faults_of(replace(steep, spanned=usual_spanned(steep)))


def test_too_many_teeth_cannot_be_spanned() -> None:
    assert not span_can_be_taken(replace(spur(97, 2.0), spanned=40), 40)


def test_pins_that_do_not_serve() -> None:
    assert pin_seat(wheel(), 8.0).on_flank is False
    assert pin_seat(wheel(), 2.2).on_root
    assert not pin_seat(wheel(), 2.2).usable
    with pytest.raises(Refusal, match="falls between the flanks"):
        pin_pressure_angle(wheel(), 1.0)


def test_usual_pin_is_1_728_by_the_diametral_pitch() -> None:
    assert usual_pin(wheel()) / 25.4 == pytest.approx(0.144, abs=1e-12)


def test_vernier_height_follows_the_blank() -> None:
    assert chordal_height_on(wheel(), 209.51) == pytest.approx(chordal_height(wheel()) - 0.02, abs=1e-12)
    assert thickness_error_per_radius(wheel()) == pytest.approx(0.52, abs=0.005)


# Machinery's Handbook, constant chord at 20°: 1.3870 m and 0.7476 m (from memory).
def test_constant_chord() -> None:
    for teeth in (20, 77):
        assert constant_chord(spur(teeth, 1.0)) == pytest.approx(1.3870, abs=5e-5)
        assert constant_chord_height(spur(teeth, 1.0)) == pytest.approx(0.7476, abs=5e-5)


def test_a_worn_tip_reading_back_to_a_diameter() -> None:
    assert outside_from_points(97, 209.40) == pytest.approx(209.4275, abs=5e-5)


def test_spur_has_no_lead() -> None:
    assert lead(wheel()) == math.inf
    assert axial_pitch(wheel()) == math.inf
    assert roll_length_at(wheel(), 100.0) == 0.0
    assert transverse_circular_pitch(timing()) * 28 == pytest.approx(math.pi * 59.59395525865108)


def test_helical_without_a_cutter_says_so() -> None:
    cut = targets(timing(28))
    assert (cut.model, cut.note) == ("thinned evenly", EVENLY)
    note = {figure.name: figure.note for figure in figures(timing(28))}
    assert "thinned evenly" in note["over_balls"]
    assert "form-cut" in {figure.name: figure.note for figure in figures(timing(28), cutter_outside=63.0)}["over_balls"]
    assert span_per_depth(timing(28)) == pytest.approx(0.684, abs=5e-4)


def test_a_cutter_that_finds_no_contact_says_so() -> None:
    past_the_tips = helical(200, 2.0, 30.0, thinning=0.05, spanned=95)
    assert targets(past_the_tips, 40.0).note == NO_CONTACT


def test_a_tooth_sunk_away_reads_nothing() -> None:
    cut = at_sink(spur(12, 1.0), 3.0)
    assert (cut.chordal_thickness, cut.thickness) == (0.0, 0.0)


def test_contact_of_a_spur_gear_is_in_the_middle_plane() -> None:
    assert contact_along(wheel(), 24.7, 70.0) == 0.0
    assert share_across(wheel(), 24.7, 70.0) == pytest.approx(math.sin(math.pi * 8 / 97), abs=1e-3)


def test_contact_wanders_along_a_helical_flank_from_root_to_tip() -> None:
    along = [contact_along(timing(28), roll, 63.0) for roll in (5.0, 8.0, 10.2, 12.0, 15.0)]
    assert all(place is not None for place in along)
    assert along == sorted(along, reverse=True)  # type: ignore[type-var]
    assert along[0] > 0.0 > along[-1]  # type: ignore[operator]


def test_hands_and_pitches() -> None:
    assert not hands_suit(timing(28), replace(timing(56), hand="right"))
    assert not hands_suit(timing(28), replace(timing(56), helix=math.radians(21.0)))
    assert hands_suit(wheel(), wheel())
    assert not hands_suit(wheel(), timing(28))
    assert pitches_suit(timing(28), timing(56))
    assert not pitches_suit(wheel(), by_pitch(97, 12, 20.0))


def test_pairs_that_cannot_be() -> None:
    with pytest.raises(Refusal, match="base circles"):
        working_pressure_angle(timing(28), timing(56), 80.0)
    with pytest.raises(Refusal, match="backlash at every centre distance"):
        tight_centre_distance(spur(12, 1.0, shift=-0.5), spur(12, 1.0, shift=-0.5))


def test_overlap_needs_a_face() -> None:
    faceless = mesh(replace(timing(28), face=None), replace(timing(56), face=None))
    assert faceless.overlap_ratio is None
    assert faceless.total_contact_ratio is None
    assert mesh(timing(28), timing(56)).total_contact_ratio == pytest.approx(1.5618 + 1.0887, abs=1e-4)


def test_clearance_of_the_usual_pair_is_a_quarter_module() -> None:
    found = mesh(replace(timing(28), thinning=0.0), replace(timing(56), thinning=0.0))
    assert found.tip_clearance == pytest.approx(0.5, abs=1e-9)
    assert found.mate_tip_clearance == pytest.approx(0.5, abs=1e-9)


@pytest.mark.parametrize(
    ("raw", "printed"), [(43.5, 44.0), (10.4, 10.0), (9.78, 10.0), (9.4, 9.5), (5.2, 5.0), (4.97, 5.0), (1.94, 1.9)]
)
def test_rounding_of_the_standard(raw: float, printed: float) -> None:
    assert rounded(raw) == printed


def test_scope_of_the_standard() -> None:
    rows = {row["quantity"]: row for row in cases()["G7-03"]["outputs"]["rows"]}
    assert outside_validity(spur(rows["z"]["min"], 2.0, face=rows["b"]["min"])) == ()
    assert outside_validity(spur(rows["z"]["max"], 2.0, face=rows["b"]["max"])) == ()
    assert outside_validity(helical(50, 2.0, rows["beta"]["max"])) == ()
    outside = (spur(4, 2.0), spur(1001, 2.0), spur(50, 0.49), spur(20, 71.0), spur(50, 2.0, face=3.9), helical(50, 2.0, 46.0))
    assert [len(outside_validity(gear)) for gear in outside] == [1] * 6
    assert outside_validity(spur(9, 0.5))
    assert all("extrapolated" in figure.note for figure in tolerances(spur(50, 0.4), 8))


def test_helix_limits_need_a_face() -> None:
    names = {figure.name for figure in tolerances(replace(wheel(), face=None), 8)}
    assert "runout" in names
    assert not any(name.startswith("helix") for name in names)


def test_the_old_edition_ends_somewhere() -> None:
    with pytest.raises(Refusal, match="2013 edition"):
        limits_1995(3.0, 1.0, 10.0, 7)
    assert limits_1995(5.0, 0.5, 4.0, 5)["single_pitch"] > 0


def test_inverse_involute_at_and_below_nothing() -> None:
    assert inverse_involute(0.0) == 0.0
    assert inverse_involute(-0.0149043838673) == pytest.approx(-math.radians(20.0), abs=1e-12)


def test_halving() -> None:
    assert bisect(lambda x: x * x - 2.0, 0.0, 2.0) == pytest.approx(math.sqrt(2.0), rel=1e-15)
    assert bisect(lambda x: x, 0.0, 1.0) == 0.0
    assert bisect(lambda x: x - 1.0, 0.0, 1.0) == 1.0
    assert bisect(lambda x: x - 0.5, 0.0, 1.0) == 0.5
    with pytest.raises(ValueError, match="no change of sign"):
        bisect(lambda x: 1.0, 0.0, 1.0)


def test_every_figure_explains_itself() -> None:
    for figure in (*figures(wheel()), *figures(timing(28), cutter_outside=63.0), *tolerances(timing(28), 8)):
        given = {"teeth", "module", "diametral_pitch", "pressure_angle", "helix_angle", "hand", "profile_shift", "face_width"}
        assert figure.name in given or (figure.formula and figure.sources and figure.inputs), figure.name


def test_outside_of_the_pair() -> None:
    assert outside_diameter(timing(56)) == pytest.approx(123.1879, abs=5e-5)
