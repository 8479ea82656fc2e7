"""An inspection: a job and a table of readings in, the verdict out, to read, as JSON, and as a record sheet."""

from __future__ import annotations

from pathlib import Path

from evenpitch.job.expecting import Expectation, beside
from evenpitch.job.judging import Verdict, judge
from evenpitch.job.plan import Plan
from evenpitch.job.predicting import predict
from evenpitch.quantity.read_length import read_length
from evenpitch.quantity.read_number import read_whole
from evenpitch.quantity.refusal import refuse
from evenpitch.sheet.answers import answer
from evenpitch.sheet.compose.inspection import compose_inspection
from evenpitch.store.files.readings import read_inspection
from evenpitch.web.answer import Answer
from evenpitch.web.papers import pdf
from evenpitch.web.plan_answer import plan_at
from evenpitch.web.typed import Collected, Typed


def inspect_answer(job: Path | str, readings: bytes, typed: Typed | None = None, *, rig: bytes | None = None) -> Answer:
    """The verdict on a gear of a job. Typed, optional: gear (1 or 2 of a pair), budget ("burr=1 um; tilt=2 um")."""
    typed, collected = typed or {}, Collected()
    which = collected.read(typed, "gear", lambda text: read_whole(text, field="gear", least=1, most=2), 1)
    changes = collected.read(typed, "budget", read_budget, ())
    collected.settle()
    made = plan_at(job, rig)
    verdict = judge(made, read_inspection(readings), which - 1, changes)
    return verdict_answer(made, verdict, which - 1)


def verdict_answer(plan: Plan, verdict: Verdict, index: int) -> Answer:
    """A verdict to read, as JSON, and as its record sheet."""
    from evenpitch.sheet.compose.record_sheet import compose_record_sheet

    expectation = expectation_of(plan, verdict, index)
    facts = verdict.facts()
    if expectation is not None:
        facts["expected"] = {row.name: row.facts() for row in expectation.rows}
    figures = tuple(one for one in verdict.gear.limits if one.name in facts["verdict"])
    told = answer("inspect", figures, verdict.findings, title=plan.order.title, teeth=verdict.gear.gear.teeth, **facts)
    document = compose_inspection(plan, verdict, index, expectation)
    return Answer(document, told, {"pdf": lambda: pdf(compose_record_sheet(plan, verdict, index))})


def expectation_of(plan: Plan, verdict: Verdict, index: int) -> Expectation | None:
    """What was expected of the rig; None where nothing was read round the gear. Few draws: a quantile is wanted, no hundredth."""
    if not verdict.deciding():
        return None
    return beside(verdict, predict(plan.order, DRAWS, gear=index, virtual=False, improving=0))


DRAWS = 2000


def read_budget(text: str) -> tuple[tuple[str, float], ...]:
    """The shop's own figures for parts of a budget: "burr = 1 um; tilt = 2 um", mm inside."""
    found = []
    for part in text.split(";"):
        name, equals, value = part.partition("=")
        if not part.strip():
            continue
        if not equals:
            raise refuse(
                "budget", part.strip(), "a part and its limit", "The equals sign is missing.", "Write burr = 1 um; tilt = 2 um."
            )
        limit = float(read_length(value.strip(), field=f"budget, {name.strip()}"))
        if limit < 0:
            raise refuse(
                "budget", part.strip(), "a limit of 0 or more", "A limit has no sign.", "Write half the width of the range."
            )
        found.append((name.strip().casefold(), limit))
    return tuple(found)
