"""How the book grew: a list of named changes, each run once, in one transaction with the note that it ran."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable

from evenpitch.quantity.refusal import refuse

MARK = 0x45564E50
"""Written into the file (SQLite's application_id): "EVNP"."""

_FIRST = (
    """CREATE TABLE rig (
        id INTEGER PRIMARY KEY, name TEXT NOT NULL, version INTEGER NOT NULL, text TEXT NOT NULL, created TEXT NOT NULL,
        UNIQUE (name, version)) STRICT""",
    """CREATE TABLE job (
        id INTEGER PRIMARY KEY, name TEXT NOT NULL, version INTEGER NOT NULL, title TEXT NOT NULL, text TEXT NOT NULL,
        rig INTEGER REFERENCES rig (id), created TEXT NOT NULL, UNIQUE (name, version)) STRICT""",
    """CREATE TABLE release (
        id INTEGER PRIMARY KEY, job INTEGER NOT NULL REFERENCES job (id), job_name TEXT NOT NULL, number INTEGER NOT NULL,
        date TEXT NOT NULL, program TEXT NOT NULL, digest TEXT NOT NULL, plan TEXT NOT NULL, document TEXT NOT NULL,
        UNIQUE (job_name, number)) STRICT""",
    """CREATE TABLE entry (
        release INTEGER NOT NULL REFERENCES release (id), number INTEGER NOT NULL, at TEXT NOT NULL, kind TEXT NOT NULL,
        space INTEGER, payload TEXT NOT NULL, PRIMARY KEY (release, number)) STRICT, WITHOUT ROWID""",
)


def lay_the_tables(book: sqlite3.Connection) -> None:
    """Rigs, jobs, releases, entries; nothing of them is ever changed or taken away."""
    for statement in _FIRST:
        book.execute(statement)
    for table in ("rig", "job", "release", "entry"):
        _only_added_to(book, table)


def _only_added_to(book: sqlite3.Connection, table: str) -> None:
    for verb in ("UPDATE", "DELETE"):
        book.execute(
            f"CREATE TRIGGER {table}_no_{verb.lower()} BEFORE {verb} ON {table} "
            f"BEGIN SELECT RAISE(ABORT, 'the record of {table} is only added to'); END"
        )


def lay_the_proofs(book: sqlite3.Connection) -> None:
    """Proofs of a rig: of its mounting, its scale, its head, its link."""
    book.execute(
        """CREATE TABLE proof (
        id INTEGER PRIMARY KEY, rig INTEGER NOT NULL REFERENCES rig (id), rig_name TEXT NOT NULL, number INTEGER NOT NULL,
        kind TEXT NOT NULL, job_name TEXT, gear INTEGER, date TEXT NOT NULL, program TEXT NOT NULL, digest TEXT NOT NULL,
        typed TEXT NOT NULL, facts TEXT NOT NULL, document TEXT NOT NULL, UNIQUE (rig_name, number)) STRICT"""
    )
    _only_added_to(book, "proof")


def lay_the_inspections(book: sqlite3.Connection) -> None:
    """Inspections of a job: readings as typed, the verdict as given."""
    book.execute(
        """CREATE TABLE inspection (
        id INTEGER PRIMARY KEY, job INTEGER NOT NULL REFERENCES job (id), job_name TEXT NOT NULL, number INTEGER NOT NULL,
        gear INTEGER NOT NULL, plan INTEGER, date TEXT NOT NULL, program TEXT NOT NULL, digest TEXT NOT NULL,
        typed TEXT NOT NULL, facts TEXT NOT NULL, document TEXT NOT NULL, UNIQUE (job_name, number)) STRICT"""
    )
    _only_added_to(book, "inspection")


CHANGES: tuple[Callable[[sqlite3.Connection], None], ...] = (lay_the_tables, lay_the_proofs, lay_the_inspections)


def edition(book: sqlite3.Connection) -> int:
    """How many changes this book has seen."""
    return int(book.execute("PRAGMA user_version").fetchone()[0])


def check_known(book: sqlite3.Connection, name: str) -> int:
    """The edition of a book that this program knows; a Refusal for a newer one or another program's file."""
    found = edition(book)
    mark = int(book.execute("PRAGMA application_id").fetchone()[0])
    tables = book.execute("SELECT count(*) FROM sqlite_schema").fetchone()[0]
    if mark not in (0, MARK) or (mark == 0 and tables):
        raise refuse("book", name, "a book of evenpitch", "This is another program's file.", "Name another folder or file.")
    if found > len(CHANGES):
        likely = "A later evenpitch has written it."
        raise refuse(
            "book", f"edition {found}", f"edition {len(CHANGES)} or older", likely, "Start that later evenpitch instead."
        )
    return found


def bring_up(book: sqlite3.Connection, changes: tuple[Callable[[sqlite3.Connection], None], ...] = CHANGES) -> None:
    """Run the changes that this book has not seen, each in one transaction."""
    while edition(book) < len(changes):
        book.execute("BEGIN IMMEDIATE")
        try:
            seen = edition(book)  # another process may have run it while this one waited
            if seen < len(changes):
                changes[seen](book)
                book.execute(f"PRAGMA application_id = {MARK}")
                book.execute(f"PRAGMA user_version = {seen + 1}")
            book.execute("COMMIT")
        except BaseException:
            book.execute("ROLLBACK")
            raise
