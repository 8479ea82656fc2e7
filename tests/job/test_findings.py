"""Every finding of the table is produced by a case that a person could type; and a clean job has none of them in vain."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from fractions import Fraction
from typing import Any

import pytest

from evenpitch.job.dividing_question import Dividing, ask_divide
from evenpitch.job.findings import EVERY_KIND, KINDS, finding
from evenpitch.job.lead_question import LeadAnswer, LeadQuestion, ask_lead
from evenpitch.job.plan import Plan
from evenpitch.job.planning import plan
from evenpitch.job.proven import ProofMade, with_proofs
from evenpitch.quantity.units import Millimetre
from job.cut_cases import CUT_CASES
from job.inspection_cases import CASES as INSPECTION_CASES
from job.shop import HOUSING, MATE, PINION, bare_rig, codes, museum_mill, order, pair, pinion, rig_of, rig_tables, wheel


def changed(**tables: dict) -> object:
    """The museum rig with some fields of its tables changed; None takes a field out, a table of None the whole table."""
    raw = rig_tables()
    for name, fields in tables.items():
        if fields is None:
            raw.pop(name, None)
        elif isinstance(fields, list):
            raw[name] = fields
        else:
            raw.setdefault(name, {}).update({key: value for key, value in fields.items() if value is not None})
            for key in (key for key, value in fields.items() if value is None):
                raw[name].pop(key, None)
    return rig_of(raw)


def helical(**fields: object) -> dict[str, object]:
    """A helical gear alone."""
    return {**PINION, **fields}


def cutter(**fields: object) -> dict[str, object]:
    """A 12 DP cutter of the drawer."""
    usual = {"pitch": "12 DP", "pressure_angle": "14½", "number": "2", "numbering": "dp", "outside": "2.75 in", "teeth": 12}
    return {**usual, **fields}


def proven(*proofs: ProofMade, today: date = date(2026, 6, 1)) -> Plan:
    """The plan of the pinion with what was proven of its rig."""
    return with_proofs(pinion(), proofs, today)


def link_proof(**fields: object) -> ProofMade:
    """A proof of the link on the pinion, made on 12 March 2026."""
    made = {"day": date(2026, 3, 12), "gear": 0, "lead": pinion().gears[0].value("lead"), "of_lead": 141e-6, **fields}
    return ProofMade(kind="link", **made)


def lead_asked(lead: str, **more: Any) -> LeadQuestion:
    """A lead, mm, on the workshop's head, screw and gears."""
    rig = museum_mill()
    return LeadQuestion(lead=Fraction(lead), head=rig.head, screw_lead=Fraction("6.35"), change_gears=rig.change_gears, **more)


