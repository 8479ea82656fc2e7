"""The same job on another rig: what differs first, then the plan as it is there."""

from __future__ import annotations

from dataclasses import replace

from evenpitch.job.repeating import Repeated
from evenpitch.sheet.compose.plan import compose_plan
from evenpitch.sheet.document import Document, KeyFigure, Section, Table, TableRow, Words


def compose_repeat(made: Repeated) -> Document:
    """What `evenpitch repeat` prints."""
    page = compose_plan(made.now)
    several = len(made.now.gears) > 1
    rows = tuple(
        TableRow((f"{one.what}, gear {one.gear + 1}" if several and one.what != "rig" else one.what, one.was, one.now))
        for one in made.differences
    )
    name = made.now.order.rig.name
    kept = Words(f"As before: {'; '.join(made.kept) or 'nothing'}.")
    table = Section("differences", "What differs", (Table(("what", "was", "now"), rows), kept))
    return replace(
        page,
        title=f"{page.title}, again on {name}",
        keys=(KeyFigure("differences", str(len(rows))), *page.keys),
        findings=made.findings,
        sections=(table, *page.sections),
    )
