"""What the disk or SQLite says, told as a refusal."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from evenpitch.quantity.refusal import Refusal, refuse

_REASONS = (
    (
        "readonly",
        "The disk or the file can only be read.",
        "Give the folder write permission, or set EVENPITCH_HOME to another one.",
    ),
    ("full", "The disk is full.", "Free some space, then do it again."),
    ("locked", "Another evenpitch holds the book.", "Wait a moment, or close the other one, then do it again."),
    (
        "unable to open",
        "The folder cannot be written or the file is not there.",
        "Check the folder, or set EVENPITCH_HOME to another one.",
    ),
    ("not a database", "The file is damaged or is no book.", "Restore a copy: evenpitch restore FILE."),
    ("malformed", "The file is damaged.", "Restore a copy: evenpitch restore FILE."),
    ("disk i/o", "The disk does not answer as it should.", "Check the disk, then do it again."),
)


def _told(where: Path, message: str) -> Refusal:
    for word, likely, do in _REASONS:
        if word in message.lower():
            return refuse("book", where, "a book that can be written (nothing was written)", likely, do)
    return refuse(
        "book", where, "a book that can be written (nothing was written)", f"{message}.", "Check the disk and the file."
    )


@contextmanager
def told(where: Path) -> Iterator[None]:
    """Turn trouble with the disk into a Refusal; our own mistakes in a statement stay exceptions."""
    try:
        yield
    except (sqlite3.IntegrityError, sqlite3.ProgrammingError, sqlite3.InterfaceError):
        raise
    except sqlite3.OperationalError as trouble:
        if "syntax" in str(trouble) or "no such" in str(trouble):
            raise
        raise _told(where, str(trouble)) from trouble
    except sqlite3.DatabaseError as trouble:
        raise _told(where, str(trouble)) from trouble
    except OSError as trouble:
        raise _told(where, "disk full" if trouble.errno == 28 else f"{trouble.strerror or trouble}") from trouble