CASES: dict[str, Callable[[], Plan | LeadAnswer]] = {
    "link-not-proven": lambda: proven(),
    "scale-not-proven": lambda: proven(),
    "link-proof-overtaken": lambda: proven(link_proof(changed="the belt")),
    "link-proof-old": lambda: proven(link_proof(), today=date(2027, 6, 1)),
    "scale-proof-old": lambda: proven(ProofMade(kind="scale", day=date(2026, 3, 12)), today=date(2027, 6, 1)),
    "head-map-old": lambda: with_proofs(wheel(), (), date(2027, 6, 1)),
    "undercut": lambda: wheel(teeth=14),
    "tip-thin": lambda: wheel(teeth=12, pitch="module 2", pressure_angle="20", shift="0.7"),
    "class-assumed": lambda: wheel(),
    "class-outside": lambda: wheel(teeth=200, pitch="64 DP", pressure_angle="20", tolerance_class=8),
    "limits-from-memory": lambda: wheel(),
    "face-missing": lambda: wheel(face="don't know"),
    "span-face": lambda: pinion(face="6 mm"),
    "spanned-outside": lambda: wheel(spanned=20),
    "no-span": lambda: wheel(teeth=88, pitch="module 2", pressure_angle="10", depth="stub", shift="2.8", thinning=None),
    "pins-below-tips": lambda: wheel(pin="3 mm"),
    "pins-on-root": lambda: wheel(teeth=12, pitch="module 2", pressure_angle="20", pin="2 mm", depth="stub", shift="0.5"),
    "pins-above-flank": lambda: wheel(pin="5 mm"),
    "no-instrument": lambda: wheel(pin="0.144 in"),
    "nothing-to-measure-with": lambda: wheel(changed(instrument=[{"kind": "disc micrometer", "range": "0..25 mm"}])),
    "thinning-none": lambda: wheel(thinning=None),
    "thinning-large": lambda: wheel(thinning="0.06 in"),
    "dp-or-module": lambda: wheel(pitch="module 12"),
    "same-hands": lambda: pair(second={"hand": "right"}),
    "pair-differs": lambda: pair(second={"pitch": "mn 2.5"}),
    "centres-too-close": lambda: pair(pair={"centre_distance": "89.2 mm"}),
    "centres-far": lambda: pair(pair={"centre_distance": "91.5 mm"}),
    "transverse-for-normal": lambda: pair(first={"pitch": "mt 2"}, second={"pitch": "mt 2"}),
    "backlash-differs": lambda: pair(pair={**HOUSING, "backlash": "0.05 mm"}),
    "blank-under": lambda: wheel(outside_found="209.40 mm"),
    "blank-over": lambda: wheel(outside_found="209.70 mm"),
    "blank-other-count": lambda: wheel(teeth=113, pitch="16 DP", face="0.625 in", outside_found="7.875 in"),
    "web-thin": lambda: wheel(face="0.25 in"),
    "stack": lambda: wheel(quantity=3),
    "dust": lambda: wheel(material="magnesium"),
    "cutter-wrong-number": lambda: plan(
        order(
            [helical(teeth=97, helix="0", hand="none")],
            changed(cutter=[{"pitch": "module 2", "pressure_angle": "20", "number": "2", "numbering": "module"}]),
            choice={"cutter": "module 2 No. 2"},
        )
    ),
    "cutter-other-angle": lambda: wheel(changed(cutter=[cutter(pressure_angle="20")]), choice={"cutter": "12 DP No. 2"}),
    "cutter-other-pitch": lambda: wheel(changed(cutter=[cutter(pitch="16 DP")]), choice={"cutter": "16 DP No. 2"}),
    "cutter-none": lambda: wheel(changed(cutter=[])),
    "cutter-unknown": lambda: wheel(choice={"cutter": "12 DP No. 7"}),
    "cutter-form-unknown": lambda: wheel(changed(cutter=[cutter()])),
    "cutter-tip": lambda: wheel(changed(cutter=[cutter(made_for=55)])),
    "cutter-heavy": lambda: wheel(changed(cutter=[cutter(number="1", made_for=135)]), choice={"cutter": "12 DP No. 1"}),
    "helical-count": lambda: pinion(),
    "cutter-size-assumed": lambda: wheel(changed(cutter=[])),
    "no-simple": lambda: wheel(),
    "no-way": lambda: wheel(bare_rig(), teeth=953, pitch="module 0.5", face="10 mm"),
    "way-impossible": lambda: wheel(choice={"dividing": "direct"}),
    "inexact": lambda: wheel(changed(link=None, change_gears=None), choice={"dividing": "compound"}),
    "belt-fights": lambda: wheel(),
    "plate-pulses": lambda: wheel(changed(link={"motor_on": "plate drive"}, change_gears=None)),
    "differential-and-lead": lambda: wheel(
        changed(link=None), pitch="mn 2", pressure_angle="20", helix="20", hand="left", choice={"dividing": "differential"}
    ),
    "idlers-unknown": lambda: wheel(changed(link=None, head={"idler_test": "don't know"}), choice={"dividing": "differential"}),
    "head-not-measured": lambda: wheel(changed(map=None)),
    "head-leads": lambda: wheel(),
    "head-alone": lambda: wheel(choice={"dividing": "differential"}),
    "no-helix": lambda: pinion(changed(table={"helix_set_by": "neither"})),
    "helix-way-unknown": lambda: pinion(changed(table={"helix_set_by": "don't know"})),
    "swing-beyond": lambda: pinion(helix="50"),
    "no-lead": lambda: pinion(bare_rig()),
    "lead-gears-coarse": lambda: plan(order([PINION, MATE], changed(link=None), choice={"lead": "change gears"})),
    "lead-short": lambda: wheel(teeth=12, pitch="module 0.5", pressure_angle="20", helix="45", hand="left", face="10 mm"),
    "lead-in-inches": lambda: ask_lead(lead_asked("20.25", diameter=59.6)),
    "lead-below-shortest": lambda: ask_lead(lead_asked("12.7")),
    "lead-beyond-longest": lambda: ask_lead(lead_asked("4000")),
    "plane-taken": lambda: pinion(pitch="16 DP"),
    "face-thin": lambda: wheel(face="3/4"),
    "cutter-too-small": lambda: wheel(changed(cutter=[cutter(outside="1.7 in")])),
    "rapid": lambda: pinion(),
    "motor-too-fast": lambda: pinion(changed(link={"largest_speed": "5 rpm"})),
    "count-coarse": lambda: pinion(changed(link={"count": "5 um"})),
    "screw-lash": lambda: pinion(changed(link={"input": "screw encoder"})),
    "screw-lead-missing": lambda: pinion(changed(table={"screw_lead": "don't know"})),
    "take-up": lambda: pinion(),
    "travel-short": lambda: wheel(face="22 in"),
    "scale-short": lambda: wheel(changed(link={"scale_length": "500 mm"})),
    "head-room": lambda: wheel(changed(head={"centre_height": "4 in"})),
    "tailstock-fouls": lambda: pinion(changed(head={"tailstock_top": "6.8 in"})),
    "knee-short": lambda: wheel(changed(table={"knee_travel": "5 in"})),
    "table-end": lambda: pinion(),
    "no-outer-support": lambda: pinion(changed(table={"helix_set_by": "milling head"})),
    "speed-too-fast": lambda: wheel(changed(spindle={"speeds": [400, 500]})),
    "speeds-unknown": lambda: wheel(bare_rig()),
    "material-unknown": lambda: wheel(material="unobtainium"),
    "strength": lambda: wheel(),
    "limits-of-form": lambda: wheel(),
}


