"""Pick up a tooth again: the touches of several cut spaces in, the offset of the work with its doubt out."""

from __future__ import annotations

from collections.abc import Mapping

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse
from markupsafe import Markup

from evenpitch.job.picking_up import PickedUp, Touch, pick_up
from evenpitch.job.plan import GearPlan, Plan
from evenpitch.quantity.read_angle import read_angle
from evenpitch.quantity.read_number import read_whole
from evenpitch.quantity.refusal import Fault, Refusal
from evenpitch.quantity.showing import dms, number
from evenpitch.quantity.units import degrees
from evenpitch.sheet.blocks_html import Setting, notes_html, section_html
from evenpitch.sheet.document import Section, Table, TableRow, Words
from evenpitch.sheet.flags import flagged
from evenpitch.sheet.frame_html import Action
from evenpitch.web.pages.fields import Field, left_over, with_messages
from evenpitch.web.pages.plan_page import Which, one_of
from evenpitch.web.pages.shown import AtDesk, Desk, TypedForm, address, job_nav, sheet
from evenpitch.web.planned import plan_of

router = APIRouter(include_in_schema=False)

PLACES = 4
SIDES = ("left", "right")


@router.get("/jobs/{name:path}/pick-up")
def show_pick_up(request: Request, desk: AtDesk, name: str, index: Which) -> HTMLResponse:
    """The form, with spaces far apart proposed."""
    made = plan_of(desk.book, desk.book.job(name))
    gear = one_of(made, index)
    proposed = {f"space.{at}": str(1 + round(at * gear.gear.teeth / PLACES)) for at in range(PLACES - 1)}
    return _page(request, desk, name, made, index, proposed, None, ())


@router.post("/jobs/{name:path}/pick-up")
def work_it_out(request: Request, desk: AtDesk, name: str, index: Which, typed: TypedForm) -> HTMLResponse:
    """The offset from what was typed."""
    made = plan_of(desk.book, desk.book.job(name))
    gear = one_of(made, index)
    try:
        found = pick_up(gear, _touches(gear, typed))
    except Refusal as refusal:
        return _page(request, desk, name, made, index, typed, None, refusal.faults, 422)
    return _page(request, desk, name, made, index, typed, found, ())


def _touches(gear: GearPlan, typed: Mapping[str, str]) -> tuple[Touch, ...]:
    faults: list[Fault] = []
    found = []
    for at in range(PLACES):
        sides = [typed.get(f"{side}.{at}", "").strip() for side in SIDES]
        if not any(sides):
            continue
        try:
            space = read_whole(typed.get(f"space.{at}", ""), field=f"space.{at}", least=1, most=gear.gear.teeth)
            left, right = (degrees(read_angle(text, field=f"{side}.{at}")) for side, text in zip(SIDES, sides, strict=True))
            found.append(Touch(space, float(left), float(right)))
        except Refusal as refusal:
            faults += refusal.faults
    if faults:
        raise Refusal(*faults)
    return tuple(found)


def _page(
    request: Request,
    desk: Desk,
    name: str,
    made: Plan,
    index: int,
    typed: Mapping[str, str],
    found: PickedUp | None,
    faults: tuple[Fault, ...],
    status: int = 200,
) -> HTMLResponse:
    gear, which = made.gears[index], str(index + 1) if index else ""
    fields = with_messages(tuple(_field(kind, at, typed) for at in range(PLACES) for kind in ("space", *SIDES)), faults)
    numbered = () if found is None else flagged(found.findings)
    rows = [("", fields[at * 3 : at * 3 + 3]) for at in range(PLACES)]
    action = Action("Work it out", form="pick-up")
    if found is not None and not found.findings and desk.book.issued(name):
        action = Action("Carry on cutting", address("jobs", name, "cut", gear=which))
    return sheet(
        request,
        "pick_up.html",
        title=f"Pick up a tooth of {name}",
        nav=job_nav(name, "inspect", issued=bool(desk.book.issued(name))),
        cells=(("sheet", "pick up a tooth"), ("job", name), ("teeth", str(gear.gear.teeth))),
        action=action,
        status=status,
        rows=rows,
        left_over=left_over(faults, fields),
        result=Markup("") if found is None else section_html(_result(gear, found), Setting(numbered)),
        notes=notes_html(numbered),
        to=address("jobs", name, "pick-up", gear=which),
    )


def _field(kind: str, at: int, typed: Mapping[str, str]) -> Field:
    label = {"space": "space", "left": "touches on the left at", "right": "touches on the right at"}[kind]
    example = "" if kind == "space" else "89° 4′ 30″"
    return Field(f"{kind}.{at}", f"{label}, place {at + 1}", "", example, typed.get(f"{kind}.{at}", ""))


def _result(gear: GearPlan, found: PickedUp) -> Section:
    nominal = {space: 360 * (space - 1) / gear.gear.teeth for space, _ in found.centres}
    rows = tuple(
        TableRow((str(space), dms(nominal[space]), number(off * 1000, 0, plus=True) + " µm")) for space, off in found.centres
    )
    table = Table(("space", "planned at", "off the mean, at the pitch line"), rows, right=(0, 1, 2))
    then = "Turn the work back by the offset, or set the datum of the dial by it; then the first cut must clean both flanks."
    return Section("offset", "Where the work stands", (Words(found.sentence, strong=True), table, Words(then)))
