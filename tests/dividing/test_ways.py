"""All ways of a count: their order, their arithmetic, and counts that cannot be."""

from __future__ import annotations

import json
import time
from collections import Counter
from fractions import Fraction
from typing import Any

import pytest

from dividing.shop import HEAD, PLATES, PULSES, TWELVE, head, plate
from evenpitch.dividing.counts import check_head
from evenpitch.dividing.methods import Compound, Differential, Direct, Method, Pulses, Simple
from evenpitch.dividing.rank import fits_lead, ranked
from evenpitch.dividing.ways import ways, without_copies
from evenpitch.quantity.refusal import Refusal
from evenpitch.rig.head import ChangeGears, IdlerTest, Plate


def made(way: Method) -> Fraction:
    """Crank turns of one move against the frame of the head, worked out from the facts alone."""
    facts: dict[str, Any] = way.facts()
    if way.name == "direct":
        return Fraction(facts["spaces"], facts["plate_holes"]) * way.head_ratio
    whole = Fraction(facts["whole_turns"])
    if way.name == "compound":
        crank, plate_move = facts["crank"], facts["plate"]
        sign = 1 if plate_move["sense"] == "with" else -1
        moved = Fraction(crank["spaces"], crank["circle"])
        return whole + moved + sign * Fraction(plate_move["spaces"], plate_move["circle"])
    turns = whole + Fraction(facts["spaces"], facts["circle"])
    if way.name != "differential":
        return turns
    top = bottom = 1
    for gear in facts["drivers"]:
        top *= gear
    for gear in facts["driven"]:
        bottom *= gear
    sign = 1 if facts["plate_sense"] == "with" else -1
    return way.head_ratio * turns / (way.head_ratio - sign * Fraction(top, bottom))


@pytest.mark.parametrize("divisions", [2, 3, 6, 8, 24, 28, 43, 56, 57, 60, 97, 113, 125, 127, 271, 383, 400])
@pytest.mark.parametrize("everything", [False, True])
def test_every_way_is_what_it_says(divisions: int, everything: bool) -> None:
    for way in ways(divisions, HEAD, PLATES, TWELVE, PULSES, everything=everything):
        facts: dict[str, Any] = way.facts()
        json.dumps(facts)
        error = Fraction(facts["move_error"])
        if way.name != "pulses":
            assert made(way) - way.skip * Fraction(40, divisions) == error, way.words()
            assert facts["closing_error_arcsec"] == pytest.approx(float(divisions * error * 32_400))
            assert facts["worst_error_arcsec"] == pytest.approx(float((divisions - 1) * abs(error) * 32_400))
            assert facts["exact"] == (error == 0)
        assert abs(facts["closing_error_arcsec"]) <= 60
        assert str(divisions) in facts["proof"] or way.name == "pulses"


def test_order_of_the_kinds() -> None:
    found = ways(6, HEAD, PLATES, TWELVE, PULSES)
    kinds = list(dict.fromkeys(type(way) for way in found))
    assert kinds == [Pulses, Direct, Simple, Differential, Compound]
    first = next(way for way in found if isinstance(way, Simple))
    assert first.words() == "6 turns + 26 of 39"  # the workshop


def test_simple_before_a_nose_plate_whose_holes_come_whole_to_the_work() -> None:
    found = ways(60, head(40, 60), PLATES)
    assert isinstance(found[0], Simple)
    assert isinstance(found[1], Simple)


def test_a_head_better_than_the_pulses() -> None:
    coarse = Fraction(16_000)
    assert isinstance(ways(97, HEAD, PLATES, TWELVE, coarse)[0], Differential)
    assert isinstance(ways(97, HEAD, PLATES, TWELVE, coarse, head_error_arcsec=900)[0], Pulses)
    assert ranked([], head_error_arcsec=0) == ()


def test_change_gears_for_a_lead_leave_only_the_crank() -> None:
    for way in ways(24, HEAD, PLATES, TWELVE, PULSES, everything=True):
        assert fits_lead(way, "change gears", None) == (way.name in ("simple", "block"))
        assert fits_lead(way, None, "worm shaft")


def test_skipping_is_listed_though_gears_are_exact() -> None:
    kinds = Counter(way.name for way in ways(97, HEAD, PLATES, TWELVE, PULSES))
    assert kinds["differential"]
    assert kinds["compound"]
    assert "compound" not in {way.name for way in ways(43, HEAD, PLATES)}  # 40 of 43 betters every skip


def test_idlers_of_the_head_tried() -> None:
    tried = ways(97, head(40), PLATES, TWELVE)
    assert all(way.idlers is None for way in tried if isinstance(way, Differential))
    shop_head = type(HEAD)(ratio=Fraction(40), idler_test=IdlerTest("with", 1))
    first = next(way for way in ways(97, shop_head, PLATES, TWELVE) if isinstance(way, Differential))
    assert first.facts()["idlers"] == 1


@pytest.mark.parametrize("count", [0, -3, 1_000_001, 2.5, True, "97"])
def test_counts_that_cannot_be(count: Any) -> None:
    with pytest.raises(Refusal) as refused:
        ways(count, HEAD, PLATES)
    assert refused.value.faults[0].field == "divisions"
    assert refused.value.faults[0].do


def test_one_division_is_the_whole_turn() -> None:
    found = ways(1, HEAD, PLATES, TWELVE, PULSES, everything=True)
    assert {way.name for way in found} == {"direct", "simple", "pulses"}
    assert all(way.exact for way in found)


def test_a_page_shows_whole_turns_once() -> None:
    found = ways(8, HEAD, PLATES)
    assert len([way for way in found if isinstance(way, Simple)]) == 18
    shown = without_copies(found)
    assert len([way for way in shown if isinstance(way, Simple)]) == 1
    geared = [way for way in ways(97, HEAD, PLATES, TWELVE) if isinstance(way, Differential)]
    shown = without_copies(geared)
    assert {(way.crank(), way.plate_turns_per_work_turn()) for way in geared} == {
        (way.crank(), way.plate_turns_per_work_turn()) for way in shown if isinstance(way, Differential)
    }
    assert len(shown) == 8 < len(geared)
    assert without_copies(ways(97, HEAD, PLATES)) == ways(97, HEAD, PLATES)


def test_rigs_with_little() -> None:
    assert ways(97, head(40), ()) == ()
    assert {way.name for way in ways(97, head(40), (), ChangeGears(()), PULSES)} == {"pulses"}
    assert [way.name for way in ways(20, head(40), plate(15))] == ["simple"]
    assert ways(53, head(40), (Plate(()),), TWELVE) == ()


def test_a_hundred_thousand_is_answered_at_once() -> None:
    start = time.perf_counter()
    found = ways(100_000, HEAD, PLATES, TWELVE, PULSES, everything=True)
    assert [way.name for way in found] == ["pulses"]
    assert ways(999_983, HEAD, PLATES, TWELVE)
    assert time.perf_counter() - start < 2


def test_parts_of_the_rig_that_cannot_be_are_told_all_at_once() -> None:
    with pytest.raises(Refusal) as refused:
        check_head(head(0, 0), (Plate((20, 0)),), ChangeGears((24, -1)))
    assert [fault.field for fault in refused.value.faults] == [
        "head, ratio",
        "head, direct",
        "plate, circles",
        "change gears, teeth",
    ]
    with pytest.raises(Refusal, match="pulses per turn"):
        ways(97, HEAD, PLATES, TWELVE, Fraction(0))
