"""Inspect a gear of a job: readings by hand or as a table, the verdict with its pictures, and the record sheet."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated

from fastapi import APIRouter, Query, Request
from fastapi.responses import HTMLResponse, Response
from markupsafe import Markup

from evenpitch.job.judging import Verdict
from evenpitch.job.plan import Plan
from evenpitch.quantity.refusal import Fault, Refusal
from evenpitch.sheet.blocks_html import Setting, notes_html, sections_html
from evenpitch.sheet.compose.inspection import compose_inspection
from evenpitch.sheet.compose.record_sheet import compose_record_sheet
from evenpitch.sheet.document import Document, Section
from evenpitch.sheet.flags import flagged
from evenpitch.sheet.frame_html import Action, Link
from evenpitch.sheet.markup import verdict as verdict_html
from evenpitch.sheet.markup import words
from evenpitch.sheet.print_html import head_html
from evenpitch.web.hand_readings import TABLE, hand_fields, hand_readings
from evenpitch.web.inspect_answer import inspected
from evenpitch.web.kept_inspections import earlier, keep_inspection, line_of, of_gear
from evenpitch.web.opened import day
from evenpitch.web.pages.fields import Field, left_over, with_messages
from evenpitch.web.pages.plan_page import PDF, Which, named, one_of
from evenpitch.web.pages.sent import Sent, SentForm
from evenpitch.web.pages.shown import AtDesk, Desk, address, job_nav, see, sheet
from evenpitch.web.papers import pdf
from evenpitch.web.planned import plan_of

router = APIRouter(include_in_schema=False)

RECORD, KEEP = "record", "keep"
FIRST = ("readings",)
MOST_LISTED = 40
"""Inspections of one gear that are listed, the newest first."""


@dataclass(frozen=True, slots=True)
class Shown:
    """What the page shows beside the form: the verdict, or what was refused."""

    verdict: Verdict | None = None
    faults: tuple[Fault, ...] = ()


@router.get("/jobs/{name:path}/inspect")
def show_inspect(
    request: Request,
    desk: AtDesk,
    name: str,
    index: Which,
    before: Annotated[int | None, Query(alias="from", ge=1)] = None,
    span: Annotated[str, Query(max_length=80)] = "",
) -> HTMLResponse:
    """The form, empty; with the readings of an inspection that is kept (`from`); or with a span measured at the machine, judged."""
    made = plan_of(desk.book, desk.book.job(name))
    one_of(made, index)
    if before is not None:
        return _page(request, desk, name, made, index, desk.book.inspection(name, before).typed, Shown())
    if not span.strip():
        return _page(request, desk, name, made, index, {}, Shown())
    typed = Sent({"span": span})
    try:
        return _page(request, desk, name, made, index, typed, Shown(_judged(made, index, typed)))
    except Refusal as refusal:
        return _page(request, desk, name, made, index, typed, Shown(faults=refusal.faults), 422)


@router.post("/jobs/{name:path}/inspect")
def judge_it(request: Request, desk: AtDesk, name: str, index: Which, typed: SentForm) -> Response:
    """Judge what was typed; print its record sheet; or keep it in the book with its verdict."""
    made = plan_of(desk.book, desk.book.job(name))
    one_of(made, index)
    found = None
    try:
        found = _judged(made, index, typed)
        if typed.get("press") == KEEP:
            one = keep_inspection(desk.book, name, made, index, typed, found, desk.now)
            return see(address("jobs", name, "inspections", str(one.number)))
    except Refusal as refusal:
        return _page(request, desk, name, made, index, typed, Shown(found, refusal.faults), _status(refusal))
    if typed.get("press") == RECORD:
        kept = earlier(of_gear(desk.book.inspections(name), index))
        record = compose_record_sheet(made, found, index, dated=day(desk.now()), inspections=kept)
        return Response(pdf(record), media_type=PDF, headers=named(f"{name} record.pdf"))
    return _page(request, desk, name, made, index, typed, Shown(found))


def _status(refusal: Refusal) -> int:
    from evenpitch.web.app import status_of

    return status_of(refusal)


def _judged(made: Plan, index: int, typed: Sent) -> Verdict:
    if typed.faults:
        raise Refusal(*typed.faults)
    return inspected(made, hand_readings(made.gears[index], typed), index, typed)


def _page(
    request: Request, desk: Desk, name: str, made: Plan, index: int, typed: Mapping[str, str], shown: Shown, status: int = 200
) -> HTMLResponse:
    verdict = shown.verdict
    document = None if verdict is None else compose_inspection(made, verdict, index)
    numbered = () if document is None else flagged(document.findings)
    setting = Setting(numbered)
    which = str(index + 1) if index else ""
    fields = _fields(made, index, typed, shown.faults)
    return sheet(
        request,
        "inspect.html",
        title=f"Inspect {name}",
        nav=job_nav(name, "inspect", issued=bool(desk.book.issued(name))),
        cells=_cells(name, made, index, document),
        action=_action(shown),
        status=status,
        head=_head(made, index, document),
        judged=verdict is not None,
        first=Markup("") if document is None else sections_html(_only(document, FIRST), setting),
        rest=Markup("") if document is None else sections_html(_but(document, FIRST), setting),
        notes=notes_html(numbered),
        short=tuple(one for one in fields if not one.wide),
        long=tuple(one for one in fields if one.wide),
        typed=typed,
        table=typed.get(TABLE, ""),
        with_log=made.order.rig.link is not None and bool(made.gears[index].gear.helix),
        log=typed.get("log", ""),
        open_long=any(one.value or one.messages for one in fields if one.wide),
        left_over=left_over(shown.faults, fields),
        to=address("jobs", name, "inspect", gear=which),
        links=_links(name, made, index, verdict),
        kept=[
            (line_of(one), address("jobs", name, "inspections", str(one.number)))
            for one in reversed(of_gear(desk.book.inspections(name), index))
        ][:MOST_LISTED],
    )


def _fields(made: Plan, index: int, typed: Mapping[str, str], faults: tuple[Fault, ...]) -> tuple[Field, ...]:
    shown = tuple(
        Field(one.path, one.label, one.help, one.example, typed.get(one.path, ""), wide=one.long)
        for one in hand_fields(made.gears[index])
    )
    return with_messages(shown, faults)


def _head(made: Plan, index: int, document: Document | None) -> Markup:
    if document is not None:
        return head_html(document, flagged(document.findings))
    gear = made.gears[index].gear
    said = "Spindle stopped, burrs off, work cold. Type what you have read; the rest may wait."
    return Markup("<h1>Inspect {} teeth</h1><p class='lead'>{}</p>").format(gear.teeth, said)


def _cells(name: str, made: Plan, index: int, document: Document | None) -> list[tuple[str, Markup | str]]:
    if document is None:
        return [("sheet", "5 inspect"), ("job", name), ("class", str(made.gears[index].tolerance_class))]
    return [
        (cell.label, words(cell.value) if cell.verdict is None else verdict_html(cell.verdict, words(cell.value)))
        for cell in document.cells
    ]


def _action(shown: Shown) -> Action:
    if shown.verdict is not None:
        return Action("Keep this inspection", form="inspect", value=("press", KEEP))
    if shown.faults:
        return Action(f"{len(shown.faults)} to clear, then judge", form="inspect")
    return Action("Judge the readings", form="inspect")


def _links(name: str, made: Plan, index: int, verdict: Verdict | None) -> tuple[Link, ...]:
    recut = verdict is not None and verdict.rescue.deeper is not None
    which = index + 1 if index else ""
    links = [
        Link(
            "plan the recut: pick up a tooth first" if recut else "pick up a tooth", address("jobs", name, "pick-up", gear=which)
        ),
        Link("what was expected", address("jobs", name, "predict", gear=which)),
    ]
    if made.gears[index].gear.helix and made.order.rig.link is not None:
        links.append(Link("audit a log", address("jobs", name, "audit", gear=which)))
    if len(made.gears) == 2:
        mate = made.gears[1 - index].gear
        links.append(Link(f"its mate, {mate.teeth} teeth", address("jobs", name, "inspect", gear="" if index else 2)))
    return tuple(links)


def _only(document: Document, keys: tuple[str, ...]) -> tuple[Section, ...]:
    return tuple(section for section in document.sections if section.key in keys)


def _but(document: Document, keys: tuple[str, ...]) -> tuple[Section, ...]:
    return tuple(section for section in document.sections if section.key not in keys)
