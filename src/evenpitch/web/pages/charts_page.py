"""The wall charts: to read on the page in parts, and to take as PDF or CSV."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Annotated, Literal

from fastapi import APIRouter, HTTPException, Query, Request
from fastapi.responses import Response

from evenpitch.quantity.refusal import Refusal
from evenpitch.sheet.document import Document, Table
from evenpitch.sheet.frame_html import Action, Link
from evenpitch.web.answer import Answer
from evenpitch.web.charts import divide_chart, lead_chart
from evenpitch.web.pages.ask_page import first_rig, page_of
from evenpitch.web.pages.asked import Asked, asked, tidy
from evenpitch.web.pages.fields import Field
from evenpitch.web.pages.shown import AtDesk, address, see
from evenpitch.web.questions import CHARTS, Question

router = APIRouter(include_in_schema=False)

SHOWN = 120
"""Rows of one column on one page; PDF and CSV have them all."""
MEDIA = {"pdf": "application/pdf", "csv": "text/csv; charset=utf-8"}

_CHARTS: dict[str, Callable[[dict[str, str], bytes | None], Answer]] = {"counts": divide_chart, "leads": lead_chart}


@router.get("/charts/{name}.{kind}")
def chart_file(request: Request, desk: AtDesk, name: str, kind: Literal["pdf", "csv"]) -> Response:
    """The whole chart as a file."""
    put = asked(desk.book, _question(name), request.query_params)
    made = _CHARTS[name](_with_paper(put, request.query_params.get("paper", "")), put.rig_text)
    headers = {"content-disposition": f'{"inline" if kind == "pdf" else "attachment"}; filename="every-{name[:-1]}.{kind}"'}
    return Response(made.files[kind](), media_type=MEDIA[kind], headers=headers)


@router.get("/charts/{name}")
def show_chart(request: Request, desk: AtDesk, name: str, part: Annotated[int, Query(ge=1, le=1000)] = 1) -> Response:
    """A chart on the page, and where to take it as a file."""
    question, query = _question(name), request.query_params
    if any(not text.strip() for text in query.values()):
        return see(address("charts", name, **(tidy(query) or {"paper": "a4"})))
    here = address("charts", name)
    paper = (_paper_field(query.get("paper", "")),)
    try:
        put = asked(desk.book, question, query)
        put = put if query else asked(desk.book, question, {"rig": first_rig(desk)})
    except Refusal as refusal:
        bare = Asked(question, tidy(query), None, None, query.get("rig", ""))
        return page_of(request, desk, bare, faults=refusal.faults, beside=paper, to=here)
    try:
        made = _CHARTS[name](_with_paper(put, query.get("paper", "")), put.rig_text)
    except Refusal as refusal:
        return page_of(request, desk, put, faults=refusal.faults, beside=paper, to=here)
    asked_for = put.typed | {"rig": put.rig_name, "paper": query.get("paper", "")}
    document, parts = in_parts(made.document, part)
    links = [Link("CSV table", address("charts", f"{name}.csv", **asked_for)), Link("as JSON", _json(put))]
    links += [Link(words, address("charts", name, **asked_for, part=at)) for at, words in parts]
    action = Action("Print it, PDF", address("charts", f"{name}.pdf", **asked_for))
    return page_of(
        request, desk, put, document=document, links=tuple(links), action=action, beside=paper, to=here, press="Show it"
    )


def _question(name: str) -> Question:
    if name not in CHARTS:
        raise HTTPException(404)
    return CHARTS[name]


def _with_paper(put: Asked, paper: str) -> dict[str, str]:
    return put.typed | ({"paper": paper} if paper else {})


def _json(put: Asked) -> str:
    return address("api", "chart", put.question.name, **put.typed, rig=put.rig_name)


def in_parts(document: Document, part: int) -> tuple[Document, tuple[tuple[int, str], ...]]:
    """The document with the rows of one part of its table, and the other parts: number and words."""
    sections, others = [], []
    for section in document.sections:
        tables = [block for block in section.blocks if isinstance(block, Table)]
        shown = SHOWN * tables[0].columns if tables else 0
        if tables and len(tables[0].rows) > shown:
            rows = tables[0].rows
            starts = range(0, len(rows), shown)
            first = starts[min(part, len(starts)) - 1]
            others = [(at + 1, _from(rows[start].cells[0])) for at, start in enumerate(starts) if start != first]
            section = replace(section, blocks=(replace(tables[0], rows=rows[first : first + shown]),))
        sections.append(section)
    return replace(document, sections=tuple(sections)), tuple(others)


def _from(cell: str) -> str:
    return f"from {cell}"


def _paper_field(paper: str) -> Field:
    choices = (("", "A4"), ("letter", "Letter"))
    return Field("paper", "Paper", "Of the PDF.", "", "letter" if paper.casefold() == "letter" else "", choices)
