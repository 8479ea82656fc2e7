"""What no gear can be is refused, every fault at once, in the words of the form."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest

from evenpitch.gear.check import faults_of, refuse_impossible
from evenpitch.gear.figures import figures
from evenpitch.gear.pins import pin_of, usual_pin, usual_pin_serves
from evenpitch.quantity.refusal import Refusal
from gear.made import by_pitch, spur, timing, wheel


@pytest.mark.parametrize(
    "gear", [wheel(), timing(28), timing(56), by_pitch(113, 16, 14.5, depth="14.5"), spur(5, 1.0, shift=0.3)]
)
def test_sound_gears_pass(gear: Any) -> None:
    refuse_impossible(gear)


@pytest.mark.parametrize(
    ("field", "change"),
    [
        ("teeth", {"teeth": 4}),
        ("teeth", {"teeth": 1001}),
        ("teeth", {"teeth": 12.5}),
        ("teeth", {"teeth": True}),
        ("pitch", {"module": 0.049}),
        ("pitch", {"module": 70.1}),
        ("pressure_angle", {"pressure_angle": math.radians(9.9)}),
        ("pressure_angle", {"pressure_angle": math.radians(35.1)}),
        ("helix", {"helix": math.radians(60.0), "hand": "left"}),
        ("helix", {"helix": math.radians(-20.0), "hand": "left"}),
        ("hand", {"helix": math.radians(20.0)}),
        ("hand", {"hand": "right"}),
        ("hand", {"hand": "both"}),
        ("face", {"face": 0.0}),
        ("face", {"face": math.inf}),
        ("pin", {"pin": -1.0}),
        ("pin", {"pin": 2.0}),
        ("thinning", {"thinning": -0.06}),
        ("thinning", {"thinning": math.nan}),
        ("thinning", {"thinning": 2.4}),
        ("shift", {"shift": 3.1}),
        ("shift", {"shift": -1.0}),
        ("shift", {"teeth": 12, "shift": 1.5, "pin": None}),
        ("shift", {"teeth": 5, "shift": -1.2, "pin": None}),
        ("depth", {"depth": "2.2"}),
        ("spanned", {"spanned": 0}),
        ("spanned", {"spanned": 49}),
        ("tolerance_class", {"tolerance_class": 12}),
        ("tolerance_class", {"tolerance_class": 0}),
    ],
)
def test_fault(field: str, change: dict[str, Any]) -> None:
    faults = faults_of(replace(wheel(), **change))
    assert [fault.field for fault in faults] == [field]
    assert faults[0].given
    assert faults[0].expected
    assert faults[0].do


def test_all_faults_at_once_with_their_place() -> None:
    with pytest.raises(Refusal) as caught:
        refuse_impossible(replace(wheel(), teeth=4, hand="left", face=-1.0), "gear 2")
    assert [fault.field for fault in caught.value.faults] == ["gear 2, teeth", "gear 2, face", "gear 2, hand"]


def test_spaces_that_meet_in_the_middle() -> None:
    faults = faults_of(spur(5, 0.05, depth="fine", shift=-0.9))
    assert "metal at its root" in faults[0].expected


def test_the_words_for_teeth() -> None:
    (fault,) = faults_of(replace(wheel(), teeth=12.5))
    assert (fault.given, fault.expected) == ("12.5", "a whole number from 5 to 1000")


def test_a_pointed_tooth_names_the_greatest_shift() -> None:
    (fault,) = faults_of(spur(12, 3.0, shift=1.2))
    greatest = float(fault.expected.split()[2])
    assert not faults_of(spur(12, 3.0, shift=greatest - 0.001))
    assert faults_of(spur(12, 3.0, shift=greatest + 0.001))


def test_where_the_usual_pin_falls_through_the_best_one_is_taken() -> None:
    gear = spur(5, 2.0, 10.0, shift=-0.7, thinning=0.04)
    assert not usual_pin_serves(gear)
    assert pin_of(gear) > usual_pin(gear)
    assert not faults_of(gear)
    note = {figure.name: figure.note for figure in figures(gear)}["pin_diameter"]
    assert "fall between the flanks" in note


def test_a_fault_of_the_pin_names_one_that_serves() -> None:
    (fault,) = faults_of(replace(wheel(), pin=1.0))
    better = float(fault.do.split()[3])
    assert not faults_of(replace(wheel(), pin=better))
