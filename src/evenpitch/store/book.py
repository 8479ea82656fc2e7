"""The book: rigs and their proofs, jobs, released plans, cut records and inspections in one SQLite file that is only ever added to."""

from __future__ import annotations

import sqlite3
import threading
import time
from collections.abc import Iterator, Mapping
from contextlib import closing, contextmanager
from datetime import datetime
from pathlib import Path
from typing import Any

from evenpitch.quantity.refusal import refuse
from evenpitch.store import inspections, intake, proofs, record, shelf
from evenpitch.store.changes import CHANGES, bring_up, check_known
from evenpitch.store.copies import copy_at_start, copy_before_change, copy_out, prove
from evenpitch.store.exported import Exported
from evenpitch.store.kept import Issued, KeptEntry, KeptInspection, KeptJob, KeptProof, KeptRelease, KeptRig
from evenpitch.store.trouble import told
from evenpitch.store.where import copies_folder

WAIT = 10.0
"""Seconds to wait for another process that is writing."""


class Book:
    """One open book. Safe to share between the threads of one process; other processes may have it open too."""

    def __init__(self, path: Path, connection: sqlite3.Connection) -> None:
        self.path = path
        self._connection = connection
        self._lock = threading.RLock()

    @classmethod
    def open(cls, path: Path, now: datetime) -> Book:
        """Open or begin the book at `path`: a copy first, then the changes it has not seen. `now`: UTC, names the copy."""
        with told(path):
            path.parent.mkdir(parents=True, exist_ok=True)
            connection = sqlite3.connect(path, timeout=WAIT, isolation_level=None, check_same_thread=False)
            try:
                edition = check_known(connection, str(path))
                _settle(connection)
                if edition:
                    copy_at_start(connection, copies_folder(path), now)
                if 0 < edition < len(CHANGES):
                    copy_before_change(connection, copies_folder(path), edition, now)
                bring_up(connection)
            except BaseException:
                connection.close()
                raise
        return cls(path, connection)

    def close(self) -> None:
        """Close it; a second time does nothing."""
        with self._lock:
            self._connection.close()

    def __enter__(self) -> Book:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    @contextmanager
    def _writing(self) -> Iterator[sqlite3.Connection]:
        """One transaction: all of it on the disk when the block ends, or nothing."""
        with self._lock, told(self.path):
            self._connection.execute("BEGIN IMMEDIATE")
            try:
                yield self._connection
                self._connection.execute("COMMIT")
            except BaseException:
                if self._connection.in_transaction:
                    self._connection.execute("ROLLBACK")
                raise

    @contextmanager
    def _reading(self) -> Iterator[sqlite3.Connection]:
        with self._lock, told(self.path):
            yield self._connection

    # Rigs and jobs

    def add_rig(self, name: str, text: str, at: datetime) -> KeptRig:
        """Keep a rig; under a name already used it becomes the next version. The same text again changes nothing."""
        with self._writing() as book:
            return shelf.add_rig(book, name, text, at)

    def rigs(self) -> tuple[KeptRig, ...]:
        """The newest version of every rig, by name."""
        with self._reading() as book:
            return shelf.rigs(book)

    def rig(self, name: str, version: int | None = None) -> KeptRig:
        """One rig, the newest version unless one is named."""
        with self._reading() as book:
            return shelf.rig(book, name, version)

    def add_job(self, name: str, title: str, text: str, at: datetime, *, rig: str | None = None) -> KeptJob:
        """Keep a new job; a Refusal where the name is taken."""
        with self._writing() as book:
            return shelf.add_job(book, name, title, text, at, rig)

    def replace_job(self, name: str, title: str, text: str, at: datetime, *, rig: str | None = None) -> KeptJob:
        """Keep a changed job as its next version; the old one stays, and so does what was released from it."""
        with self._writing() as book:
            return shelf.replace_job(book, name, title, text, at, rig)

    def jobs(self) -> tuple[KeptJob, ...]:
        """The newest version of every job, the last changed first."""
        with self._reading() as book:
            return shelf.jobs(book)

    def job(self, name: str, version: int | None = None) -> KeptJob:
        """One job, the newest version unless one is named."""
        with self._reading() as book:
            return shelf.job(book, name, version)

    def job_versions(self, name: str) -> tuple[KeptJob, ...]:
        """Every version of a job, the first first."""
        with self._reading() as book:
            return shelf.job_versions(book, name)

    # Released plans and the cut record

    def add_release(
        self, job: str, plan: Mapping[str, Any], document: str, date: datetime, program: str, *, job_version: int | None = None
    ) -> KeptRelease:
        """Make a plan final under the next number of its job. `plan`: JSON; `document`: its sheet. From then on it never changes.

        `job_version`: the version that was planned; a Refusal where the job was changed since.
        """
        with self._writing() as book:
            return record.add_release(book, job, plan, document, date, program, job_version)

    def releases(self, job: str) -> tuple[KeptRelease, ...]:
        """The plans released for a job, the first first; each held against its digest."""
        with self._reading() as book:
            return record.releases(book, job)

    def issued(self, job: str) -> tuple[Issued, ...]:
        """The plans released for a job without their content, the first first."""
        with self._reading() as book:
            return record.issued(book, job)

    def release(self, job: str, number: int | None = None) -> KeptRelease:
        """One released plan, the last unless one is named."""
        with self._reading() as book:
            return record.release(book, job, number)

    def append_entry(
        self,
        release: int,
        last_seen: int,
        kind: str,
        payload: Mapping[str, Any],
        at: datetime,
        *,
        space: int | None = None,
    ) -> KeptEntry:
        """Write the entry that follows number `last_seen`; it is on the disk when this returns.

        `release`: the key of the released plan. The same press again answers as it was written; another one is stale: Refusal.
        """
        with self._writing() as book:
            return record.append_entry(book, release, last_seen, kind, space, payload, at)

    def entries(self, release: int, after: int = 0) -> tuple[KeptEntry, ...]:
        """The cut record of a released plan, in order; `after`: only what was written after that entry."""
        with self._reading() as book:
            return record.entries(book, release, after)

    # Proofs of a rig

    def add_proof(
        self,
        rig: str,
        kind: str,
        typed: Mapping[str, str],
        facts: Mapping[str, Any],
        document: str,
        at: datetime,
        program: str,
        *,
        rig_version: int | None = None,
        job: str | None = None,
        gear: int | None = None,
    ) -> KeptProof:
        """Keep the next proof of a rig. `rig_version`: the version that was proven; a Refusal where the rig was changed since."""
        with self._writing() as book:
            return proofs.add_proof(
                book, rig, kind, typed, facts, document, at, program, rig_version=rig_version, job=job, gear=gear
            )

    def add_head_proof(
        self,
        rig: str,
        text: str,
        typed: Mapping[str, str],
        facts: Mapping[str, Any],
        document: str,
        at: datetime,
        program: str,
        *,
        rig_version: int,
    ) -> KeptProof:
        """Keep a proof of the head, and with it the rig's next version, whose `text` has the new map; both or neither."""
        with self._writing() as book:
            made = proofs.add_proof(
                book, rig, "head", typed, facts, document, at, program, rig_version=rig_version, job=None, gear=None
            )
            shelf.add_rig(book, rig, text, at)
            return made

    def proofs(self, rig: str) -> tuple[KeptProof, ...]:
        """The proofs of a rig, whatever version, the first first."""
        with self._reading() as book:
            return proofs.proofs(book, rig)

    def proof(self, rig: str, number: int) -> KeptProof:
        """One proof of a rig."""
        with self._reading() as book:
            return proofs.proof(book, rig, number)

    # Inspections

    def add_inspection(
        self,
        job: str,
        gear: int,
        typed: Mapping[str, str],
        facts: Mapping[str, Any],
        document: str,
        at: datetime,
        program: str,
        *,
        plan: int | None = None,
        job_version: int | None = None,
    ) -> KeptInspection:
        """Keep the next inspection of a job. `gear`: from 0; `plan`: the issued plan it was cut to; `job_version`: the one judged."""
        with self._writing() as book:
            return inspections.add_inspection(book, job, gear, plan, typed, facts, document, at, program, job_version)

    def inspections(self, job: str) -> tuple[KeptInspection, ...]:
        """The inspections of a job, the first first."""
        with self._reading() as book:
            return inspections.inspections(book, job)

    def inspection(self, job: str, number: int) -> KeptInspection:
        """One inspection of a job."""
        with self._reading() as book:
            return inspections.inspection(book, job, number)

    # Copies

    def backup(self, out: Path) -> Path:
        """A whole, proved copy of the book."""
        with self._reading() as book:
            return copy_out(book, out)

    def copy_now(self, now: datetime) -> Path | None:
        """A copy among the rotating ones, unless the newest of them holds the same: after a job that was finished."""
        with self._reading() as book:
            return copy_at_start(book, copies_folder(self.path), now)

    def restore(self, file: Path, now: datetime) -> Path | None:
        """Take the content of a copy in place of this book's; what stood here is copied first: that copy's path."""
        if not file.is_file():
            raise refuse("copy", file, "a copy of a book", "No such file.", "Look in the folder that `evenpitch where` names.")
        if file.samefile(self.path):
            raise refuse("copy", file, "a copy, not the book itself", "This is the open book.", "Name one of its copies.")
        prove(file)
        with self._lock, told(self.path):
            # None of the copies goes now: `file` may be the oldest of them.
            saved = copy_at_start(self._connection, copies_folder(self.path), now, keep=10_000)
            with closing(sqlite3.connect(f"{file.absolute().as_uri()}?mode=ro", uri=True)) as copy:
                copy.backup(self._connection)
            _settle(self._connection)
            bring_up(self._connection)
        return saved

    def give(self, job: str, program: str) -> Exported:
        """A job whole, to be exported: every version, its rigs, released plans, cut records and inspections."""
        with self._reading() as book:
            return intake.give(book, job, program)

    def take(self, found: Exported, at: datetime, name: str | None = None) -> KeptJob:
        """Take an exported job in, with its releases and entries as they were; `name`: another name for it."""
        with self._writing() as book:
            return intake.take(book, found, at, name)


def _settle(connection: sqlite3.Connection) -> None:
    """What every connection needs; the change to WAL waits its turn, which SQLite's own waiting does not cover."""
    connection.execute(f"PRAGMA busy_timeout = {int(WAIT * 1000)}")
    connection.execute("PRAGMA foreign_keys = ON")
    connection.execute("PRAGMA synchronous = FULL")
    for again in range(20):
        try:
            if connection.execute("PRAGMA journal_mode = WAL").fetchone()[0] == "wal":
                return
        except sqlite3.OperationalError as trouble:
            if "locked" not in str(trouble) or again == 19:
                raise
        time.sleep(0.05)
