"""What the disk or SQLite says, told as a refusal."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from evenpitch.quantity.refusal import Refusal, refuse

DAMAGED = "Restore a copy: evenpitch restore FILE."
"""What helps the book itself; a copy that is damaged is another matter."""

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
    ("not a database", "The file is damaged or is no book.", DAMAGED),
    ("malformed", "The file is damaged.", DAMAGED),
    ("disk i/o", "The disk does not answer as it should.", "Check the disk, then do it again."),
)


def _told(where: Path, message: str, *, copy: bool) -> Refusal:
    field, expected = ("copy", "a whole copy of a book") if copy else ("book", "a book that can be written (nothing was written)")
    for word, likely, do in _REASONS:
        if word in message.lower():
            take_another = "Take another copy; evenpitch where says where they are. Your book is as it was."
            return refuse(field, where, expected, likely, take_another if copy and do == DAMAGED else do)
    return refuse(field, where, expected, f"{message}.", "Check the disk and the file.")


def is_damage_of_the_book(trouble: Refusal) -> bool:
    """Whether the book cannot be read, and a copy put in its place is what helps."""
    return trouble.faults[0].do == DAMAGED


@contextmanager
def told(where: Path, *, copy: bool = False) -> Iterator[None]:
    """Turn trouble with the disk into a Refusal; our own mistakes in a statement stay exceptions. `copy`: a copy is read, not the book."""
    try:
        yield
    except (sqlite3.IntegrityError, sqlite3.ProgrammingError, sqlite3.InterfaceError):
        raise
    except sqlite3.OperationalError as trouble:
        if "syntax" in str(trouble) or "no such" in str(trouble):
            raise
        raise _told(where, str(trouble), copy=copy) from trouble
    except sqlite3.DatabaseError as trouble:
        raise _told(where, str(trouble), copy=copy) from trouble
    except OSError as trouble:
        raise _told(where, "disk full" if trouble.errno == 28 else f"{trouble.strerror or trouble}", copy=copy) from trouble
