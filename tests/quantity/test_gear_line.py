"""A gear in one line, as cards and drawings have it (common practice)."""

import time

import pytest

from evenpitch.quantity.gear_line import read_gear_line
from evenpitch.quantity.refusal import Refusal

TAKE_UP = {"teeth": "97", "pitch": "12 DP", "pressure_angle": "14½", "face": "3/4 in"}


@pytest.mark.parametrize(
    ("line", "fields"),
    [
        ("97t 12DP 14½ face 3/4", TAKE_UP),
        ("97t 12DP 14½ 3/4 face", TAKE_UP),
        ("97 teeth, 12 DP, pressure angle 14½, face 3/4", TAKE_UP),
        ("12 DP 97 T 14½ 3/4 in face", TAKE_UP),
        ("change wheel 97t 12DP 14½ face 3/4", TAKE_UP),
        ("97-tooth wheel of pitch 12 DP, 14½, 3/4 in wide", TAKE_UP),
        ("97 t · 12 DP · 14 1/2 deg · 3/4 in face", TAKE_UP | {"pressure_angle": "14 1/2 deg"}),
        ("teeth 97 DP 12 PA 14.5 face 0.75 in", TAKE_UP | {"pitch": "DP 12", "pressure_angle": "14.5", "face": "0.75 in"}),
        ("97t 12P 14½ spur grey cast iron 3/4 wide", TAKE_UP | {"pitch": "12 P", "helix": "0", "material": "grey cast iron"}),
        ("97 t 17/64 in circular pitch 14½", {"teeth": "97", "pitch": "17/64 in circular pitch", "pressure_angle": "14½"}),
        (
            "28 teeth mn 2 20° helix 20 right hand face 20 mm",
            {"teeth": "28", "pitch": "mn 2", "pressure_angle": "20°", "helix": "20", "hand": "right", "face": "20 mm"},
        ),
        (
            "28 teeth mn 2 20° helix 15 RH face 20",
            {"teeth": "28", "pitch": "mn 2", "pressure_angle": "20°", "helix": "15", "hand": "right", "face": "20 mm"},
        ),
        ("28t m2, 20°, helix 14½, LH", {"teeth": "28", "pitch": "m 2", "pressure_angle": "20°", "helix": "14½", "hand": "left"}),
        (
            "28t m2 20° pressure angle 15° helix L.H.",
            {"teeth": "28", "pitch": "m 2", "pressure_angle": "20°", "helix": "15°", "hand": "left"},
        ),
        ("z=28 mn=2 beta=20", {"teeth": "28", "pitch": "mn 2", "helix": "20"}),
        (
            "z = 28, mt = 2, α = 20°, β = 20°, b = 20 mm, x = +0.1",
            {"teeth": "28", "pitch": "mt 2", "pressure_angle": "20°", "helix": "20°", "face": "20 mm", "shift": "+0.1"},
        ),
        ("20°5'12\" helix, 20 pa, 28 t, mn 2", {"teeth": "28", "pitch": "mn 2", "helix": "20°5'12\"", "pressure_angle": "20"}),
        (
            "2 off 43 teeth 16 DP transverse, helix 20°, pa 20, bore 5/8, EN8",
            {
                "quantity": "2",
                "teeth": "43",
                "pitch": "16 DP transverse",
                "helix": "20°",
                "pressure_angle": "20",
                "bore": "5/8 in",
                "material": "EN8",
            },
        ),
        (
            "40 teeth module 1.5 20° stub class 8 k=5",
            {
                "teeth": "40",
                "pitch": "module 1.5",
                "pressure_angle": "20°",
                "depth": "stub",
                "tolerance_class": "8",
                "spanned": "5",
            },
        ),
    ],
)
def test_lines(line, fields):
    assert read_gear_line(line) == fields


@pytest.mark.parametrize(
    "line",
    [
        "20-degree gears",
        "28 t mn 2 20-degree RH",
        "28t mn 2 20° right hand",
        "helical 28t mn2 20°",
        "28t mt 2 20",
        "28 t mn 2 20 15",
        "28t mn2 pa 20 25°",
    ],
)
def test_an_angle_that_may_be_the_helix_is_asked_back(line):
    with pytest.raises(Refusal, match="the pressure angle, the helix angle or both"):
        read_gear_line(line)


def test_two_readings_are_asked_back():
    with pytest.raises(Refusal, match="It may mean"):
        read_gear_line("28 t mn 2 20° helix 14½")


@pytest.mark.parametrize(
    ("line", "given"),
    [
        ("97t 12DP wibble", "wibble"),
        ("97t 12DP 14½ wobble 3", "wobble"),
        ("97 12 DP 14½", "97"),
        ("97t 12DP 3/4 in", "3/4 in"),
        ("97t 12DP face", "face"),
    ],
)
def test_what_cannot_be_placed_is_named(line, given):
    with pytest.raises(Refusal) as caught:
        read_gear_line(line, field="gear 1")
    assert caught.value.faults[0].given == given
    assert caught.value.faults[0].field == "gear 1"


def test_all_unknown_words_are_named_at_once():
    with pytest.raises(Refusal) as caught:
        read_gear_line("97t wibble 12DP wobble")
    assert [fault.given for fault in caught.value.faults] == ["wibble", "wobble"]


@pytest.mark.parametrize("line", ["97t 12DP z=98", "28t m2 RH LH", "28t spur m2 helix 20", "", "t" * 300])
def test_contradictions_are_refused(line):
    with pytest.raises(Refusal):
        read_gear_line(line)


@pytest.mark.parametrize("line", ["t 1 " * 50, "1 t " * 50, "helix 20 " * 20, "14½" * 60, "()" * 100, "= : " * 40, "mn" * 90])
def test_a_hostile_line_is_answered_quickly(line):
    start = time.perf_counter()
    with pytest.raises(Refusal):
        read_gear_line(line)
    assert time.perf_counter() - start < 1
