"""Rigs and jobs in the book: each change a new version, nothing written over."""

from __future__ import annotations

import sqlite3
from datetime import datetime
from difflib import get_close_matches
from typing import Any

from evenpitch.quantity.refusal import Refusal, refuse
from evenpitch.store.canonical import time_of, time_text
from evenpitch.store.kept import KeptJob, KeptRig

_NEWEST = "version = (SELECT max(version) FROM {0} AS later WHERE later.name = {0}.name)"
_RIG = "SELECT name, version, text, created FROM rig WHERE "
_JOB = (
    "SELECT job.name, job.version, job.title, job.text, rig.name, rig.version, job.created "
    "FROM job LEFT JOIN rig ON rig.id = job.rig WHERE "
)


def named(name: str, kind: str) -> str:
    """A name fit for the book: not empty, one line, at most 80 characters."""
    name = " ".join(name.split())
    if not 1 <= len(name) <= 80 or not name.isprintable():
        raise refuse(f"{kind} name", name, "1 to 80 characters", "It is how you find it again.", "Give it a short name.")
    return name


def not_there(kind: str, name: str, known: list[str]) -> Refusal:
    """The Refusal for a name that the book does not hold, with the nearest ones it does."""
    near = get_close_matches(name, known, n=3, cutoff=0.5) or known[:5]
    likely = f"The book has: {', '.join(near)}." if near else f"There is no {kind} in the book yet."
    return refuse(kind, name, f"a {kind} in the book", likely, "Write the name as it stands there, or name a file.")


def _rig_of(row: tuple[Any, ...]) -> KeptRig:
    return KeptRig(name=row[0], version=row[1], text=row[2], created=time_of(row[3]))


def _job_of(row: tuple[Any, ...]) -> KeptJob:
    return KeptJob(
        name=row[0], version=row[1], title=row[2], text=row[3], rig=row[4], rig_version=row[5], created=time_of(row[6])
    )


def rigs(book: sqlite3.Connection) -> tuple[KeptRig, ...]:
    """The newest version of every rig, by name."""
    return tuple(map(_rig_of, book.execute(_RIG + _NEWEST.format("rig") + " ORDER BY name")))


def rig(book: sqlite3.Connection, name: str, version: int | None = None) -> KeptRig:
    """One rig, the newest version unless one is named."""
    which = "version = :version" if version else _NEWEST.format("rig")
    row = book.execute(_RIG + "name = :name AND " + which, {"name": name, "version": version}).fetchone()
    if row is None:
        raise not_there("rig", name, [kept.name for kept in rigs(book)])
    return _rig_of(row)


def add_rig(book: sqlite3.Connection, name: str, text: str, at: datetime) -> KeptRig:
    """Keep a rig; the next version where the name is used, the same one where the text is the same."""
    name = named(name, "rig")
    last = book.execute("SELECT version, text FROM rig WHERE name = ? ORDER BY version DESC LIMIT 1", (name,)).fetchone()
    if last is None or last[1] != text:
        version = last[0] + 1 if last else 1
        book.execute("INSERT INTO rig (name, version, text, created) VALUES (?, ?, ?, ?)", (name, version, text, time_text(at)))
    return rig(book, name)


def jobs(book: sqlite3.Connection) -> tuple[KeptJob, ...]:
    """The newest version of every job, the last changed first."""
    return tuple(
        map(
            _job_of, book.execute(_JOB + _NEWEST.format("job").replace("version =", "job.version =", 1) + " ORDER BY job.id DESC")
        )
    )


def job(book: sqlite3.Connection, name: str, version: int | None = None) -> KeptJob:
    """One job, the newest version unless one is named."""
    found = [kept for kept in job_versions(book, name) if version in (None, kept.version)]
    if not found:
        raise not_there("job", name, [kept.name for kept in jobs(book)])
    return found[-1]


def job_versions(book: sqlite3.Connection, name: str) -> tuple[KeptJob, ...]:
    """Every version of a job, the first first."""
    return tuple(map(_job_of, book.execute(_JOB + "job.name = ? ORDER BY job.version", (name,))))


def add_job(book: sqlite3.Connection, name: str, title: str, text: str, at: datetime, rig: str | None) -> KeptJob:
    """Keep a new job; a Refusal where the name is taken."""
    name = named(name, "job")
    if job_versions(book, name):
        raise refuse(
            "job name", name, "a name not yet used", "The book has a job of this name.", "Give another name, or change that job."
        )
    return insert_job(book, name, 1, title, text, at, rig)


def replace_job(book: sqlite3.Connection, name: str, title: str, text: str, at: datetime, rig: str | None) -> KeptJob:
    """Keep a changed job as its next version; the same one where nothing changed."""
    last = job(book, name)
    if (last.title, last.text, last.rig) == (title, text, rig) and (rig is None or last.rig_version == _version(book, rig)):
        return last
    return insert_job(book, name, last.version + 1, title, text, at, rig)


def _version(book: sqlite3.Connection, name: str) -> int:
    return rig(book, name).version


def insert_job(
    book: sqlite3.Connection,
    name: str,
    version: int,
    title: str,
    text: str,
    at: datetime,
    on: str | None,
    on_version: int | None = None,
) -> KeptJob:
    """Write one version of a job, on a version of a rig that the book holds."""
    key = None
    if on is not None:
        kept = rig(book, on, on_version)
        key = book.execute("SELECT id FROM rig WHERE name = ? AND version = ?", (kept.name, kept.version)).fetchone()[0]
    book.execute(
        "INSERT INTO job (name, version, title, text, rig, created) VALUES (?, ?, ?, ?, ?, ?)",
        (name, version, title, text, key, time_text(at)),
    )
    return job(book, name)
