"""The worked example: the museum workshop in the book, its change wheel planned, printed and put on paper."""

from __future__ import annotations

from collections.abc import Callable

from evenpitch.sheet.print_text import text
from evenpitch.store.book import Book
from evenpitch.store.files.job_file import read_job
from evenpitch.store.files.rig_file import read_rig
from evenpitch.store.museum import JOBS, RIGS, museum_text
from evenpitch.web.opened import Clock, clock
from evenpitch.web.papers import pdf, plan_document, sheet_document
from evenpitch.web.planned import plan_of
from evenpitch.web.taken_in import keep_rig

FIRST = "A"
"""The job that is shown: the 97-tooth change wheel."""


def set_up_museum(book: Book, now: Clock = clock) -> tuple[str, ...]:
    """The workshop's rigs, and those of its jobs that are not there yet: their letters. What one has changed stays as it is."""
    known = {kept.name for kept in book.rigs()}
    files = [read_rig(museum_text(name)) for name in RIGS]
    for file in files:
        if file.rig.name not in known:
            keep_rig(book, file, now())
    have = {kept.name: kept.title for kept in book.jobs()}
    letters = []
    for letter, name in reversed(JOBS.items()):
        job = read_job(museum_text(name))
        if job.title in have.values():
            letters.append(next(at for at, title in have.items() if title == job.title))
            continue
        at = letter if letter not in have else f"museum {letter}"
        letters.append(book.add_job(at, job.title, job.text, now(), rig=files[0].rig.name).name)
    return tuple(reversed(letters))


def show_demo(book: Book, say: Callable[[str], None]) -> None:
    """Set the workshop up once, say the plan of its change wheel, write its sheet beside the book and say where."""
    letters = dict(zip(JOBS, set_up_museum(book), strict=True))
    kept = book.job(letters[FIRST])
    made = plan_of(book, kept)
    say(text(plan_document(made)))
    folder = book.path.parent / "sheets"
    folder.mkdir(parents=True, exist_ok=True)
    sheet = folder / f"{kept.name} {kept.title}.pdf".replace("/", "-")
    sheet.write_bytes(pdf(sheet_document(made)))
    say(f"\nThe sheet for the wall is written: {sheet}")
