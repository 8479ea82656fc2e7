"""One move through an angle."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from dividing.shop import CASES, HEAD, PLATES, PULSES, head, plate
from evenpitch.dividing.angle import angle_ways
from evenpitch.dividing.methods import Compound, Direct, Pulses, Simple
from evenpitch.quantity.refusal import Refusal


@pytest.mark.parametrize("case", CASES["angle"], ids=lambda case: case["id"])
def test_angles_of_print(case: dict[str, Any]) -> None:
    given, expected = case["inputs"], case["outputs"]
    circles = given["circles"] or (36,)
    found = [way for way in angle_ways(Fraction(given["angle_deg"]), head(given["worm_ratio"]), plate(*circles)) if way.exact]
    simple = [way for way in found if isinstance(way, Simple)]
    assert simple
    assert all(way.whole_turns == expected["full_turns"] for way in simple)
    if expected["moves"]:
        assert {(way.circle, way.spaces) for way in simple} == {(m["circle"], m["spaces"]) for m in expected["moves"]}
    else:
        assert {way.spaces for way in simple} == {0}


@pytest.mark.parametrize("row", CASES["practice"]["rows"], ids=lambda row: f"{row['N']} at {row['K']}:1")
def test_practice_sheet_angles(row: dict[str, Any]) -> None:
    circles = next(r[2] for r in CASES["practice"]["circles"] if r[0] == str(row["N"]) and r[1] == f"{row['K']}:1")
    if row["N"] == 26:
        circles += ",45"  # the sheet's other circle
    found = [way for way in angle_ways(Fraction(row["N"]), head(row["K"]), plate(*map(int, circles.split(",")))) if way.exact]
    moves = [move for move in row["angle_deg"]["moves"] if "no circle" not in move]
    listed = {f"{way.spaces} of {way.circle}" for way in found if isinstance(way, Simple) and way.spaces}
    assert listed == set(moves)


def test_a_circle_that_only_comes_near() -> None:
    """OD1644: 1 of 23 instead of the missing 22½ for 24 minutes: 23.478 minutes, 31.3 seconds short."""
    way = next(way for way in angle_ways(Fraction(24, 60), head(40), plate(23)) if isinstance(way, Simple))
    assert (way.circle, way.spaces) == (23, 1)
    assert way.closing_error_arcsec == pytest.approx(-31.3, abs=0.05)
    assert way.proof == '1/23 = 2/45 turns - 1/1035 turn; 31.30" short'


def test_two_circles_come_nearer() -> None:
    found = angle_ways(Fraction(723, 36), HEAD, PLATES, PULSES)
    compounds = [way for way in found if isinstance(way, Compound)]
    assert compounds
    assert min(abs(way.move_error) for way in compounds) < Fraction(1, 50_000)
    pulses = next(way for way in found if isinstance(way, Pulses))
    assert pulses.targets() == (0, 10_711)
    assert pulses.facts()["moves"] == {"10711": 1}
    assert pulses.proof == "2 25/108 crank turns = 10711 1/9 pulses; sent 10711"
    assert abs(pulses.closing_error_arcsec) == pytest.approx(0.75)


def test_the_nose_plate() -> None:
    way = next(way for way in angle_ways(Fraction(45), HEAD, PLATES) if isinstance(way, Direct))
    assert (way.spaces, way.proof) == (3, "3/24 turn = 45 degrees")
    assert not any(isinstance(way, Pulses) for way in angle_ways(Fraction(45), HEAD, PLATES, PULSES, motor_on="plate drive"))


@pytest.mark.parametrize("angle", [0, -1, 361])
def test_angles_that_cannot_be(angle: int) -> None:
    with pytest.raises(Refusal, match="angle"):
        angle_ways(Fraction(angle), HEAD, PLATES)
