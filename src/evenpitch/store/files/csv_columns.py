"""A table of readings as CSV: header line, units in the header, every fault named by its line; lengths become mm, angles radian."""

from __future__ import annotations

import csv
import io
import math
from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Literal

from evenpitch.quantity.refusal import Fault, Refusal

Kind = Literal["word", "whole", "length", "angle", "time", "temperature", "number"]
Cell = str | int | float | None

MOST_ROWS = 20_000
"""Lines of readings typed or logged by hand; a log may have more."""
MOST_FAULTS = 12
"""Faults told at once; the rest are counted."""

UNITS: dict[Kind, dict[str, float]] = {
    "length": {"mm": 1.0, "um": 0.001, "in": 25.4, "thou": 0.0254},
    "angle": {"deg": math.pi / 180, "arcmin": math.pi / 10_800, "arcsec": math.pi / 648_000, "rad": 1.0, "mrad": 0.001},
    "time": {"s": 1.0, "ms": 0.001},
    "temperature": {"c": 1.0},
}
"""What may stand behind a column's name, and its size in the unit kept inside."""


@dataclass(frozen=True, slots=True)
class Column:
    """One column. `name`: without its unit; `needed`: the column must be there; `filled`: so must each of its cells.

    `among`: the words allowed, any where empty; `wanted` and `do`: what is expected of them, and what they mean.
    """

    name: str
    kind: Kind
    needed: bool = True
    filled: bool = True
    usual: str = ""
    among: frozenset[str] = frozenset()
    wanted: str = ""
    do: str = ""

    def head(self) -> str:
        """The name as it is usually written, with its unit."""
        return f"{self.name}_{self.usual}" if self.usual else self.name


@dataclass(frozen=True, slots=True)
class Row:
    """One line: its number in the file, and its cells by the plain names of the columns."""

    line: int
    cells: Mapping[str, Cell]

    def number(self, name: str) -> float | None:
        """A number, or None where the cell is empty or the column absent."""
        value = self.cells.get(name)
        return float(value) if isinstance(value, (int, float)) else None

    def word(self, name: str) -> str:
        """A word, or ""."""
        value = self.cells.get(name)
        return value if isinstance(value, str) else ""


@dataclass(frozen=True, slots=True)
class _Head:
    """Where a column stands, and what one of its unit is."""

    column: Column
    factor: float


def read_rows(content: str | bytes, columns: tuple[Column, ...], what: str, most: int = MOST_ROWS) -> tuple[Row, ...]:
    """The rows of a table, or a Refusal with its faults. Columns are parted by commas, or by semicolons (then 0,5 is a number too)."""
    text = _text(content, what)
    lines = [
        (number, line)
        for number, line in enumerate(io.StringIO(text, newline=None), 1)
        if line.strip() and not line.lstrip().startswith("#")
    ]
    if not lines:
        raise Refusal(Fault(what, "", usual_head(columns), "The file is empty.", "Write the header line, then the readings."))
    mark = ";" if ";" in lines[0][1] else "\t" if "\t" in lines[0][1] else ","
    heads = _heads(_split(lines[0][1], mark), columns, what)
    if len(lines) == 1:
        raise Refusal(Fault(what, "a header line only", "readings below it", "There are no readings.", "Write them, one a line."))
    if len(lines) - 1 > most:
        given = f"{len(lines) - 1} lines"
        raise Refusal(
            Fault(what, given, f"at most {most} lines", "So many say no more than some of them.", "Keep every tenth, or one run.")
        )
    faults: list[Fault] = []
    rows = [_row(number, _split(line, mark), heads, mark, faults) for number, line in lines[1:]]
    if faults:
        raise Refusal(*_told(faults, what))
    return tuple(rows)


def usual_head(columns: tuple[Column, ...]) -> str:
    """The header line as it is usually written; what may be left out in brackets."""
    return "".join(
        f"{',' if place and column.needed else ''}{column.head() if column.needed else f'[,{column.head()}]'}"
        for place, column in enumerate(columns)
    )


def _told(faults: list[Fault], what: str) -> list[Fault]:
    if len(faults) <= MOST_FAULTS:
        return faults
    more = Fault(
        what, f"{len(faults) - MOST_FAULTS} more lines", "lines like the first good ones", "The same again.", "Mend these first."
    )
    return [*faults[:MOST_FAULTS], more]


def _text(content: str | bytes, what: str) -> str:
    if isinstance(content, str):
        return content.removeprefix("\ufeff")
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise Refusal(Fault(what, "", "text in UTF-8", "It is not plain text.", "Save it as CSV, UTF-8.")) from None
    return text


def _split(line: str, mark: str) -> list[str]:
    try:
        return [cell.strip() for cell in next(csv.reader([line.strip("\r\n")], delimiter=mark))]
    except csv.Error as trouble:
        given = f"{line[:40]} …" if len(line) > 40 else line
        raise Refusal(
            Fault("table", given, "cells of one line, parted by one mark", f"{trouble}.", "Save it as CSV again.")
        ) from None


