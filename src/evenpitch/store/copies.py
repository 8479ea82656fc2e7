"""Copies of the book: made whole, proved, and only then given their name."""

from __future__ import annotations

import os
import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

from evenpitch.quantity.refusal import refuse
from evenpitch.store.canonical import digest_of
from evenpitch.store.changes import check_known
from evenpitch.store.trouble import told

KEPT = 10
"""How many copies made at start are kept."""


_TABLES = (
    ("rig", "created"),
    ("job", "created"),
    ("release", "date"),
    ("entry", "at"),
    ("proof", "date"),
    ("inspection", "date"),
)
"""Each with the column of its times."""


def content_of(book: sqlite3.Connection) -> str:
    """A short mark of what stands in the book: how much is in each table, and a digest of the last times written."""
    tables = {row[0] for row in book.execute("SELECT name FROM sqlite_schema WHERE type = 'table'")}
    counts, last = [], []
    for table, time in _TABLES:
        row = book.execute(f"SELECT count(*), max({time}) FROM {table}").fetchone() if table in tables else (0, None)
        counts.append(row[0])
        last.append(row[1])
    return "-".join(map(str, counts)) + "-" + digest_of(last)[:8] if any(counts) else ""


def prove(file: Path) -> None:
    """Read a copy from end to end. A Refusal where it is damaged, newer than the program, or no book."""
    with told(file, copy=True), closing(sqlite3.connect(f"{file.absolute().as_uri()}?mode=ro", uri=True)) as copy:
        if not check_known(copy, str(file)):
            raise refuse("copy", file, "a copy of a book", "Nothing was ever written in it.", "Take another copy.")
        answer = copy.execute("PRAGMA integrity_check").fetchone()[0]
        if answer != "ok" or copy.execute("PRAGMA foreign_key_check").fetchone():
            raise refuse("copy", file, "a whole book", f"SQLite says: {answer}.", "Take another copy.")


def copy_out(book: sqlite3.Connection, out: Path) -> Path:
    """Write the whole book to `out`, which must not exist; proved before it bears that name."""
    if out.exists():
        raise refuse("copy", out, "a file name not yet used", "Nothing is written over.", "Give another name.")
    beside = out.with_name(out.name + f".{os.getpid()}.part")
    with told(out):
        try:
            with closing(sqlite3.connect(beside)) as copy:
                book.backup(copy)
                copy.execute("PRAGMA journal_mode = DELETE")
            prove(beside)
            with open(beside, "rb+") as written:
                os.fsync(written.fileno())
            os.replace(beside, out)
        finally:
            beside.unlink(missing_ok=True)
    return out


def copy_before_change(book: sqlite3.Connection, folder: Path, edition: int, now: datetime) -> Path:
    """The book as an older edition left it. Another process may be half way through the same change: the folder need not be there."""
    with told(folder):
        folder.mkdir(parents=True, exist_ok=True)
    return copy_out(book, folder / f"edition-{edition}-{now.astimezone(UTC):%Y%m%dT%H%M%S%fZ}.sqlite")


def set_aside(path: Path, folder: Path, now: datetime) -> Path:
    """Move a damaged book, with what SQLite keeps beside it, among the copies as it is: something may yet be read from it."""
    with told(folder):
        folder.mkdir(parents=True, exist_ok=True)
        aside = folder / f"damaged-{now.astimezone(UTC):%Y%m%dT%H%M%S%fZ}.sqlite"
        for end in ("-wal", "-shm", ""):
            beside = path.with_name(path.name + end)
            if beside.exists():
                os.replace(beside, aside.with_name(aside.name + end))
    return aside


def copy_at_start(book: sqlite3.Connection, folder: Path, now: datetime, keep: int = KEPT) -> Path | None:
    """A rotating copy, unless the newest one holds the same; the oldest beyond `keep` go. None: the book is still empty."""
    content = content_of(book)
    if not content:
        return None
    made = sorted(folder.glob("book-*.sqlite"))
    if made and made[-1].name.endswith(f"Z-{content}.sqlite"):
        return made[-1]
    with told(folder):
        folder.mkdir(parents=True, exist_ok=True)
        stamp = now.astimezone(UTC).strftime("%Y%m%dT%H%M%S%fZ")
        out = copy_out(book, folder / f"book-{stamp}-{content}.sqlite")
        for old in sorted(folder.glob("book-*.sqlite"))[:-keep]:
            old.unlink(missing_ok=True)
    return out
