"""An inspection: a job and a table of readings in, the verdict out, to read, as JSON, and as a record sheet."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from evenpitch.checking.readings import GearReading
from evenpitch.job.judging import Verdict, judge
from evenpitch.job.plan import Plan
from evenpitch.quantity.read_length import read_length
from evenpitch.quantity.read_number import read_whole
from evenpitch.quantity.refusal import refuse
from evenpitch.sheet.answers import answer
from evenpitch.sheet.compose.inspection import compose_inspection
from evenpitch.store.files.readings import read_inspection
from evenpitch.web.answer import Answer
from evenpitch.web.known_beside import known_of
from evenpitch.web.opened import clock, open_book
from evenpitch.web.papers import pdf
from evenpitch.web.plan_answer import plan_at
from evenpitch.web.typed import Collected, Typed


def inspect_answer(
    job: Path | str, readings: bytes, typed: Typed | None = None, *, rig: bytes | None = None, keep: bool = False
) -> Answer:
    """The verdict on a gear of a job. Typed, optional: gear (1 or 2 of a pair), budget ("burr=1 um; tilt=2 um"),
    seen ("marks = 0.9 mm; contact = one end"), log (the CSV of the link, of a helical gear).

    `keep`: of a job in the book, write readings and verdict into the book.
    """
    typed, collected = typed or {}, Collected()
    which = collected.read(typed, "gear", lambda text: read_whole(text, field="gear", least=1, most=2), 1)
    changes = collected.read(typed, "budget", read_budget, ())
    collected.settle()
    made = plan_at(job, rig)
    verdict = judge(made, read_inspection(readings), which - 1, changes, known_of(made, which - 1, typed))
    told = verdict_answer(made, verdict, which - 1)
    return _kept(told, job, made, which - 1, typed, readings, verdict, rig) if keep else told


def _kept(
    told: Answer, job: Path | str, made: Plan, index: int, typed: Typed, readings: bytes, verdict: Verdict, rig: bytes | None
) -> Answer:
    from evenpitch.web.kept_inspections import inspection_json, keep_inspection, record_of

    if rig is not None or Path(job).is_file() or Path(job).suffix == ".toml":
        likely = "Only what was judged on a job and a rig of the book can be kept with them."
        raise refuse("keep", job, "a job in the book, on its own rig", likely, "Import it first: evenpitch import FILE.")
    with open_book() as book:
        words = {**typed, "readings": readings.decode("utf-8-sig")}
        one = keep_inspection(book, str(job), made, index, words, verdict, clock)
    return replace(told, json={**told.json, "inspection": inspection_json(one)}, files={"pdf": lambda: pdf(record_of(one))})


def inspected(made: Plan, readings: Sequence[GearReading], index: int, typed: Typed) -> Verdict:
    """The verdict on readings; `typed`: budget, seen and log, as for `inspect_answer`."""
    return judge(made, readings, index, read_budget(typed.get("budget", "")), known_of(made, index, typed))


def verdict_answer(plan: Plan, verdict: Verdict, index: int) -> Answer:
    """A verdict to read, as JSON, and as its record sheet."""
    from evenpitch.sheet.compose.record_sheet import compose_record_sheet

    facts = verdict.facts()
    figures = tuple(one for one in verdict.gear.limits if one.name in facts["verdict"])
    told = answer("inspect", figures, verdict.findings, title=plan.order.title, teeth=verdict.gear.gear.teeth, **facts)
    document = compose_inspection(plan, verdict, index)
    return Answer(document, told, {"pdf": lambda: pdf(compose_record_sheet(plan, verdict, index))})


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
