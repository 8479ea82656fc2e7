"""Compound indexing against the cases and the workshop's own search."""

from __future__ import annotations

from fractions import Fraction
from math import lcm
from typing import Any

import pytest

from dividing.shop import CASES, HEAD, PLATES, PULSES, TWELVE, TWO_SIDED, head, plate
from evenpitch.dividing.closing import closing
from evenpitch.dividing.compound import compound_move, exact_compounds, near_misses
from evenpitch.dividing.methods import Block, Compound, Simple
from evenpitch.dividing.ways import ways


def net(way: Compound) -> Fraction:
    return way.crank_turns() + way.plate_turns()


@pytest.mark.parametrize("case", CASES["compound"], ids=lambda case: case["id"])
def test_pairs_of_the_handbook(case: dict[str, Any]) -> None:
    circles = {move["circle"] for move in case["inputs"]["moves"]}
    found = [
        way for way in exact_compounds(case["inputs"]["divisions"], HEAD, PLATES) if {way.circle, way.plate_circle} == circles
    ]
    assert len(found) == 2
    for way in found:
        assert net(way) == Fraction(case["outputs"]["net_turns"])
        assert (way.skip, way.exact, way.closing_error_arcsec) == (1, True, 0)


def test_counts_that_compound_makes_exact() -> None:
    case = CASES["compound_exact"]
    only = [
        n for n in range(1, 401) if exact_compounds(n, HEAD, PLATES) and n not in CASES["coverage"][2]["outputs"]["divisible"]
    ]
    assert only == case["outputs"]["only_by_compound"]


@pytest.mark.parametrize("case", CASES["compound_best"], ids=lambda case: case["id"])
def test_nearest_single_moves(case: dict[str, Any]) -> None:
    given, expected = case["inputs"], case["outputs"]
    found = [way for way in near_misses(given["divisions"], HEAD, PLATES, exact=False, least_error=False) if way.skip == 1]
    best = min((abs(way.move_error) for way in found if isinstance(way, Compound)), default=None)
    accumulated = expected["accumulated_arcsec_over_N"]
    if accumulated > 60:
        assert best is None or best > Fraction(expected["min_abs_error_turns"])
    else:
        assert best == Fraction(expected["min_abs_error_turns"])
        assert min(abs(way.closing_error_arcsec) for way in found) == pytest.approx(accumulated, abs=1e-9)


@pytest.mark.parametrize(
    ("divisions", "skip", "crank", "plate_move", "closes"),
    [(97, 5, (1, 43, 42), (47, 4), 16.03), (113, 9, (2, 47, 26), (49, 31), 14.07)],
)
def test_skipping_found_for_the_workshop(
    divisions: int, skip: int, crank: tuple[int, ...], plate_move: tuple[int, ...], closes: float
) -> None:
    listed = [way for way in ways(divisions, HEAD, PLATES, TWELVE, PULSES) if isinstance(way, Compound) and way.skip == skip]
    way = next(way for way in listed if way.crank() == crank)
    assert (way.plate_circle, way.plate_spaces, way.plate_sense) == (*plate_move, "with")
    assert abs(way.closing_error_arcsec) == pytest.approx(closes, abs=0.005)
    assert way.worst_error_arcsec == pytest.approx(closes * (divisions - 1) / divisions, abs=0.005)
    assert listed[0] == way
    facts = way.facts()
    assert facts["crank"] == {"circle": crank[1], "spaces": crank[2]}
    assert facts["plate"] == {"circle": plate_move[0], "spaces": plate_move[1], "sense": "with"}


def test_proof_lines() -> None:
    way = next(way for way in ways(97, HEAD, PLATES) if isinstance(way, Compound))
    assert way.words() == "every 5th space: 1 turn + 42 of 43, and the plate 4 of 47 the same way"
    assert way.proof == '97 x (1 + 42/43 + 4/47) = 5 x 40 turns - 1/2021 turn; closes 16.03" short'
    against = next(way for way in exact_compounds(69, HEAD, plate(23, 33)) if way.circle == 23)
    assert against.proof == "69 x (21/23 - 11/33) = 40 turns"  # the handbook's pair, from memory
    assert against.words().endswith("and the plate 11 of 33 the other way")


@pytest.mark.parametrize("listed", CASES["decimal"]["rows"], ids=lambda row: row[0])
def test_decimal_moves_land_on_their_grid(listed: list[str]) -> None:
    for column, plates in ((1, PLATES), (2, TWO_SIDED)):
        if len(parts := listed[column].split()) != 3:
            continue
        (a, c1), (b, c2) = (tuple(map(int, part.split("/"))) for part in (parts[0], parts[2]))
        assert any({c1, c2} <= set(side.circles) for side in plates)
        made = Fraction(a, c1) + (Fraction(b, c2) if parts[1] == "+" else -Fraction(b, c2))
        assert abs(made - Fraction(listed[0])) <= Fraction(5, 100_000)
        move = compound_move(int(made * lcm(c1, c2)), c1, c2)
        assert move is not None
        sense = 1 if move.plate_sense == "with" else -1
        assert move.whole_turns + Fraction(move.spaces, c1) + sense * Fraction(move.plate_spaces, c2) == made


def test_no_move_where_one_circle_would_stand_still() -> None:
    assert compound_move(17, 20, 17) is None  # 1/20 turn: the plate would not move
    assert exact_compounds(80, HEAD, plate(18, 20)) == ()


def test_one_circle_near_enough_on_a_wide_range_head() -> None:
    wide = head(4000)  # two worms in a row, 1 of 100 is 3.24": from memory
    found = list(near_misses(7, wide, plate(100, 54), exact=False))
    singles = [way for way in found if isinstance(way, Simple | Block)]
    assert singles
    assert all(0 < abs(way.closing_error_arcsec) <= 60 for way in found)
    assert any(isinstance(way, Simple) for way in singles)
    block = [way for way in near_misses(7, wide, plate(100, 54), exact=False, least_error=False) if isinstance(way, Block)]
    assert all(way.proof.endswith(("past", "short")) for way in block)
    assert block


def test_neighbours_of_a_skipped_way() -> None:
    way = next(way for way in ways(97, HEAD, PLATES) if isinstance(way, Compound))
    place = [0.0] * 97
    for move in range(97):
        place[move * 5 % 97] = move * way.at_work(way.move_error)
    pitches = [after - before for before, after in zip(place, place[1:] + place[:1], strict=True)]
    told = closing(way, 97)
    assert sorted(pitches) == pytest.approx(sorted(error for error, many in told.pitch_errors for _ in range(many)))
    assert place[told.worst_space - 1] == pytest.approx(told.worst_arcsec)
    assert "distances between neighbours" in told.words()
