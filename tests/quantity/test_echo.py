"""What was understood, said back."""

from fractions import Fraction

import pytest

from evenpitch.quantity.echo import echo_angle, echo_length, echo_pitch
from evenpitch.quantity.reading import read_angle, read_length, read_pitch


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ('3.520"', "= 3.520 in = 89.408 mm"),
        ("89.41", "= 89.410 mm = 3.520079 in"),
        ("89.408 mm", "= 89.408 mm = 3.520 in"),
        ("half a thou", "= 0.0005 in = 0.0127 mm"),
        ("2 tenths", "= 0.0002 in = 0.00508 mm"),
        ("1-3/8 in", "= 1.375 in = 34.925 mm"),
        ("600 m", "= 600\u202f000.000 mm = 23\u202f622.047244 in"),
        ("-0.05 mm", "= −0.050 mm = −0.001969 in"),
    ],
)
def test_lengths(typed, said):
    assert str(echo_length(typed, read_length(typed, field="x"))) == said


def test_angles():
    assert str(echo_angle("20d5m12s", read_angle("20d5m12s", field="x"))) == "= 20.0867° = 20° 5′ 12″"
    assert echo_angle("14½", Fraction(29, 2)).typed == "14½"


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("12 DP", "= 12 DP = module 2.1167"),
        ("module 2", "= module 2 = 12.7 DP"),
        ("mt 2", "= module 2 transverse = 12.7 DP transverse"),
        ("17/64 in CP", "= 11.8272 DP = module 2.1476"),
    ],
)
def test_pitches(typed, said):
    """One DP is module 25.4; 17/64 in circular pitch is pi x 64/17 DP."""
    assert str(echo_pitch(typed, read_pitch(typed, field="x"))) == said
