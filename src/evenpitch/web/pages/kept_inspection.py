"""Inspections as they were kept: the page of one, its record sheet, and its readings as typed."""

from __future__ import annotations

from dataclasses import replace
from typing import Annotated

from fastapi import APIRouter, Query, Request
from fastapi.responses import HTMLResponse, Response

from evenpitch.sheet.document import Document, Paper, Section, Table, TableRow, Words
from evenpitch.sheet.frame_html import Action, Link
from evenpitch.sheet.print_html import page
from evenpitch.store.kept import KeptInspection
from evenpitch.web.job_tables import CSV, readings_csv, spacing_csv
from evenpitch.web.kept_inspections import page_of, record_of
from evenpitch.web.opened import day
from evenpitch.web.pages.plan_page import PDF, named
from evenpitch.web.pages.shown import AtDesk, address, job_nav, night_of
from evenpitch.web.papers import pdf

router = APIRouter(include_in_schema=False)


@router.get("/jobs/{name:path}/inspections/{number}")
def show_inspection(request: Request, desk: AtDesk, name: str, number: int) -> HTMLResponse:
    """One inspection as it was kept."""
    kept = desk.book.inspection(name, number)
    return HTMLResponse(
        page(
            _dated(page_of(kept), kept),
            nav=job_nav(name, "inspect", issued=bool(desk.book.issued(name))),
            night=night_of(request),
            action=Action("Print the record sheet", address("jobs", name, "inspections", str(number), "record.pdf")),
            head_links=_links(name, kept),
        )
    )


def _links(name: str, kept: KeptInspection) -> tuple[Link, ...]:
    which, own = kept.gear + 1 if kept.gear else "", ("jobs", name, "inspections", str(kept.number))
    links = [
        Link("inspect again", address("jobs", name, "inspect", gear=which, **{"from": kept.number})),
        Link("pick up a tooth", address("jobs", name, "pick-up", gear=which)),
        Link("readings as typed", address(*own, "readings.csv")),
    ]
    if kept.facts.get("spacing_um"):
        links.append(Link("spacing, CSV", address(*own, "spacing.csv")))
    if kept.plan is not None:
        links.append(Link(f"plan {kept.plan}", address("jobs", name, "sheet.pdf", plan=kept.plan, gear=which)))
    return tuple(links)


def _dated(document: Document, kept: KeptInspection) -> Document:
    """When and by what it was judged, and what was typed, under the page as it was."""
    said = f"Kept on {day(kept.date)} by evenpitch {kept.program}, inspection {kept.number}; it is never changed."
    rows = tuple(TableRow((field, " ".join(text.split()))) for field, text in kept.typed.items() if field != "readings")
    blocks = (Words(said), *((Table(("typed", "as typed"), rows),) if rows else ()))
    return replace(document, sections=(*document.sections, Section("kept", "Kept", blocks)))


@router.get("/jobs/{name:path}/inspections/{number}/record.pdf")
def record_pdf(desk: AtDesk, name: str, number: int, paper: Annotated[Paper | None, Query()] = None) -> Response:
    """The record sheet as it was kept."""
    document = record_of(desk.book.inspection(name, number))
    headers = named(f"{name} record {number}.pdf")
    return Response(pdf(replace(document, paper=paper or document.paper)), media_type=PDF, headers=headers)


@router.get("/jobs/{name:path}/inspections/{number}/readings.csv")
def inspection_readings(desk: AtDesk, name: str, number: int) -> Response:
    """What was typed, as it was typed: the table, and before it the fields as remarks."""
    headers = named(f"{name} readings {number}.csv", keep=True)
    return Response(readings_csv(desk.book.inspection(name, number)), media_type=CSV, headers=headers)


@router.get("/jobs/{name:path}/inspections/{number}/spacing.csv")
def inspection_spacing(desk: AtDesk, name: str, number: int) -> Response:
    """The cumulative deviation of each space."""
    headers = named(f"{name} spacing {number}.csv", keep=True)
    return Response(spacing_csv(desk.book.inspection(name, number)), media_type=CSV, headers=headers)
