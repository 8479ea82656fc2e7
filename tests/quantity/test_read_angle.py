"""Angles; 60 minutes to the degree, 60 seconds to the minute."""

import math
from fractions import Fraction

import pytest

from evenpitch.quantity.read_angle import read_angle
from evenpitch.quantity.refusal import Refusal

DMS = Fraction(20) + Fraction(5, 60) + Fraction(12, 3600)


@pytest.mark.parametrize(
    ("typed", "degrees"),
    [
        ("20", Fraction(20)),
        ("20°", Fraction(20)),
        ("20º", Fraction(20)),
        ("20 deg", Fraction(20)),
        ("20-degree", Fraction(20)),
        ("14½", Fraction(29, 2)),
        ("14½°", Fraction(29, 2)),
        ("14 1/2 degrees", Fraction(29, 2)),
        ("20.0868", Fraction("20.0868")),
        ("20°5'12\"", DMS),
        ("20° 5′ 12″", DMS),
        ("20° 5’ 12”", DMS),
        ("20°5'12''", DMS),
        ("20d5m12s", DMS),
        ("20 d 5 m 12 s", DMS),
        ("20 deg 5 min 12 sec", DMS),
        ("20D5M12S", DMS),
        ("14d30m", Fraction(29, 2)),
        ("5'12\"", DMS - 20),
        ('20° 12"', Fraction(20) + Fraction(12, 3600)),
        ("3.2 arcmin", Fraction(32, 600)),
        ("3.2'", Fraction(32, 600)),
        ("40 arcsec", Fraction(40, 3600)),
        ("40 arc sec", Fraction(40, 3600)),
        ('40"', Fraction(40, 3600)),
        ("-20°5'12\"", -DMS),
        ("−40″", Fraction(-40, 3600)),
        ("1/4 turn", Fraction(90)),
        ("2 turns", Fraction(720)),
    ],
)
def test_angles_are_taken_exactly(typed, degrees):
    assert read_angle(typed, field="helix") == degrees


@pytest.mark.parametrize(("typed", "radians"), [("0.5 rad", 0.5), ("0.06 mrad", 6e-5), ("40 urad", 4e-5), ("1 radian", 1.0)])
def test_radians(typed, radians):
    assert float(read_angle(typed, field="tilt")) == pytest.approx(math.degrees(radians), rel=1e-15)


@pytest.mark.parametrize(
    "typed",
    [
        "20°75'",
        "20°5'60\"",
        "20°-5'",
        "20.5°5'",
        "5'20°",
        "20°5",
        "20 5 12",
        "5 m",
        "5s",
        "20 grad",
        "20°5°",
        "°",
        "",
        "20:5",
        "1 turn 20°",
    ],
)
def test_what_is_no_angle_is_refused(typed):
    with pytest.raises(Refusal):
        read_angle(typed, field="helix")


def test_m_alone_is_asked_back():
    with pytest.raises(Refusal, match="minutes or metres"):
        read_angle("5 m", field="backlash")
