"""Differential indexing against the treatise, the handbook and the workshop."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from typing import Any

import pytest

from dividing.shop import CASES, HEAD, PLATES, PULSES, TWELVE, head, plate
from evenpitch.dividing.differential import differential_ways, near_differentials, plate_turns_needed
from evenpitch.dividing.geared import plate_test
from evenpitch.dividing.idlers import idlers
from evenpitch.dividing.methods import Differential
from evenpitch.dividing.simple import simple_ways
from evenpitch.dividing.trains import trains_of
from evenpitch.dividing.ways import ways
from evenpitch.rig.head import ChangeGears, IdlerTest


@pytest.mark.parametrize("case", CASES["differential"], ids=lambda case: case["id"])
def test_trains_of_print(case: dict[str, Any]) -> None:
    given, expected = case["inputs"], case["outputs"]
    crank = (given["full_turns"], given["circle"], given["spaces"])
    found = [way for way in differential_ways(given["divisions"], HEAD, PLATES, TWELVE) if way.crank() == crank]
    assert len(found) == 1
    way = found[0]
    assert str(way.approximate_number()) == expected["approximate_number"]
    assert str(way.plate_turns_per_work_turn()) == expected["required_ratio_signed"]
    assert way.plate_sense == {"same": "with", "opposite": "against"}[expected["plate_direction_vs_crank"]]
    printed = (tuple(sorted(given["drivers_spindle_side"])), tuple(sorted(given["driven_plate_side"])))
    assert printed in [(train.drivers, train.driven) for train in trains_of(way.train.ratio(), TWELVE)]
    if "idlers_on_head_of_table" in expected:
        table_head = IdlerTest("with", 1)  # the handbook's head, from memory
        assert idlers(way.plate_sense, len(printed[0]), table_head) == expected["idlers_on_head_of_table"]


@pytest.mark.parametrize("job", list(CASES["workshop"]["divisions"]))
def test_every_train_of_the_workshop_is_found(job: str) -> None:
    divisions, indexing = CASES["workshop"]["divisions"][job], CASES["workshop"]["indexing"][job]
    found = {way.crank(): way for way in differential_ways(divisions, HEAD, PLATES, TWELVE)}
    for listed in indexing["differential_solutions"]:
        way = found[listed["full_turns"], listed["circle"], listed["holes"]]
        assert way.approximate_number() == listed["approx_divisions"]
        assert way.plate_turns_per_work_turn() == Fraction(listed["gear_ratio_signed"])
        assert (list(way.train.drivers), list(way.train.driven)) == (listed["driver"], listed["driven"])


def test_first_choice_of_the_workshop() -> None:
    first = {n: next(way for way in ways(n, HEAD, PLATES, TWELVE) if isinstance(way, Differential)) for n in (97, 113, 125, 127)}
    assert first[97].words() == "8 of 20; gears 48 : 40, plate with the crank"
    assert first[97].proof == "97 x (8/20) = 38.8 turns; plate adds 1.2; total 40"
    assert first[113].words() == "12 of 33; gears 48 : 44, plate against the crank"
    assert first[113].proof == "113 x (12/33) = 41 1/11 turns; plate takes back 1 1/11; total 40"
    assert first[125].words() == "13 of 39; gears 40 : 24, plate against the crank"
    assert first[127].words() == "13 of 39; gears 56 : 24, plate against the crank"
    assert first[97].test() == "turn the crank through one work turn: the plate must turn 1.2 times the same way as the crank"


def test_every_count_to_382_and_not_383() -> None:
    """Practical Treatise on Milling and Milling Machines, p. 52; and each train shown can be put up."""
    for divisions in range(1, 383):
        found = differential_ways(divisions, HEAD, PLATES, TWELVE) if divisions > 50 else ()
        assert simple_ways(divisions, HEAD, PLATES) or found, divisions
        assert all(way.mountings() for way in found)
        assert all(way.train.ratio() == abs(plate_turns_needed(divisions, Fraction(40), way.crank_turns())) for way in found)
    assert not simple_ways(383, HEAD, PLATES)
    assert not differential_ways(383, HEAD, PLATES, TWELVE)


def test_quarter_and_sixth_of_a_degree() -> None:
    """Practical Treatise on Milling and Milling Machines, pp. 55-57: counts far above 382."""
    for angle, circle, _, _, worm, first, second, spindle, _ in CASES["quarter_degree"]["rows"]:
        divisions = int(360 / Fraction(angle.split()[0]))
        way = next(
            way for way in differential_ways(divisions, HEAD, PLATES, TWELVE) if way.circle == int(circle) and way.spaces == 1
        )
        printed = tuple(sorted((int(spindle), int(first)))), tuple(sorted((int(second), int(worm))))
        assert printed in [(train.drivers, train.driven) for train in trains_of(way.train.ratio(), TWELVE)]
        assert way.plate_sense == "against"
    for example in CASES["quarter_degree"]["examples"]:
        turns = {
            way.plate_turns_per_work_turn()
            for way in differential_ways(example["divisions"], HEAD, PLATES, TWELVE)
            if way.crank_turns() == Fraction(example["move"])
        }
        assert turns == {Fraction(example["ratio"])}


def test_the_crank_alone_gives_the_approximate_number() -> None:
    way = next(way for way in differential_ways(57, HEAD, plate(33), TWELVE) if way.spaces == 22)
    assert way.approximate_number() == 60  # read as plain indexing, 22 of 33 cuts 60 teeth instead of 57 (workshop forums)
    facts = way.facts()
    assert facts["approximate_number"] == "60"
    assert Fraction(str(facts["ratio"])) == abs(plate_turns_needed(57, Fraction(40), Fraction(22, 33)))


def test_near_trains_close_as_they_say() -> None:
    found = near_differentials(383, HEAD, PLATES, TWELVE)
    assert found
    for way in found:
        turns_of_work = 383 * way.crank_turns() / (40 - way.plate_turns_per_work_turn())
        assert way.closing_error_arcsec == pytest.approx(float(turns_of_work - 1) * 1_296_000)
        assert 0 < abs(way.closing_error_arcsec) <= 60
        assert way.proof.endswith(("past", "short"))
    assert [way for way in ways(383, HEAD, PLATES, TWELVE) if isinstance(way, Differential)]
    assert near_differentials(383, HEAD, PLATES, ChangeGears(())) == ()


def test_idlers_come_from_the_trial_only() -> None:
    assert idlers("with", 1, None) is None
    trials = (IdlerTest("with", 1), IdlerTest("against", 1), IdlerTest("with", 2))
    assert [idlers("with", 1, trial) for trial in trials] == [1, 2, 2]
    assert [idlers("against", 1, trial) for trial in trials] == [2, 1, 1]
    assert [idlers("with", 2, trial) for trial in trials] == [0, 1, 1]
    assert [idlers("against", 2, trial) for trial in trials] == [1, 0, 0]


def test_the_trial_in_words() -> None:
    assert plate_test(Fraction(-7, 3)).endswith("the plate must turn 2 1/3 times against the crank")
    assert plate_test(Fraction(1)).endswith("the plate must turn once the same way as the crank")


def test_other_heads_and_boxes() -> None:
    sixty = differential_ways(97, head(60), PLATES, TWELVE)
    assert all(97 * way.crank_turns() + way.plate_turns_per_work_turn() == 60 for way in sixty)
    assert sixty
    broken = differential_ways(51, head(Fraction(81, 2)), PLATES, TWELVE)
    assert all(51 * way.crank_turns() + way.plate_turns_per_work_turn() == Fraction(81, 2) for way in broken)
    assert broken
    assert differential_ways(97, HEAD, PLATES, ChangeGears(())) == ()
    assert differential_ways(97, HEAD, (), TWELVE) == ()


def test_every_train_of_every_move_is_listed() -> None:
    usual, everything = (ways(113, HEAD, PLATES, TWELVE, PULSES, everything=e) for e in (False, True))
    assert set(usual) <= set(everything)
    assert len(everything) <= 500
    trains = Counter((way.circle, way.spaces) for way in usual if isinstance(way, Differential))
    assert trains[33, 12] == len(trains_of(Fraction(12, 11), TWELVE)) > 1
    assert trains[39, 13] == len(trains_of(Fraction(7, 3), TWELVE)) > 1


# Trains of print that are not the simplest of their ratio: 83, a solved exercise sheet on the universal dividing head, ex. 2; the
# others, Machinery's Handbook, table of simple and differential indexing, from memory.
@pytest.mark.parametrize(
    ("divisions", "circle", "spaces", "drivers", "driven"),
    [(83, 18, 8, (32, 56), (24, 24)), (107, 20, 8, (56, 64), (32, 40)), (139, 21, 6, (24, 32), (48, 56))],
)
def test_a_handbook_train_is_among_those_listed(
    divisions: int, circle: int, spaces: int, drivers: tuple[int, ...], driven: tuple[int, ...]
) -> None:
    listed = {
        (way.circle, way.spaces, way.train.drivers, way.train.driven)
        for way in ways(divisions, HEAD, PLATES, TWELVE)
        if isinstance(way, Differential)
    }
    assert (circle, spaces, drivers, driven) in listed
