"""Document: what every paper prints. Printers know these blocks and nothing of gears.

Within any text of a block: **two stars** set bold, [ ] is a box to tick, four underscores or more are a line to write on.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from evenpitch.quantity.figure import Figure
from evenpitch.quantity.finding import Finding
from evenpitch.sheet.drawing import Drawing

Place = Literal["left", "right", "wide", "notes"]
"""left, right: neighbouring sections of these two stand side by side; wide: across both; notes: under the notes on a wide page."""

Paper = Literal["a4", "letter"]
Verdict = Literal["pass", "not proven", "fail"]
"""A verdict is printed as a sign beside the words of its cell, never by colour alone."""


@dataclass(frozen=True, slots=True)
class Words:
    """A paragraph; `strong`: the sentence that must be seen first (framed on paper)."""

    text: str
    strong: bool = False


@dataclass(frozen=True, slots=True)
class Row:
    """One line of a schedule: name at the left, the figure as text in both systems at the right; `figure` for "where from?".

    `flags`: codes of findings that stand beside it.
    """

    name: str
    first: str
    second: str = ""
    figure: Figure | None = None
    flags: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Schedule:
    """Rows with a common head for the two figure columns, e.g. ("mm", "in")."""

    rows: tuple[Row, ...]
    heads: tuple[str, str] = ("", "")


@dataclass(frozen=True, slots=True)
class Choose:
    """A button in a table row: the form field and value that choosing it sends."""

    field: str
    value: str
    words: str = "Choose"


@dataclass(frozen=True, slots=True)
class TableRow:
    """Cells as text; a newline in a cell starts its second, softer line.

    `share`: a bar against a limit of 1: what this row adds (solid) and what all rows share (hatched). `verdict`: (column, sign).
    """

    cells: tuple[str, ...]
    chosen: bool = False
    strong: bool = False
    choose: Choose | None = None
    share: tuple[float, float] | None = None
    verdict: tuple[int, Verdict] | None = None


@dataclass(frozen=True, slots=True)
class Table:
    """A table; `right`: indices of right-aligned columns. `heavy`: a heavy line after every so many rows (0: none).

    `columns`: print the rows side by side in so many columns on paper (run table). `boxes`: a box to tick before each row.
    `share_head`: head of the column of bars, which stands before column `share_before` (-1: last).
    `grid`: upright rules and tall rows, to write in.
    """

    heads: tuple[str, ...]
    rows: tuple[TableRow, ...]
    right: tuple[int, ...] = ()
    heavy: int = 0
    columns: int = 1
    boxes: bool = False
    note: str = ""
    share_head: str = ""
    share_before: int = -1
    grid: bool = False


@dataclass(frozen=True, slots=True)
class Steps:
    """Things to do in order; with boxes to tick, or numbered."""

    items: tuple[str, ...]
    boxes: bool = False


@dataclass(frozen=True, slots=True)
class Notes:
    """Findings in full, where they do not stand in the notes column."""

    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing; `flags`: codes of findings beside it."""

    drawing: Drawing
    flags: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Working:
    """Lines of arithmetic that a person can repeat by hand."""

    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Blanks:
    """Places to write in: (label before the line, how many lines). Single ones share a row; an empty label gives whole lines."""

    labels: tuple[tuple[str, int], ...]


Block = Words | Schedule | Table | Steps | Notes | Picture | Working | Blanks


@dataclass(frozen=True, slots=True)
class Section:
    """A heading and what stands under it. `place`: column on a wide page and on paper. `new_page`: starts a page on paper.

    `key` is its address on the page and, with spaces for hyphens, its name in the line of jumps. `lead`: words that run on
    after the heading. A section with no heading has no rule above it either.
    """

    key: str
    heading: str
    blocks: tuple[Block, ...]
    place: Place = "wide"
    new_page: bool = False
    lead: str = ""


@dataclass(frozen=True, slots=True)
class KeyFigure:
    """One cell of the strip at the top: label, the figure, a second line."""

    label: str
    value: str
    unit: str = ""
    second: str = ""
    flags: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell of the title block."""

    label: str
    value: str
    verdict: Verdict | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Document:
    """One sheet of the drawing office: heading, key strip, notes, sections, title block.

    `stamp`: words that stand across the title block in place of the action ("not for cutting"), or "".
    `lead`: one sentence under the heading. On paper a document of kind "sheet" has its title in the title block only.
    """

    kind: Literal["plan", "sheet", "answer", "chart", "trial", "record", "proof"]
    title: str
    keys: tuple[KeyFigure, ...] = ()
    findings: tuple[Finding, ...] = ()
    sections: tuple[Section, ...] = ()
    cells: tuple[Cell, ...] = ()
    stamp: str = ""
    paper: Paper = "a4"
    sign: str = ""
    """What a hand writes in the last cell of the title block on paper, e.g. "cut by, and when"."""
    dated: str = ""
    lead: str = ""
