"""The record sheet of an inspected gear: what was wanted, what was read, the verdict, and that it rests on these readings only."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from evenpitch.checking.decision import Says
from evenpitch.checking.readings import GearReading
from evenpitch.job.inspection import AroundRead, SizeRead
from evenpitch.job.judging import Verdict
from evenpitch.job.plan import Plan
from evenpitch.quantity.showing import number
from evenpitch.quantity.units import RADIAN_PER_ARCSEC
from evenpitch.sheet.compose.gear import gear_line
from evenpitch.sheet.compose.inspection import compose_inspection
from evenpitch.sheet.document import Blanks, Document, Paper, Section, Table, TableRow, Words


@dataclass(frozen=True, slots=True)
class Earlier:
    """One inspection of this gear that the book keeps: its number, its day, the edition that judged, the verdict and the claim."""

    number: int
    day: str
    program: str
    says: Says
    claim: str


KEPT = ("readings", "gauges", "deviation", "causes", "causes-table", "expected", "mend")
CELLS = 12
"""Cells of all columns of readings that stand side by side on paper."""


def compose_record_sheet(
    plan: Plan,
    verdict: Verdict,
    index: int = 0,
    paper: Paper | None = None,
    dated: str = "",
    inspections: tuple[Earlier, ...] = (),
) -> Document:
    """One gear's record, on paper; every reading that was taken stands on it. `inspections`: those of this gear that are kept."""
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
            *_kept(inspections),
            Section("notes", "Notes", (Blanks((("fitted, and when", 1), ("seen since", 2))),)),
        ),
        paper=paper or page.paper,
        sign="inspected by, and when",
        dated=dated,
    )


def _taken(verdict: Verdict) -> Iterator[Section]:
    """All readings as typed, with their units: round the gear a line a space, with its rounds beside each other."""
    found = verdict.inspection
    for place, one in enumerate(found.around, 1):
        side = f", {one.flank} flank" if one.flank else ""
        over = f" over {one.over}" if one.over > 1 else ""
        unit = "″" if _angular(one) else "µm"
        spaces = sorted({space for held in one.rounds for space in held})
        rows = tuple(TableRow((str(space), *(_value(held.get(space)) for held in one.rounds))) for space in spaces)
        heads = ("space", *(f"round {turn}" if len(one.rounds) > 1 else unit for turn in range(1, len(one.rounds) + 1)))
        table = Table(heads, rows, right=tuple(range(len(heads))), columns=max(1, CELLS // len(heads)), heavy=10)
        yield Section(f"taken-{place}", f"{one.kind[0].upper()}{one.kind[1:]}{over}{side}, {unit}", (table,))
    sizes = [(size, space, value) for size in found.sizes for space, value in ((row.space, row.value) for row in size.readings)]
    if sizes:
        rows = tuple(TableRow((_named(size), str(space), f"{number(value, 3)} mm")) for size, space, value in sizes)
        yield Section("taken", "Sizes as taken", (Table(("reading", "space", "value"), rows, right=(1, 2)),))


def _kept(every: tuple[Earlier, ...]) -> Iterator[Section]:
    """What the book keeps, the first first."""
    if every:
        rows = tuple(
            TableRow((str(one.number), one.day, one.says, one.claim, one.program), verdict=(2, one.says)) for one in every
        )
        heads = ("no.", "date", "verdict", "claimed", "evenpitch")
        yield Section("inspections", "Inspections of this gear", (Table(heads, rows, right=(0,)),))


def _angular(one: AroundRead) -> bool:
    return next(iter(one.rounds[0].values())).angle


def _value(one: GearReading | None) -> str:
    """µm, or seconds of arc."""
    if one is None:
        return ""
    return number(one.value / RADIAN_PER_ARCSEC if one.angle else one.value * 1000, 1)


def _named(size: SizeRead) -> str:
    if size.kind == "span":
        return f"span over {size.k}" if size.k else "span"
    return size.kind if size.pin is None else f"{size.kind}, {size.pin:.4g} mm"
