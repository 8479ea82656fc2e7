"""Document -> plain text for a terminal: read by someone holding a crank, so the figures come first and everything lines up."""

from __future__ import annotations

from typing import assert_never

from evenpitch.sheet.document import (
    Blanks,
    Block,
    Document,
    KeyFigure,
    Notes,
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
from evenpitch.sheet.flags import Flag, beside, flagged
from evenpitch.sheet.runs import unmarked
from evenpitch.sheet.wrapping import columns, wrapped

WIDTH = 88
BAR = 12

_SIGNS = {"pass": "+ ", "not proven": "~ ", "fail": "x "}


def text(document: Document, width: int = WIDTH) -> str:
    """The whole document, sections in order, ending in one newline."""
    flags = flagged(document.findings)
    parts = [
        _heading(document, width),
        _keys(document.keys, flags, width),
        [line for flag in flags for line in _finding(flag, width)],
        *(_section(section, flags, width) for section in document.sections),
        _title_block(document, width),
    ]
    return "\n\n".join("\n".join(part) for part in parts if part) + "\n"


def block_text(block: Block, flags: tuple[Flag, ...] = (), width: int = WIDTH) -> list[str]:
    """One block as lines."""
    match block:
        case Words():
            return wrapped(unmarked(block.text), width)
        case Schedule():
            return _schedule(block, flags, width)
        case Table():
            return _table(block, width)
        case Steps():
            return [line for mark, item in _marked(block) for line in _hanging(mark, item, width)]
        case Notes():
            return [line for flag in _own(block, flags) for line in _finding(flag, width)]
        case Picture():
            return _picture(block, flags, width)
        case Working():
            return [f"    {line}" for line in block.lines]
        case Blanks():
            return _blanks(block, width)
        case _:
            assert_never(block)


def _heading(document: Document, width: int) -> list[str]:
    lines = wrapped(unmarked(document.title), width)
    lines.append("=" * max(map(len, lines)))
    if document.stamp:
        lines.append(f"** {document.stamp} **")
    return lines + (wrapped(unmarked(document.lead), width) if document.lead else [])


def _keys(keys: tuple[KeyFigure, ...], flags: tuple[Flag, ...], width: int) -> list[str]:
    rows = [
        (key.label, " ".join(filter(None, (key.value, key.unit))), key.second + _numbers(beside(flags, key.flags)))
        for key in keys
    ]
    return _flat(columns(rows, (), width))


def _finding(flag: Flag, width: int) -> list[str]:
    """What, why, do: one under the other behind the number and the weight."""
    finding = flag.finding
    mark = f"[{flag.number}] {finding.weight}: "
    later = " " * 4
    lines = wrapped(unmarked(finding.says), width, mark, later)
    if finding.why:
        lines += wrapped(unmarked(finding.why), width, later, later)
    if finding.do:
        lines += wrapped(unmarked(finding.do), width, f"{later}do: ", later + "    ")
    return lines


def _section(section: Section, flags: tuple[Flag, ...], width: int) -> list[str]:
    lines: list[str] = []
    if section.heading:
        lines += [section.heading, "-" * len(section.heading)]
    if section.lead:
        lines += wrapped(unmarked(section.lead), width)
    for block in section.blocks:
        printed = block_text(block, flags, width)
        if lines and printed and not (len(lines) == 2 and section.heading):
            lines.append("")
        lines += printed
    return lines


def _schedule(schedule: Schedule, flags: tuple[Flag, ...], width: int) -> list[str]:
    rows = [("", *schedule.heads)] if any(schedule.heads) else []
    rows += [_row(row, flags) for row in schedule.rows]
    one = not any(schedule.heads)
    return _flat(columns(rows, () if one else (1, 2), width, gap="   "))


def _row(row: Row, flags: tuple[Flag, ...]) -> tuple[str, str, str]:
    return row.name + _numbers(beside(flags, row.flags, row.figure)), unmarked(row.first), unmarked(row.second)


def _table(table: Table, width: int) -> list[str]:
    bars = any(row.share for row in table.rows)
    heads = [*table.heads, *([table.share_head] if bars else [])]
    rows = [_cells(table, row, bars) for row in table.rows]
    lead = "[ ] " if table.boxes else ""
    stiff = (*table.right, len(table.heads)) if bars else table.right
    laid = columns([heads, *rows] if any(heads) else rows, stiff, width - len(lead))
    lines = _ruled(laid, lead, table) if any(heads) else _bodies(laid, lead, table)
    return lines + (wrapped(unmarked(table.note), width) if table.note else [])


def _ruled(laid: list[list[str]], lead: str, table: Table) -> list[str]:
    blank = " " * len(lead)
    head, *body = laid
    lines = [(blank + line).rstrip() for line in head]
    bodies = _bodies(body, lead, table)
    return [*lines, "-" * max(map(len, [*lines, *bodies])), *bodies]


def _bodies(laid: list[list[str]], lead: str, table: Table) -> list[str]:
    blank = " " * len(lead)
    lines: list[str] = []
    for number, row in enumerate(laid, 1):
        lines += [(lead if k == 0 else blank) + line for k, line in enumerate(row)]
        if table.heavy and number % table.heavy == 0 and number < len(laid):
            lines.append("")
    return lines


def _cells(table: Table, row: TableRow, bars: bool) -> list[str]:
    cells = [unmarked(cell) for cell in row.cells]
    if row.verdict:
        column, verdict = row.verdict
        cells[column] = _SIGNS[verdict] + cells[column]
    if row.chosen:
        cells[0] += "\n(chosen)"
    cells += [""] * (len(table.heads) - len(cells))
    if bars:
        cells.append(_bar(row.share) if row.share else "")
    return cells


def _bar(share: tuple[float, float]) -> str:
    """A bar against its limit: what is shared by all as slashes, what this row adds as hashes, the limit as an upright."""
    own, shared = share
    slashes = round(shared * BAR)
    hashes = round((shared + own) * BAR) - slashes
    return ("/" * slashes + "#" * hashes)[:BAR].ljust(BAR, ".") + (">" if own + shared > 1 else "|")


def _marked(steps: Steps) -> list[tuple[str, str]]:
    return [("[ ] " if steps.boxes else f"{number}. ".rjust(4), item) for number, item in enumerate(steps.items, 1)]


def _hanging(mark: str, item: str, width: int) -> list[str]:
    return wrapped(unmarked(item), width, mark, " " * len(mark))


def _own(block: Notes, flags: tuple[Flag, ...]) -> tuple[Flag, ...]:
    """The findings of a block of notes with the numbers of the document, or numbered among themselves."""
    known = tuple(flag for flag in flags if flag.finding in block.findings)
    return known if len(known) == len(block.findings) else flagged(block.findings)


def _picture(block: Picture, flags: tuple[Flag, ...], width: int) -> list[str]:
    name = f"Picture, {block.drawing.title}{_numbers(beside(flags, block.flags))}: "
    return wrapped(name + block.drawing.says, width, "", "    ")


def _blanks(block: Blanks, width: int) -> list[str]:
    single = [f"{label} {'_' * 12}" for label, count in block.labels if label and count == 1]
    lines = wrapped("   ".join(part.replace(" ", "\N{NO-BREAK SPACE}") for part in single), width) if single else []
    for label, count in block.labels:
        if not label:
            lines += ["_" * min(width, 72)] * count
        elif count > 1:
            lines.append(f"{label} " + " ".join(["_" * 10] * count))
    return [line.replace("\N{NO-BREAK SPACE}", " ") for line in lines]


def _title_block(document: Document, width: int) -> list[str]:
    cells = [(cell.label, (_SIGNS[cell.verdict] if cell.verdict else "") + cell.value) for cell in document.cells]
    if document.dated and all(label != "dated" for label, _ in cells):
        cells.append(("dated", document.dated))
    return _flat(columns(cells, (), width))


def _numbers(flags: tuple[Flag, ...]) -> str:
    return "".join(f" [{flag.number}]" for flag in flags)


def _flat(rows: list[list[str]]) -> list[str]:
    return [line for row in rows for line in row]
