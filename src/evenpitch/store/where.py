"""Where the book, its copies and the log stand on disk."""

from __future__ import annotations

import os
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


def log_file(folder: Path | None = None) -> Path:
    """The log of our own faults."""
    return (folder or data_folder()) / "evenpitch.log"
