"""Wrapping: paragraphs and columns set to the width of a terminal."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence


def wrapped(text: str, width: int, first: str = "", later: str = "") -> list[str]:
    """The text in lines of at most `width`, the first and later ones after their indents. Figures keep their units beside them."""
    lines: list[str] = []
    for paragraph in text.split("\n"):
        lines += textwrap.wrap(
            paragraph,
            width,
            initial_indent=first if not lines else later,
            subsequent_indent=later,
            break_long_words=False,
            break_on_hyphens=False,
        ) or [first.rstrip()]
    return lines


def columns(rows: Sequence[Sequence[str]], right: Sequence[int], width: int, gap: str = "  ") -> list[list[str]]:
    """Each row as its lines, cells aligned in columns that together fit the width; a newline in a cell starts a new line."""
    count = max((len(row) for row in rows), default=0)
    cells = [[_lines(row[k]) if k < len(row) else [""] for k in range(count)] for row in rows]
    wide = [max((len(line) for row in cells for line in row[k]), default=0) for k in range(count)]
    narrow = _narrowed(wide, width - len(gap) * (count - 1), right)
    return [_set(row, narrow, right, gap) for row in cells]


def _lines(cell: str) -> list[str]:
    return cell.split("\n")


def _narrowed(wide: list[int], room: int, right: Sequence[int]) -> list[int]:
    """Column widths cut down to the room: the widest column of words gives way first, none below 8 letters."""
    narrow = list(wide)
    giving = [k for k in range(len(wide)) if k not in right] or list(range(len(wide)))
    while sum(narrow) > room:
        widest = max(giving, key=lambda k: narrow[k])
        if narrow[widest] <= 8:
            break
        narrow[widest] -= 1
    return narrow


def _set(row: list[list[str]], widths: list[int], right: Sequence[int], gap: str) -> list[str]:
    folded = [
        [part for line in lines for part in (textwrap.wrap(line, max(width, 1), break_on_hyphens=False) or [""])]
        for lines, width in zip(row, widths, strict=True)
    ]
    height = max((len(lines) for lines in folded), default=0)
    return [
        gap.join(
            _aligned(lines[k] if k < len(lines) else "", width, column in right)
            for column, (lines, width) in enumerate(zip(folded, widths, strict=True))
        ).rstrip()
        for k in range(height)
    ]


def _aligned(text: str, width: int, right: bool) -> str:
    return text.rjust(width) if right else text.ljust(width)