def _heads(names: list[str], columns: tuple[Column, ...], what: str) -> list[_Head | None]:
    found: list[_Head | None] = []
    faults: list[Fault] = []
    for name in names:
        try:
            found.append(_head(name, columns))
        except Refusal as refusal:
            faults += refusal.faults
            found.append(None)
    there = [head.column.name for head in found if head is not None]
    faults += [
        Fault(
            f"{what}, header",
            column.head(),
            f"the column {column.head()}",
            "It is missing.",
            f"Write the header: {usual_head(columns)}",
        )
        for column in columns
        if column.needed and column.name not in there
    ]
    twice = sorted({name for name in there if there.count(name) > 1})
    faults += [Fault(f"{what}, header", name, "each column once", "It stands there twice.", "Keep one.") for name in twice]
    if faults and len(faults) >= len(columns) and any(_is_number(name) for name in names):
        first = Fault(
            f"{what}, header", ",".join(names)[:80], usual_head(columns), "The header line is missing.", "Write it first."
        )
        raise Refusal(first)
    if faults:
        raise Refusal(*faults)
    return found


def _is_number(text: str) -> bool:
    try:
        float(text)
    except ValueError:
        return False
    return True


def _head(name: str, columns: tuple[Column, ...]) -> _Head:
    plain = name.strip().casefold().replace(" ", "_").replace("µ", "u").replace("μ", "u")
    for column in columns:
        units = UNITS.get(column.kind)
        if units is None and plain == column.name:
            return _Head(column, 1.0)
        if units is not None and plain.startswith(f"{column.name}_") and plain.removeprefix(f"{column.name}_") in units:
            return _Head(column, units[plain.removeprefix(f"{column.name}_")])
    named = next(
        (column for column in columns if column.kind in UNITS and plain.split("_")[0] == column.name.split("_")[0]), None
    )
    if named is not None:
        known = ", ".join(f"{named.name}_{unit}" for unit in UNITS[named.kind])
        raise Refusal(
            Fault("header", name, known, "Its unit is not said, or not known.", f"Write {named.head()} for the usual unit.")
        )
    near = get_close_matches(plain, [column.head() for column in columns], n=1, cutoff=0.6)
    do = f"{near[0]} meant? Write that." if near else f"Write the header: {usual_head(columns)}"
    raise Refusal(Fault("header", name, "a column of this table", "The name is not known here.", do))


def _row(line: int, cells: list[str], heads: list[_Head | None], mark: str, faults: list[Fault]) -> Row:
    if len(cells) != len(heads):
        faults.append(_count_fault(line, cells, len(heads), mark))
        return Row(line, {})
    found: dict[str, Cell] = {}
    for text, head in zip(cells, heads, strict=True):
        if head is None:
            continue
        try:
            found[head.column.name] = _cell(text, head, mark)
        except ValueError as trouble:
            faults.append(_cell_fault(line, head.column, text, str(trouble)))
    return Row(line, found)


def _count_fault(line: int, cells: list[str], wanted: int, mark: str) -> Fault:
    given = f"{len(cells)} cells"
    if len(cells) > wanted and mark == ",":
        do = "Write decimals with a point, or part the columns by semicolons."
        return Fault(
            f"line {line}", mark.join(cells)[:80], f"{wanted} cells", "There are decimal commas in it, or a cell too many.", do
        )
    return Fault(
        f"line {line}",
        given,
        f"{wanted} cells, as in the header",
        "A cell is missing or one too many.",
        "Leave a cell empty rather than out.",
    )


def _cell(text: str, head: _Head, mark: str) -> Cell:
    kind = head.column.kind
    if not text:
        if head.column.filled:
            raise ValueError("It is missing." if head.column.among else "Nothing was given.")
        return None
    if kind == "word":
        return _word(text, head.column)
    value = _value(text, mark)
    if kind == "whole":
        if value != int(value):
            raise ValueError("It is no whole number.")
        return int(value)
    return value * head.factor


def _word(text: str, column: Column) -> str:
    word = " ".join(text.casefold().split())
    if column.among and word not in column.among:
        raise ValueError("A word not known here.")
    return word


def _value(text: str, mark: str) -> float:
    plain = text.replace("\u2212", "-").replace("\u202f", "").replace("\u00a0", "").replace(" ", "")
    if mark != "," and "." not in plain:
        plain = plain.replace(",", ".")
    try:
        value = float(plain)
    except ValueError:
        comma = "," in plain
        raise ValueError("It has a decimal comma." if comma else "It is not a number.") from None
    if not math.isfinite(value):
        raise ValueError("It is not a number.")
    return value


def _cell_fault(line: int, column: Column, text: str, likely: str) -> Fault:
    expected = {"word": "a word", "whole": "a whole number"}.get(
        column.kind, f"a number, in the unit of the header ({column.head()})"
    )
    expected, do = column.wanted or expected, column.do or _mending(text, likely)
    return Fault(f"line {line}, {column.name}", text, expected, likely, do)


def _mending(text: str, likely: str) -> str:
    return (
        "Write decimals with a point."
        if "comma" in likely
        else "Read it again, or leave the line out."
        if text
        else "Fill it in."
    )
