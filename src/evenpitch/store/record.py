"""Released plans and the cut record: each press is one entry, written once, never changed."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Mapping
from datetime import datetime
from typing import Any

from evenpitch.quantity.refusal import refuse
from evenpitch.store import shelf
from evenpitch.store.canonical import canonical, digest_of, time_of, time_text
from evenpitch.store.kept import Issued, KeptEntry, KeptRelease

_RELEASE = (
    "SELECT release.id, job_name, job.version, number, date, program, digest, plan, document "
    "FROM release JOIN job ON job.id = release.job WHERE job_name = ? ORDER BY number"
)
_ENTRY = "SELECT number, at, kind, space, payload FROM entry WHERE release = ?"


def _release_of(row: tuple[Any, ...]) -> KeptRelease:
    key, job, job_version, number, date, program, digest, text, document = row
    plan = json.loads(text)
    if digest_of(plan) != digest:
        likely = "The stored plan was changed outside evenpitch, or the disk is failing."
        raise refuse("plan", f"plan {number} of {job}", f"the digest {digest[:12]}", likely, "Restore a copy of the book.")
    return KeptRelease(
        key=key,
        job=job,
        job_version=job_version,
        number=number,
        date=time_of(date),
        program=program,
        digest=digest,
        plan=plan,
        document=document,
    )


def _entry_of(row: tuple[Any, ...]) -> KeptEntry:
    return KeptEntry(number=row[0], at=time_of(row[1]), kind=row[2], space=row[3], payload=json.loads(row[4]))


def releases(book: sqlite3.Connection, job: str) -> tuple[KeptRelease, ...]:
    """The plans released for a job, the first first; each held against its digest."""
    return tuple(map(_release_of, book.execute(_RELEASE, (job,))))


def release(book: sqlite3.Connection, job: str, number: int | None = None) -> KeptRelease:
    """One released plan, the last unless one is named."""
    found = [kept for kept in releases(book, job) if number in (None, kept.number)]
    if not found:
        shelf.job(book, job)
        what = "No plan of this job has been issued." if number is None else f"Job {job} has no plan {number}."
        raise refuse("plan", "" if number is None else number, "a plan that was issued", what, "Issue the plan first.")
    return found[-1]


def issued(book: sqlite3.Connection, job: str) -> tuple[Issued, ...]:
    """The plans released for a job by number, date and digest alone: what a press at the machine needs to know, read at once."""
    found = book.execute(
        "SELECT release.id, number, job.version, date, digest FROM release JOIN job ON job.id = release.job "
        "WHERE job_name = ? ORDER BY number",
        (job,),
    )
    return tuple(
        Issued(key=key, number=number, job_version=version, date=time_of(date), digest=digest)
        for key, number, version, date, digest in found
    )


def add_release(
    book: sqlite3.Connection,
    job: str,
    plan: Mapping[str, Any],
    document: str,
    date: datetime,
    program: str,
    job_version: int | None,
) -> KeptRelease:
    """Make a plan final under the next number of its job."""
    kept = shelf.job(book, job)
    if job_version not in (None, kept.version):
        likely = f"The job was changed on {kept.created:%Y-%m-%d %H:%M} UTC, after this plan was made."
        raise refuse(
            "plan", f"job version {job_version}", f"version {kept.version}", likely, "Look at the new plan, then issue that."
        )
    number = (book.execute("SELECT max(number) FROM release WHERE job_name = ?", (job,)).fetchone()[0] or 0) + 1
    insert_release(book, kept.name, kept.version, number, plan, document, date, program)
    return release(book, job, number)


def insert_release(
    book: sqlite3.Connection,
    job: str,
    job_version: int,
    number: int,
    plan: Mapping[str, Any],
    document: str,
    date: datetime,
    program: str,
) -> int:
    """Write one released plan; its key."""
    key = book.execute("SELECT id FROM job WHERE name = ? AND version = ?", (job, job_version)).fetchone()[0]
    written = book.execute(
        "INSERT INTO release (job, job_name, number, date, program, digest, plan, document) VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
        (key, job, number, time_text(date), program, digest_of(plan), canonical(plan), document),
    )
    assert written.lastrowid is not None
    return written.lastrowid


def entries(book: sqlite3.Connection, release: int, after: int = 0) -> tuple[KeptEntry, ...]:
    """The cut record of a released plan, in order; `after`: only what was written after that entry."""
    return tuple(map(_entry_of, book.execute(_ENTRY + " AND number > ? ORDER BY number", (release, after))))


def append_entry(
    book: sqlite3.Connection,
    release: int,
    last_seen: int,
    kind: str,
    space: int | None,
    payload: Mapping[str, Any],
    at: datetime,
) -> KeptEntry:
    """Write the entry after `last_seen`, or answer again as it was written, or refuse a stale press."""
    text = canonical(payload)
    last = book.execute("SELECT max(number) FROM entry WHERE release = ?", (release,)).fetchone()[0] or 0
    if last == last_seen:
        insert_entry(book, release, KeptEntry(number=last + 1, at=at, kind=kind, space=space, payload=payload))
        return _read(book, release, last + 1)
    if 0 <= last_seen < last:
        written = _read(book, release, last_seen + 1)
        if (written.kind, written.space, canonical(written.payload)) == (kind, space, text):
            return written
    raise _stale(book, release, last_seen, last)


def insert_entry(book: sqlite3.Connection, release: int, entry: KeptEntry) -> None:
    """Write one entry under its own number."""
    book.execute(
        "INSERT INTO entry (release, number, at, kind, space, payload) VALUES (?, ?, ?, ?, ?, ?)",
        (release, entry.number, time_text(entry.at), entry.kind, entry.space, canonical(entry.payload)),
    )


def _read(book: sqlite3.Connection, release: int, number: int) -> KeptEntry:
    return _entry_of(book.execute(_ENTRY + " AND number = ?", (release, number)).fetchone())


def _stale(book: sqlite3.Connection, release: int, last_seen: int, last: int) -> Exception:
    expected = f"entry {last} as the last one seen"
    if last_seen > last or last_seen < 0:
        likely = "The record is shorter than this page: an older copy was restored."
        return refuse("last entry seen", last_seen, expected, likely, "Load the page again and count the spaces.")
    entry = _read(book, release, last)
    about = f", space {entry.space}" if entry.space is not None else ""
    likely = f"Since then entry {last} was written at {entry.at:%H:%M:%S} UTC: {entry.kind}{about}."
    return refuse("last entry seen", last_seen, expected, likely, "Load the page again; nothing was written by this press.")
