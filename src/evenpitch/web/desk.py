"""What the command line asks of the book: plans, export and import, copies, places. Every answer is a document and one JSON object."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from evenpitch import __version__
from evenpitch.quantity.refusal import Refusal, refuse
from evenpitch.sheet.answers import answer
from evenpitch.sheet.document import Document, Row, Schedule, Section
from evenpitch.store.copies import prove, set_aside
from evenpitch.store.exported import read_exported, write_exported
from evenpitch.store.files.bounded import LARGEST_EXPORT, read_bounded
from evenpitch.store.trouble import is_damage_of_the_book
from evenpitch.store.where import copies_folder
from evenpitch.store.where import places as places_here
from evenpitch.web.answer import Answer
from evenpitch.web.demo import show_demo
from evenpitch.web.opened import clock, open_book
from evenpitch.web.plan_answer import ask_plan, issue_plan
from evenpitch.web.taken_in import take_job_text, take_rig_text

__all__ = ["ask_plan", "back_up", "export_job", "import_file", "issue_plan", "open_book", "places", "put_back", "show_demo"]


def _told(command: str, title: str, rows: tuple[tuple[str, str], ...], **more: Any) -> Answer:
    schedule = Schedule(tuple(Row(name, value) for name, value in rows))
    document = Document(kind="answer", title=title, sections=(Section("done", "", (schedule,)),))
    return Answer(document, answer(command, **more))


def export_job(job: str, out: Path) -> Answer:
    """Write a job, its rigs, issued plans and records as one file; nothing is written over."""
    with open_book() as book:
        content = write_exported(book.give(job, __version__))
    try:
        with out.open("x", encoding="utf-8", newline="\n") as file:
            file.write(content)
    except FileExistsError:
        raise refuse("out", out, "a file name not yet used", "Nothing is written over.", "Give another name.") from None
    except OSError as trouble:
        reason = f"{trouble.strerror or trouble}."
        raise refuse("out", out, "a place that can be written", reason, "Name a folder that exists and is yours.") from None
    return _told(
        "export", f"Job {job} is written", (("file", str(out)), ("bytes", str(len(content.encode())))), job=job, file=str(out)
    )


def import_file(path: Path, name: str | None = None) -> Answer:
    """Take an exported job, a JOB.toml or a RIG.toml into the book, whichever the file is; `name`: another name for a job."""
    content = read_bounded(path, LARGEST_EXPORT)
    with open_book() as book:
        if content.lstrip()[:1] == b"{":
            kept = book.take(read_exported(content), clock(), name)
            return _told(
                "import", f"Job {kept.name} is in the book", (("title", kept.title), ("rig", kept.rig or "none")), job=kept.name
            )
        read_bounded(path)
        if is_rig(content):
            rig = take_rig_text(book, content, clock())
            return _told("import", f"Rig {rig.name} is in the book", (("version", str(rig.version)),), rig=rig.name)
        job = take_job_text(book, content, clock(), name=name or path.stem)
        return _told(
            "import", f"Job {job.name} is in the book", (("title", job.title), ("rig", job.rig or "none yet")), job=job.name
        )


def is_rig(content: bytes) -> bool:
    """A file with a [head] is a rig, whatever else may be wrong with it."""
    from evenpitch.store.files.typed import tables_of

    tables = tables_of(content, "file")
    if "head" in tables or "plate" in tables:
        return True
    if "gear" in tables:
        return False
    raise refuse(
        "file", ", ".join(tables)[:80], "a job with [[gear]], or a rig with [head]", "It has neither.", "Name another file."
    )


def back_up(out: Path) -> Answer:
    """A whole, proved copy of the book."""
    with open_book() as book:
        made = book.backup(out)
    return _told("backup", "The book is copied", (("copy", str(made)),), file=str(made))


def put_back(file: Path) -> Answer:
    """Take the content of a copy in place of the book's; what stood there, were it damaged, is among the copies."""
    try:
        with open_book() as book:
            saved = book.restore(file, clock())
    except Refusal as trouble:
        if not is_damage_of_the_book(trouble):
            raise
        prove(file)
        saved = set_aside(places_here().book, copies_folder(places_here().book), clock())
        with open_book() as book:
            book.restore(file, clock())
    before = str(saved) if saved else "nothing stood in it"
    return _told(
        "restore",
        "The book is as in that copy",
        (("copy", str(file)), ("as it was before", before)),
        file=str(file),
        before=before,
    )


def places() -> Answer:
    """Where the book, its copies and the log are."""
    here = places_here()
    where = {"folder": str(here.folder), "book": str(here.book), "copies": str(here.copies), "log": str(here.log)}
    return _told("where", "Where things are", tuple(where.items()), **where)