@pytest.mark.parametrize("code", CASES)
def test_finding_is_produced(code: str) -> None:
    made = CASES[code]()
    assert code in codes(made), sorted(codes(made))
    found = next(found for found in made.findings if found.code == code)
    assert found.weight == KINDS[code].weight
    assert found.says
    assert found.do
    assert "{" not in found.says + found.why + found.do


def test_only_what_is_in_doubt_is_asked_after() -> None:
    assert "plane-taken" not in codes(pinion(pitch="16 DP normal")) | codes(pinion(pitch="mn 2")) | codes(
        pinion(pitch="module 2")
    )
    assert "plane-taken" not in codes(pinion(pitch="16 DP transverse"))
    assert "face-thin" not in codes(wheel(face="3/4 in")) | codes(wheel(pitch="64 DP", face="0.75 mm"))
    assert "lead-in-inches" not in codes(pinion(helix="55", face="10 mm"))
    small = cutter(outside="1.7 in")
    assert "cutter-too-small" not in codes(wheel(changed(cutter=[small], spindle={"arbor": "0.5 in", "collar": "1 in"})))
    assert "cutter-too-small" not in codes(wheel(changed(cutter=[small], spindle={"arbor": None, "collar": None})))


def test_what_is_advised_instead_can_be_measured() -> None:
    """Twenty teeth cannot be spanned on the wheel, so the span is no advice for pins that nothing owned reads."""
    told = {found.code: found for found in wheel(spanned=20, pin="0.144 in").findings}
    assert "spanned-outside" in told
    assert "span over 20" not in told["no-instrument"].do if "no-instrument" in told else "nothing-to-measure-with" in told
    assert "span over 8" in {found.code: found for found in wheel(pin="0.144 in").findings}["no-instrument"].do


def test_one_division_is_a_finding_of_the_question() -> None:
    question = Dividing(
        head=bare_rig().head, plates=bare_rig().plates, change_gears=bare_rig().change_gears, pulses_per_turn=None
    )
    assert [found.code for found in ask_divide(Dividing(**{**_fields(question), "divisions": 1})).findings] == ["one-division"]


def test_an_angle_that_cannot_be_made_is_stopped() -> None:
    question = Dividing(head=bare_rig().head, plates=bare_rig().plates, change_gears=None, pulses_per_turn=None)
    answer = ask_divide(Dividing(**{**_fields(question), "divisions": None, "angle": Fraction(1, 100)}))
    assert not answer.methods
    assert [(found.code, found.weight) for found in answer.findings] == [("no-way-angle", "stop")]


def _fields(question: Dividing) -> dict[str, object]:
    return {name: getattr(question, name) for name in Dividing.__slots__}


def test_every_finding_of_the_table_has_its_case() -> None:
    assert set(CASES) | {"one-division", "no-way-angle"} | set(CUT_CASES) | set(INSPECTION_CASES) == set(KINDS)


def test_weights_of_danger() -> None:
    """What puts metal or a person at risk stops a plan; job.md's own stops among them."""
    stops = {code for code, kind in KINDS.items() if kind.weight == "stop"}
    assert {"same-hands", "pins-below-tips", "cutter-wrong-number", "no-helix", "differential-and-lead", "travel-short"} <= stops


def test_the_wheel_of_the_workshop_has_no_stop() -> None:
    assert not wheel(outside_found="209.51 mm").stopped()


def test_a_pair_in_its_housing_has_no_stop() -> None:
    made = pair()
    assert not made.stopped(), [found.says for found in made.findings if found.weight == "stop"]


def test_texts_are_filled_and_end_in_a_full_stop() -> None:
    for code, kind in EVERY_KIND.items():
        for text in (kind.says, kind.why, kind.do):
            assert text.endswith((".", "?", "}")), code
    assert finding("strength").says == "Strength is not checked."
    assert Millimetre(0.0) == 0
