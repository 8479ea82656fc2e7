"""Runs: the little marks within a text (bold, a box to tick, a line to write on) taken apart once for every printer."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

RunKind = Literal["plain", "bold", "box", "line"]

_MARK = re.compile(r"\*\*(.+?)\*\*|(\[ \])|(_{4,})")


@dataclass(frozen=True, slots=True)
class Run:
    """A piece of text of one kind. `text` of a box or a line is the mark as typed."""

    kind: RunKind
    text: str


def runs(text: str) -> tuple[Run, ...]:
    """The pieces of a text, in order; empty pieces are left out."""
    found: list[Run] = []
    place = 0
    for mark in _MARK.finditer(text):
        found.append(Run("plain", text[place : mark.start()]))
        found.append(_marked(mark))
        place = mark.end()
    found.append(Run("plain", text[place:]))
    return tuple(run for run in found if run.text)


def _marked(mark: re.Match[str]) -> Run:
    bold, box, line = mark.groups()
    if box:
        return Run("box", box)
    if line:
        return Run("line", line)
    return Run("bold", bold)


def unmarked(text: str) -> str:
    """The text without the stars of bold: for a terminal, a title, an accessible name."""
    return "".join(run.text for run in runs(text))
