"""Change gears for a lead, for a pair, for short leads."""

from __future__ import annotations

import math
from fractions import Fraction
from itertools import pairwise
from typing import Any

import pytest

from dividing.shop import CASES, HEAD, QUARTER_INCH, TWELVE, head
from evenpitch.dividing.lead import (
    Helix,
    base_helix,
    every_lead,
    hand_test,
    helix_slope_um,
    machine_lead,
    trains_for_lead,
)
from evenpitch.dividing.lead_pair import helix_of_lead, lead_pairs
from evenpitch.dividing.short_lead import short_leads, spindle_trains
from evenpitch.dividing.trains import Train, clears, every_ratio, mounted, mountings, train_words, trains_by_ratio, trains_of
from evenpitch.quantity.refusal import Refusal
from evenpitch.quantity.units import INCH, Millimetre, Radian
from evenpitch.rig.head import ChangeGears

TWENTY = Radian(math.radians(20))
FLANK = Helix(face=Millimetre(20.0), base_helix=base_helix(TWENTY, TWENTY))
LEAD_28 = math.pi * 28 * 2 / math.sin(TWENTY)
GEARS = CASES["workshop"]["mechanical_gears"]


def inch(value: str | float) -> Fraction:
    return Fraction(value) * INCH


@pytest.mark.parametrize("case", CASES["leads"][:3], ids=lambda case: case["id"])
def test_leads_of_the_treatise(case: dict[str, Any]) -> None:
    given, expected = case["inputs"], case["outputs"]
    lead = inch(10) * Fraction(expected["ratio_driven_over_drivers"])
    found = trains_for_lead(lead, HEAD, QUARTER_INCH, TWELVE)
    train = Train(tuple(sorted(given["drivers"])), tuple(sorted(given["driven"])))
    assert train in [way.train for way in found if way.error_ppm == 0]
    assert float(found[0].lead / INCH) == pytest.approx(expected["lead"])
    assert found[0].facts()["lead"] == str(lead)
    assert "helix_slope_um" not in found[0].facts()


def test_only_one_of_four_mountings_of_3_60() -> None:
    """Tried on the machine: Practical Treatise on Milling and Milling Machines, p. 62."""
    case = next(case for case in CASES["leads"] if case["id"] == "interfere-3.60")
    for arrangement in case["outputs"]["arrangements"]:
        first = arrangement["screw_driver"], arrangement["stud2_driven"]
        second = arrangement["stud1_driver"], arrangement["worm_driven"]
        for stud in (8, 15, 55):
            assert clears(first, second, stud) == arrangement["published_usable"]
    assert mountings(Train((32, 100), (24, 48)), 15) == (((100, 24), (32, 48)),)
    assert mountings(Train((48,), (40,)), 15) == (((48, 40),),)


def test_a_gear_owned_twice_gives_no_mounting_twice() -> None:
    assert len(mountings(Train((64, 72), (24, 24)), 15)) == 2
    assert trains_of(Fraction(1), TWELVE)[0] == Train((24,), (24,))


@pytest.mark.parametrize("case", CASES["near_leads"], ids=lambda case: case["id"])
def test_nearest_leads(case: dict[str, Any]) -> None:
    given, expected = case["inputs"], case["outputs"]
    screw = Fraction(given["machine_lead_mm"], 40)
    lead = math.pi * given["teeth"] * given["normal_module"] / math.sin(math.radians(given["helix_deg"]))
    best = trains_for_lead(lead, HEAD, screw, TWELVE)[0]
    assert 1 / best.train.ratio() == Fraction(expected["best_ratio_driven_over_drivers"])
    assert best.error_ppm == pytest.approx(expected["error_ppm"], abs=1e-6)
    assert float(best.lead) == pytest.approx(expected["actual_lead"])


def test_trains_are_listed_best_first() -> None:
    errors = [abs(way.error_ppm) for way in trains_for_lead(LEAD_28, HEAD, QUARTER_INCH, TWELVE, most=60)]
    assert errors == sorted(errors)
    assert len(errors) == 60


def test_each_gear_alone() -> None:
    alone = trains_for_lead(LEAD_28, HEAD, QUARTER_INCH, TWELVE, helix=FLANK)[0]
    expected = GEARS["best_single_28"]
    assert (list(alone.train.driven), list(alone.train.drivers)) == (expected["driven"], expected["driver"])
    assert alone.helix_slope_um == pytest.approx(expected["um_over_face"], abs=0.05)
    assert float(alone.lead / INCH) == pytest.approx(expected["lead_in"], abs=5e-6)
    turned = helix_of_lead(TWENTY, alone.error_ppm)
    assert math.degrees(turned - TWENTY) * 60 == pytest.approx(expected["helix_error_arcmin"], abs=0.005)
    other = trains_for_lead(2 * LEAD_28, HEAD, QUARTER_INCH, TWELVE, helix=FLANK)[0]
    expected = GEARS["best_single_56"]
    assert (list(other.train.driven), list(other.train.drivers)) == (expected["driven"], expected["driver"])
    assert other.helix_slope_um == pytest.approx(expected["um_over_face"], abs=0.05)


