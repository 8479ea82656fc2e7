"""Where the book, its copies and the log stand on disk."""

from __future__ import annotations

import os
from dataclasses import dataclass
from pathlib import Path

import platformdirs

HOME = "EVENPITCH_HOME"
"""Environment variable that names another data folder."""


def data_folder() -> Path:
    """The folder of the book: the one that EVENPITCH_HOME names, else the usual one of this machine."""
    named = os.environ.get(HOME, "").strip()
    return Path(named).expanduser().absolute() if named else Path(platformdirs.user_data_path("evenpitch", appauthor=False))


def book_file(folder: Path | None = None) -> Path:
    """The book itself."""
    return (folder or data_folder()) / "book.sqlite"


def copies_folder(book: Path) -> Path:
    """The folder of the copies made at start, beside the book."""
    return book.parent / "copies"


@dataclass(frozen=True, slots=True)
class Places:
    """Where things are: the data folder, the book in it, its copies, and the folder of the log."""

    folder: Path
    book: Path
    copies: Path
    log: Path


def places() -> Places:
    """Where things are on this machine."""
    folder = data_folder()
    book = book_file(folder)
    return Places(folder, book, copies_folder(book), folder / "log")
