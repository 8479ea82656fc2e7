"""The workshop's jobs against the figures worked out for them by 30-digit arithmetic and exact fractions (invented scenario)."""

from __future__ import annotations

from fractions import Fraction

import pytest

from evenpitch.dividing.methods import Differential, PlatePulses, Pulses, Simple
from evenpitch.quantity.refusal import Refusal
from job.shop import codes, pair, pinion, rig_of, rig_tables, wheel

A = wheel(pin="0.144 in", depth="14.5").gears[0]
B = pair(pair={"centre_distance": "3.520 in"})
B28, B56 = B.gears


def check(plan, name):
    return next(found for found in plan.checks if found.name == name)


@pytest.mark.parametrize(
    ("name", "wanted", "within"),
    [
        ("pitch_diameter", 205.3167, 5e-5),
        ("outside_diameter", 209.55, 1e-9),
        ("whole_depth", 4.5656, 6e-5),
        ("base_diameter", 198.7768, 6e-5),
        ("span_nominal", 49.3864, 6e-5),
        ("span", 49.3283, 6e-5),
        ("over_pins_nominal", 210.6036, 6e-5),
        ("over_pins", 210.3769, 1e-4),
        ("chordal_thickness_nominal", 3.3247, 6e-5),
        ("chordal_height", 2.1301, 6e-5),
        ("caliper_points", 209.5225, 6e-5),
        ("caliper_jaws", 209.4951, 6e-5),
        ("cutter_speed", 83, 1e-9),
        ("table_feed", 76.2, 1e-9),
        ("pulses_per_turn", 192000, 0),
    ],
)
def test_wheel_of_97_teeth(name, wanted, within):
    assert A.value(name) == pytest.approx(wanted, abs=within)


def test_form_cut_pairs_of_span_and_pins():
    assert check(A, "span").most == pytest.approx(49.3283, abs=6e-5)
    assert check(A, "over_pins").most == pytest.approx(210.3769, abs=1e-4)
    assert check(A, "over_pins").least == pytest.approx(210.1818, abs=1e-4)


def test_97_moves_add_to_whole_turns():
    link = next(way for way in A.indexing.methods if isinstance(way, Pulses))
    assert dict(link.counts) == {1979: 60, 1980: 37}
    assert link.targets()[:4] == (0, 1979, 3959, 5938)
    assert link.targets()[-2:] == (190_021, 192_000)
    assert link.worst_space == Fraction(48, 97)


def test_best_differential_of_97():
    train = next(way for way in A.indexing.methods if isinstance(way, Differential))
    assert (train.approximate_number(), train.spaces, train.circle) == (100, 8, 20)
    assert (train.train.drivers, train.train.driven, train.plate_sense) == ((48,), (40,), "with")


def test_recut_of_97():
    per_depth = A.form_cut.span_per_depth
    assert (49.452 - 49.303) / per_depth == pytest.approx(0.2908, abs=1e-4)


def test_time_and_limits_of_97():
    assert A.running.job_minutes == pytest.approx(94.5, abs=0.06)
    assert {name: A.value(name) for name in ("single_pitch", "cumulative_pitch", "profile_total", "runout")} == {
        "single_pitch": 17,
        "cumulative_pitch": 62,
        "profile_total": 23,
        "runout": 55,
    }


def test_knee_of_97_through_paper():
    found = wheel(depth="14.5", choice={"paper_thickness": "0.08 mm"}).gears[0]
    full = next(rung for rung in found.running.ladder if rung.name == "full")
    assert full.raised == pytest.approx(4.6456, abs=1e-4)
    assert (full.dial.turns, full.dial.divisions) == (1, 82.9)


def test_pair_in_the_housing():
    mesh = B.pair.mesh
    assert mesh.backlash_normal_circular == pytest.approx(0.1125, abs=6e-5)
    assert mesh.backlash_normal == pytest.approx(0.1057, abs=6e-5)
    assert mesh.backlash_circular == pytest.approx(0.1197, abs=6e-5)
    assert mesh.contact_ratio == pytest.approx(1.5542, abs=6e-5)
    assert mesh.overlap_ratio == pytest.approx(1.0887, abs=6e-5)
    assert mesh.centre_distance_tight == pytest.approx(89.2528, abs=6e-5)


@pytest.mark.parametrize(
    ("gear", "name", "wanted", "within"),
    [
        (B28, "lead", 514.3825, 6e-5),
        (B56, "lead", 1028.7651, 6e-5),
        (B28, "span", 21.5543, 6e-5),
        (B56, "span", 46.1077, 6e-5),
        (B28, "over_balls", 64.454, 1e-3),
        (B56, "over_balls", 124.099, 1e-3),
        (B28, "span_face_needed", 6.927, 6e-3 + 0.01),
        (B28, "cutter_form_teeth", 37.59, 6e-3),
        (B56, "cutter_form_teeth", 71.33, 6e-3),
        (B28, "pulses_per_mm", 373.26306, 6e-6),
        (B56, "pulses_per_count", 0.186632, 6e-7),
    ],
)
def test_timing_pair(gear, name, wanted, within):
    assert gear.value(name) == pytest.approx(wanted, abs=within)


