"""Files taken into the book: a rig under its own name, a job under a short one."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from itertools import count

from evenpitch.quantity.refusal import refuse
from evenpitch.store.book import Book
from evenpitch.store.files.job_file import JobFile, read_job
from evenpitch.store.files.rig_file import RigFile, read_rig
from evenpitch.store.kept import KeptJob, KeptRig

NOT_A_NAME = "new"
"""The address of the form; a rig of this name could not be reached."""


def keep_rig(book: Book, file: RigFile, at: datetime) -> KeptRig:
    """A rig under its own name; the next version of the one that bears it."""
    if file.rig.name.casefold() == NOT_A_NAME:
        raise refuse(
            "name", file.rig.name, "a name that tells it from others", "It is the word of the form itself.", "Name the machine."
        )
    return book.add_rig(file.rig.name, file.text, at)


def take_rig_text(book: Book, content: bytes, at: datetime) -> KeptRig:
    """RIG.toml into the book."""
    return keep_rig(book, read_rig(content), at)


def keep_job(book: Book, file: JobFile, at: datetime, *, rig: str | None, name: str | None = None) -> KeptJob:
    """A new job under `name`, or under the next free letter."""
    return book.add_job(name or next_letter(book), file.title, file.text, at, rig=rig)


def take_job_text(book: Book, content: bytes, at: datetime, *, name: str | None = None, rig: str | None = None) -> KeptJob:
    """JOB.toml into the book, on the rig named or else on the only rig there is."""
    rigs = [kept.name for kept in book.rigs()]
    on = rig if rig is not None else rigs[0] if len(rigs) == 1 else None
    return keep_job(book, read_job(content), at, rig=on, name=name)


def next_letter(book: Book) -> str:
    """A, B, ... Z, A2, B2, ...: the first that no job bears."""
    used = {kept.name for kept in book.jobs()}
    return next(letter for letter in _letters() if letter not in used)


def _letters() -> Iterator[str]:
    letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
    yield from letters
    for number in count(2):
        yield from (f"{letter}{number}" for letter in letters)
