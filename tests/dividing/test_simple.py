"""Direct, simple and block indexing against the cases."""

from __future__ import annotations

from fractions import Fraction
from itertools import islice
from typing import Any

import pytest

from dividing.shop import CASES, HEAD, PLATES, TWO_SIDED, head, plate
from evenpitch.dividing.simple import block_ways, circles_of, direct_ways, simple_ways, spaces_reached
from evenpitch.dividing.ways import ways


@pytest.mark.parametrize("case", CASES["direct"][:3], ids=lambda case: case["id"])
def test_direct(case: dict[str, Any]) -> None:
    found = direct_ways(case["inputs"]["divisions"], head(40, case["inputs"]["direct_plate"]))
    assert [way.spaces for way in found] == ([case["outputs"]["spaces"]] if case["outputs"]["possible"] else [])


def test_direct_counts_of_24_holes() -> None:
    got = [count for count in range(2, 100) if direct_ways(count, HEAD)]
    assert got == CASES["direct"][3]["outputs"]["divisions"]
    assert direct_ways(8, head(40)) == ()


@pytest.mark.parametrize("case", [case for case in CASES["simple"] if "divisions" in case["inputs"]], ids=lambda case: case["id"])
def test_simple(case: dict[str, Any]) -> None:
    given, expected = case["inputs"], case["outputs"]
    found = simple_ways(given["divisions"], head(given["worm_ratio"]), plate(*given["hole_circles"]))
    assert all(way.whole_turns == expected["full_turns"] for way in found)
    assert all(way.wanted == Fraction(expected["turns_total"]) and way.exact for way in found)
    if expected["fraction"] == "0":
        assert {way.spaces for way in found} == {0}
        assert len(found) == len(given["hole_circles"])
    else:
        assert {(way.circle, way.spaces) for way in found} == {(o["circle"], o["spaces"]) for o in expected["options"]}


@pytest.mark.parametrize("row", CASES["practice"]["rows"], ids=lambda row: f"{row['N']} at {row['K']}:1")
def test_practice_sheet_counts(row: dict[str, Any]) -> None:
    circles = next(r[2] for r in CASES["practice"]["circles"] if r[0] == str(row["N"]) and r[1] == f"{row['K']}:1")
    found = simple_ways(row["N"], head(row["K"]), plate(*map(int, circles.split(","))))
    moves = [move for move in row["divisions"]["moves"] if "of the listed" not in move]
    assert sorted(f"{way.spaces} of {way.circle}" for way in found) == sorted(moves)
    assert all(way.whole_turns == row["divisions"]["whole"] for way in found)


def test_sector_shows_one_hole_more_than_spaces() -> None:
    way = simple_ways(17, head(90), plate(34))[0]
    assert (way.whole_turns, way.spaces, way.facts()["sector_holes"]) == (5, 10, 11)  # rotary table instructions, p. 5


def test_three_plates_give_every_count_printed() -> None:
    got = [count for count in range(1, 401) if simple_ways(count, HEAD, PLATES)]
    listed, claim = CASES["coverage"][2]["outputs"], CASES["coverage"][1]["outputs"]
    assert got == listed["divisible"]
    assert got[: claim["all_up_to"]] == list(range(1, claim["all_up_to"] + 1))
    assert [count for count in range(2, claim["even_up_to"] + 1, 2) if count not in got] == claim["even_exceptions"]


def test_two_sided_plate_gives_every_count_to_sixty() -> None:
    got = {count for count in range(1, 121) if simple_ways(count, HEAD, TWO_SIDED)}  # from memory, confirmed by enumeration
    assert set(range(1, 61)) | set(range(2, 121, 2)) | set(range(5, 121, 5)) <= got


@pytest.mark.parametrize("case", CASES["block"][:2], ids=lambda case: case["id"])
def test_block(case: dict[str, Any]) -> None:
    given, expected = case["inputs"], case["outputs"]
    found = [way for way in islice(block_ways(given["divisions"], HEAD, PLATES), 300) if way.skip == given["spaces_per_index"]]
    assert {(way.circle, way.spaces) for way in found} == {(o["circle"], o["spaces"]) for o in expected["options"]}
    assert all(way.whole_turns == expected["full_turns"] and way.exact for way in found)
    assert found[0].words().startswith(f"every {given['spaces_per_index']}th space: ")


def test_block_of_a_common_factor_reaches_few_spaces() -> None:
    case = CASES["block"][2]
    assert spaces_reached(case["inputs"]["divisions"], case["inputs"]["spaces_per_index"]) == case["outputs"]["spaces_reached"]
    skips = {way.skip for way in ways(60, HEAD, PLATES, everything=True) if way.name == "block"}
    assert skips
    assert 6 not in skips
    assert not list(block_ways(61, HEAD, PLATES))


def test_circles_come_once_and_largest_first() -> None:
    assert circles_of(PLATES)[0] == 49
    assert circles_of(plate(20, 15, 20)) == (20, 15)


def test_a_head_of_a_broken_ratio() -> None:
    way = simple_ways(3, head(Fraction(81, 2)), plate(16))[0]
    assert (way.whole_turns, way.spaces) == (13, 8)
    assert way.proof == "3 x (13 + 8/16) = 40.5 turns"
