"""Pitches as drawings, cards and cutters name them (common practice). One DP is module 25.4."""

import math
from fractions import Fraction

import pytest

from evenpitch.quantity.pitch import Pitch
from evenpitch.quantity.read_pitch import read_pitch
from evenpitch.quantity.refusal import Refusal

DP12 = Pitch("diametral pitch", Fraction(12), inch=True)
DP16T = Pitch("diametral pitch", Fraction(16), "transverse", inch=True)
M2 = Pitch("module", Fraction(2))
M2T = Pitch("module", Fraction(2), "transverse")
CIRCULAR = Pitch("circular pitch", Fraction(17, 64) * Fraction(254, 10), inch=True)
FIVE = Pitch("circular pitch", Fraction(5))


@pytest.mark.parametrize(
    ("typed", "pitch"),
    [
        *(
            (typed, DP12)
            for typed in (
                "12 DP",
                "12DP",
                "12 dp",
                "12P",
                "12 pitch",
                "12 diametral pitch",
                "diametral pitch 12",
                "DP 12",
                "DP=12",
                "12 D.P.",
            )
        ),
        *((typed, DP16T) for typed in ("16 DP transverse", "16 transverse DP", "16 TDP", "transverse 16 DP")),
        *(
            (typed, M2)
            for typed in (
                "module 2",
                "mod 2",
                "mod. 2",
                "m 2",
                "m2",
                "M2",
                "mn 2",
                "mn2",
                "m_n = 2",
                "2 mod",
                "2 mm module",
                "module 2 mm",
                "normal module 2",
            )
        ),
        *((typed, M2T) for typed in ("mt 2", "mt=2", "2 transverse module", "module 2 transverse")),
        *(
            (typed, CIRCULAR)
            for typed in (
                "17/64 in circular pitch",
                "17/64 in circular",
                '17/64" circ. pitch',
                "17/64 inch CP",
                "circular pitch 17/64 in",
            )
        ),
        *((typed, FIVE) for typed in ("5 mm circular pitch", "5mm CP", "circular pitch = 5 mm")),
        ("14½ DP", Pitch("diametral pitch", Fraction(29, 2), inch=True)),
        ("2 1/2 DP", Pitch("diametral pitch", Fraction(5, 2), inch=True)),
        ("module 1,25", Pitch("module", Fraction(5, 4))),
    ],
)
def test_pitches(typed, pitch):
    assert read_pitch(typed, field="pitch") == pitch


def test_a_bare_number_is_asked_back_with_both_consequences():
    with pytest.raises(Refusal) as caught:
        read_pitch("12", field="pitch")
    assert caught.value.faults[0].likely == "DP or module? 12 DP is module 2.1167; module 12 is 2.1167 DP."
    assert caught.value.faults[0].do == "Write 12 DP or module 12."


def test_a_length_alone_is_asked_back():
    with pytest.raises(Refusal) as caught:
        read_pitch("1/4 in", field="pitch")
    module = 25.4 / 4 / math.pi
    assert f"circular pitch (module {module:.4f})" in caught.value.faults[0].likely


def test_a_circular_pitch_without_a_unit_is_asked_back():
    with pytest.raises(Refusal, match="5 mm circular pitch or 5 in circular pitch"):
        read_pitch("5 circular pitch", field="pitch")


def test_a_two_number_name_is_asked_back():
    with pytest.raises(Refusal, match="stub tooth of 12 DP"):
        read_pitch("12/14 DP", field="pitch")
    assert read_pitch("3/4 DP", field="pitch").value == Fraction(3, 4)


@pytest.mark.parametrize(
    "typed",
    [
        "",
        "DP",
        "twelve DP",
        "0 DP",
        "0",
        "-12 DP",
        "12 DP module",
        "12 DP normal transverse",
        "0.5 in module",
        "12 mm DP",
        "5 furlongs",
        "99999 DP",
        "module 500",
        "1,234 DP",
        "12 DP!",
    ],
)
def test_what_is_no_pitch_is_refused(typed):
    with pytest.raises(Refusal):
        read_pitch(typed, field="pitch")


@pytest.mark.parametrize("pitch", [DP12, DP16T, M2, M2T, CIRCULAR, FIVE])
def test_a_pitch_reads_back_from_its_own_words(pitch):
    assert read_pitch(pitch.words(), field="pitch") == pitch
