"""One question, asked and answered on one page; its address holds what was asked, so that it can be kept and sent."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from fastapi import APIRouter, HTTPException, Request
from fastapi.responses import HTMLResponse, Response
from markupsafe import Markup

from evenpitch.quantity.refusal import Fault, Refusal
from evenpitch.sheet.document import Document
from evenpitch.sheet.frame_html import Action, Link
from evenpitch.sheet.markup import bare_flag
from evenpitch.sheet.print_html import SOURCES, parts
from evenpitch.web.answer import Answer
from evenpitch.web.divide_answer import divide_question
from evenpitch.web.gear_answer import gear_question
from evenpitch.web.lead_answer import lead_question
from evenpitch.web.pages.asked import Asked, asked, at_field, rig_field, shown_fields, tidy, with_link
from evenpitch.web.pages.fields import Field, left_over, with_messages
from evenpitch.web.pages.shown import AtDesk, Desk, address, bench_nav, fragment, see, sheet
from evenpitch.web.questions import CHARTS, QUESTIONS, Question
from evenpitch.web.ratio_answer import ratio_question

router = APIRouter(include_in_schema=False)

_ANSWERS: dict[str, Callable[[Asked], Answer]] = {
    "gear": lambda ask: gear_question(ask.typed),
    "divide": lambda ask: divide_question(ask.typed, rig=ask.rig_text),
    "lead": lambda ask: lead_question(ask.typed, rig=ask.rig_text),
    "ratio": lambda ask: ratio_question(with_link(ask.typed, ask.rig)),
}


@router.get("/ask")
def questions(request: Request) -> HTMLResponse:
    """The questions that need no job."""
    return sheet(
        request,
        "questions.html",
        title="Questions",
        nav=bench_nav("ask"),
        cells=(("sheet", "questions"),),
        action=Action("New job", "/jobs/new"),
        questions=[(question, _tries(question)) for question in QUESTIONS.values()],
        charts=tuple(CHARTS.values()),
    )


@router.get("/ask/{name}")
def ask(request: Request, desk: AtDesk, name: str) -> Response:
    """The form of a question, and beneath it the answer once something was asked."""
    if name not in QUESTIONS:
        raise HTTPException(404)
    question, query = QUESTIONS[name], request.query_params
    if any(not text.strip() for text in query.values()):
        return see(address("ask", name, **tidy(query)))
    try:
        put = asked(desk.book, question, query)
    except Refusal as refusal:
        bare = Asked(question, tidy(query), None, None, query.get("rig", ""))
        return page_of(request, desk, bare, faults=refusal.faults)
    if not put.anything:
        return page_of(request, desk, put if query else replace(put, rig_name=first_rig(desk)))
    try:
        made = _ANSWERS[name](put)
    except Refusal as refusal:
        return page_of(request, desk, put, faults=refusal.faults)
    return page_of(request, desk, put, document=made.document, links=_links(put))


def first_rig(desk: Desk) -> str:
    """The rig that is offered first."""
    rigs = desk.book.rigs()
    return rigs[0].name if rigs else ""


def _tries(question: Question) -> tuple[Link, ...]:
    return tuple(Link(words, address("ask", question.name, **typed)) for words, typed in question.examples)


def _links(put: Asked) -> tuple[Link, ...]:
    """The same answer as JSON; and for a gear the way on to a job."""
    asked_of = put.typed if put.question.name != "ratio" else with_link(put.typed, put.rig)
    rig = put.rig_name if put.question.name in ("divide", "lead") else ""
    links = [Link("as JSON", address("api", put.question.name, **_for_api(asked_of), rig=rig))]
    if put.question.name == "gear":
        fields = {f"gear.0.{word.replace('-', '_')}": text for word, text in put.typed.items()}
        links.insert(0, Link("make a job of it", address("jobs", "new", **fields)))
    return tuple(links)


def _for_api(typed: Mapping[str, str]) -> dict[str, str]:
    """The names of the command line: the pitch goes as dp or module."""
    return {("module" if word == "pitch" else word): text for word, text in typed.items()}


def in_order(put: Asked, faults: tuple[Fault, ...]) -> tuple[Fault, ...]:
    """The faults at their fields of the form, in the order of the fields; what has no field stands first."""
    place = {word: at for at, word in enumerate(put.order)}
    found = (replace(fault, field=at_field(fault)) for fault in faults)
    return tuple(sorted(found, key=lambda fault: place.get(fault.field, -1)))


def page_of(
    request: Request,
    desk: Desk,
    put: Asked,
    *,
    document: Document | None = None,
    faults: tuple[Fault, ...] = (),
    links: tuple[Link, ...] = (),
    action: Action | None = None,
    beside: tuple[Field, ...] = (),
    to: str = "",
    press: str = "",
) -> HTMLResponse:
    """The page of a question or chart: the form with what was typed, messages at their fields, the answer beneath."""
    question = put.question
    found = in_order(put, faults)
    rig = (rig_field(desk.book, put.rig_name),) if question.on_a_rig else ()
    first = with_messages((*shown_fields(question.first, put), *rig, *beside), found)
    more = with_messages(shown_fields(question.more, put), found)
    form = fragment(
        "ask_form.html",
        question=question,
        to=to or address("ask", question.name),
        first=first,
        more=more,
        press=press,
        opened=any(one.messages or (one.value and document is None) for one in more) or (question.more_open and document is None),
        typed=", ".join(f"{one.label} {one.value}" for one in more if one.value),
        left_over=left_over(found, (*first, *more)),
    )
    cells: list[tuple[str, Markup | str]] = [("sheet", "one question"), ("question", question.title)]
    title, aside, body = question.title, Markup(""), Markup("")
    head = Markup('<h1>{}</h1><p class="lead">{}</p>{}').format(title, question.lead, form)
    if document is not None:
        shown = parts(document, links=links, sources_at=SOURCES, under=form)
        title, head, aside, body, cells = (shown[part] for part in ("title", "head", "aside", "body", "cells"))
    if faults:
        cells.append(("still open", Markup("{} {}").format(bare_flag("stop"), f"{len(faults)} to clear")))
    return sheet(
        request,
        "ask.html",
        title=title,
        nav=bench_nav("ask"),
        cells=cells,
        action=action or Action(f"{len(faults)} to clear, then ask" if faults else "Work it out", form="ask"),
        status=422 if faults else 200,
        head=head,
        aside=aside,
        body=body,
        tries=() if document is not None else _tries(question),
    )
