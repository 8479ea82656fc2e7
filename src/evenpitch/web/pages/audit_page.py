"""After the cut: the log of a pass taken in, and what it proves: what was lost, where, and which spaces it hit by how much."""

from __future__ import annotations

from collections.abc import Mapping

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, Response

from evenpitch.job.auditing import LogAudit
from evenpitch.quantity.refusal import Fault, Refusal, refuse
from evenpitch.sheet.compose.gear import gear_line
from evenpitch.sheet.compose.log_audit import compose_audit
from evenpitch.sheet.document import Cell, Document
from evenpitch.sheet.flags import flagged
from evenpitch.sheet.frame_html import Action, Link
from evenpitch.sheet.print_html import SOURCES, parts
from evenpitch.store.files.job_file import read_job
from evenpitch.store.files.readings import MOST_LOG_ROWS, MOST_ROWS_WAITED_FOR
from evenpitch.web.audit_answer import audited, log_answer, read_space
from evenpitch.web.pages.fields import Field, left_over, with_messages
from evenpitch.web.pages.plan_page import PDF, Which, named
from evenpitch.web.pages.predict_page import OnDesk, on_desk
from evenpitch.web.pages.sent import TABLE, Sent, SentForm
from evenpitch.web.pages.shown import AtDesk, Desk, address, job_nav, sheet
from evenpitch.web.security import LARGEST_LOG_BODY
from evenpitch.web.typed import Collected

router = APIRouter(include_in_schema=False)

PRINT = "print"
LONGEST_SHOWN = 20_000
"""Letters of a table that stand on the page again; a longer one is sent anew."""


@router.get("/jobs/{name:path}/audit")
def show_audit(request: Request, desk: AtDesk, name: str, index: Which) -> HTMLResponse:
    """The form, empty."""
    at = on_desk(desk, name, index, {})
    _refuse_spur(at)
    return _page(request, desk, at, {})


@router.post("/jobs/{name:path}/audit")
def audit_it(request: Request, desk: AtDesk, name: str, index: Which, typed: SentForm) -> Response:
    """Audit the log sent; or print what it shows."""
    at = on_desk(desk, name, index, {})
    _refuse_spur(at)
    try:
        found = _audited(at, typed)
    except Refusal as refusal:
        return _page(request, desk, at, typed, faults=refusal.faults)
    if typed.get("press") == PRINT:
        return Response(log_answer(found).files["pdf"](), media_type=PDF, headers=named(f"{name} log.pdf"))
    return _page(request, desk, at, typed, found)


def _refuse_spur(at: OnDesk) -> None:
    """No page where nothing can be asked: what cannot be is told before a log is looked for."""
    gear = read_job(at.job_text).order(at.rig.rig).works[at.index].gear
    if not gear.helix:
        raise refuse(
            "job",
            "a spur gear",
            "a helical gear",
            "While a spur gear is cut nothing is linked.",
            "Audit the log of a helical job.",
        )


def _audited(at: OnDesk, typed: Sent) -> LogAudit:
    if typed.faults:
        raise Refusal(*typed.faults)
    collected = Collected()
    space = read_space(typed, collected)
    collected.settle()
    if not typed.get(TABLE, "").strip():
        raise refuse(TABLE, "", "the log of a pass", "Nothing was chosen yet.", "Choose its file, or paste it.")
    return audited(typed[TABLE], read_job(at.job_text).order(at.rig.rig), at.index, space, MOST_ROWS_WAITED_FOR)


def _page(
    request: Request,
    desk: Desk,
    at: OnDesk,
    typed: Mapping[str, str],
    found: LogAudit | None = None,
    faults: tuple[Fault, ...] = (),
) -> HTMLResponse:
    document = _asking(at) if found is None else compose_audit(found)
    shown = parts(document, links=_links(at), sources_at=SOURCES)
    first = len(flagged(document.findings)) + 1
    teeth = read_job(at.job_text).order(at.rig.rig).works[at.index].gear.teeth
    space = Field("space", "Space in the cutter", f"When the log begins; 1 to {teeth}.", "1", typed.get("space", ""))
    fields = with_messages((space,), faults, first)
    table = typed.get(TABLE, "")
    return sheet(
        request,
        "audit.html",
        title=shown["title"],
        nav=job_nav(at.name, "inspect", issued=bool(desk.book.issued(at.name))),
        cells=shown["cells"],
        action=Action(f"{len(faults)} to clear, then audit" if faults else "Audit the log", form="audit"),
        status=422 if faults else 200,
        head=shown["head"],
        aside=shown["aside"],
        body=shown["body"],
        audited=found is not None,
        left_over=left_over(faults, fields, first),
        fields=fields,
        table=table if len(table) <= LONGEST_SHOWN else "",
        to=address("jobs", at.name, "audit", gear=at.which),
        rows=f"{MOST_ROWS_WAITED_FOR // 1000}\u202f000",
        more=f"{MOST_LOG_ROWS // 1000}\u202f000",
        megabytes=LARGEST_LOG_BODY // 1_000_000,
    )


def _asking(at: OnDesk) -> Document:
    gear = read_job(at.job_text).order(at.rig.rig).works[at.index].gear
    return Document(
        kind="answer",
        title=f"Audit a log: {gear_line(gear)}",
        lead="Counts against pulses show the controller; the angle of motor or work beside them shows what really turned.",
        cells=(Cell("sheet", "log"), Cell("job", at.name)),
    )


def _links(at: OnDesk) -> tuple[Link, ...]:
    which = at.which
    links = [
        Link("what was expected", address("jobs", at.name, "predict", gear=which)),
        Link("inspect the gear", address("jobs", at.name, "inspect", gear=which)),
        Link("pick up a tooth", address("jobs", at.name, "pick-up", gear=which)),
    ]
    if at.gears == 2:
        links.insert(0, Link("its mate", address("jobs", at.name, "audit", gear="" if at.index else 2)))
    return tuple(links)
