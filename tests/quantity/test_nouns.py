"""The small nouns of the room: pitch, units, figure, finding, refusal."""

import math
from fractions import Fraction

import pytest

from evenpitch.quantity.figure import Figure, figure
from evenpitch.quantity.finding import Finding, by_weight
from evenpitch.quantity.pitch import Pitch
from evenpitch.quantity.refusal import Fault, Refusal, refuse
from evenpitch.quantity.units import Radian, degrees, inches, to_degrees
from evenpitch.sources.citations import cites


def test_modules_of_the_three_kinds_of_pitch():
    """Module = 25.4/DP = circular pitch/pi, by definition."""
    assert Pitch("module", Fraction(2)).module() == 2
    assert Pitch("diametral pitch", Fraction(12)).module() == pytest.approx(25.4 / 12, rel=1e-15)
    assert Pitch("circular pitch", Fraction(5)).module() == pytest.approx(5 / math.pi, rel=1e-15)


def test_a_transverse_pitch_is_larger_than_the_normal_one():
    helix = Radian(math.radians(60))
    assert Pitch("module", Fraction(2), "transverse").normal_module(helix) == pytest.approx(1, rel=1e-15)
    assert Pitch("module", Fraction(2)).normal_module(helix) == 2


def test_units():
    assert inches(Fraction(352, 100)) == 89.408
    assert inches(1) == 25.4
    assert inches(0.5) == 12.7
    assert to_degrees(degrees(20)) == pytest.approx(20, rel=1e-15)


def test_a_figure_carries_what_its_formula_cites():
    @cites("ISO 21771:2007", formula="d = z m")
    def pitch_diameter(z, m):
        return z * m

    found = figure("pitch_diameter", pitch_diameter(97, 2), "mm", by=pitch_diameter, symbol="d", inputs=(("z", "97"),))
    assert found == Figure("pitch_diameter", 194, "mm", "d", "d = z m", (("z", "97"),), ("ISO 21771:2007",))
    assert figure("lead", 1.0, sources=("common practice",)).sources == ("common practice",)
    assert figure("lead", 1.0).formula == ""


def test_findings_stand_by_weight():
    note, stop, look = (Finding("c", weight, "says", "why", "do") for weight in ("note", "stop", "look"))
    assert by_weight((note, stop, look)) == (stop, look, note)


def test_a_refusal_says_all_its_faults():
    first, second = Fault("teeth", "4", "at least 5", "Too few.", "Count again."), Fault("face", "", "a length", "", "")
    refusal = Refusal(first, second)
    assert str(refusal) == "teeth '4': expected at least 5. Too few. Count again.; face: expected a length."
    assert refuse("teeth", "9" * 200, "x", "y", "z").faults[0].given == "9" * 80
