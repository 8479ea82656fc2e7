"""Lengths and limits. An inch is 25.4 mm exactly (international inch, 1959; from memory); a tenth is 0.0001 in (common practice)."""

from fractions import Fraction

import pytest

from evenpitch.quantity.read_length import read_length, read_limits
from evenpitch.quantity.refusal import Refusal


@pytest.mark.parametrize(
    ("typed", "mm"),
    [
        ('3.520"', "89.408"),
        ("3.520″", "89.408"),
        ("3.520”", "89.408"),
        ("3.520 in", "89.408"),
        ("3.520in.", "89.408"),
        ("3.520 inches", "89.408"),
        ('1 3/8"', "34.925"),
        ("1-3/8 in", "34.925"),
        ("1-3/8-inch", "34.925"),
        ("1⅜ in", "34.925"),
        ("1/4in", "6.35"),
        ("0,375 in", "9.525"),
        (".375 in", "9.525"),
        ("17/64 in", "6.746875"),
        ("10 thou", "0.254"),
        ("a thou", "0.0254"),
        ("half a thou", "0.0127"),
        ("half thou", "0.0127"),
        ("½ thou", "0.0127"),
        ("quarter of a thou", "0.00635"),
        ("2 tenths", "0.00508"),
        ("two tenths", "0.00508"),
        ("a tenth", "0.00254"),
        ("2 tenths of a mm", "0.2"),
        ("2 hundredths of a mm", "0.02"),
        ("2 hundredths of an inch", "0.508"),
        ("5 thousandths of an inch", "0.127"),
        ("half an inch", "12.7"),
        ("3/4 of an inch", "19.05"),
        ("89.41", "89.41"),
        ("89.41 mm", "89.41"),
        ("89.41mm", "89.41"),
        ("2.5 cm", "25"),
        ("0.6 m", "600"),
        ("1 um", "0.001"),
        ("1 µm", "0.001"),
        ("1 μm", "0.001"),
        ("8 microns", "0.008"),
        ("1 ft 2 in", "355.6"),
        ("1 ft. 2 1/4 in", "361.95"),
        ("1' 2\"", "355.6"),
        ("-1 ft 2 in", "-355.6"),
        ("2 ft", "609.6"),
        ("−0.05 mm", "-0.05"),
        ("600 000 um", "600"),
    ],
)
def test_lengths_are_taken_exactly(typed, mm):
    assert read_length(typed, field="face") == Fraction(mm)


def test_a_bare_number_is_in_the_unit_of_the_field():
    assert read_length("2.5", field="face", bare="in") == Fraction("63.5")
    with pytest.raises(Refusal) as caught:
        read_length("2.5", field="face", bare=None)
    assert caught.value.faults[0].likely == "No unit: 2.5 mm is 0.0984 in, 2.5 in is 63.5 mm."


@pytest.mark.parametrize(
    ("typed", "inches", "millimetres"),
    [
        ("2 hundredths", "0.02 in (0.508 mm)", "0.02 mm"),
        ("two hundredths", "0.02 in (0.508 mm)", "0.02 mm"),
        ("5 thousandths", "0.005 in (0.127 mm)", "0.005 mm"),
        ("mil", "0.001 in (0.0254 mm)", "1 mm"),
        ("a mil", "0.001 in (0.0254 mm)", "1 mm"),
        ("3 mils", "0.003 in (0.0762 mm)", "3 mm"),
    ],
)
def test_words_of_two_meanings_are_asked_back(typed, inches, millimetres):
    with pytest.raises(Refusal) as caught:
        read_length(typed, field="depth")
    assert f"{inches} or {millimetres}?" in caught.value.faults[0].likely


@pytest.mark.parametrize(
    "typed",
    [
        "1,234",
        "1,234 mm",
        "5'",
        "3 parsec",
        "1 thou 2",
        "in",
        "1 in 2 in",
        "1 ft 2",
        "1 ft -2 in",
        "1 ft 2 mm",
        "",
        "mm 5",
        "5 mm x",
    ],
)
def test_what_is_no_length_is_refused(typed):
    with pytest.raises(Refusal):
        read_length(typed, field="face")


@pytest.mark.parametrize(
    ("typed", "upper", "lower"),
    [
        ("+0/-0.05 mm", "0", "-0.05"),
        ("+0/−0.05 mm", "0", "-0.05"),
        ("+0 / -0.05", "0", "-0.05"),
        ("+0 -0.05 mm", "0", "-0.05"),
        ("+0, -0.05 mm", "0", "-0.05"),
        ("0/-0.05", "0", "-0.05"),
        ("-0.05/0", "0", "-0.05"),
        ("-0.05/+0 mm", "0", "-0.05"),
        ("-0.02/-0.07 mm", "-0.02", "-0.07"),
        ("+0.07/+0.02", "0.07", "0.02"),
        ("±0.02 mm", "0.02", "-0.02"),
        ("+/-0.02", "0.02", "-0.02"),
        ("± 1 thou", "0.0254", "-0.0254"),
        ("+0/-2 thou", "0", "-0.0508"),
        ("+0.00/-0.002 in", "0", "-0.0508"),
        ("+1/64/-1/64 in", "0.396875", "-0.396875"),
        ("+1 thou/-0.05 mm", "0.0254", "-0.05"),
    ],
)
def test_limits(typed, upper, lower):
    assert read_limits(typed, field="span tolerance") == (Fraction(upper), Fraction(lower))


@pytest.mark.parametrize("typed", ["0.05", "+0.05", "+0/-0", "±0", "+0/-0.05/-0.1", "0.05/0.02", "+a/-b", "", "0.1 -0.05"])
def test_what_is_no_pair_of_limits_is_refused(typed):
    with pytest.raises(Refusal):
        read_limits(typed, field="span tolerance")
