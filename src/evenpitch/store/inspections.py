"""Inspections of a job: readings as they were typed, the verdict as it was given, and the sheet of it; written once, never changed."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Mapping
from datetime import datetime
from typing import Any

from evenpitch.quantity.refusal import refuse
from evenpitch.store import shelf
from evenpitch.store.canonical import canonical, digest_of, holdable, time_of, time_text
from evenpitch.store.kept import KeptInspection

_INSPECTION = (
    "SELECT inspection.job_name, job.version, inspection.number, inspection.gear, inspection.plan, inspection.date, "
    "inspection.program, inspection.digest, inspection.typed, inspection.facts, inspection.document "
    "FROM inspection JOIN job ON job.id = inspection.job WHERE inspection.job_name = ? "
)


def digest_over(typed: Mapping[str, str], facts: Mapping[str, Any]) -> str:
    """What the readings and the verdict are held against."""
    return digest_of([dict(typed), dict(facts)])


def _inspection_of(row: tuple[Any, ...]) -> KeptInspection:
    job, job_version, number, gear, plan, date, program, digest, typed, facts, document = row
    kept = KeptInspection(
        job=job,
        job_version=job_version,
        number=number,
        gear=gear,
        plan=plan,
        date=time_of(date),
        program=program,
        digest=digest,
        typed=json.loads(typed),
        facts=json.loads(facts),
        document=document,
    )
    if digest_over(kept.typed, kept.facts) != digest:
        likely = "The stored inspection was changed outside evenpitch, or the disk is failing."
        raise refuse(
            "inspection", f"inspection {number} of {job}", f"the digest {digest[:12]}", likely, "Restore a copy of the book."
        )
    return kept


def add_inspection(
    book: sqlite3.Connection,
    job: str,
    gear: int,
    plan: int | None,
    typed: Mapping[str, str],
    facts: Mapping[str, Any],
    document: str,
    at: datetime,
    program: str,
    job_version: int | None,
) -> KeptInspection:
    """Write the next inspection of a job. The same readings with the same verdict again, right after: answered as they were written."""
    kept = shelf.job(book, job)
    if job_version not in (None, kept.version):
        likely = "The job was changed after this page was loaded."
        raise refuse(
            "job", f"version {job_version}", f"version {kept.version}", likely, "Judge the readings again, then keep them."
        )
    every = inspections(book, kept.name)
    digest = digest_over(typed, facts)
    if every and (every[-1].gear, every[-1].digest, every[-1].job_version) == (gear, digest, kept.version):
        return every[-1]
    made = KeptInspection(
        job=kept.name,
        job_version=kept.version,
        number=len(every) + 1,
        gear=gear,
        plan=plan,
        date=at,
        program=program,
        digest=digest,
        typed=dict(typed),
        facts=dict(facts),
        document=document,
    )
    insert_inspection(book, kept.name, made)
    return inspection(book, kept.name, made.number)


def insert_inspection(book: sqlite3.Connection, job: str, made: KeptInspection) -> None:
    """Write one inspection under its own number, on the version of the job it was made of."""
    key = book.execute("SELECT id FROM job WHERE name = ? AND version = ?", (job, made.job_version)).fetchone()
    if key is None:
        raise KeyError(f"inspection {made.number}")
    book.execute(
        "INSERT INTO inspection (job, job_name, number, gear, plan, date, program, digest, typed, facts, document) "
        "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        (
            key[0],
            job,
            made.number,
            made.gear,
            made.plan,
            time_text(made.date),
            made.program,
            made.digest,
            canonical(dict(made.typed)),
            canonical(dict(made.facts)),
            made.document,
        ),
    )


def inspections(book: sqlite3.Connection, job: str) -> tuple[KeptInspection, ...]:
    """The inspections of a job, the first first; each held against its digest."""
    return tuple(map(_inspection_of, book.execute(_INSPECTION + "ORDER BY inspection.number", (job,))))


def inspection(book: sqlite3.Connection, job: str, number: int) -> KeptInspection:
    """One inspection of a job."""
    row = book.execute(_INSPECTION + "AND inspection.number = ?", (job, number)).fetchone() if holdable(number) else None
    if row is None:
        shelf.job(book, job)
        likely = f"The job {job} has none of that number."
        raise refuse("inspection", number, "an inspection that was kept", likely, "Look on the job's page to inspect.")
    return _inspection_of(row)
