"""Inspections that are kept: readings as typed and the verdict as given go into the book, numbered, and come out as they went in."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from evenpitch import __version__
from evenpitch.checking.decision import Says
from evenpitch.job.judging import Verdict
from evenpitch.job.plan import Plan
from evenpitch.sheet.answers import plain
from evenpitch.sheet.compose.inspection import compose_inspection
from evenpitch.sheet.compose.record_sheet import Earlier, compose_record_sheet
from evenpitch.sheet.document import Document
from evenpitch.sheet.kept_document import kept as kept_text
from evenpitch.sheet.kept_document import kept_pages
from evenpitch.store.book import Book
from evenpitch.store.kept import KeptInspection
from evenpitch.web.inspect_answer import verdict_answer
from evenpitch.web.opened import Clock, day

NOT_READINGS = ("press", "job", "rig", "gear", "keep", "pdf")
"""Fields of a form or a command that are no readings."""


def keep_inspection(
    book: Book, job: str, made: Plan, index: int, typed: Mapping[str, str], verdict: Verdict, now: Clock
) -> KeptInspection:
    """Keep one inspection of a gear, from 0; pressed twice it is kept once."""
    kept, at, issued = book.job(job), now(), book.issued(job)
    every = book.inspections(job)
    facts = plain(dict(verdict_answer(made, verdict, index).json))
    page = compose_inspection(made, verdict, index)
    this = Earlier(len(every) + 1, day(at), __version__, verdict.says, verdict.claim)
    rows = (*earlier(of_gear(every, index)), this)
    record = compose_record_sheet(made, verdict, index, dated=day(at), inspections=rows)
    return book.add_inspection(
        job,
        index,
        {name: text for name, text in typed.items() if name not in NOT_READINGS and text.strip()},
        facts,
        kept_text((page, record)),
        at,
        __version__,
        plan=issued[-1].number if issued else None,
        job_version=kept.version,
    )


def of_gear(every: Sequence[KeptInspection], index: int) -> tuple[KeptInspection, ...]:
    """Those of one gear of a pair."""
    return tuple(one for one in every if one.gear == index)


def earlier(every: Sequence[KeptInspection]) -> tuple[Earlier, ...]:
    """As the record sheet and the pages list them."""
    return tuple(_lines(every))


def _lines(every: Sequence[KeptInspection]) -> Iterator[Earlier]:
    for one in every:
        yield Earlier(one.number, day(one.date), one.program, says_of(one), str(one.facts.get("claim", "")))


def says_of(one: KeptInspection) -> Says:
    """The verdict as it was given."""
    told = one.facts.get("overall")
    return "pass" if told == "pass" else "fail" if told == "fail" else "not proven"


def page_of(one: KeptInspection) -> Document:
    """The page of it as it was shown."""
    return kept_pages(one.document)[0]


def record_of(one: KeptInspection) -> Document:
    """Its record sheet."""
    return kept_pages(one.document)[-1]


def line_of(one: KeptInspection) -> str:
    """One inspection in one line: "inspection 2, 12 Mar 2026: fail"."""
    return f"inspection {one.number}, {day(one.date)}: {says_of(one)}"


def inspection_json(one: KeptInspection, *, whole: bool = False) -> dict[str, Any]:
    """An inspection as kept; `whole`: with its readings and its verdict."""
    told: dict[str, Any] = {
        "job": one.job,
        "job_version": one.job_version,
        "number": one.number,
        "gear": one.gear + 1,
        "plan": one.plan,
        "date": one.date.isoformat(),
        "program": one.program,
        "digest": one.digest,
        "overall": says_of(one),
        "claim": one.facts.get("claim"),
    }
    return told | {"typed": dict(one.typed), "answer": dict(one.facts)} if whole else told
