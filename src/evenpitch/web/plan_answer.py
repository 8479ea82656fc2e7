"""The plan of a job as an answer: of a file, or of a name in the book; and its being made final."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime
from pathlib import Path
from threading import Lock

from evenpitch import __version__
from evenpitch.job.plan import Plan
from evenpitch.job.proven import with_proofs
from evenpitch.quantity.refusal import Fault, Refusal
from evenpitch.sheet.answers import answer, plain
from evenpitch.sheet.document import Document
from evenpitch.sheet.kept_document import kept as kept_text
from evenpitch.sheet.kept_document import kept_pages
from evenpitch.store.book import Book
from evenpitch.store.files.bounded import read_bounded
from evenpitch.store.files.job_file import read_job
from evenpitch.store.files.rig_file import read_rig
from evenpitch.store.kept import KeptJob, KeptRelease
from evenpitch.web.answer import Answer
from evenpitch.web.opened import Clock, clock, open_book
from evenpitch.web.papers import outline, page_file, pdf, plan_document, sheet_document, trial_document
from evenpitch.web.planned import plan_of, planned
from evenpitch.web.usual_rig import usual_rig


def ask_plan(job: Path | str, rig: bytes | None, trial: bool) -> Answer:
    """The whole plan of a job file, or of a job in the book.

    The rig is the one given, else the one the book holds for this job; a file without one is planned on the usual head.
    """
    made = plan_at(job, rig)
    return plan_answer(made, trial=trial)


def plan_at(job: Path | str, rig: bytes | None) -> Plan:
    """The plan of a job file or of a name in the book, on the rig given or on the one that belongs to it."""
    file = Path(job)
    if file.is_file() or file.suffix == ".toml":
        job_text = read_job(read_bounded(file)).text
        return unproven(planned(job_text, (read_rig(rig) if rig is not None else usual_rig()).text))
    with open_book() as book:
        kept = book.job(str(job))
        return unproven(planned(kept.text, read_rig(rig).text)) if rig is not None else plan_of(book, kept)


def unproven(made: Plan) -> Plan:
    """A plan on a rig that no book knows: nothing was proven of it but its map."""
    return with_proofs(made, (), clock().date())


def plan_answer(made: Plan, *, trial: bool = False) -> Answer:
    """A plan to read, as JSON, and as files. `trial`: the trial piece is what is read and printed."""
    from evenpitch.sheet.compose.plan_json import plan_json

    def document(index: int) -> Document:
        return trial_document(made, index) if trial else plan_document(made, index)

    gears = range(len(made.gears))
    read = together(tuple(document(index) for index in gears))
    on_paper: Callable[[int], Document] = document if trial else lambda index: sheet_document(made, index)
    return Answer(
        read,
        plan_json(made),
        {
            "pdf": lambda: pdf(together(tuple(on_paper(index) for index in gears))),
            "dxf": lambda: outline(made),
            "html": lambda: page_file(read),
        },
    )


def together(documents: tuple[Document, ...]) -> Document:
    """Several documents as one: what follows the first starts on a new page under its own heading."""
    first, *others = documents
    if not others:
        return first
    sections = list(first.sections)
    for number, other in enumerate(others, 2):
        for place, section in enumerate(other.sections):
            heading = f"{other.title}: {section.heading}" if place == 0 and section.heading else section.heading
            sections.append(
                replace(section, key=f"{section.key}-{number}", heading=heading, new_page=place == 0 or section.new_page)
            )
    findings = tuple(dict.fromkeys(found for document in documents for found in document.findings))
    return replace(
        first, findings=findings, sections=tuple(sections), stamp=next((one.stamp for one in documents if one.stamp), "")
    )


def still_stands(book: Book, kept: KeptJob, release: KeptRelease) -> bool:
    """Whether job and rig are as they were when the plan was issued."""
    same_rig = kept.rig is None or book.rig(kept.rig).version == kept.rig_version
    return release.job_version == kept.version and same_rig


_one_at_a_time = Lock()
"""Two presses at once issue one plan."""


def issue(book: Book, name: str, now: Clock = clock) -> KeptRelease:
    """Make the plan of a job final under its next number; a Refusal with every stop that stands.

    Where nothing has changed since the last one was issued, that one is the answer.
    """
    with _one_at_a_time:
        kept, releases = book.job(name), book.releases(name)
        if releases and still_stands(book, kept, releases[-1]):
            return releases[-1]
        return _issue(book, on_its_rig(book, kept, now), len(releases) + 1, now())


def _issue(book: Book, kept: KeptJob, number: int, at: datetime) -> KeptRelease:
    from evenpitch.sheet.compose.plan_json import plan_json

    made = plan_of(book, kept, at.date())
    refuse_stops(made)
    sheets = kept_text(tuple(sheet_document(made, index, (number, at)) for index in range(len(made.gears))))
    return book.add_release(kept.name, plain(plan_json(made)), sheets, at, __version__, job_version=kept.version)


def on_its_rig(book: Book, kept: KeptJob, now: Clock) -> KeptJob:
    """The job on its rig as the rig is now: a rig changed since gives the job its next version."""
    return kept if kept.rig is None else book.replace_job(kept.name, kept.title, kept.text, now(), rig=kept.rig)


def refuse_stops(made: Plan) -> None:
    """A plan with a stop is for reading, not for cutting."""
    stops = [found for found in made.findings if found.weight == "stop"]
    if stops:
        raise Refusal(
            *(
                Fault(f"stop: {found.code}", "", "a plan without a stop", f"{found.says} {found.why}".strip(), found.do)
                for found in stops
            )
        )


def issue_plan(job: str) -> Answer:
    """The command: make the plan of a job in the book final."""
    with open_book() as book:
        kept = issue(book, job)
        made = plan_of(book, book.job(job))
    document = together(kept_pages(kept.document))
    return Answer(
        document,
        answer("release", (), made.findings, job=kept.job, number=kept.number, date=kept.date.isoformat(), digest=kept.digest),
        {"pdf": lambda: pdf(document)},
    )
