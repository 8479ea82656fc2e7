"""Tables -> HTML: the chosen row, bars against a limit, verdicts, and a button to choose another row."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from evenpitch.sheet.document import Choose, Table, TableRow
from evenpitch.sheet.markup import cell_words, hidden_fields, verdict, words
from evenpitch.sheet.runs import unmarked

BAR = 80
"""Length of a bar at its limit, in units of its picture 100 wide."""

_NONE = Markup("")
_BOX = Markup('<td class="tick"><span class="box"></span></td>')


@dataclass(frozen=True, slots=True)
class Form:
    """Where a press is sent, and what goes with it unseen."""

    to: str
    hidden: tuple[tuple[str, str], ...] = ()


def table_html(table: Table, form: Form | None = None) -> Markup:
    """The table, with a note beneath it. Without a form there is nowhere to send a choice, and no buttons are printed."""
    kind = "run" if table.boxes or table.columns > 1 else ("ways grid" if table.grid else "ways")
    sheet = _TableSheet(table, form, blocks=kind != "run")
    body = Markup('<table class="{}">{}<tbody>{}</tbody></table>').format(kind, sheet.head(), sheet.body())
    scroll = Markup('<div class="columns">{}</div>').format(body) if kind == "run" else body
    return scroll + (Markup('<p class="under">{}</p>').format(words(table.note)) if table.note else _NONE)


class _TableSheet:
    """One table being written. `blocks`: on a phone its rows become blocks, so each cell carries its label."""

    def __init__(self, table: Table, form: Form | None, *, blocks: bool) -> None:
        self.table, self.form, self.blocks = table, form, blocks
        self.bars = any(row.share for row in table.rows)
        self.ends = any(row.chosen or (row.choose and form) for row in table.rows)
        self.place = table.share_before if table.share_before >= 0 else len(table.heads)

    def head(self) -> Markup:
        if not any(self.table.heads):
            return _NONE
        cells = [self.head_cell(text, column in self.table.right) for column, text in enumerate(self.table.heads)]
        if self.bars:
            cells.insert(self.place, self.head_cell(self.table.share_head or "share", False))
        before = self.head_cell("", False, "to tick") if self.table.boxes else _NONE
        after = self.head_cell("", False, "choice") if self.ends else _NONE
        return Markup("<thead><tr>{}{}{}</tr></thead>").format(before, _NONE.join(cells), after)

    def head_cell(self, text: str, right: bool, unseen: str = "") -> Markup:
        said = words(text) if text else Markup('<span class="unseen">{}</span>').format(unseen or "of the row")
        names = " ".join(name for name, so in (("r", right), ("nw", "\n" in text)) if so)
        cls = Markup(' class="{}"').format(names) if names else _NONE
        return Markup('<th scope="col"{}>{}</th>').format(cls, said)

    def body(self) -> Markup:
        heavy = self.table.heavy
        last = len(self.table.rows)
        return _NONE.join(
            self.row(row, bool(heavy) and number % heavy == 0 and number < last) for number, row in enumerate(self.table.rows, 1)
        )

    def row(self, row: TableRow, heavy: bool) -> Markup:
        names = " ".join(name for name, so in (("chosen", row.chosen), ("strong", row.strong), ("heavy", heavy)) if so)
        cls = Markup(' class="{}"').format(names) if names else _NONE
        cells = [self.cell(row, column) for column in range(max(len(self.table.heads), len(row.cells)))]
        if self.bars:
            cells.insert(self.place, self.bar_cell(row))
        before = _BOX if self.table.boxes else _NONE
        after = Markup('<td class="end">{}</td>').format(self.end(row)) if self.ends else _NONE
        return Markup("<tr{}>{}{}{}</tr>").format(cls, before, _NONE.join(cells), after)

    def cell(self, row: TableRow, column: int) -> Markup:
        text = row.cells[column] if column < len(row.cells) else ""
        shown = cell_words(text)
        if row.verdict and row.verdict[0] == column:
            shown = verdict(row.verdict[1], shown)
        names = " ".join(name for name, so in (("r", column in self.table.right), ("two", "\n" in text)) if so)
        right = Markup(' class="{}"').format(names) if names else _NONE
        tag = Markup("th") if column == 0 else Markup("td")
        scope = Markup(' scope="row"') if column == 0 else _NONE
        label = self.label(self.table.heads[column] if column < len(self.table.heads) else "") if text else _NONE
        return Markup("<{}{}{}{}>{}</{}>").format(tag, scope, right, label, shown, tag)

    def label(self, head: str) -> Markup:
        if not (self.blocks and head):
            return _NONE
        return Markup(' data-label="{}"').format(" ".join(unmarked(head).split()))

    def bar_cell(self, row: TableRow) -> Markup:
        if not row.share:
            return Markup("<td></td>")
        return Markup("<td{}>{}</td>").format(self.label(self.table.share_head), bar(*row.share))

    def end(self, row: TableRow) -> Markup:
        if row.chosen:
            return Markup("<b>chosen</b>")
        if row.choose and self.form:
            return choose_html(row.choose, self.form, unmarked(row.cells[0].split("\n")[0]))
        return _NONE


def choose_html(choose: Choose, form: Form, about: str) -> Markup:
    """The button that chooses a row; its accessible name says which."""
    return Markup(
        '<form method="post" action="{}">{}<button class="press" name="{}" value="{}" aria-label="{}">{}</button></form>'
    ).format(form.to, hidden_fields(form.hidden), choose.field, choose.value, f"{choose.words}: {about}", choose.words)


def bar(own: float, shared: float) -> Markup:
    """A bar against its limit: hatched what all rows share, solid what this row adds, an upright at the limit."""
    left, right = min(shared, 1.2) * BAR, min(own + shared, 1.2) * BAR
    said = f"{(own + shared) * 100:.0f} % of the limit"
    return Markup(
        '<svg class="bar" viewBox="0 0 100 16" role="img" aria-label="{}"><path d="M1 3v10"/>'
        '<rect x="1" y="4" width="{}" height="8"/><path class="thin" d="{}"/>'
        '<rect class="solid" x="{}" y="4" width="{}" height="8"/><path d="M{} 1v14"/></svg>'
    ).format(said, _short(left), _hatch(left), _short(1 + left), _short(right - left), BAR + 1)


def _hatch(length: float) -> str:
    """Open hatching of a bar 8 high, clipped by reckoning: lines at 45 degrees, 5 apart."""
    strokes = []
    foot = 1.0
    while foot < 1 + length + 8:
        low, high = max(foot - 8, 1), min(foot, 1 + length)
        if high > low:
            strokes.append(f"M{_short(low)} {_short(4 + foot - low)}L{_short(high)} {_short(4 + foot - high)}")
        foot += 5
    return "".join(strokes)


def _short(value: float) -> str:
    return f"{value:.1f}".rstrip("0").rstrip(".")
