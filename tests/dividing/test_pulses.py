"""Pulses on the worm shaft and through the plate."""

from __future__ import annotations

from fractions import Fraction

import pytest

from dividing.shop import CASES, HEAD, PLATES, PULSES, TWELVE, plate
from evenpitch.dividing.closing import closing
from evenpitch.dividing.methods import Differential, PlatePulses, Pulses, Simple
from evenpitch.dividing.pulses import plate_drive, pulse_way
from evenpitch.dividing.ways import ways


@pytest.mark.parametrize("job", list(CASES["workshop"]["divisions"]))
def test_targets_of_the_workshop(job: str) -> None:
    divisions, expected = CASES["workshop"]["divisions"][job], CASES["workshop"]["indexing"][job]["electronic"]
    way = pulse_way(divisions, HEAD, PULSES)
    targets = way.targets()
    assert {str(size): moves for size, moves in way.counts} == expected["increments"]
    assert {space: targets[int(space)] for space in expected["checkpoints"]} == expected["checkpoints"]
    assert way.worst_space == Fraction(expected["max_abs_error_pulses"])
    assert way.worst_error_arcsec == pytest.approx(expected["max_abs_error_arcsec"], abs=5e-5)
    assert (len(targets), targets[0], targets[-1], way.closing_error_arcsec) == (divisions + 1, 0, 192_000, 0)
    assert way.exact == (192_000 % divisions == 0) == (way.move_error == 0)


def test_adding_up_a_pattern_by_hand_does_not_close() -> None:
    case = CASES["pulses"][0]["outputs"]  # workshop forums: 85 x 1512 + 42 x 1510 for 127
    way = pulse_way(127, HEAD, PULSES)
    assert dict(way.counts) == {1511: case["correct_mix"]["n_1511"], 1512: case["correct_mix"]["n_1512"]}
    assert case["forum_shortfall"] == 192_000 - (85 * 1512 + 42 * 1510)


def test_a_coarse_motor() -> None:
    case = CASES["pulses"][1]["outputs"]
    way = pulse_way(97, HEAD, Fraction(16_000))
    assert [size for size, _ in way.counts] == case["distinct_moves"]
    assert way.worst_error_arcsec == pytest.approx(case["worst_error_arcsec"])
    assert way.targets()[-1] == case["final"]


def test_a_belt_that_gives_no_whole_turn() -> None:
    way = pulse_way(97, HEAD, Fraction(1600 * 3 * 40 * 20, 61))
    assert not way.exact
    assert way.closing == round(way.pulses_per_turn) - way.pulses_per_turn
    assert way.facts()["pulses_per_turn"] == "3840000/61"
    assert way.closing_error_arcsec == pytest.approx(float(way.closing) * 1_296_000 / float(way.pulses_per_turn))


def test_facts_of_97() -> None:
    facts = pulse_way(97, HEAD, PULSES).facts()
    assert facts["moves"] == {"1979": 60, "1980": 37}
    assert (facts["pulses_per_turn"], facts["method"], facts["exact"]) == (192_000, "pulses", False)
    assert facts["proof"] == "60 x 1979 + 37 x 1980 = 192000 pulses; one turn is 192000"
    assert Fraction(str(facts["move_error"])) == Fraction(60, 97) * 40 / 192_000


def test_where_the_rounding_lands() -> None:
    told = closing(pulse_way(97, HEAD, PULSES), 97)
    assert abs(told.worst_arcsec) == pytest.approx(3.3402, abs=5e-5)
    assert {many: error for error, many in told.pitch_errors}[60] == pytest.approx(-37 / 97 * 6.75)
    assert closing(pulse_way(6, HEAD, PULSES), 6).words() == "every space lies where it should; the last closes."


def test_97_by_the_plate() -> None:
    """The workshop: pin out of 8 of 20 each time, 5760 pulses in all, 37 x 60 and 60 x 59."""
    found = ways(97, HEAD, PLATES, TWELVE, PULSES, motor_on="plate drive", lead_method="link")
    way = found[0]
    assert isinstance(way, PlatePulses)
    assert (way.crank(), way.pulses_in_all, dict(way.counts)) == ((0, 20, 8), 5760, {60: 37, 59: 60})
    assert way.targets() == tuple((2 * k * 5760 + 97) // 194 for k in range(98))
    assert way.proof == "97 x (8/20) = 38.8 turns; plate adds 1.2; total 40"
    assert way.worst_error_arcsec < 3.375
    assert (way.plate_sense, way.approximate_number(), way.closing_error_arcsec) == ("with", 100, 0)
    assert way.facts()["plate_pulses"] == "5760"
    assert not any(isinstance(other, Pulses) for other in found)


def test_the_motor_takes_the_plate_back() -> None:
    way = next(way for way in plate_drive(113, HEAD, plate(16, 20), PULSES) if way.pulses_in_all < 0)
    assert way.plate_sense == "against"
    assert way.targets()[-1] == way.pulses_in_all == sum(size * moves for size, moves in way.counts)
    assert 113 * way.crank_turns() + way.plate_turns_per_work_turn() == 40
    assert "takes back" in way.proof
    assert "against the crank" in way.words()
    assert closing(way, 113).closing_arcsec == 0


def test_plate_pulses_that_do_not_come_out_whole() -> None:
    found = plate_drive(113, HEAD, plate(47), PULSES)
    assert found
    assert all(0 < abs(way.closing) <= Fraction(1, 2) and not way.exact for way in found)
    assert all(way.closing_error_arcsec for way in found)


def test_what_goes_with_a_helix() -> None:
    link = ways(28, HEAD, PLATES, TWELVE, PULSES, lead_method="link", motor_on="worm shaft")
    assert isinstance(link[0], Pulses)
    by_plate = ways(28, HEAD, PLATES, TWELVE, PULSES, lead_method="link", motor_on="plate drive")
    assert isinstance(by_plate[0], Simple)
    gears = ways(28, HEAD, PLATES, TWELVE, None, lead_method="change gears")
    assert isinstance(gears[0], Simple)
    assert not isinstance(ways(97, HEAD, PLATES, TWELVE, PULSES, lead_method="link", motor_on="worm shaft")[0], Differential)


def test_fewer_pulses_than_spaces_is_no_way() -> None:
    assert ways(1000, HEAD, (), TWELVE, Fraction(999)) == ()