def test_both_gears_together() -> None:
    pairs = lead_pairs(LEAD_28, 2 * LEAD_28, HEAD, QUARTER_INCH, TWELVE, helix=FLANK, second_helix=FLANK)
    best, expected = pairs[0], GEARS["best_matched_pair"]
    for way, name in ((best.first, "gear28"), (best.second, "gear56")):
        assert (list(way.train.driven), list(way.train.drivers)) == (expected[name]["driven"], expected[name]["driver"])
        assert float(way.lead / INCH) == expected[name]["lead_in"]
        assert way.helix_slope_um == pytest.approx(expected["um_over_face_against_20_deg_each"], abs=0.05)
    assert (best.mismatch_ppm, best.mismatch_um) == (0, 0)
    assert math.degrees(helix_of_lead(TWENTY, best.first.error_ppm)) == pytest.approx(expected["helix_deg"], abs=2e-5)
    singly = pairs[-1]
    assert singly.mismatch_um == pytest.approx(GEARS["mismatch_if_chosen_singly_um"], abs=0.05)
    assert singly.facts()["first"]["drivers"] == GEARS["best_single_28"]["driver"]  # type: ignore[index]


def test_pairs_are_not_bettered() -> None:
    pairs = lead_pairs(300.0, 700.0, HEAD, QUARTER_INCH, TWELVE)
    assert all(abs(a.mismatch_ppm) < abs(b.mismatch_ppm) and a.further() > b.further() for a, b in pairwise(pairs[:-1]))
    assert all(pair.mismatch_um is None and pair.further() <= 10_000 for pair in pairs[:-1])
    assert lead_pairs(1.0, 2.0, HEAD, QUARTER_INCH, ChangeGears(())) == ()


def test_machine_leads() -> None:
    assert [machine_lead(HEAD, Fraction(screw)) for screw in (5, 6)] == [200, 240]  # trade course exercises
    assert machine_lead(HEAD, QUARTER_INCH) == 10 * INCH  # Practical Treatise on Milling and Milling Machines, p. 62


def test_every_lead_of_the_twelve_gears() -> None:
    chart = every_lead(HEAD, QUARTER_INCH, TWELVE)
    assert len(chart) == 1309
    assert all(way.mountings() for way in chart)
    assert float(chart[0].lead / INCH) == pytest.approx(0.670, abs=5e-4)  # the shortest printed, p. 62
    assert [way.lead for way in chart] == sorted({way.lead for way in chart})


def test_slope_counts_against_the_lead_got() -> None:
    radius = 30.0
    lead, got = 500.0, 497.0
    flank = Helix(face=Millimetre(20.0), base_helix=Radian(math.atan(2 * math.pi * radius / lead)))
    by_geometry = 20_000 * 2 * math.pi * radius * (1 / got - 1 / lead)
    assert helix_slope_um(flank, lead / got - 1) == pytest.approx(by_geometry)


def test_short_leads_by_slipping_the_spindle_gear() -> None:
    case = next(case for case in CASES["leads"] if case["id"] == "lead-short-0.261")
    found = short_leads(inch("0.261"), case["inputs"]["divisions"], QUARTER_INCH, TWELVE)
    best = found[0]
    assert float(best.train.lead / INCH) == pytest.approx(case["outputs"]["attainable_lead"])
    assert (best.spindle_gear, best.slip) == (case["inputs"]["spindle_gear"], case["outputs"]["index_teeth"])
    assert all(mounting[-1][1] == way.spindle_gear for way in found for mounting in way.mountings)
    assert best.facts()["geared_to"] == "spindle"
    printed = next(case for case in CASES["leads"] if case["id"] == "lead-short-0.154")
    regular = trains_for_lead(inch(printed["inputs"]["normal_lead"]), HEAD, QUARTER_INCH, TWELVE)[0]
    assert float(regular.lead / 40 / INCH) == pytest.approx(printed["outputs"]["lead"])
    assert short_leads(inch("0.261"), 13, QUARTER_INCH, TWELVE) == ()


def test_trains_to_the_spindle_itself() -> None:
    """Printed for a lead of 0.154 in: 44·56/(100·40), the worm out (Practical Treatise on Milling and Milling Machines, p. 63)."""
    best = spindle_trains(inch("0.154"), QUARTER_INCH, TWELVE)[0]
    assert (best.train.driven, best.train.drivers, best.geared_to) == ((44, 56), (40, 100), "spindle")
    assert best.error_ppm == 0
    every = {ratio * QUARTER_INCH for ratio in every_ratio(TWELVE)}
    assert best.lead == min(every, key=lambda lead: abs(lead - inch("0.154")))


def test_the_hand_is_tried() -> None:
    assert "changes the hand and leaves the lead" in hand_test()


@pytest.mark.parametrize("lead", [0, -5.0, math.inf, math.nan])
def test_leads_that_cannot_be(lead: float) -> None:
    with pytest.raises(Refusal, match="lead"):
        trains_for_lead(lead, HEAD, QUARTER_INCH, TWELVE)


def test_no_gears_no_trains() -> None:
    assert trains_for_lead(500.0, head(40), QUARTER_INCH, ChangeGears(())) == ()
    assert every_lead(HEAD, QUARTER_INCH, ChangeGears((40,))) == ()


def test_a_train_is_written_in_an_order_that_clears() -> None:
    """From the screw: 24 with 32 would foul the 44 on the stud (24 + 32 is less than 44 + 15), so 44 goes on the screw."""
    train = Train((24, 44), (32, 86))
    assert not clears((24, 32), (44, 86), 15)
    assert train_words(train, 15) == "44·24 : 32·86"
    assert train_words(Train((48,), (40,)), 15) == "48 : 40"
    for trains in trains_by_ratio(TWELVE).values():
        for one in trains:
            drivers, driven = mounted(one, TWELVE.stud_clearance)
            if len(drivers) == 2:
                assert clears((drivers[0], driven[0]), (drivers[1], driven[1]), TWELVE.stud_clearance)
