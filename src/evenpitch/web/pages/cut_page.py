"""Sheet 4, the page at the machine: where the work must stand, one large press for the space that was cut. It moves nothing."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Depends, Query, Request
from fastapi.responses import HTMLResponse, Response
from markupsafe import Markup

from evenpitch.job.record import KINDS, Kind
from evenpitch.quantity.refusal import Refusal, refuse
from evenpitch.sheet.drawings.ring import ring_of_spaces
from evenpitch.sheet.print_svg import svg
from evenpitch.web.cut_words import PASS_WORDS, picked_words
from evenpitch.web.machine import Place, place_of, press
from evenpitch.web.pages.cut_fields import fields_of
from evenpitch.web.pages.cut_forms import form_page
from evenpitch.web.pages.cut_view import View, by_hand, here, not_written, overtaken, view_of
from evenpitch.web.pages.shown import AtDesk, TypedForm, address, see, sheet

router = APIRouter(include_in_schema=False)


def _gear(gear: Annotated[int, Query(ge=1, le=2)] = 1) -> int:
    return gear


Gear = Annotated[int, Depends(_gear)]
"""Which gear of a pair: ?gear=2 is the second."""

LONG, LONGER = 15, 20
"""Letters of the second figure that stand on one line at its full size, and at its smaller one."""

SCRATCH_SHARE = 0.02
"""Depth of a scratch as drawn, by the outside radius: to be seen at all."""

PAGES = ("start", "count", "note", "closing")
"""Those that belong to it: each asks for a few figures and writes one entry."""


@router.get("/jobs/{name:path}/cut")
def at_machine(request: Request, desk: AtDesk, name: str, gear: Gear) -> Response:
    """Where the cutting stands. Before anything was begun: how to begin."""
    place = place_of(desk.book, name, gear)
    if not place.progress.begun:
        return see(here(place, "start"))
    return _page(request, place, view_of(place, desk.started))


@router.get("/jobs/{name:path}/cut/{page}")
def ask(request: Request, desk: AtDesk, name: str, page: str, gear: Gear) -> HTMLResponse:
    """Begin a pass, two counts, a note with what was measured, a closing gap."""
    if page not in PAGES:
        raise refuse("address", page, "an address of these pages", "Nothing is there.", "Go to the bench and look from there.")
    return form_page(request, place_of(desk.book, name, gear), page)


@router.post("/jobs/{name:path}/cut")
def write(request: Request, desk: AtDesk, name: str, typed: TypedForm) -> Response:
    """One press. It is on the disk before the next page is shown; where it cannot be, it stays on the screen."""
    place = place_of(desk.book, name, _number(typed, "gear", 1), _number(typed, "plan", None))
    try:
        kind = _kind(typed)
        if kind == "note" and (typed.get("depth", "").strip() or typed.get("span", "").strip()):
            kind = "depth"
        fields = fields_of(kind, typed)
        pressed = press(desk.book, place, kind, desk.now, last_seen=_number(typed, "last", None), **fields)
    except Refusal as refusal:
        return _refused(request, place, typed, refusal)
    return see(here(pressed.place))


def _refused(request: Request, place: Place, typed: dict[str, str], refusal: Refusal) -> Response:
    """Not written, overtaken, or impossible: each with its reason, and nothing applied."""
    fault = refusal.faults[0]
    page = typed.get("page", "")
    if fault.field == "book":
        again = tuple((name, value) for name, value in typed.items())
        return _page(request, place, not_written(place, again, _reason(fault.likely), fault.do), status=503)
    fresh = _again(request, place)
    if fault.field == "last entry seen":
        return _page(request, fresh, overtaken(fresh, fault.likely), status=409)
    if page in PAGES:
        return form_page(request, fresh, page, typed, refusal, status=422)
    return _page(request, fresh, overtaken(fresh, f"{fault.likely} {fault.do}".strip()), status=422)


def _again(request: Request, place: Place) -> Place:
    """The place as the book has it now."""
    try:
        return place_of(request.app.state.desk.book, place.job, place.cutting.gear, place.issued.number)
    except Refusal:
        return place


def _reason(text: str) -> str:
    """A reason as the end of a line: no capital, no full stop."""
    return text[:1].lower() + text[1:].rstrip(".")


def _kind(typed: dict[str, str]) -> Kind:
    for kind in KINDS:
        if kind == typed.get("kind"):
            return kind
    raise refuse("kind", typed.get("kind", ""), f"one of {', '.join(KINDS)}", "", "Press on the page at the machine.")


def _number(typed: dict[str, str], name: str, usual: int | None) -> int:
    text = typed.get(name, "")
    if not text and usual is not None:
        return usual
    if not text.isascii() or not text.isdigit() or len(text) > 9:
        raise refuse(name, text, "a whole number", "The form was not sent by this page.", "Load the page again.")
    return int(text)


def _page(request: Request, place: Place, view: View, status: int = 200) -> HTMLResponse:
    progress = place.progress
    running = progress.running
    share = place.to.depth_share if running != "scratch" else SCRATCH_SHARE
    ring = ring_of_spaces(place.cutting.spaces, progress.cut, place.next() or 1, depth_share=share, work_turns="anticlockwise")
    gear = "" if place.cutting.gear == 1 else place.cutting.gear
    return sheet(
        request,
        "cut.html",
        title=f"{place.job}: {len(progress.cut)} cut, {view.beside[0]} {view.beside[1]}",
        nav=(),
        status=status,
        body_class=f"at-machine {view.state}",
        mark=mark_of(place),
        home=address("jobs", place.job, "plan", gear=gear),
        place=place,
        view=view,
        ring=Markup(svg(ring)),
        count=len(progress.cut),
        of=place.cutting.planned(running).spaces,
        pass_words=PASS_WORDS[running] if len(place.cutting.rounds()) > 1 or running in ("scratch", "trial") else "",
        picked=picked_words(place),
        more=by_hand(place) if view.state in ("next", "waiting") else view.more,
        size=_size(view),
        to=address("jobs", place.job, "cut"),
    )


def _size(view: View) -> str:
    """The class of the second figure: smaller where it is long, or where more is said beneath it."""
    letters = sum(len(figure) + len(words) for figure, words in view.big)
    return "longer" if letters > LONGER or view.more else "long" if letters > LONG else ""


def mark_of(place: Place) -> str:
    """The job and its gear in the corner of the page: "A · 97 t · 12 DP · 14½°", "B · 28 t · module 2 · 20° helix right"."""
    teeth, pitch, *angles = place.to.line.replace(" teeth", " t").split(", ")
    angle = angles[-1] if place.to.helical else angles[0]
    return " · ".join((place.job, teeth, pitch, angle))
