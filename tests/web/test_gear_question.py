"""The gear question as it is typed: the plane of a size, its unit, and what is refused."""

from __future__ import annotations

import math

import pytest

from evenpitch.cutting.formcutters import number_for
from evenpitch.quantity.refusal import Refusal
from evenpitch.web.gear_answer import gear_question


def asked(**typed: str) -> dict[str, object]:
    figures = gear_question({"teeth": "24", **{key.replace("_", "-"): value for key, value in typed.items()}}).json["figures"]
    return {name: figure["value"] for name, figure in figures.items()}


HELIX = {"helix": "22.5", "hand": "right"}


@pytest.mark.parametrize("size", ["3 transverse", "transverse 3", "mt 3", "module 3 transverse", "3 mm transverse"])
def test_a_transverse_module_needs_no_word_more(size: str) -> None:
    found = asked(module=size, **HELIX)
    assert found["transverse_module"] == pytest.approx(3, rel=1e-12)
    assert found["module"] == pytest.approx(3 * math.cos(math.radians(22.5)), rel=1e-11)


@pytest.mark.parametrize("size", ["16 transverse", "16 DP transverse", "tdp 16"])
def test_a_transverse_diametral_pitch_needs_no_word_more(size: str) -> None:
    found = asked(dp=size, **HELIX)
    assert found["transverse_module"] == pytest.approx(25.4 / 16, rel=1e-11)


@pytest.mark.parametrize("size", ["2", "2 mm", "2mm", "2 normal", "m 2"])
def test_a_module_is_normal_unless_it_says_otherwise(size: str) -> None:
    assert asked(module=size, **HELIX)["module"] == pytest.approx(2)


def test_a_diametral_pitch_has_no_unit() -> None:
    with pytest.raises(Refusal, match="no unit"):
        asked(dp="16 in")


@pytest.mark.parametrize(
    ("teeth", "helix", "virtual", "number", "wrong"), [("30", "20", 36.15462034, 3, 4), ("12", "30", 18.47520861, 6, 8),
                                                      ("20", "40", 44.49058293, 3, 6)]
)  # fmt: skip
def test_virtual_teeth_name_another_cutter_than_the_count(
    teeth: str, helix: str, virtual: float, number: int, wrong: int
) -> None:
    """z/cos³β, recomputed apart from this program; ranges of numbers: Practical Treatise on Milling and Milling Machines, p. 149."""
    found = asked(teeth=teeth, helix=helix, hand="left", module="2")
    assert found["virtual_teeth"] == pytest.approx(virtual, rel=1e-9)
    chosen = [number_for(count, "dp") for count in (virtual, float(teeth))]
    assert [one.number for one in chosen if one] == [str(number), str(wrong)]


def test_sizes_that_shops_have_written_down() -> None:
    """Workshop notes, quoted second-hand: 16 DP is module 1.5875 (its circular pitch, 4.987 mm, had been called the module); a
    circular pitch of 0.1245 in; module 1, 80 teeth; 20 DP, 12 teeth, 0.700 in outside and cutter No. 8 (0.690 and No. 1 were printed)."""
    sixteen = asked(dp="16")
    assert (sixteen["module"], sixteen["circular_pitch"]) == pytest.approx((1.5875, 4.987278338))
    odd = asked(module="0.1245 in circular")
    assert (odd["diametral_pitch"], odd["module"]) == pytest.approx((25.23367593, 1.006591353))
    wheel = asked(module="1", teeth="80")
    assert (wheel["outside_diameter"], wheel["whole_depth"]) == pytest.approx((82, 2.25))
    small = asked(dp="20", teeth="12", pressure_angle="14.5")
    assert (small["outside_diameter"], small["pitch_diameter"]) == pytest.approx((0.7 * 25.4, 0.6 * 25.4))
    assert small["whole_depth"] == pytest.approx(0.10785 * 25.4)
    assert number_for(12, "dp") is not None
    assert number_for(12, "dp").number == "8"  # type: ignore[union-attr]


@pytest.mark.parametrize(("angle", "inches"), [("14.5", 0.19009534), ("20", 0.18450821)])
def test_one_tooth_more_spans_a_base_pitch_more(angle: str, inches: float) -> None:
    """π cos α / P, by which a pressure angle is told from two spans (an article on old gears, quoted second-hand)."""
    less, more = (asked(dp="16", teeth="60", pressure_angle=angle, spanned=str(k))["span_nominal"] for k in (6, 7))
    assert float(str(more)) - float(str(less)) == pytest.approx(inches * 25.4, abs=1e-6)
