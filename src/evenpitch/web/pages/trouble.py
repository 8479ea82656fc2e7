"""Pages of trouble: what was refused and why, what is not there, and what was our own fault."""

from __future__ import annotations

from collections.abc import Sequence

from fastapi import Request
from fastapi.responses import HTMLResponse

from evenpitch.quantity.refusal import Refusal
from evenpitch.sheet.frame_html import Action
from evenpitch.web.pages.fields import fault_message
from evenpitch.web.pages.shown import bench_nav, sheet

_HEADINGS = {404: "Not in the book", 409: "Overtaken", 413: "Too large"}


def refused_page(request: Request, refusal: Refusal, status: int) -> HTMLResponse:
    """A refusal where no form is at hand to show it in."""
    messages = [fault_message(fault, at, fault.field) for at, fault in enumerate(refusal.faults, 1)]
    return _page(request, _HEADINGS.get(status, "Refused"), "Nothing was written.", messages, status)


def trouble_page(request: Request, where: str) -> HTMLResponse:
    """A fault of ours."""
    lead = f"This is our own fault, not yours. It is written in {where}. What was in the book before is there still."
    return _page(request, "Something is wrong in evenpitch", lead, [], 500)


def _page(request: Request, heading: str, lead: str, messages: Sequence[object], status: int) -> HTMLResponse:
    return sheet(
        request,
        "trouble.html",
        title=heading,
        nav=bench_nav(),
        cells=(("sheet", "refused" if status < 500 else "our fault"),),
        action=Action("Back to the bench", "/"),
        status=status,
        heading=heading,
        lead=lead,
        messages=messages,
    )
