"""Exported jobs out of the book and into it."""

from __future__ import annotations

import sqlite3
from datetime import datetime

from evenpitch.quantity.refusal import Refusal, refuse
from evenpitch.store import inspections, record, shelf
from evenpitch.store.canonical import time_text
from evenpitch.store.exported import EDITION, Exported
from evenpitch.store.kept import KeptJob, KeptRig


def give(book: sqlite3.Connection, name: str, program: str) -> Exported:
    """A job with every version of it, the rigs it was planned on, its released plans and their cut records, and its inspections."""
    shelf.job(book, name)
    jobs = shelf.job_versions(book, name)
    releases = record.releases(book, name)
    used = dict.fromkeys((job.rig, job.rig_version) for job in jobs if job.rig is not None)
    return Exported(
        edition=EDITION,
        program=program,
        jobs=jobs,
        rigs=tuple(shelf.rig(book, str(rig), version) for rig, version in used),
        releases=releases,
        entries=tuple((release.number, entry) for release in releases for entry in record.entries(book, release.key)),
        inspections=inspections.inspections(book, name),
    )


def take(book: sqlite3.Connection, found: Exported, at: datetime, name: str | None) -> KeptJob:
    """Write an exported job into the book, its plans and records as they were; `at`: when a rig new here came."""
    if found.read_only:
        likely = "It was made with a later edition: it opens read-only."
        raise refuse(
            "exported job", f"edition {found.edition}", f"edition {EDITION}", likely, "Take it in with that later evenpitch."
        )
    name = shelf.named(name if name is not None else found.jobs[0].name, "job")
    if shelf.job_versions(book, name):
        raise refuse(
            "job name", name, "a name not yet used", "The book has a job of this name.", "Take it in under another name: --name."
        )
    try:
        _write(book, found, at, name)
    except (KeyError, sqlite3.IntegrityError) as trouble:
        raise _askew(str(trouble)) from trouble
    return shelf.job(book, name)


def _askew(what: str) -> Refusal:
    likely = "It speaks of a rig, a version or a plan that it does not hold, or of one twice."
    return refuse("exported job", what, "plans, versions and records that fit together", likely, "Export it again.")


def _write(book: sqlite3.Connection, found: Exported, at: datetime, name: str) -> None:
    taken = {rig.name for rig in shelf.rigs(book)}
    rigs = {(rig.name, rig.version): _place(book, rig, at, taken) for rig in found.rigs}
    for job in found.jobs:
        on = rigs[job.rig, job.rig_version or 0] if job.rig is not None else None
        place = (on.name, on.version) if on else (None, None)
        shelf.insert_job(book, name, job.version, job.title, job.text, job.created, *place)
    versions = {job.version for job in found.jobs}
    keys: dict[int, int] = {}
    for kept in found.releases:
        if kept.job_version not in versions:
            raise _askew(f"plan {kept.number}")
        keys[kept.number] = record.insert_release(
            book, name, kept.job_version, kept.number, kept.plan, kept.document, kept.date, kept.program
        )
    for number, entry in found.entries:
        record.insert_entry(book, keys[number], entry)
    for number, key in keys.items():
        if [entry.number for entry in record.entries(book, key)] != list(range(1, len(found.entries_of(number)) + 1)):
            raise _askew(f"the record of plan {number}")
    if [one.number for one in found.inspections] != list(range(1, len(found.inspections) + 1)):
        raise _askew("the inspections")
    for one in found.inspections:
        if one.plan is not None and one.plan not in keys:
            raise _askew(f"inspection {one.number}")
        inspections.insert_inspection(book, name, one)


def _place(book: sqlite3.Connection, rig: KeptRig, at: datetime, taken: set[str]) -> KeptRig:
    """The same rig where the book has it; else under its name with the date behind, so that no rig of one's own changes."""
    if (same := _same(book, rig.name, rig.text)) is not None:
        return same
    name = f"{rig.name[:50]} (taken in {time_text(at)[:10]})" if rig.name in taken else rig.name
    return shelf.add_rig(book, name, rig.text, at if rig.name in taken else rig.created)


def _same(book: sqlite3.Connection, name: str, text: str) -> KeptRig | None:
    row = book.execute("SELECT version FROM rig WHERE name = ? AND text = ?", (name, text)).fetchone()
    return shelf.rig(book, name, row[0]) if row else None
