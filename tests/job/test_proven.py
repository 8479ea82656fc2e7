"""What was proven of a rig, on a plan: the sentence with and without a proof, and which proof holds."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from evenpitch.job.plan import Plan
from evenpitch.job.planning import plan
from evenpitch.job.proven import ProofMade, with_proofs
from evenpitch.sheet.compose.plan import compose_plan
from evenpitch.sheet.compose.plan_json import plan_json
from evenpitch.sheet.print_text import text
from job.shop import codes, pair, pinion, wheel

DAY, TODAY = date(2026, 3, 12), date(2026, 6, 1)
OF_LEAD = 141e-6
"""U of the workshop's link proof as a part of the lead: 18″ of 34.9934°."""


def lead(made: Plan, gear: int = 0) -> float:
    return made.gears[gear].value("lead")


def link(made: Plan, gear: int = 0, **fields: object) -> ProofMade:
    usual = {"kind": "link", "day": DAY, "gear": gear, "lead": lead(made, gear), "of_lead": OF_LEAD}
    return ProofMade(**{**usual, **fields})


def test_a_proof_completes_the_sentence_of_the_workshop():
    made = with_proofs(pinion(), (link(pinion()),), TODAY)
    promise = made.gears[0].promise
    assert promise is not None
    assert promise.good.size * 1e3 == pytest.approx(2.5, abs=0.05)  # 2.5 µm: the workshop's own figures, derived here
    assert promise.good.limited_by.name == "worm"
    assert promise.proven == DAY
    assert "Not yet proven" not in promise.sentence
    assert not codes(made) & {"link-not-proven", "link-proof-old", "scale-not-proven"}


def test_without_a_proof_the_sentence_says_so_and_leaves_its_share_out():
    made = with_proofs(pinion(), (), TODAY)
    promise = made.gears[0].promise
    assert promise is not None
    assert promise.sentence.endswith("Not yet proven by block and bar.")
    assert {share.name for share in promise.good.shares} == {"worm", "worm wheel", "one pulse", "one count"}
    assert {"link-not-proven", "scale-not-proven"} <= codes(made)


def test_an_error_that_was_shown_stands_in_the_sentence():
    plain, off = (with_proofs(pinion(), (link(pinion(), off=size),), TODAY).gears[0].promise for size in (0.0, 1e-3))
    assert plain is not None
    assert off is not None
    assert off.good.limited_by.name == "error of the link"
    assert off.good.size > 2 * plain.good.size


def test_a_proof_holds_for_its_gear_its_lead_and_its_rig_only():
    both = pair()
    made = with_proofs(both, (link(both, 1),), TODAY)
    first, second = (gear.promise for gear in made.gears)
    assert first is not None
    assert first.proven is None
    assert second is not None
    assert second.proven == DAY
    for stale in (link(both, 1, changed="the belt"), link(both, 1, lead=lead(both, 0))):
        made = with_proofs(both, (stale,), TODAY)
        assert made.gears[1].promise.proven is None
        assert "link-proof-overtaken" in codes(made)


def test_the_last_proof_counts_and_a_year_makes_it_old():
    made = pinion()
    older, newer = link(made, day=date(2024, 1, 1)), link(made)
    for proofs in ((older, newer), (newer, older)):
        assert with_proofs(made, proofs, TODAY).gears[0].promise.proven == DAY
    day_of_age = date(2027, 3, 12)
    assert "link-proof-old" not in codes(with_proofs(made, (newer,), day_of_age))
    assert "link-proof-old" in codes(with_proofs(made, (newer,), date(2027, 3, 13)))
    assert {"head-map-old"} <= codes(with_proofs(made, (newer,), date(2027, 3, 13)))


def test_a_spur_gear_and_a_lead_by_gears_have_no_sentence():
    for made in (wheel(), plan(replace(pinion().order, choice=replace(pinion().order.choice, lead="change gears")))):
        proven = with_proofs(made, (), TODAY)
        assert proven.gears[0].promise is None
        assert "link-not-proven" not in codes(proven)


def test_the_plan_page_and_its_json_carry_the_sentence():
    made = with_proofs(pinion(), (link(pinion()),), TODAY)
    page = " ".join(text(compose_plan(made)).split())
    assert "How good the link is on this gear" in page
    assert "your link is good to ±2.5 µm along the face" in page
    assert "Proven on 12 March 2026." in page
    shown = plan_json(made)
    assert shown["link_good_to_um"]["limited_by"] == "worm"
    assert plan_json(pinion())["link_good_to_um"] is None


def test_nothing_is_said_twice():
    made = with_proofs(pair(), (), date(2028, 1, 1))
    said = [found.code for found in made.findings]
    assert said.count("head-map-old") == 1
    assert said.count("scale-not-proven") == 1
    assert said.count("link-not-proven") == 2
