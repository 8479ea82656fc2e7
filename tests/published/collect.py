"""Every printed figure of this folder: what the trust page lists."""

from __future__ import annotations

from importlib import import_module
from pathlib import Path

from published.row import Row


def all_rows() -> tuple[Row, ...]:
    """The rows of each rows_*.py, file by file."""
    files = sorted(Path(__file__).parent.glob("rows_*.py"))
    return tuple(row for file in files for row in import_module(f"published.{file.stem}").rows())
