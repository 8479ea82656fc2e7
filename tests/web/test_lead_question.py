"""The lead and ratio questions: a lead typed in the wrong unit is seen where the gear is named beside it."""

from __future__ import annotations

import pytest

from evenpitch.web.lead_answer import lead_question
from evenpitch.web.ratio_answer import ratio_question

GEAR = {"helix-of": "z=28 mn=2 beta=20"}
LINK = {"pulses-per-turn": "192000", "count": "1um"}


def test_inches_typed_as_millimetres_are_asked_back() -> None:
    for answer in (lead_question({"lead": "20.25", **GEAR}), ratio_question({"lead": "20.25", **GEAR, **LINK})):
        told = next(found for found in answer.json["findings"] if found["code"] == "lead-in-inches")
        assert told["weight"] == "look"
        assert told["says"] == "A lead of 20.25 mm on 59.6 mm of diameter is a helix of 84°."
        assert "20.25 in is 514.4 mm" in told["do"]


@pytest.mark.parametrize("lead", ["20.25 in", "514.3825"])
def test_a_lead_that_fits_its_gear_is_not(lead: str) -> None:
    for answer in (lead_question({"lead": lead, **GEAR}), ratio_question({"lead": lead, **GEAR, **LINK})):
        assert answer.json["findings"] == []


def test_a_short_lead_alone_asks_for_its_unit() -> None:
    told = lead_question({"lead": "20.25"}).json["findings"]
    assert [found["code"] for found in told] == ["lead-short"]
    assert "If inches were meant, write the unit" in told[0]["do"]


def test_a_lead_that_inches_would_not_mend_is_not_asked_after() -> None:
    """2 mm is a helix of 89°, and 2 in would be one of 75°: neither is a gear."""
    assert "lead-in-inches" not in [found["code"] for found in lead_question({"lead": "2 mm", **GEAR}).json["findings"]]


def test_a_lead_under_the_shortest_is_told_with_the_trains_to_the_spindle() -> None:
    told = lead_question({"lead": "0.154 in"}).json
    assert [found["code"] for found in told["findings"]] == ["lead-below-shortest", "lead-short"]
    assert told["trains"][0]["geared_to"] == "spindle"
    assert told["trains"][0]["error_ppm"] == 0
    assert "0.25" not in told["trains"][0]["lead"]
    page = lead_question({"lead": "0.154 in"}).text()
    assert "to the spindle, worm out" in page
    assert "6.35 x (44 x 56)" in page


def test_a_lead_over_the_longest_is_told() -> None:
    assert [found["code"] for found in lead_question({"lead": "4000 in"}).json["findings"]] == ["lead-beyond-longest"]
    assert lead_question({"lead": "149 in"}).json["findings"] == []


def test_a_steep_gear_alone_is_no_slip_of_units() -> None:
    steep = {"helix-of": "z=6 mn=2 beta=60"}
    assert ratio_question({**steep, **LINK}).json["findings"] == []
    assert "lead-in-inches" not in [found["code"] for found in lead_question(steep).json["findings"]]
