"""Blank, depth from touch, ladder, dial. Figures of the workshop's scenario unless marked."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cutting.gears import A, P, helical
from evenpitch.cutting.blank import blank, depth_from_touch, mandrel_for, runout_limit, stack, support_plate, teeth_of_outside
from evenpitch.cutting.depth import depth_ladder, depth_left_table, dial_reading, rough_depth
from evenpitch.gear.gear import Gear
from evenpitch.gear.sizes import outside_diameter
from evenpitch.rig.machine import Dial

KNEE = Dial(0.0254, 2.54)


@pytest.mark.parametrize(
    ("found", "depth", "beyond"), [(209.51, 4.546, 0.0), (209.49, 4.536, 0.01), (209.55, 4.566, 0.0), (209.60, 4.591, 0.05)]
)
def test_depth_from_touch_of_a_blank_found_small(found: float, depth: float, beyond: float) -> None:
    made = blank(A, found)
    assert made.depth_from_touch == pytest.approx(depth, abs=0.0006)
    assert made.beyond == pytest.approx(beyond, abs=1e-9)


def test_a_blank_far_too_small_has_lost_its_addendum() -> None:
    made = blank(P, 7.150 * 25.4)
    assert made.under / 25.4 == pytest.approx(0.0375)
    assert made.addendum_left / 25.4 == pytest.approx(0.0438, abs=0.0001)
    assert made.addendum / 25.4 == pytest.approx(0.0625)


def test_a_blank_not_yet_turned_has_the_nominal_depth() -> None:
    made = blank(A)
    assert made.found is None
    assert made.depth_from_touch == made.whole_depth
    assert (made.least_outside, made.most_outside) == (pytest.approx(209.50), pytest.approx(209.55))


@given(st.floats(1, 20), st.floats(20, 400), st.floats(-1, 1))
def test_the_floor_comes_to_its_place_whatever_was_turned(depth: float, nominal: float, under: float) -> None:
    found = nominal - under
    assert found / 2 - depth_from_touch(depth, nominal, found) == pytest.approx(nominal / 2 - depth, abs=1e-9)


def test_runout_limit_of_class_8() -> None:
    assert runout_limit(0.055) == pytest.approx(0.01375)


def test_an_outside_typed_wrong_names_its_count() -> None:
    assert teeth_of_outside(P, 7.875 * 25.4) == pytest.approx(124)
    assert teeth_of_outside(helical(28), outside_diameter(helical(28))) == pytest.approx(28)


def test_mandrel_stack_and_support() -> None:
    assert mandrel_for(19.05) == pytest.approx(19.05)
    assert mandrel_for(20.0) is None
    assert stack(A, 3, 19.05).length == pytest.approx(57.15)
    assert support_plate(A, 19.05) is None
    thin = support_plate(A, 6.35)
    assert thin == pytest.approx(200.4187 - 4, abs=0.001)


def test_the_knee_goes_further_by_the_paper() -> None:
    # 4.646 mm = 0.1829 in: 1 turn and 82.9 divisions
    reading = dial_reading(4.646, KNEE)
    assert (reading.turns, reading.divisions) == (1, 82.9)


@given(st.floats(0, 300))
def test_a_dial_reading_is_the_length(length: float) -> None:
    reading = dial_reading(length, KNEE)
    assert reading.turns * KNEE.turn + reading.divisions * KNEE.division == pytest.approx(length, abs=0.06 * KNEE.division)
    assert 0 <= reading.divisions < 100


def test_the_ladder_of_a() -> None:
    ladder = depth_ladder(4.5656, 0.08, KNEE, sink=0.1134)
    assert [rung.name for rung in ladder] == ["touch", "rough", "measure", "full"]
    assert [round(rung.depth, 3) for rung in ladder] == [0.0, 4.10, 4.10, 4.679]
    assert ladder[0].dial is not None
    assert ladder[0].dial.divisions == 3.1
    assert depth_ladder(4.5, 0.0, None)[1].dial is None


@given(st.floats(0.2, 20))
def test_roughing_leaves_a_tenth_and_a_twentieth_at_most(depth: float) -> None:
    assert 0.9 * depth - 0.05 - 1e-6 <= rough_depth(depth) <= 0.9 * depth + 1e-6


def test_depth_left_rows() -> None:
    rows = depth_left_table(49.303, 49.452, lambda span: (span - 49.303) / 0.51242, KNEE)
    assert len(rows) == 9
    assert rows[0].to_go == 0.0
    assert rows[7].span == pytest.approx(49.443)
    assert rows[-1].to_go == pytest.approx(0.3122, abs=0.0001)


def test_stub_teeth_have_a_stub_blank() -> None:
    stub = Gear(teeth=20, pitch=helical(20).pitch, module=2.0, pressure_angle=helical(20).pressure_angle, depth="stub")
    assert blank(stub).outside == pytest.approx(43.2)
