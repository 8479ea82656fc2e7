"""A wrong reading: moved so much, shows so much. Its address holds what was asked."""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, Response

from evenpitch.quantity.field_names import FieldName
from evenpitch.quantity.refusal import Fault, Refusal
from evenpitch.sheet.document import Document
from evenpitch.sheet.frame_html import Action, Link
from evenpitch.sheet.print_html import parts
from evenpitch.web.answer import Answer
from evenpitch.web.pages.asked import rig_field, rig_named, tidy
from evenpitch.web.pages.fields import field, left_over, with_messages
from evenpitch.web.pages.shown import AtDesk, address, bench_nav, see, sheet
from evenpitch.web.prove_answer import reading_answer

router = APIRouter(include_in_schema=False)

TITLE = "Wrong reading?"
LEAD = "Moved 50 mm, shows 200: which setting explains that factor, alone or two together, and the one test that decides."


def _name(word: str, label: str, kind: Literal["length", "text", "belt", "ratio"], told: str, example: str) -> FieldName:
    return FieldName(table="rig", word=word, label=label, kind=kind, help=told, example=example)


FIRST = (
    _name("moved", "Moved", "text", "By block, dial or crank: a length, or an angle of the work.", "50 mm"),
    _name("shown", "Shows", "text", "What the display says, all its figures.", "200 mm"),
)
MORE = (
    _name("count", "Count entered", "length", "Table travel of one count; that of the rig where left out.", "1 µm"),
    _name("period", "Period of the scale", "length", "Usual: 20 µm.", "20 µm"),
    _name("belt", "Belt", "belt", "Teeth, motor : head. Usual: that of the rig, else 20:60.", "20:60"),
    _name("worm-ratio", "Worm ratio", "ratio", "Usual: that of the rig, else 40.", "40"),
)
TRIES = (("50 mm, shows 200", {"moved": "50 mm", "shown": "200 mm"}), ("63.5 mm, shows 12.7", {"moved": "63.5 mm", "shown": "12.7 mm"}),
         ("360°, turns 180°", {"moved": "360°", "shown": "180°"}))  # fmt: skip


@router.get("/reading")
def reading(request: Request, desk: AtDesk) -> Response:
    """The form, and beneath it the causes once both figures are typed."""
    query = request.query_params
    typed = tidy(query)
    if any(not text.strip() for text in query.values()):
        return see(address("reading", **typed))
    rig = typed.pop("rig", "") if query else next((kept.name for kept in desk.book.rigs()), "")
    made, faults = _asked(desk, typed, rig) if "moved" in typed or "shown" in typed else (None, ())
    return _page(request, desk, typed, rig, made, faults)


def _asked(desk: AtDesk, typed: dict[str, str], rig: str) -> tuple[Answer | None, tuple[Fault, ...]]:
    try:
        return reading_answer(typed, rig=rig_named(desk.book, rig)), ()
    except Refusal as refusal:
        return None, refusal.faults


def _told(document: Document) -> Document:
    """The likeliest cause and its test as one sentence: they are too long for figures."""
    if not document.keys:
        return replace(document, lead="Nothing known here explains it, alone or two together.")
    cause, test = (key.value for key in document.keys)
    return replace(document, lead=f"Likeliest: **{cause}**. {test}", keys=())


def _page(
    request: Request, desk: AtDesk, typed: dict[str, str], rig: str, made: Answer | None, faults: tuple[Fault, ...]
) -> HTMLResponse:
    document = Document(kind="answer", title=TITLE, lead=LEAD) if made is None else _told(made.document)
    shown = parts(document, links=(Link("ask anew", "/reading"),) if made is not None else ())
    first = with_messages((*(field(name, typed) for name in FIRST), rig_field(desk.book, rig)), faults)
    more = with_messages(tuple(field(name, typed) for name in MORE), faults)
    return sheet(
        request,
        "reading.html",
        title=TITLE,
        nav=bench_nav("ask"),
        cells=(("sheet", "wrong reading"), *((("rig", rig),) if rig else ())),
        action=Action(f"{len(faults)} to clear, then ask" if faults else "Find the cause", form="reading"),
        status=422 if faults else 200,
        head=shown["head"],
        aside=shown["aside"],
        body=shown["body"],
        first=first,
        more=more,
        opened=any(one.value or one.messages for one in more),
        left_over=left_over(faults, (*first, *more)),
        tries=[Link(words, address("reading", **asked)) for words, asked in TRIES] if made is None else (),
    )
