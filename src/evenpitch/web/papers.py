"""The papers of a plan: page, sheet for the wall, trial piece, outline. Printers are imported when something is printed."""

from __future__ import annotations

from datetime import datetime

from evenpitch.job.plan import Plan
from evenpitch.sheet.compose.gear import gear_line
from evenpitch.sheet.document import Document, Paper


def plan_document(plan: Plan, index: int = 0) -> Document:
    """The page of one gear of the order."""
    from evenpitch.sheet.compose.plan import compose_plan

    return compose_plan(plan, index)


def sheet_document(
    plan: Plan, index: int = 0, issued: tuple[int, datetime] | None = None, paper: Paper | None = None
) -> Document:
    """The sheet for the wall; `issued`: the number of the plan and when it was made final."""
    from evenpitch.sheet.compose.sheet import Issue, compose_sheet

    issue = None if issued is None else Issue(issued[0], _day(issued[1]))
    return compose_sheet(plan, index, issue, paper)


def _day(at: datetime) -> str:
    here = at.astimezone()
    return f"{here.day} {here:%B %Y}"


def trial_document(plan: Plan, index: int = 0, paper: Paper | None = None) -> Document:
    """The sheet of the trial piece."""
    from evenpitch.job.trial import trial
    from evenpitch.sheet.compose.trial import compose_trial

    return compose_trial(trial(plan.order, index), paper)


def pdf(document: Document) -> bytes:
    """A document on its paper."""
    from evenpitch.sheet.print_pdf import pdf_bytes

    return pdf_bytes(document)


def outline(plan: Plan, index: int = 0) -> bytes:
    """Blank and teeth as a drawing in millimetres, DXF."""
    from evenpitch.sheet.drawings.outline import outline_for_dxf
    from evenpitch.sheet.drawings.tooth_form import end_form
    from evenpitch.sheet.print_dxf import dxf_bytes

    made = plan.gears[index]
    return dxf_bytes(outline_for_dxf(end_form(made.gear), made.work.bore, gear_line(made.gear)))


def page_file(document: Document) -> bytes:
    """A document as one HTML file that stands alone."""
    from evenpitch.sheet.print_html import standalone

    return standalone(document).encode()