def test_change_gears_of_the_pair_are_chosen_jointly():
    first = B28.lead.pairs[0]
    assert (sorted(first.first.train.driven), sorted(first.first.train.drivers)) == ([48, 86], [32, 64])
    assert (sorted(first.second.train.driven), sorted(first.second.train.drivers)) == ([72, 86], [24, 64])
    assert first.mismatch_ppm == 0
    assert first.first.helix_slope_um == pytest.approx(32.0, abs=0.05)
    assert B28.lead.trains[0].helix_slope_um == pytest.approx(15.9, abs=0.05)


def test_take_up_and_rapid():
    assert B28.lead.take_up == pytest.approx(0.0762, abs=5e-5)
    assert B28.lead.start_before == pytest.approx(0.229, abs=5e-4)
    rapid = next(found for found in B28.findings if found.code == "rapid")
    assert "593 rpm" in rapid.says
    assert "1580" in rapid.says
    assert rapid.why == "That is beyond 50% of the counter's 50000 counts/s."  # 1500 mm/min; the motor's 600 rpm is 2572


def test_time_of_the_pair_in_two_passes_of_the_larger():
    assert B28.running.job_minutes == pytest.approx(55, abs=0.6)
    assert B56.running.job_minutes == pytest.approx(111, abs=0.6)


def test_milling_head_swings_nose_left_for_a_right_hand():
    found = pinion(rig_of(rig_tables("museum-mill-head-swing"))).gears[0]
    assert "operator's left" in found.direction.swing
    assert "clockwise" in found.direction.swing


def test_97_teeth_with_a_helix_by_link_and_not_by_gears():
    tables = rig_tables()
    helical = {"helix": "20", "hand": "right", "pitch": "mn 2", "pressure_angle": "20"}
    by_link = wheel(rig_of(tables), **helical).gears[0]
    assert isinstance(by_link.indexing.chosen, Pulses)
    del tables["link"]
    by_gears = wheel(rig_of(tables), **helical, choice={"dividing": "differential"})
    assert "differential-and-lead" in {found.code for found in by_gears.findings}


def test_motor_on_the_plate_adds_what_the_plate_lacks():
    tables = rig_tables()
    tables["link"]["motor_on"] = "plate drive"
    found = wheel(
        rig_of(tables), choice={"dividing": "differential"}, helix="20", hand="right", pitch="mn 2", pressure_angle="20"
    )
    way = next(way for way in found.gears[0].indexing.methods if isinstance(way, PlatePulses) and way.circle == 20)
    assert way.spaces == 8
    assert abs(way.pulses_in_all) == 5760
    assert {abs(pulses): moves for pulses, moves in way.counts} == {59: 60, 60: 37}
    simple = pinion(rig_of(tables)).gears[0]
    assert isinstance(simple.indexing.chosen, Simple)


def test_a_way_that_cannot_be_names_those_that_go_with_the_lead():
    rig = rig_of(rig_tables("museum-mill-head-swing"))
    told = next(found for found in pinion(rig, choice={"dividing": "pulses"}).findings if found.code == "way-impossible")
    assert told.do == "Choose one of: simple, differential."  # by plate drive crank and motor go together; compound does not


@pytest.mark.parametrize(
    ("found", "likely"),
    [
        ("8.25", "Inches were perhaps meant: a number alone is in mm."),
        ("104.77 mm", "The radius was perhaps typed: the outside is a diameter."),
        ("2095.5 mm", "A decimal mark was perhaps lost or moved."),
        ("20.955 mm", "A decimal mark was perhaps lost or moved."),
        ("195 mm", "That is the blank of another gear, or another place was measured."),
    ],
)
def test_an_outside_that_is_not_of_this_gear_is_refused(found, likely):
    with pytest.raises(Refusal) as refused:
        wheel(outside_found=found)
    (fault,) = refused.value.faults
    assert (fault.field, fault.likely) == ("gear.0.outside_found", likely)
    assert "209.550 mm (8.2500 in)" in fault.do


@pytest.mark.parametrize("found", ["209.55 mm", "8.25 in", "8 1/4 in", "209.51 mm", None])
def test_an_outside_within_its_tolerance_is_passed_over(found):
    assert not codes(wheel(outside_found=found)) & {"blank-over", "blank-under", "blank-other-count"}


def test_a_blank_that_fits_the_other_reading_of_the_pitch():
    with pytest.raises(Refusal) as refused:
        wheel(pitch="module 12", outside_found="209.51 mm")
    (fault,) = refused.value.faults
    assert fault.likely == "That is the outside for 12 DP: module and DP may have been mixed up."


def test_a_bore_wider_than_the_gear_is_refused():
    with pytest.raises(Refusal) as refused:
        wheel(bore="9 in", pin="1 mm")
    assert [fault.field for fault in refused.value.faults] == ["gear.0.pin"]
    with pytest.raises(Refusal) as refused:
        wheel(bore="9 in")
    assert [fault.field for fault in refused.value.faults] == ["gear.0.bore"]
    assert "dp-or-module" not in codes(wheel(bore="7 in"))


def test_dp_read_as_module_is_asked_back_with_both_sizes():
    told = next(found for found in wheel(pitch="module 12").findings if found.code == "dp-or-module")
    assert told.says == "module 12 makes a wheel of 1188 mm; 12 DP would make 209.55 mm."


def test_why_a_way_cannot_be_is_a_sentence():
    tables = rig_tables()
    tables.pop("link")
    told = next(f for f in wheel(rig_of(tables), choice={"dividing": "pulses"}).findings if f.code == "way-impossible")
    assert told.why == "The rig has no link whose pulses are known."
