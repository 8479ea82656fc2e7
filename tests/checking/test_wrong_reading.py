"""Wrong readings: the settings that explain a factor."""

import time
from fractions import Fraction

import pytest

from evenpitch.checking.setting_slips import Setting
from evenpitch.checking.wrong_reading import explain_reading
from evenpitch.quantity.refusal import Refusal


@pytest.mark.parametrize(
    ("moved", "shown", "kind"),
    [
        ("50", "200", "edges"),
        ("63.5", "12.7", "count"),
        ("63.5", "317.5", "count"),
        ("63.5", "2.5", "unit"),
        ("2", "50.8", "unit"),
        ("50", "100", "diameter"),
        ("50", "-50", "direction"),
        ("50", "50.8", "25 for 25.4"),
        ("50", "49.2126", "25 for 25.4"),
        ("50", "50.02", "scale period"),
        ("50", "500", "decimal mark"),
        ("50", "49.995", "gain"),
    ],
)
def test_likeliest(moved, shown, kind):
    first = explain_reading(Fraction(moved), Fraction(shown))[0]
    assert [slip.kind for slip in first.slips] == [kind]
    assert first.test


@pytest.mark.parametrize(("shown", "kind"), [("180", "microsteps"), ("40", "belt"), ("120", "belt"), ("240", "head ratio")])
def test_of_the_work(shown, kind):
    found = explain_reading(Fraction(360), Fraction(shown), Setting(angle=True))
    assert kind in {slip.kind for one in found[:2] for slip in one.slips}


def test_two_together_only_where_one_does_not_do():
    found = explain_reading(Fraction(50), Fraction(-200))
    assert {slip.kind for slip in found[0].slips} == {"direction", "edges"}
    inch_and_edges = explain_reading(Fraction("25.4"), Fraction(4))
    assert {slip.kind for slip in inch_and_edges[0].slips} == {"unit", "edges"}
    for one in explain_reading(Fraction(50), Fraction(200)):
        if len(one.slips) == 2:
            assert all(slip.factor != 4 for slip in one.slips)


def test_nothing_to_explain_and_nothing_known():
    assert explain_reading(Fraction(50), Fraction(50)) == ()
    assert explain_reading(Fraction(50), Fraction("68.21")) == ()
    with pytest.raises(Refusal):
        explain_reading(Fraction(0), Fraction(3))


def test_every_explanation_gives_the_factor():
    for shown in ("200", "12.7", "-25", "1270", "3.9"):
        for one in explain_reading(Fraction(50), Fraction(shown)):
            assert abs(float(Fraction(shown) / 50 / one.factor) - 1) < 0.0021


def test_within_50_ms():
    begun = time.perf_counter()
    explain_reading(Fraction(50), Fraction(200))
    assert time.perf_counter() - begun < 0.05
