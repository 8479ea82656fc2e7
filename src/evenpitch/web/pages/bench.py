"""The bench: jobs in hand, starts for a new one, the rigs."""

from __future__ import annotations

from dataclasses import dataclass, replace

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, RedirectResponse
from markupsafe import Markup
from starlette.background import BackgroundTask

from evenpitch.job.order import Order
from evenpitch.job.plan import Plan
from evenpitch.quantity.refusal import Refusal
from evenpitch.quantity.showing import angle_words
from evenpitch.quantity.units import to_degrees
from evenpitch.rig.rig import Rig
from evenpitch.sheet.frame_html import Action
from evenpitch.sheet.markup import bare_flag
from evenpitch.store.files.rig_file import read_rig
from evenpitch.store.kept import KeptJob, KeptRig
from evenpitch.web.opened import day
from evenpitch.web.pages.shown import AtDesk, Desk, address, bench_nav, see, sheet
from evenpitch.web.planned import plan_of

router = APIRouter(include_in_schema=False)

PLANNED = 12
"""Jobs whose plan is looked at for the list; the older ones are opened to be read."""
SHOWN = 60


@dataclass(frozen=True, slots=True)
class JobRow:
    """One job of the list."""

    name: str
    title: str
    line: str
    stands: str
    flag: Markup
    next: str
    button: str
    to: str
    scale: Markup = Markup("")


@router.get("/")
def bench(request: Request, desk: AtDesk) -> HTMLResponse:
    """The first page."""
    jobs = desk.book.jobs()
    rows = tuple(_row(desk, kept, look=place < PLANNED) for place, kept in enumerate(jobs[:SHOWN]))
    rigs = tuple((kept, rig_line(kept)) for kept in desk.book.rigs())
    some = "no jobs yet" if not jobs else "1 job" if len(jobs) == 1 else f"{len(jobs)} jobs"
    cells = (("sheet", "bench"), ("book", some), ("rigs", str(len(rigs))))
    page = sheet(
        request,
        "bench.html",
        title="Bench",
        nav=bench_nav("bench"),
        cells=cells,
        action=Action("New job", "/jobs/new"),
        jobs=rows,
        older=len(jobs) - len(rows),
        rigs=rigs,
        address=address,
    )
    page.background = BackgroundTask(request.app.load_rest)  # what is opened next is loaded while this is read
    return page


@router.post("/example")
def example(desk: AtDesk) -> RedirectResponse:
    """The worked example into the book, and to its plan."""
    from evenpitch.web.demo import FIRST, set_up_museum

    letters = set_up_museum(desk.book, desk.now)
    return see(address("jobs", letters[0] if letters else FIRST, "plan"))


def _row(desk: Desk, kept: KeptJob, *, look: bool) -> JobRow:
    released = desk.book.issued(kept.name)
    last = released[-1] if released else None
    stands = "plan, not issued" if last is None else f"plan {last.number} issued {day(last.date)}"
    if last is not None and last.job_version != kept.version:
        stands += ", changed since"
    plain = JobRow(kept.name, kept.title, "", stands, Markup(""), "", "Read the plan", address("jobs", kept.name, "plan"))
    if not look:
        return plain
    try:
        made = plan_of(desk.book, kept, desk.now().date())
    except Refusal as refusal:
        words = f"{len(refusal.faults)} to mend"
        return JobRow(
            kept.name,
            kept.title,
            "",
            "cannot be planned",
            bare_flag("stop"),
            words,
            "Mend it",
            address("jobs", kept.name, "gear"),
        )
    row = replace(plain, line=order_line(made.order))
    if last is not None:
        from evenpitch.web.pages.cut_so_far import cut_so_far

        if (cut := cut_so_far(desk.book, kept.name)) is not None:
            return replace(row, stands=cut.words, scale=cut.scale, flag=cut.flag, next=cut.next, button=cut.button, to=cut.to)
    flag, words = _next(made)
    return replace(row, flag=flag, next=words)


def _next(made: Plan) -> tuple[Markup, str]:
    weights = [found.weight for found in made.findings]
    if stops := weights.count("stop"):
        return bare_flag("stop"), "1 stop to clear" if stops == 1 else f"{stops} stops to clear"
    if looks := weights.count("look"):
        return bare_flag("look"), f"{looks} to look at"
    return Markup(""), ""


def order_line(order: Order) -> str:
    """A job in one short line: "28 and 56 t · module 2 · 20° · helical"."""
    gears = [work.gear for work in order.works]
    counts = " and ".join(str(gear.teeth) for gear in gears)
    first = gears[0]
    kind = f"helix {angle_words(to_degrees(first.helix))}" if first.helix else "spur"
    return f"{counts} t · {first.pitch_words()} · {angle_words(to_degrees(first.pressure_angle))} · {kind}"


def rig_line(kept: KeptRig) -> str:
    """What a rig has, in one line."""
    try:
        return rig_summary(read_rig(kept.text).rig)
    except Refusal as refusal:
        return f"{len(refusal.faults)} to mend"


def rig_summary(rig: Rig) -> str:
    """Plates, gears, link, cutters."""
    parts = [f"{len(rig.plates)} plate{'s' * (len(rig.plates) != 1)}"]
    parts.append(f"{len(rig.change_gears.teeth)} change gears" if rig.change_gears.teeth else "no change gears")
    pulses = rig.pulses_per_turn()
    if pulses is not None:
        parts.append(f"link, {float(1_296_000 / pulses):.4g}″ a pulse")
    elif rig.link is not None:
        parts.append("link")
    if rig.cutters:
        parts.append(f"{len(rig.cutters)} cutters")
    return ", ".join(parts)
