"""The record sheet of an inspected gear: what was wanted, what was read, the verdict, and that it rests on these readings only."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from evenpitch.job.judging import Verdict
from evenpitch.job.plan import Plan
from evenpitch.quantity.showing import number
from evenpitch.sheet.compose.gear import gear_line
from evenpitch.sheet.compose.inspection import compose_inspection
from evenpitch.sheet.document import Blanks, Document, Paper, Section, Table, TableRow, Words

KEPT = ("readings", "gauges", "deviation", "causes", "causes-table", "mend")
COLUMNS = 4
UNITS = {"mm": (1.0, 3, "mm"), "um": (1000.0, 1, "µm")}


def compose_record_sheet(plan: Plan, verdict: Verdict, index: int = 0, paper: Paper | None = None, dated: str = "") -> Document:
    """One gear's record, on paper; every reading that was taken stands on it."""
    page = compose_inspection(plan, verdict, index)
    shown = tuple(section for section in page.sections if section.key in KEPT)
    head = Section(
        "gear", gear_line(verdict.gear.gear), (Words("Strength is not checked. Class claimed on these readings only."),)
    )
    return replace(
        page,
        kind="record",
        keys=(),
        sections=(
            head,
            *shown,
            *_taken(verdict),
            Section("notes", "Notes", (Blanks((("fitted, and when", 1), ("seen since", 2))),)),
        ),
        paper=paper or page.paper,
        sign="inspected by, and when",
        dated=dated,
    )


def _taken(verdict: Verdict) -> Iterator[Section]:
    """All readings as typed, with their units."""
    rows = []
    for one in verdict.inspection.readings:
        unit = "um" if one.kind in ("pitch step", "runout") and not one.angle else "mm"
        factor, places, word = UNITS[unit]
        value = f"{number(one.value * 206264.806, 1)}″" if one.angle else f"{number(one.value * factor, places)} {word}"
        flank = f" {one.flank}" if one.flank else ""
        over = f" over {one.spanned}" if one.spanned else ""
        rows.append(TableRow((f"{one.kind}{over}{flank}", str(one.space), value)))
    table = Table(("reading", "space", "value"), tuple(rows), right=(1, 2), columns=COLUMNS if len(rows) > 12 else 1)
    yield Section("taken", "Readings as taken", (table,), new_page=len(rows) > 40)
