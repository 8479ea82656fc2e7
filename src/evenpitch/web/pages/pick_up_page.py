"""Pick up a tooth again: the touches of several cut spaces in, the offset of the work out, and one press by which all targets go by it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, Response
from markupsafe import Markup

from evenpitch.job.picking_up import PickedUp, pick_up
from evenpitch.job.plan import GearPlan, Plan
from evenpitch.quantity.refusal import Fault, Refusal
from evenpitch.quantity.showing import dms, number
from evenpitch.sheet.blocks_html import Setting, notes_html, section_html
from evenpitch.sheet.document import Section, Table, TableRow, Words
from evenpitch.sheet.flags import flagged
from evenpitch.sheet.frame_html import Action
from evenpitch.web.machine import Place, place_of
from evenpitch.web.pages.cut_view import here
from evenpitch.web.pages.fields import Field, left_over, with_messages
from evenpitch.web.pages.plan_page import Which, one_of
from evenpitch.web.pages.shown import AtDesk, Desk, TypedForm, address, job_nav, see, sheet
from evenpitch.web.picked_up import PLACES, SIDES, offset_of, touches_of, write_offset
from evenpitch.web.planned import plan_of

router = APIRouter(include_in_schema=False)

WRITE = "write"


@dataclass(frozen=True, slots=True)
class Tried:
    """What a form came to: the offset found; or what was refused, with the status that says so."""

    found: PickedUp | None = None
    faults: tuple[Fault, ...] = ()
    status: int = 200


@router.get("/jobs/{name:path}/pick-up")
def show_pick_up(request: Request, desk: AtDesk, name: str, index: Which) -> HTMLResponse:
    """The form, with spaces far apart proposed."""
    made = plan_of(desk.book, desk.book.job(name))
    gear = one_of(made, index)
    proposed = {f"space.{at}": str(1 + round(at * gear.gear.teeth / PLACES)) for at in range(PLACES - 1)}
    return _page(request, desk, name, made, index, proposed, Tried())


@router.post("/jobs/{name:path}/pick-up")
def work_it_out(request: Request, desk: AtDesk, name: str, index: Which, typed: TypedForm) -> Response:
    """The offset from what was typed; written into the record where that was pressed after it was shown."""
    made = plan_of(desk.book, desk.book.job(name))
    gear = one_of(made, index)
    found = None
    try:
        found = pick_up(gear, touches_of(gear.gear.teeth, typed))
        if typed.get("press") == WRITE and typed.get("shown") == str(offset_of(found)[0]):
            place = place_of(desk.book, name, index + 1, _whole(typed.get("plan", "")))
            pressed = write_offset(desk.book, place, gear.gear.teeth, found, desk.now, last_seen=_whole(typed.get("last", "")))
            return see(here(pressed.place, "start" if pressed.place.finished() else ""))
    except Refusal as refusal:
        return _page(request, desk, name, made, index, typed, Tried(found, refusal.faults, _status(refusal)))
    return _page(request, desk, name, made, index, typed, Tried(found))


def _whole(text: str) -> int | None:
    return int(text) if text.isascii() and text.isdigit() and len(text) < 10 else None


def _status(refusal: Refusal) -> int:
    from evenpitch.web.app import status_of

    return status_of(refusal)


def _page(
    request: Request, desk: Desk, name: str, made: Plan, index: int, typed: Mapping[str, str], tried: Tried
) -> HTMLResponse:
    gear, which, found = made.gears[index], str(index + 1) if index else "", tried.found
    place = place_of(desk.book, name, index + 1) if desk.book.issued(name) else None
    fields = with_messages(tuple(_field(kind, at, typed) for at in range(PLACES) for kind in ("space", *SIDES)), tried.faults)
    numbered = () if found is None else flagged(found.findings)
    rows = [("", fields[at * 3 : at * 3 + 3]) for at in range(PLACES)]
    to = address("jobs", name, "pick-up", gear=which)
    return sheet(
        request,
        "pick_up.html",
        title=f"Pick up a tooth of {name}",
        nav=job_nav(name, "inspect", issued=place is not None),
        cells=(("sheet", "pick up a tooth"), ("job", name), ("teeth", str(gear.gear.teeth))),
        action=_action(place, found, typed, to),
        status=tried.status,
        rows=rows,
        left_over=left_over(tried.faults, fields),
        result=Markup("") if found is None else section_html(_result(gear, found, place), Setting(numbered)),
        notes=notes_html(numbered),
        to=to,
    )


def _action(place: Place | None, found: PickedUp | None, typed: Mapping[str, str], to: str) -> Action:
    """The press that writes what is shown; before that, and without an issued plan, the working out."""
    if found is None or place is None:
        return Action("Work it out", form="pick-up")
    touches = tuple((name, text) for name, text in typed.items() if name.partition(".")[0] in ("space", *SIDES))
    known = (("plan", str(place.issued.number)), ("last", str(place.progress.last)), ("shown", str(offset_of(found)[0])))
    words = "Write it all the same" if found.findings else "Write it: targets go by it"
    return Action(words, to, post=True, hidden=(("press", WRITE), *known, *touches))


def _field(kind: str, at: int, typed: Mapping[str, str]) -> Field:
    label = {"space": "space", "left": "touches on the left at", "right": "touches on the right at"}[kind]
    example = "" if kind == "space" else "89° 4′ 30″"
    return Field(f"{kind}.{at}", f"{label}, place {at + 1}", "", example, typed.get(f"{kind}.{at}", ""))


def _result(gear: GearPlan, found: PickedUp, place: Place | None) -> Section:
    nominal = {space: 360 * (space - 1) / gear.gear.teeth for space, _ in found.centres}
    rows = tuple(
        TableRow((str(space), dms(nominal[space]), number(off * 1000, 0, plus=True) + " µm")) for space, off in found.centres
    )
    table = Table(("space", "planned at", "off the mean, at the pitch line"), rows, right=(0, 1, 2))
    return Section("offset", "Where the work stands", (Words(found.sentence, strong=True), table, *map(Words, _then(place))))


def _then(place: Place | None) -> tuple[str, ...]:
    back = "turn the work back in its dog by the offset, or set the dial by it, and pick up again: it must read 0"
    clean = "The first cut after it must clean both flanks."
    if place is None:
        return (f"No plan of this job is issued, so there is no record to write it to: {back}. {clean}",)
    before = place.progress.picked
    said = "" if before is None else f" The record goes by {number(before[0], 0, plus=True)}″ now; this takes its place."
    return (
        f"Written into the record, every target from here on goes by it: angle, pulse, crank; then turn nothing.{said}",
        f"Or write nothing: {back}. {clean}",
    )
