"""Document -> what the paper template is filled with: plain mappings and lists, fit for JSON. Nothing is pasted into the template."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import groupby
from typing import Any, assert_never

from evenpitch.sheet.document import (
    Blanks,
    Block,
    Document,
    KeyFigure,
    Notes,
    Paper,
    Picture,
    Row,
    Schedule,
    Section,
    Steps,
    Table,
    TableRow,
    Words,
    Working,
)
from evenpitch.sheet.drawing import Drawing
from evenpitch.sheet.flags import Flag, beside, flagged
from evenpitch.sheet.print_svg import paper_width, svg
from evenpitch.sheet.runs import runs, unmarked

PAPERS: dict[Paper, str] = {"a4": "a4", "letter": "us-letter"}
COLUMN: dict[Paper, float] = {"a4": 85.0, "letter": 88.0}
"""Printed width of one of two columns, mm."""

ROWS_DOWN: dict[Paper, int] = {"a4": 38, "letter": 34}
"""Rows 6 mm high that stand one under the other on a page beside its title block."""

CLOSER = 1.25
"""So many more rows stand on a page where none has a box to tick."""

LEAST_TEXT = 10.2 * 25.4 / 72
"""Smallest lettering of a picture on paper, mm: 10 pt and a little."""

SMALLER = 0.85
"""What a picture shrinks to where its page would not hold it otherwise."""

TYPED = 24
"""Figures of a schedule up to so many letters are set in the typed face; longer ones are words, and set as words."""

NARROW = 12
"""A column no cell of which is longer than this many letters keeps to its own width."""

WIDEST = 40
"""Letters beyond which a column of words asks for no more room."""

TALL = 1.3
"""Height of a row with a second line, in rows of one line."""

Data = dict[str, Any]


def paper_data(document: Document) -> Data:
    """All that the template needs."""
    sheet = _Sheet(document)
    return {
        "title": unmarked(document.title),
        "heading": spoken(document.title),
        "headed": document.kind != "sheet",
        "lead": spoken(document.lead),
        "paper": PAPERS[document.paper],
        "keys": [sheet.key(key) for key in document.keys],
        "flags": [_flag_in_full(flag) for flag in sheet.flags],
        "groups": sheet.groups(),
        "cells": [{"label": cell.label, "value": unmarked(cell.value), "verdict": cell.verdict} for cell in document.cells],
        "stamp": document.stamp,
        "sign": document.sign,
    }


def spoken(text: str) -> list[dict[str, str]]:
    """A text as its runs; lines parted by breaks."""
    pieces: list[dict[str, str]] = []
    for number, line in enumerate(text.split("\n") if text else []):
        if number:
            pieces.append({"kind": "break", "text": ""})
        pieces += [{"kind": run.kind, "text": run.text} for run in runs(line)]
    return pieces


class _Sheet:
    """One document being laid out on its paper."""

    def __init__(self, document: Document) -> None:
        self.document, self.paper = document, document.paper
        self.flags = flagged(document.findings)

    def groups(self) -> list[Data]:
        """Neighbouring sections of left and right as one pair; the others each for themselves, across the page."""
        found: list[Data] = []
        for paired, several in groupby(self.document.sections, lambda section: section.place in ("left", "right")):
            if paired:
                found += [self.pair(group) for group in _split_at_new_pages(tuple(several))]
            else:
                found += [self.alone(section) for section in several]
        return found

    def pair(self, group: tuple[Section, ...]) -> Data:
        return {
            "pair": True,
            "new_page": group[0].new_page,
            "left": [self.section(one) for one in group if one.place == "left"],
            "right": [self.section(one) for one in group if one.place == "right"],
        }

    def alone(self, section: Section) -> Data:
        return {"pair": False, "new_page": section.new_page, "section": self.section(section)}

    def section(self, section: Section) -> Data:
        wide = section.place in ("wide", "notes")
        return {
            "heading": spoken(section.heading),
            "lead": spoken(section.lead),
            "wide": wide,
            "new_page": section.new_page,
            "pencil": _pencil_lines(section),
            "blocks": [self.block(block, wide) for block in section.blocks],
        }

    def block(self, block: Block, wide: bool) -> Data:
        match block:
            case Words():
                return {"kind": "words", "text": spoken(block.text), "strong": block.strong}
            case Schedule():
                return self.schedule(block, wide)
            case Table():
                return self.table(block)
            case Steps():
                return {"kind": "steps", "items": [spoken(item) for item in block.items], "boxes": block.boxes}
            case Notes():
                return {"kind": "notes", "flags": [_flag_in_full(flag) for flag in self.own(block)]}
            case Picture():
                return self.picture(block)
            case Working():
                return {"kind": "working", "lines": list(block.lines)}
            case Blanks():
                labels = [{"label": spoken(label), "lines": lines} for label, lines in block.labels]
                return {"kind": "blanks", "labels": labels}
            case _:
                assert_never(block)

    def own(self, block: Notes) -> tuple[Flag, ...]:
        known = tuple(flag for flag in self.flags if flag.finding in block.findings)
        return known if len(known) == len(block.findings) else flagged(block.findings)

    def schedule(self, schedule: Schedule, wide: bool) -> Data:
        room = COLUMN[self.paper] * (2 if wide else 1)
        return {
            "kind": "schedule",
            "headed": any(schedule.heads),
            "heads": list(schedule.heads),
            "width": max([_figures_width(row, room) for row in schedule.rows], default=0),
            "rows": [self.row(row) for row in schedule.rows],
        }

    def row(self, row: Row) -> Data:
        typed = _typed(row)
        first, second = (_unbroken(text) if typed else text for text in (row.first, row.second))
        return {
            "name": spoken(row.name),
            "first": spoken(first),
            "second": spoken(second),
            "typed": typed,
            "flags": _shapes(beside(self.flags, row.flags, row.figure)),
        }

    def key(self, key: KeyFigure) -> Data:
        return {
            "label": key.label,
            "value": key.value,
            "unit": key.unit,
            "second": spoken(key.second),
            "flags": _shapes(beside(self.flags, key.flags)),
        }

    def picture(self, picture: Picture) -> Data:
        """Drawn twice: as large as its column, and smaller for a page that is nearly full; the lettering keeps 10 pt in both."""
        drawing = picture.drawing
        width = COLUMN[self.paper] * min(drawing.width / drawing.pen / 360, 1)
        return {
            "kind": "picture",
            "alone": bool(drawing.true),
            "full": _true(drawing) if drawing.true else _drawn(drawing, width),
            "small": _true(drawing) if drawing.true else _drawn(drawing, width * SMALLER),
            "alt": f"{drawing.title}. {drawing.says}",
            "caption": spoken(drawing.caption),
            "flags": _shapes(beside(self.flags, picture.flags)),
        }

    def table(self, table: Table) -> Data:
        columns = _columns(table)
        rows = [_cells(row, columns, table.boxes) for row in table.rows]
        return {
            "kind": "table",
            "heads": [spoken(column.head) for column in columns],
            "right": [place for place, column in enumerate(columns) if column.right],
            "narrow": [column.narrow for column in columns],
            "weights": [column.weight for column in columns],
            "widths": [_typed_width(table, column) for column in columns[:-1]] + [0],
            "heavy": table.heavy,
            "columns": table.columns,
            "boxes": table.boxes,
            "grid": table.grid,
            "chunks": self.chunks(table, rows),
            "note": spoken(table.note),
        }

    def chunks(self, table: Table, rows: list[Data]) -> list[list[Data]]:
        """Rows of a table with boxes page by page, in equal parts, so that none is cut off; other tables break by themselves."""
        if not table.boxes and table.columns == 1:
            return [rows]
        lines = sum(TALL if any("\n" in cell for cell in row.cells) else 1 for row in table.rows)
        down = ROWS_DOWN[self.paper] * (1 if table.boxes else CLOSER)
        pages = max(1, math.ceil(lines / (down * table.columns)))
        size = max(1, math.ceil(len(rows) / pages))
        return [rows[place : place + size] for place in range(0, len(rows), size)]


def _drawn(drawing: Drawing, width: float) -> Data:
    return {"width": width, "svg": svg(drawing, ink="paper", least_text=LEAST_TEXT * drawing.width / width)}


def _true(drawing: Drawing) -> Data:
    """At its own scale: where lettering asks for more room at the sides the picture is so much wider, not smaller."""
    least = LEAST_TEXT * drawing.width / drawing.true
    return {
        "width": drawing.true * paper_width(drawing, least) / drawing.width,
        "svg": svg(drawing, ink="paper", least_text=least),
    }


def _pencil_lines(section: Section) -> int:
    """How many whole lines a section across the page is, if it is nothing else: room for pencil where the paper leaves it."""
    if section.place not in ("wide", "notes") or not section.blocks:
        return 0
    labels = [label for block in section.blocks for label in (block.labels if isinstance(block, Blanks) else (("other", 1),))]
    return 0 if any(words for words, _ in labels) else sum(lines for _, lines in labels)


def _split_at_new_pages(sections: tuple[Section, ...]) -> list[tuple[Section, ...]]:
    groups: list[list[Section]] = [[]]
    for section in sections:
        if section.new_page and groups[-1]:
            groups.append([])
        groups[-1].append(section)
    return [tuple(group) for group in groups]


@dataclass(frozen=True, slots=True)
class _Column:
    """A column as printed. `weight`: its share of what the narrow ones leave.

    `cell`: which cell of a row stands in it; None for the column of bars.
    """

    head: str
    right: bool
    narrow: bool
    weight: int
    cell: int | None


def _columns(table: Table) -> list[_Column]:
    count = max([len(table.heads), *(len(row.cells) for row in table.rows)])
    heads = [*table.heads, *[""] * (count - len(table.heads))]
    columns = [_column(table, head, k) for k, head in enumerate(heads)]
    if any(row.share for row in table.rows):
        columns.insert(table.share_before if table.share_before >= 0 else count, _Column(table.share_head, False, True, 1, None))
    return columns


def _column(table: Table, head: str, place: int) -> _Column:
    cells = [row.cells[place] for row in table.rows if place < len(row.cells)]
    longest = max((len(line) for cell in cells for line in unmarked(cell).split("\n")), default=0)
    right = place in table.right
    return _Column(head, right, longest <= NARROW or right, min(max(longest, NARROW), WIDEST), place)


def _typed_width(table: Table, column: _Column) -> float:
    """Width of a column of figures beside boxes, mm: its longest figure or its head; words among the figures have to wrap."""
    texts = [row.cells[column.cell] for row in table.rows if column.cell is not None and column.cell < len(row.cells)]
    figures = [_close(unmarked(text).split("\n")[0]) for text in texts if not _wordy(text)]
    return round(max([*(len(text) * 2.125 for text in figures), len(unmarked(column.head)) * 1.65]) + 1.2, 2)


def _cells(row: TableRow, columns: list[_Column], boxes: bool) -> Data:
    return {"chosen": row.chosen, "cells": [_cell(row, column, boxes) for column in columns]}


def _cell(row: TableRow, column: _Column, boxes: bool) -> Data:
    if column.cell is None:
        return {"text": [], "under": [], "typed": False, "verdict": None, "share": list(row.share) if row.share else None}
    text = row.cells[column.cell] if column.cell < len(row.cells) else ""
    if row.strong and "**" not in text:
        text = "\n".join(f"**{line}**" if line else "" for line in text.split("\n"))
    typed = not _wordy(text) if boxes else column.right
    signed = row.verdict[1] if row.verdict and row.verdict[0] == column.cell else None
    first, _, under = text.partition("\n") if boxes and typed else (text, "", "")
    shown = spoken(_close(first) if boxes and typed else first)
    return {"text": shown, "under": spoken(_unbroken(under)), "typed": typed, "verdict": signed, "share": None}


def _wordy(text: str) -> bool:
    return any(letter.isalpha() for letter in text)


def _close(text: str) -> str:
    """A figure on one line, an angle without its spaces."""
    return _unbroken(text.replace("° ", "°").replace("′ ", "′"))


def _unbroken(text: str) -> str:
    return text.replace(" ", "\N{NO-BREAK SPACE}")


def _typed(row: Row) -> bool:
    return len(unmarked(row.first)) + len(unmarked(row.second)) <= TYPED


def _figures_width(row: Row, room: float) -> float:
    """Room for the figures of a row that has no heads over it, mm: all that a figure needs, but of words no more than half."""
    letters = len(unmarked(row.first)) + len(unmarked(row.second)) + 2 * bool(row.second)
    return letters * 2.13 + 3 if _typed(row) else min(letters * 1.9 + 3, room * 0.56)


def _shapes(flags: tuple[Flag, ...]) -> list[Data]:
    return [{"number": flag.number, "weight": flag.weight} for flag in flags]


def _flag_in_full(flag: Flag) -> Data:
    finding = flag.finding
    return {
        "number": flag.number,
        "weight": flag.weight,
        "says": spoken(finding.says),
        "why": spoken(finding.why),
        "do": unmarked(finding.do),
    }
