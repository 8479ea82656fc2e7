"""Numbers, ranges and the trap of the two numberings."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenpitch.cutting.formcutters import (
    SetOf,
    cutter_set,
    made_for_habits,
    number_for,
    number_words,
    numbering_trap,
    range_of,
    read_cutter_number,
    standard_cutters,
)
from evenpitch.quantity.pitch import Pitch
from evenpitch.quantity.refusal import Refusal
from evenpitch.rig.tools import Numbering


@pytest.mark.parametrize(
    ("teeth", "dp", "module", "dp15"),
    # common practice; the counts of the museum workshop among them
    [
        (97, "2", "7", "1½"),
        (113, "2", "7", "1½"),
        (37.59, "3", "6", "3"),
        (71.33, "2", "7", "2"),
        (33.94, "4", "5", "3½"),
        (12, "8", "1", "8"),
    ],
)
def test_the_number_for_a_count(teeth: float, dp: str, module: str, dp15: str) -> None:
    found = [number_for(teeth, "dp"), number_for(teeth, "module"), number_for(teeth, "dp", 15)]
    assert [row.number for row in found if row] == [dp, module, dp15]


@pytest.mark.parametrize("numbering", ["dp", "module"])
@pytest.mark.parametrize("size", [8, 15])
def test_a_set_leaves_no_count_out_and_takes_none_twice(numbering: Numbering, size: SetOf) -> None:
    rows = cutter_set(numbering, size)
    assert len(rows) == size
    for teeth in range(12, 400):
        assert [row.number for row in rows if row.holds(teeth)] == [number_for(teeth, numbering, size).number]  # type: ignore[union-attr]


def test_below_twelve_there_is_none() -> None:
    assert number_for(11.9, "dp") is None


@given(st.floats(12, 500))
def test_the_two_numberings_are_mirror_images(teeth: float) -> None:
    dp, module = number_for(teeth, "dp", 15), number_for(teeth, "module", 15)
    assert dp is not None
    assert module is not None
    assert read_cutter_number(dp.number) + read_cutter_number(module.number) == 9
    assert dp.least == module.least


def test_a_module_number_two_is_not_for_97() -> None:
    trap = numbering_trap("2", "module", 97)
    assert trap is not None
    assert trap.words() == "In a module set No. 2 is for 14–16 teeth. You need No. 7 for 97. In a DP set it would be No. 2."


@pytest.mark.parametrize(
    ("number", "numbering", "teeth"), [("2", "dp", 97), ("7", "module", 97), ("5", "dp", 97), ("2", "module", 11)]
)
def test_no_trap(number: str, numbering: Numbering, teeth: float) -> None:
    assert numbering_trap(number, numbering, teeth) is None


def test_both_counts_are_shown_for_a_whole_number() -> None:
    # Rose prints 68 for No. 2; the lowest of the range is common practice
    assert [(habit.teeth, habit.source) for habit in made_for_habits("2", "dp")] == [
        (55, "common practice"),
        (68, "Modern Machine-Shop Practice"),
    ]
    assert [habit.teeth for habit in made_for_habits("7", "module")] == [55, 68]
    assert [habit.teeth for habit in made_for_habits("1½", "dp")] == [80]


@pytest.mark.parametrize("text", ["1½", "1 1/2", "1.5", "No. 1½", "no 1-1/2"])
def test_marks_are_read_as_they_are_made(text: str) -> None:
    assert read_cutter_number(text) == Fraction(3, 2)
    assert number_words(read_cutter_number(text)) == "1½"


@pytest.mark.parametrize("text", ["0", "9", "55", "1/3", "worn", ""])
def test_other_marks_are_refused(text: str) -> None:
    with pytest.raises(Refusal, match="1 to 8"):
        read_cutter_number(text)


def test_a_half_number_is_in_no_set_of_eight() -> None:
    with pytest.raises(Refusal, match="set of 15"):
        range_of("1½", "dp", 8)


def test_a_standard_set_is_made_for_the_lowest_counts() -> None:
    cutters = standard_cutters(Pitch("diametral pitch", Fraction(12)), math.radians(14.5), "dp")  # type: ignore[arg-type]
    assert [cutter.made_for for cutter in cutters] == [135, 55, 35, 26, 21, 17, 14, 12]
    assert cutters[1].name() == "12 DP No. 2"
