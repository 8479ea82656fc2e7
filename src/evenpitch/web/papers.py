"""The papers of a plan: page, sheet for the wall, trial piece, outline. Printers are imported when something is printed."""

from __future__ import annotations

from evenpitch.job.plan import Plan
from evenpitch.sheet.document import Document, Paper
from evenpitch.store.kept import KeptRelease


def plan_document(plan: Plan, index: int = 0) -> Document:
    """The page of one gear of the order."""
    from evenpitch.sheet.compose.plan import compose_plan

    return compose_plan(plan, index)


def sheet_document(plan: Plan, index: int = 0, issued: KeptRelease | None = None) -> Document:
    """The sheet for the wall; with number and date where the plan was issued."""
    from evenpitch.sheet.compose.sheet import Issue, compose_sheet

    issue = None if issued is None else Issue(issued.number, issued.date, issued.program, issued.digest)
    return compose_sheet(plan, index, issue)


def trial_document(plan: Plan, index: int = 0) -> Document:
    """The sheet of the trial piece."""
    from evenpitch.sheet.compose.trial import compose_trial

    return compose_trial(plan, index)


def pdf(document: Document, paper: Paper | None = None) -> bytes:
    """A document on paper."""
    from evenpitch.sheet.print_pdf import pdf as print_pdf

    return print_pdf(document, paper or document.paper)


def outline(plan: Plan, index: int = 0) -> bytes:
    """Blank and tooth space as a drawing in millimetres, DXF."""
    from evenpitch.sheet.drawings.outline import outline_drawing
    from evenpitch.sheet.print_dxf import dxf

    return dxf(outline_drawing(plan.gears[index].gear))


def page_file(document: Document) -> bytes:
    """A document as one HTML file that stands alone."""
    from evenpitch.sheet.print_html import standalone

    return standalone(document).encode()
