"""One pass tried before it is made: by hand or by power, with what spoils it, the error of the work drawn along the table."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, Response

from evenpitch.job.simulating import Simulation, simulate, usual_motion
from evenpitch.link.motion import CrankFeed, Motion, PowerFeed, checked_crank
from evenpitch.quantity.read_number import read_number
from evenpitch.quantity.read_physical import read_physical
from evenpitch.quantity.refusal import Fault, Refusal
from evenpitch.quantity.showing import number
from evenpitch.sheet.compose.simulation import compose_simulation
from evenpitch.sheet.document import Document
from evenpitch.sheet.flags import flagged
from evenpitch.sheet.frame_html import Action, Link
from evenpitch.sheet.print_html import SOURCES, parts
from evenpitch.store.files.job_file import read_job
from evenpitch.web.pages.fields import Field, left_over, with_messages
from evenpitch.web.pages.plan_page import PDF, Which, named
from evenpitch.web.pages.predict_page import OnDesk, Typed, on_desk, sound
from evenpitch.web.pages.shown import AtDesk, address, job_nav, sheet
from evenpitch.web.simulate_answer import pass_answer, read_as_set, read_feed
from evenpitch.web.typed import Collected

router = APIRouter(include_in_schema=False)

LONGEST = 60
HAND, POWER = "hand", "power"

FIELDS = (
    Field("moved", "Table moved by", "Hand or power.", "", "", choices=((HAND, "hand"), (POWER, "power feed"))),
    Field("feed", "Mean feed", "With its unit.", "60 mm/min", ""),
    Field("unevenness", "Unevenness of the hand", "How far its speed swings about the mean: 0 to 0.9.", "0.6", ""),
    Field("turns", "Turns of the crank", "A second.", "1 Hz", ""),
    Field("ramp", "Ramp of the controller", "Pulses/s², from pulses/s; empty: the drive takes any.", "5000 from 200", ""),
    Field("poll", "It looks every", "Empty: at every count.", "1 ms", ""),
    Field("vibration", "The table trembles", "How far either way, and how often.", "2 um 97 Hz", ""),
    Field("play", "When the pass begins", "The play", "", "closed", choices=(("closed", "play closed"), ("open", "play open"))),
)
UNDER_HAND = ("unevenness", "turns")


@dataclass(frozen=True, slots=True)
class _Tried:
    """The pass, or none where something was refused; the fields as they then stand."""

    found: Simulation | None
    typed: dict[str, str]
    faults: tuple[Fault, ...]


@router.get("/jobs/{name:path}/simulate")
def show_pass(request: Request, desk: AtDesk, name: str, index: Which, query: Typed) -> HTMLResponse:
    """One pass as this rig feeds it, or as typed."""
    at = sound(on_desk(desk, name, index, query))
    tried = _tried(at, query)
    document = _document(tried, at)
    shown = parts(document, links=_links(at), sources_at=SOURCES)
    first = len(flagged(document.findings)) + 1
    fields = with_messages(tuple(_filled(one, tried.typed) for one in FIELDS), tried.faults, first)
    return sheet(
        request,
        "simulate.html",
        title=shown["title"],
        nav=job_nav(name, "plan", issued=bool(desk.book.issued(name))),
        cells=shown["cells"],
        action=Action("Simulate this pass" if not tried.faults else f"{len(tried.faults)} to clear", form="pass"),
        status=422 if tried.faults else 200,
        head=shown["head"],
        aside=shown["aside"],
        body=shown["body"],
        left_over=left_over(tried.faults, fields, first),
        fields=fields,
        to=address("jobs", name, "simulate"),
        gear=at.which,
        carried=tuple(at.carried.items()),
        plain=address("jobs", name, "simulate", gear=at.which) if at.tried is not None else "",
    )


def _filled(one: Field, typed: Mapping[str, str]) -> Field:
    return Field(one.path, one.label, one.help, one.example, typed.get(one.path, one.value), choices=one.choices)


def _tried(at: OnDesk, query: Mapping[str, str]) -> _Tried:
    order = read_job(at.job_text).order(at.rig.rig)
    typed = {one.path: text for one in FIELDS if (text := query.get(one.path, "").strip()[:LONGEST])}
    if "moved" not in typed:
        typed |= {word: text for word, text in _as_typed(usual_motion(order, at.index)).items() if word not in typed}
    try:
        collected = Collected()
        motion = _motion(typed, collected)
        as_set = read_as_set(typed, collected)
        collected.settle()
        assert motion is not None
        return _Tried(simulate(order, motion, gear=at.index, as_set=as_set), typed, ())
    except Refusal as refusal:
        if any(fault.field in ("job", "rig, link") for fault in refusal.faults):
            raise  # nothing is linked: there is no pass to try
        return _Tried(None, typed, refusal.faults)


def _as_typed(motion: Motion) -> dict[str, str]:
    """The rig's own motion as a person would type it."""
    match motion:
        case CrankFeed(mean, unevenness, turns, _):
            feed = f"{number(60 * mean, 0)} mm/min"
            return {"moved": HAND, "feed": feed, "unevenness": f"{unevenness:g}", "turns": f"{turns:g} Hz"}
        case PowerFeed(feed):
            return {"moved": POWER, "feed": f"{number(60 * feed, 0)} mm/min"}
        case _:
            return {}


def _motion(typed: Mapping[str, str], collected: Collected) -> Motion | None:
    steady = collected.read(typed, "feed", read_feed, PowerFeed(1.0))
    if typed.get("moved") == POWER:
        return steady
    unevenness = collected.read(typed, "unevenness", lambda text: float(read_number(text, field="unevenness")), 0.6)
    turns = collected.read(typed, "turns", lambda text: read_physical(text, "frequency", field="turns", bare="Hz"), 1.0)
    if collected.faults:
        return None
    return collected.read({"unevenness": "typed"}, "unevenness", lambda _: _hand(steady.feed, unevenness, turns), None)


def _hand(mean: float, unevenness: float, turns: float) -> CrankFeed:
    try:
        return checked_crank(mean, unevenness, turns)
    except Refusal as refusal:
        fault = refusal.faults[0]
        raise Refusal(Fault("unevenness", f"{unevenness:g}", fault.expected, fault.likely, "Write 0.6.")) from None


def _document(tried: _Tried, at: OnDesk) -> Document:
    if tried.found is not None:
        return compose_simulation(tried.found)
    return Document(kind="answer", title=f"One pass of job {at.name}", lead="Nothing was simulated: see below what to clear.")


def _links(at: OnDesk) -> tuple[Link, ...]:
    links = [
        Link("try another feed", "#try"),
        Link("what the rig will leave", at.to("predict")),
        Link("audit a log", address("jobs", at.name, "audit", gear=at.which)),
        Link("the plan", address("jobs", at.name, "plan", gear=at.which)),
    ]
    if at.gears == 2:
        links.insert(0, Link("its mate", address("jobs", at.name, "simulate", gear="" if at.index else 2, **at.carried)))
    return tuple(links)


@router.get("/jobs/{name:path}/pass.pdf")
def pass_pdf(desk: AtDesk, name: str, index: Which, query: Typed) -> Response:
    """The pass on paper, with the same fields in the address as its page."""
    tried = _tried(sound(on_desk(desk, name, index, query)), query)
    if tried.found is None:
        raise Refusal(*tried.faults)
    return Response(pass_answer(tried.found).files["pdf"](), media_type=PDF, headers=named(f"{name} one pass.pdf"))
