"""The workshop's own gears, every figure of theirs (worked out apart from this program in 30-digit arithmetic)."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest

from evenpitch.gear.figures import figures
from evenpitch.gear.formcut import at_sink, depth_left, depth_table, sink_for_span, targets
from evenpitch.gear.gear import Gear
from evenpitch.gear.limits import tolerances
from evenpitch.gear.mesh import hands_suit, mesh, normal_circular_backlash
from evenpitch.gear.pin_choice import least_pin, pin_seat
from evenpitch.gear.pins import nominal_over_pins
from evenpitch.gear.span import nominal_span
from evenpitch.gear.virtual import cutter_form_teeth, normal_section_teeth
from gear.made import by_pitch, spur, timing, wheel

INCH = 25.4

WHEEL = {
    "pitch_diameter": 205.3167,
    "outside_diameter": 209.55,
    "caliper_points": 209.5225,
    "caliper_jaws": 209.4951,
    "whole_depth": 4.5656,
    "base_diameter": 198.7768,
    "tooth_thickness": 3.3249,
    "chordal_thickness_nominal": 3.3247,
    "chordal_height": 2.1301,
    "spanned_teeth": 8,
    "span_nominal": 49.3864,
    "span": 49.3283,
    "over_pins_nominal": 210.6036,
    "over_pins": 210.3769,
    "diametral_pitch": 12,
    "teeth": 97,
}
PRIME = {
    "pitch_diameter": 179.3875,
    "outside_diameter": 182.5625,
    "whole_depth": 3.4242,
    "base_diameter": 173.6736,
    "chordal_thickness_nominal": 2.4936,
    "chordal_height": 1.5962,
    "spanned_teeth": 10,
    "span_nominal": 46.8330,
    "span": 46.7846,
    "over_pins_nominal": 183.3645,
    "over_pins": 183.1881,
}
CHECK_127 = {
    "pitch_diameter": 201.6125,
    "outside_diameter": 204.7875,
    "whole_depth": 3.4242,
    "base_diameter": 195.1907,
    "chordal_thickness_nominal": 2.4936,
    "chordal_height": 1.5952,
    "spanned_teeth": 11,
    "span_nominal": 51.7807,
    "span": 51.7323,
    "over_pins_nominal": 205.5976,
    "over_pins": 205.4175,
}
TIMING_28 = {
    "transverse_pressure_angle": 21.172832,
    "base_helix_angle": 18.747237,
    "pitch_diameter": 59.5940,
    "outside_diameter": 63.5940,
    "root_diameter": 54.5940,
    "base_diameter": 55.5711,
    "lead": 514.3825,
    "virtual_teeth": 33.744,
    "spanned_teeth": 4,
    "span_nominal": 21.6013,
    "span": 21.5543,
    "span_face_needed": 6.927,
    "over_balls_nominal": 64.5810,
    "chordal_thickness_nominal": 3.1405,
    "chordal_height": 2.0366,
    "hand": "right",
}
TIMING_56 = {
    "pitch_diameter": 119.1879,
    "outside_diameter": 123.1879,
    "root_diameter": 114.1879,
    "base_diameter": 111.1422,
    "lead": 1028.7651,
    "virtual_teeth": 67.489,
    "spanned_teeth": 8,
    "span_nominal": 46.1546,
    "span": 46.1077,
    "span_face_needed": 14.819,
    "over_balls_nominal": 124.2262,
    "chordal_thickness_nominal": 3.1413,
    "chordal_height": 2.0183,
    "hand": "left",
}
CHECKS: tuple[tuple[str, Gear, dict[str, Any]], ...] = (
    ("97", wheel(), WHEEL),
    ("113", by_pitch(113, 16, 14.5, depth="14.5", thinning=0.05), PRIME),
    ("127", by_pitch(127, 16, 14.5, depth="14.5", thinning=0.05), CHECK_127),
    ("28", timing(28), TIMING_28),
    ("56", timing(56), TIMING_56),
)


@pytest.mark.parametrize(
    ("gear", "name", "wanted"),
    [pytest.param(gear, name, wanted, id=f"{ident} {name}") for ident, gear, table in CHECKS for name, wanted in table.items()],
)
def test_figure(gear: Gear, name: str, wanted: Any) -> None:
    found = {figure.name: figure.value for figure in figures(gear)}[name]
    if isinstance(wanted, str):
        assert found == wanted
    else:
        decimals = 3 if name in ("virtual_teeth", "span_face_needed") else 4
        assert found == pytest.approx(wanted, abs=0.5 * 10.0**-decimals)


def test_form_cut_pairs_of_span_and_pins() -> None:
    for span, over in ((49.328, 210.3757), (49.278, 210.1805)):
        cut = at_sink(wheel(), sink_for_span(wheel(), span))
        assert cut.span == pytest.approx(span, abs=1e-9)
        assert cut.over_pins == pytest.approx(over, abs=5e-5)


def test_the_sinking_of_the_wheel() -> None:
    assert targets(wheel()).sink == pytest.approx(0.1134, abs=5e-5)
    assert targets(wheel()).span_per_depth == pytest.approx(0.51242, abs=5e-6)


def test_recut_of_the_wheel() -> None:
    deeper = depth_left(wheel(), 49.452, 49.303)
    assert deeper == pytest.approx(0.2908, abs=5e-5)
    assert deeper / INCH == pytest.approx(0.01145, abs=5e-6)


def test_trial_spans_of_the_wheel() -> None:
    spans = [round(cut.span, 3) for _, cut in depth_table(wheel(), (4.10, 4.50, 4.679))]
    assert spans == [49.625, 49.420, 49.328]


def test_pins_too_small_for_the_wheel() -> None:
    seat = pin_seat(wheel(), 3.0)
    assert nominal_over_pins(wheel(), 3.0) == pytest.approx(207.3847, abs=5e-5)
    assert -seat.above_tips == pytest.approx(1.069, abs=5e-4)
    assert not seat.usable
    assert pin_seat(wheel(), 0.144 * INCH).usable
    assert least_pin(wheel()) == pytest.approx(3.427, abs=5e-4)


@pytest.mark.parametrize(
    ("teeth", "span_rate", "ball_rate", "over_balls"), [(28, 0.73244, 1.97581, 64.454), (56, 0.73496, 1.99245, 124.099)]
)
def test_disc_cutter_of_63_mm(teeth: int, span_rate: float, ball_rate: float, over_balls: float) -> None:
    cut = targets(timing(teeth), 63.0)
    assert cut.model == "form-cut"
    assert cut.span_per_depth == pytest.approx(span_rate, abs=5e-6)
    assert cut.balls_per_depth == pytest.approx(ball_rate, abs=5e-6)
    assert cut.over_balls == pytest.approx(over_balls, abs=5e-4)


def test_virtual_counts_of_the_timing_gears() -> None:
    assert normal_section_teeth(timing(28)) == pytest.approx(33.229, abs=5e-4)
    assert cutter_form_teeth(timing(28), 63.0) == pytest.approx(37.59, abs=5e-3)
    assert normal_section_teeth(timing(56)) == pytest.approx(66.459, abs=5e-4)
    assert cutter_form_teeth(timing(56), 63.0) == pytest.approx(71.33, abs=5e-3)


def test_pair_in_the_housing() -> None:
    found = mesh(timing(28), timing(56), 3.520 * INCH)
    assert hands_suit(timing(28), timing(56))
    assert found.reference_centre_distance == pytest.approx(89.3909, abs=5e-5)
    assert found.working_pressure_angle * 57.29577951308232 == pytest.approx(21.20105, abs=5e-6)
    assert found.backlash_normal_circular == pytest.approx(0.1125, abs=5e-5)
    assert found.backlash_normal == pytest.approx(0.1057, abs=5e-5)
    assert found.backlash_circular == pytest.approx(0.1197, abs=5e-5)
    assert found.centre_distance_tight == pytest.approx(89.2528, abs=5e-5)
    assert found.contact_ratio == pytest.approx(1.5542, abs=5e-5)
    assert found.overlap_ratio == pytest.approx(1.0887, abs=5e-5)
    assert mesh(timing(28), timing(56)).contact_ratio == pytest.approx(1.5618, abs=5e-5)
    assert normal_circular_backlash(timing(28), timing(56), 3.515 * INCH) == pytest.approx(0.0203, abs=5e-5)


def test_module_1_6_instead_of_16_diametral_pitch() -> None:
    assert nominal_span(spur(113, 1.6, 14.5), 10) == pytest.approx(47.2018, abs=5e-5)


LIMITS = {
    ("97", 7): (12, 44, 16, 39),
    ("97", 8): (17, 62, 23, 55),
    ("97", 9): (24, 87, 32, 78),
    ("97", 10): (34, 123, 45, 111),
    ("127", 8): (17, 60, 22, 54),
    ("28", 8): (17, 50, 22, 45),
    ("28", 10): (33, 100, 44, 90),
    ("56", 8): (17, 56, 22, 50),
}


@pytest.mark.parametrize(("ident", "tolerance_class"), LIMITS)
def test_limits(ident: str, tolerance_class: int) -> None:
    gear = next(gear for name, gear, _ in CHECKS if name == ident)
    found = {figure.name: figure.value for figure in tolerances(gear, tolerance_class)}
    names = ("single_pitch", "cumulative_pitch", "profile_total", "runout")
    assert tuple(found[name] for name in names) == LIMITS[ident, tolerance_class]


@pytest.mark.parametrize(("tolerance_class", "slope"), [(8, 17), (9, 24), (10, 34)])
def test_helix_slope_of_the_timing_gear(tolerance_class: int, slope: int) -> None:
    found = {figure.name: figure.value for figure in tolerances(timing(28), tolerance_class)}
    assert found["helix_slope"] == slope


def test_diametral_pitch_is_not_bent_by_rounding() -> None:
    third = replace(wheel(), pitch=replace(wheel().pitch, value=Fraction(35, 3)), module=25.4 * 3 / 35)
    assert {figure.name: figure.value for figure in figures(third)}["diametral_pitch"] == 35 / 3
