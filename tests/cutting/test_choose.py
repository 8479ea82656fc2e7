"""Which cutter will do. Expected words and figures from the workshop's scenario."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction

import pytest

from cutting.gears import A, P, helical
from evenpitch.cutting.choose import cutter_choices, form_teeth
from evenpitch.cutting.formcutters import standard_cutters
from evenpitch.quantity.pitch import Pitch
from evenpitch.rig.tools import Cutter

DP12, DP16 = A.pitch, P.pitch
OLD = A.pressure_angle


def test_97_teeth_prefers_the_half_number_then_number_two() -> None:
    best = cutter_choices(A, standard_cutters(DP12, OLD, "dp", 15), 0.032)
    assert [choice.cutter.number for choice in best[:3]] == ["1½", "2", "1"]
    assert best[0].verdict == "tips relieved, inside the limit"
    assert best[1].verdict == "above the limit: runs, noisy"
    assert best[1].tip_um == pytest.approx(89.5, abs=0.05)
    assert [round(1000 * item.tip, 1) for item in best[1].habits] == [89.5, 50.1]
    assert best[2].verdict == "leaves tips heavy: may foul the mate; avoid"
    assert not any(choice.usable for choice in best[3:])


def test_113_teeth_prefers_a_number_that_the_table_forbids() -> None:
    best = cutter_choices(P, standard_cutters(DP16, OLD, "dp"), 0.021)
    assert best[0].cutter.number == "1"
    assert not best[0].in_range
    assert best[0].verdict == "tips heavy, inside the limit: check the tip clearance with the mate"
    assert best[0].wanted is not None
    assert best[0].wanted.number == "2"


def test_28_helical_teeth_need_the_number_that_the_diameter_says() -> None:
    gear = helical(28)
    best = cutter_choices(gear, standard_cutters(gear.pitch, gear.pressure_angle, "module", 8, 63.0))
    assert best[0].cutter.number == "6"
    assert best[0].form_teeth == pytest.approx(37.59, abs=0.005)
    assert best[0].virtual_teeth == pytest.approx(33.744, abs=0.0005)
    by_rule_of_thumb = next(choice for choice in best if choice.cutter.number == "5")
    assert by_rule_of_thumb.verdict == "wrong number for this count"
    assert form_teeth(helical(56), 63.0) == pytest.approx(71.33, abs=0.005)


@pytest.mark.parametrize(
    ("cutter", "words"),
    [
        (Cutter(pitch=DP12, pressure_angle=OLD, number="2", numbering="module"), "You need No. 7 for 97"),
        (
            Cutter(pitch=DP12, pressure_angle=math.radians(20), number="2", numbering="dp"),
            "its pressure angle is 20°, the gear's 14.5°",
        ),
        (Cutter(pitch=DP16, pressure_angle=OLD, number="2", numbering="dp"), "its pitch is 16 DP, the gear's 12 DP"),
    ],
)
def test_a_wrong_cutter_is_named_with_its_fault(cutter: Cutter, words: str) -> None:
    (choice,) = cutter_choices(A, (cutter,))
    assert not choice.usable
    assert choice.tip_um is None
    assert words in "; ".join(choice.reasons)


def test_a_neighbouring_pitch_may_stand_in_and_says_so() -> None:
    stand_in = Cutter(pitch=Pitch("module", Fraction(8, 5)), pressure_angle=OLD, number="7", numbering="module", outside=60.0)
    right = Cutter(pitch=DP16, pressure_angle=OLD, number="2", numbering="dp", made_for=68)
    first, second = cutter_choices(P, (stand_in, right))
    assert first.cutter is right
    assert second.substitute
    assert second.thickness_error == pytest.approx(math.pi / 2 * (1.6 - 1.5875), abs=1e-12)
    assert "pitch +0.79 % off: module 1.6 for 16 DP" in second.reasons


def test_a_cutter_without_diameter_is_taken_at_the_usual_one() -> None:
    gear = helical(28)
    (choice,) = cutter_choices(
        gear, (Cutter(pitch=gear.pitch, pressure_angle=gear.pressure_angle, number="6", numbering="module"),)
    )
    assert not choice.diameter_known
    assert "diameter not known: 63 mm taken" in choice.reasons


def test_a_cutter_narrower_than_the_space_says_so() -> None:
    narrow = Cutter(pitch=DP12, pressure_angle=OLD, number="2", numbering="dp", made_for=68, width=4.0)
    wide = Cutter(pitch=DP12, pressure_angle=OLD, number="2", numbering="dp", made_for=68, width=6.35)
    assert [choice.reasons for choice in cutter_choices(A, (narrow, wide))] == [
        ("4.000 mm wide, the space at the outside 4.665",),
        (),
    ]


def test_what_a_numbered_cutter_is_not_made_for() -> None:
    shifted = replace(helical(8), shift=0.3, helix=0.0, hand="none")
    (choice,) = cutter_choices(
        shifted, (Cutter(pitch=shifted.pitch, pressure_angle=shifted.pressure_angle, number="1", numbering="module"),)
    )
    assert "a numbered cutter is made for a gear without profile shift" in choice.reasons
    assert "fewer than 12 teeth: no number is made for it" in choice.reasons
    assert choice.wanted is None
    assert choice.name() == "module 2 No. 1, made for 12"


def test_a_heavy_tip_without_a_class_asks_for_the_mate() -> None:
    own = Cutter(pitch=DP12, pressure_angle=OLD, number="2", numbering="dp", made_for=120)
    exact = Cutter(pitch=DP12, pressure_angle=OLD, number="2", numbering="dp", made_for=97)
    best, heavy = cutter_choices(A, (own, exact))
    assert best.verdict == "right form"
    assert heavy.verdict == "tips heavy: check the tip clearance with the mate"
