"""The lead question: typed words in, trains out; or the chart of every lead."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Any

from evenpitch.dividing.lead import Helix
from evenpitch.gear.sizes import base_helix, pitch_diameter
from evenpitch.gear.sizes import lead as lead_of
from evenpitch.job.lead_question import LeadQuestion, ask_lead
from evenpitch.job.leading import exact
from evenpitch.quantity.gear_line import read_gear_line
from evenpitch.quantity.read_length import read_length
from evenpitch.quantity.refusal import Refusal, refuse
from evenpitch.quantity.units import INCH, Millimetre
from evenpitch.sheet.answers import answer
from evenpitch.sheet.compose.lead import compose_lead
from evenpitch.store.files.job_file import job_from_fields
from evenpitch.web.answer import Answer
from evenpitch.web.divide_answer import head_question
from evenpitch.web.typed import Collected, Typed, rig_of

USUAL_SCREW = INCH / 4
LONGEST = Fraction(1_000_000)


def lead_question(typed: Typed, *, rig: bytes | None = None, chart: bool = False) -> Answer:
    """The lead question answered."""
    if chart:
        from evenpitch.web.charts import lead_chart

        return lead_chart(typed, rig)
    collected = Collected()
    question = lead_fields(typed, rig, collected)
    collected.settle()
    assert question is not None
    found = ask_lead(question)
    more: dict[str, Any] = {"pairs": [pair.facts() for pair in found.pairs]} if question.mate is not None else {}
    shown = answer(
        "lead",
        (),
        found.findings,
        lead=float(question.lead),
        machine_lead=float(found.machine_lead),
        trains=[train.facts() for train in found.trains],
        **more,
    )
    return Answer(compose_lead(found), shown)


def lead_fields(typed: Typed, rig: bytes | None, collected: Collected) -> LeadQuestion | None:
    """The question as typed; None where faults were collected."""
    owned = rig_of(rig)
    base = head_question(typed, owned, collected)
    usual = exact(owned.table.screw_lead) if owned is not None and owned.table.screw_lead is not None else USUAL_SCREW
    screw = collected.read(typed, "screw-lead", lambda text: _length(text, "screw-lead"), usual)
    mate = collected.read(typed, "pair-with", lambda text: _length(text, "pair-with"), None)
    wanted = collected.read(typed, "lead", lambda text: _length(text, "lead"), None)
    named = collected.read(typed, "helix-of", lambda text: helix_of(text, typed.get("face")), None)
    collected.settle()
    if named is not None and wanted is None:
        wanted = named[0]
    if wanted is None:
        raise refuse(
            "lead",
            "",
            "a lead, or --helix-of a gear",
            "Neither was given.",
            'evenpitch lead 20.25in, or --helix-of "z=28 mn=2 beta=20"',
        )
    return LeadQuestion(
        lead=wanted,
        head=base.head,
        screw_lead=screw,
        change_gears=base.change_gears,
        helix=None if named is None else named[1],
        mate=mate,
        diameter=named[2] if named is not None and "lead" in typed else None,
    )


def _length(text: str, field: str) -> Fraction:
    found = read_length(text, field=field)
    if not 0 < found <= LONGEST:
        raise refuse(
            field, text, "a length above 0 and up to 1 km", "A lead of 0 is no helix.", "Write it with its unit: 20.25 in."
        )
    return found


def helix_of(text: str, face: str | None) -> tuple[Fraction, Helix | None, float]:
    """The lead, mm, of a gear in one line, its helix over the face, and its pitch diameter, mm; the hand does not matter to them."""
    fields = {"pressure_angle": "20", "face": face or "don't know", **read_gear_line(text, field="helix-of")}
    if face is not None:
        fields["face"] = face
    fields.setdefault("hand", "right")
    try:
        gear = job_from_fields({f"gear.0.{key}": value for key, value in fields.items()}).works[0].gear
    except Refusal as refusal:
        from evenpitch.web.gear_answer import bare

        raise Refusal(*(bare(fault) for fault in refusal.faults)) from None
    if not gear.helix:
        raise refuse(
            "helix-of", text, "a helical gear", "Its helix angle is 0: it has no lead.", "Name the helix: z=28 mn=2 beta=20."
        )
    length = lead_of(gear)
    assert math.isfinite(length)
    helix = None if gear.face is None else Helix(face=Millimetre(gear.face), base_helix=base_helix(gear))
    return Fraction(length), helix, float(pitch_diameter(gear))
