"""The gear of a job: new from a drawing or from one line, and changed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, Response
from markupsafe import Markup

from evenpitch.quantity.gear_line import read_gear_line
from evenpitch.quantity.names import field_named, fields
from evenpitch.quantity.refusal import Fault, Refusal
from evenpitch.sheet.frame_html import Action
from evenpitch.sheet.markup import bare_flag
from evenpitch.store.files.typed import flat, tables_of
from evenpitch.store.kept import KeptJob
from evenpitch.web.pages.fields import Field, field, left_over, named, with_messages
from evenpitch.web.pages.job_text import FORM_ONLY, Read, job_fields, read_form, readable_gears
from evenpitch.web.pages.read_back import read_back
from evenpitch.web.pages.shown import AtDesk, Desk, TypedForm, address, bench_nav, job_nav, see, sheet
from evenpitch.web.taken_in import keep_job
from evenpitch.web.usual_rig import USUAL_NAME

router = APIRouter(include_in_schema=False)

MAIN = ("teeth", "pitch", "pressure_angle", "face", "helix", "hand")
BLANK = ("material", "bore", "outside_found", "quantity")
TEETH = ("depth", "shift", "thinning", "tolerance_class", "drive", "spanned", "pin", "span_tolerance", "outside_tolerance")
CHOICE = ("dividing", "lead", "cutter", "paper", "paper_thickness")


@dataclass(frozen=True, slots=True)
class Form:
    """A job form about to be shown. `name` "": a new job; `saved`: what the book holds of it."""

    typed: Mapping[str, str]
    faults: tuple[Fault, ...] = ()
    notice: str = ""
    name: str = ""
    title: str = ""


@router.get("/jobs/new")
def new_job(request: Request, desk: AtDesk) -> HTMLResponse:
    """An empty form, or one filled in from a line: ?line=97t 12DP 14½ face 3/4."""
    asked = dict(request.query_params)
    typed = {"rig": _first_rig(desk), "gears": "one"} | {path: text[:2000] for path, text in asked.items() if path != "line"}
    line = asked.get("line", "")[:500]
    if not line.strip():
        return _page(request, desk, Form(typed))
    try:
        said = read_gear_line(line, field="line")
    except Refusal as refusal:
        return _page(request, desk, Form(typed | {"line": line}, refusal.faults), status=422)
    typed |= {f"gear.0.{word}": text for word, text in said.items()}
    read = read_form(desk.book, typed)
    missing = tuple(fault for fault in read.faults if fault.given)
    return _page(request, desk, Form(typed, missing, "Read back from your line. Fill in what is still empty, then plan it."))


@router.post("/jobs/new")
def make_job(request: Request, desk: AtDesk, typed: TypedForm) -> Response:
    """Keep the job and go to its plan; or the form again, with everything as typed."""
    read = read_form(desk.book, typed)
    again = _again(request, desk, typed, read, "")
    if again is not None:
        return again
    assert read.job is not None
    kept = keep_job(desk.book, read.job, desk.now(), rig=typed.get("rig") or None)
    return see(address("jobs", kept.name, "plan"))


@router.get("/jobs/{name:path}/gear")
def show_job(request: Request, desk: AtDesk, name: str) -> HTMLResponse:
    """A job in the book, to be read or changed."""
    kept = desk.book.job(name)
    return _page(request, desk, Form(stored_fields(kept), name=name, title=kept.title))


@router.post("/jobs/{name:path}/gear")
def change_job(request: Request, desk: AtDesk, name: str, typed: TypedForm) -> Response:
    """The next version of a job; what was chosen for the gear before falls away where the gear changed."""
    kept = desk.book.job(name)
    read = read_form(desk.book, merged(kept, typed), kept.text)
    again = _again(request, desk, typed, read, name)
    if again is not None:
        return again
    assert read.job is not None
    desk.book.replace_job(name, read.job.title, read.job.text, desk.now(), rig=typed.get("rig") or None)
    return see(address("jobs", name, "plan"))


def stored_fields(kept: KeptJob) -> dict[str, str]:
    """What was typed for a job, as the fields of its form."""
    typed = dict(flat(tables_of(kept.text, kept.name)))
    two = any(path.startswith("gear.1.") for path in typed)
    return typed | {"rig": kept.rig or "", "gears": "two" if two else "one"}


def merged(kept: KeptJob, typed: Mapping[str, str]) -> dict[str, str]:
    """The form over what the book holds: fields that no form shows stay, unless the gear they were chosen for changed."""
    before = {path: text for path, text in stored_fields(kept).items() if path not in FORM_ONLY}
    now = job_fields(typed)
    changed = any(before.get(path, "") != text.strip() for path, text in now.items() if path.startswith("gear."))
    stays = {path: text for path, text in before.items() if path not in now and not path.startswith(("gear.1.", "pair."))}
    if changed or typed.get("rig", "") != (kept.rig or ""):
        stays = {path: text for path, text in stays.items() if path not in ("choice.way", "choice.train")}
    return stays | dict(typed)


def _again(request: Request, desk: Desk, typed: Mapping[str, str], read: Read, name: str) -> HTMLResponse | None:
    """The form once more, where something was refused, was asked to be read back, or took a unit that nobody typed."""
    title = desk.book.job(name).title if name else ""
    if read.faults:
        return _page(request, desk, Form(typed, read.faults, name=name, title=title), status=422)
    if typed.get("press") == "read":
        return _page(request, desk, Form({**typed, **read.fields}, name=name, title=title))
    if read.unit_added:
        said = f"No unit was typed for {', '.join(read.unit_added)}: this is the unit of the pitch. Look at it, then plan it."
        return _page(request, desk, Form({**typed, **read.fields}, notice=said, name=name, title=title))
    return None


def _first_rig(desk: Desk) -> str:
    jobs = desk.book.jobs()
    rigs = desk.book.rigs()
    return (jobs[0].rig if jobs else None) or (rigs[0].name if rigs else "")


def _page(request: Request, desk: Desk, form: Form, status: int = 200) -> HTMLResponse:
    typed, faults = form.typed, form.faults
    sections = {
        "main": _shown(typed, MAIN, 0, faults),
        "blank": _shown(typed, BLANK, 0, faults),
        "teeth": _shown(typed, TEETH, 0, faults),
        "second": _shown(typed, MAIN, 1, faults),
        "second_more": _shown(typed, BLANK + TEETH, 1, faults),
        "pair": with_messages(tuple(field(name, typed) for name in fields("pair")), faults),
        "choice": with_messages(tuple(named("choice", word, typed) for word in CHOICE), faults),
        "top": with_messages(
            (field(field_named("job", "title"), typed), _rig_field(desk, typed), _units_field(typed), _gears_field(typed)), faults
        ),
        "line": with_messages((_line_field(typed),), faults),
    }
    known = tuple(one for group in sections.values() for one in group)
    words = form.title if form.name else "new"
    stops = len(faults)
    cells: list[tuple[str, Markup | str]] = [("sheet", "1 gear"), ("job", f"{form.name} · {words}" if form.name else words)]
    if stops:
        cells.append(("still open", Markup("{} {}").format(bare_flag("stop"), f"{stops} stop{'s' * (stops > 1)} to clear")))
    return sheet(
        request,
        "job_form.html",
        title=form.title or "New gear",
        nav=job_nav(form.name, "gear", issued=bool(desk.book.issued(form.name))) if form.name else bench_nav(),
        cells=cells,
        action=Action("Plan it" if not stops else f"{stops} to clear, then plan it", form="job"),
        status=status,
        body_class="refused" if stops else "",
        heading="Gear from a drawing" if not form.name else f"{form.name} · {form.title}",
        to=address("jobs", form.name, "gear") if form.name else "/jobs/new",
        fields=sections,
        opened={key: _any(group) for key, group in sections.items()},
        notice=form.notice,
        left_over=left_over(faults, known),
        read_back=read_back(readable_gears(job_fields(typed)), typed),
        is_new=not form.name,
        line_shown=bool(sections["line"][0].messages),
        job_file=address("jobs", form.name, "job.toml") if form.name else "",
    )


def _shown(
    typed: Mapping[str, str], words: tuple[str, ...], place: Literal[0, 1], faults: tuple[Fault, ...]
) -> tuple[Field, ...]:
    return with_messages(tuple(named("gear", word, typed, place) for word in words), faults)


def _any(group: tuple[Field, ...]) -> bool:
    return any(one.value or one.messages for one in group)


def _rig_field(desk: Desk, typed: Mapping[str, str]) -> Field:
    rigs = [(kept.name, kept.name) for kept in desk.book.rigs()]
    choices = (*rigs, ("", f"{USUAL_NAME}, three plates, twelve change gears"))
    help_words = "What you cut it with. Describe yours under rigs: head ratio and one plate are enough."
    return Field("rig", "Rig", help_words, "", typed.get("rig", ""), choices, wordy=True)


def _units_field(typed: Mapping[str, str]) -> Field:
    choices = (("", "as the pitch"), ("metric", "mm"), ("inch", "inch"))
    help_words = "Of numbers typed without one, and of the figures in bold."
    return Field("choice.units", "Unit", help_words, "", typed.get("choice.units", ""), choices)


def _gears_field(typed: Mapping[str, str]) -> Field:
    choices = (("one", "one"), ("two", "a pair"))
    return Field(
        "gears",
        "How many gears",
        "A pair runs together at a centre distance.",
        "",
        "two" if typed.get("gears") == "two" else "one",
        choices,
    )


def _line_field(typed: Mapping[str, str]) -> Field:
    return Field("line", "In one line", "", "97t 12DP 14½ face 3/4", typed.get("line", ""))
