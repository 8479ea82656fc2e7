"""Numbers as the page and the sheet print them."""

import math
from fractions import Fraction

import pytest

from evenpitch.quantity.names import all_names
from evenpitch.quantity.showing import (
    arcsec,
    both,
    degrees_text,
    dms,
    grouped,
    inch,
    mixed_number,
    mm,
    number,
    ppm,
    show,
    significant,
    thou,
    turns,
    um,
)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (mm(89.408), "89.408 mm"),
        (mm(Fraction(11176, 125)), "89.408 mm"),
        (mm(-0.05, 2), "−0.05 mm"),
        (mm(-0.0001), "0.000 mm"),
        (mm(-0.0), "0.000 mm"),
        (mm(0.05, 2, plus=True), "+0.05 mm"),
        (mm(0, 2, plus=True), "0.00 mm"),
        (inch(89.408), "3.5200 in"),
        (both(Fraction("4.566")), "4.566 mm (0.1798 in)"),  # whole depth of a 12 DP wheel, as the shop would echo it
        (both(Fraction("4.566"), "inch"), "0.1798 in (4.566 mm)"),
        (thou(0.0127), "0.5 thou"),
        (um(17.2), "17 µm"),
        (ppm(-8.1), "−8.1 ppm"),
        (ppm(2.2), "+2.2 ppm"),
        (degrees_text(20.0868), "20.0868°"),
        (dms(Fraction(3013, 150)), "20° 5′ 12″"),
        (dms(-20.5), "−20° 30′ 0″"),
        (dms(Fraction(20) - Fraction(1, 10000)), "20° 0′ 0″"),  # rounded once: never 59′ 60″
        (dms(Fraction(-1, 100000)), "0° 0′ 0″"),
        (arcsec(40.2), "40″"),
        (grouped(192000), "192\u202f000"),
        (grouped(1979), "1979"),
        (grouped(10000), "10\u202f000"),
        (grouped(-1234567), "−1\u202f234\u202f567"),
        (number(15800.4, 1), "15\u202f800.4"),
        (number(Fraction(1, 2)), "1"),
        (number(Fraction(-1, 2)), "−1"),
        (mixed_number(Fraction(29, 2)), "14½"),
        (mixed_number(Fraction(11, 8)), "1 3/8"),
        (mixed_number(Fraction(20, 3)), "6 2/3"),
        (mixed_number(Fraction(3, 4)), "¾"),
        (mixed_number(Fraction(40, 113)), "40/113"),
        (mixed_number(Fraction(-5, 4)), "−1¼"),
        (mixed_number(Fraction(0)), "0"),
        (turns(Fraction(20, 3)), "6 2/3 turns"),
        (turns(Fraction(1)), "1 turn"),
        (turns(Fraction(1, 2)), "½ turn"),
        (turns(Fraction(0)), "0 turns"),
        (show("span", 49.3864), "49.386 mm"),
        (show("span", 49.3864, "inch"), "1.9443 in"),
        (show("table_feed", 76.2), "76 mm/min"),
        (show("table_feed", 76.2, "inch"), "3.00 in/min"),
        (show("helix_angle", 20.0), "20.0000°"),
        (show("single_pitch", 5.55), "5.5 µm"),
        (show("teeth", 97), "97"),
        (show("cutter_speed", 83.3), "83 rpm"),
        (show("pulses_per_turn", 192000), "192\u202f000"),
    ],
)
def test_shown(text, expected):
    assert text == expected


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_is_no_number_is_never_shown(value):
    with pytest.raises(ValueError, match="not a number"):
        number(value, 2)


def test_an_unknown_figure_has_no_decimals():
    with pytest.raises(KeyError):
        show("size of the moon", 1.0)


@pytest.mark.parametrize("name", all_names(), ids=lambda name: name.word)
def test_every_figure_can_be_shown_in_both_systems(name):
    for system in ("metric", "inch"):
        assert any(ch.isdigit() for ch in show(name.word, 12.3456789, system))


def test_significant_digits():
    assert significant(205.3166666666667) == 205.316666667
    assert significant(1 / 3) == 0.333333333333
    assert significant(192000.0) == 192000.0
    assert math.copysign(1, significant(-0.0)) == 1
    assert significant(1.23456789e-20, 3) == 1.23e-20
