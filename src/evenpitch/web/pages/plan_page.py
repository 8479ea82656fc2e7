"""The plan of a job: read it, choose another way, issue it, print it."""

from __future__ import annotations

from dataclasses import replace
from typing import Annotated

from fastapi import APIRouter, Depends, Query, Request
from fastapi.responses import HTMLResponse, RedirectResponse, Response
from markupsafe import Markup

from evenpitch.job.plan import GearPlan, Plan
from evenpitch.quantity.refusal import refuse
from evenpitch.sheet.document import Choose, Document, Paper, Section, Table, TableRow
from evenpitch.sheet.frame_html import Action, Link
from evenpitch.sheet.kept_document import kept_pages
from evenpitch.sheet.print_html import page
from evenpitch.sheet.tables_html import Form
from evenpitch.store.exported import write_exported
from evenpitch.store.files.job_file import job_from_fields
from evenpitch.store.files.typed import flat, tables_of
from evenpitch.store.kept import KeptJob, KeptRelease
from evenpitch.web.job_tables import CSV, record_csv, targets_csv
from evenpitch.web.kept_inspections import line_of, of_gear
from evenpitch.web.machine import place_of
from evenpitch.web.opened import day
from evenpitch.web.pages.address_mark import address_mark
from evenpitch.web.pages.shown import AtDesk, Desk, TypedForm, address, job_nav, night_of, see
from evenpitch.web.papers import outline, pdf, plan_document, sheet_document, trial_document
from evenpitch.web.plan_answer import issue, still_stands
from evenpitch.web.planned import plan_of

router = APIRouter(include_in_schema=False)

CHOICES = ("choice.way", "choice.train", "choice.cutter", "choice.lead", "choice.dividing")
BEST = "the best"
LAST_INSPECTIONS = 5
"""The others are listed on the page to inspect."""
PDF = "application/pdf"


def _gear(gear: Annotated[int, Query(ge=1, le=2)] = 1) -> int:
    return gear - 1


Which = Annotated[int, Depends(_gear)]
"""The gear of a pair, from 0: ?gear=2 is the second."""

PaperAsked = Annotated[Paper | None, Query()]
"""The paper asked for: ?paper=letter; that of the job where none is."""


@router.get("/jobs/{name:path}/plan")
def show_plan(request: Request, desk: AtDesk, name: str, index: Which) -> HTMLResponse:
    """The plan of one gear of a job."""
    kept = desk.book.job(name)
    made = plan_of(desk.book, kept, desk.now().date())
    gear = one_of(made, index)
    document = plan_document(made, index)
    document = replace(document, sections=(*document.sections, *_choices(made, gear)))
    mark = _tablet(request, desk, name, index)
    return HTMLResponse(
        page(
            document,
            nav=job_nav(name, "plan", issued=bool(desk.book.issued(name))),
            night=night_of(request),
            action=_action(desk, kept, made, document),
            head_links=(
                *_links(name, made, index, desk.book.releases(name)[-3:]),
                *_prove(kept, gear, index),
                *_kept(desk, name, index),
                *((Link("for the tablet", "#tablet"),) if mark else ()),
            ),
            after=mark,
            form=Form(address("jobs", name, "choose"), (("gear", str(index + 1)),)),
        )
    )


def one_of(made: Plan, index: int) -> GearPlan:
    """One gear of an order; a Refusal where it has one only."""
    if index >= len(made.gears):
        raise refuse("gear", index + 1, "1", "This job has one gear.", "Leave it out.")
    return made.gears[index]


def _action(desk: Desk, kept: KeptJob, made: Plan, document: Document) -> Action:
    stops = sum(found.weight == "stop" for found in made.findings)
    if stops:
        return Action(document.stamp or f"{stops} stop{'s' * (stops > 1)} to clear", blocked=True)
    releases = desk.book.releases(kept.name)
    if releases and still_stands(desk.book, kept, releases[-1]):
        return Action(f"Print plan {releases[-1].number}", address("jobs", kept.name, "sheet.pdf"))
    number = releases[-1].number + 1 if releases else 1
    return Action(
        f"Issue plan {number} and print", address("jobs", kept.name, "issue"), post=True, hidden=(("version", str(kept.version)),)
    )


def _links(name: str, made: Plan, index: int, issued: tuple[KeptRelease, ...]) -> tuple[Link, ...]:
    which = index + 1 if index else ""
    links = []
    if len(made.gears) == 2:
        other = 2 - index
        mate = made.gears[1 - index].gear
        links.append(Link(f"its mate, {mate.teeth} teeth", address("jobs", name, "plan", gear=other if other == 2 else "")))
    links += [
        Link("what each cutter leaves", address("jobs", name, "cutters", gear=which)),
        Link("what the rig will leave", address("jobs", name, "predict", gear=which)),
    ]
    if made.gears[index].gear.helix and made.order.rig.link is not None:
        links += [
            Link("simulate a pass", address("jobs", name, "simulate", gear=which)),
            Link("audit a log", address("jobs", name, "audit", gear=which)),
        ]
    links += [
        Link(f"plan {one.number}, {day(one.date)}", address("jobs", name, "sheet.pdf", plan=one.number, gear=which))
        for one in issued
    ]
    links += [
        Link("sheet, A4", address("jobs", name, "sheet.pdf", gear=which, paper="a4")),
        Link("sheet, Letter", address("jobs", name, "sheet.pdf", gear=which, paper="letter")),
        Link("trial piece", address("jobs", name, "trial.pdf", gear=which)),
        Link("outline, DXF", address("jobs", name, "outline.dxf", gear=which)),
        Link("job file", address("jobs", name, "job.toml")),
    ]
    return tuple(links)


def _prove(kept: KeptJob, gear: GearPlan, index: int) -> tuple[Link, ...]:
    """Where the link of this gear is proven."""
    if kept.rig is None or gear.promise is None:
        return ()
    return (Link("prove the link", address("rigs", kept.rig, "proof", job=kept.name, gear=index + 1)),)


def _tablet(request: Request, desk: Desk, name: str, index: int) -> Markup:
    """The address of the job as a mark for the tablet beside the machine: of the cut once a plan is issued; nothing without --lan."""
    sheet = "cut" if desk.book.issued(name) else "plan"
    mark = address_mark(request, address("jobs", name, sheet, gear=index + 1 if index else ""))
    return Markup('<section id="tablet"><h2>At the machine</h2>{}</section>').format(mark) if mark else mark


def _kept(desk: Desk, name: str, index: int) -> tuple[Link, ...]:
    """The record of the cut and the inspections that the book keeps of this gear; the last few by their verdict."""
    issued = desk.book.issued(name)
    which = index + 1 if index else ""
    links = [Link("targets, CSV", address("jobs", name, "targets.csv", gear=which))] if issued else []
    links += [Link("cut record, CSV", address("jobs", name, "record.csv"))] if issued else []
    links += [
        Link(line_of(one), address("jobs", name, "inspections", str(one.number)))
        for one in of_gear(desk.book.inspections(name), index)[-LAST_INSPECTIONS:]
    ]
    return tuple(links)


def _choices(made: Plan, gear: GearPlan) -> tuple[Section, ...]:
    """What was chosen, and the way back to the best; for a helical gear what makes the lead."""
    choice, rows = made.order.choice, []
    if choice.way or choice.dividing:
        rows.append(
            TableRow(
                ("dividing", f"as you chose: {choice.way or choice.dividing}"), choose=Choose("choice.way", BEST, "Take the best")
            )
        )
    if choice.cutter:
        rows.append(TableRow(("cutter", f"as you chose: {choice.cutter}"), choose=Choose("choice.cutter", BEST, "Take the best")))
    if gear.gear.helix:
        by = gear.lead.by if gear.lead else None
        rows += [
            TableRow(("lead", f"by {other}"), choose=Choose("choice.lead", other, "Choose"), chosen=other == by)
            for other in ("link", "change gears")
        ]
        if choice.lead or choice.train:
            rows.append(TableRow(("lead", "as you chose"), choose=Choose("choice.lead", BEST, "Take the best")))
    return (Section("choices", "Your choices", (Table(("what", "which"), tuple(rows)),)),) if rows else ()


@router.post("/jobs/{name:path}/choose")
def choose(desk: AtDesk, name: str, typed: TypedForm) -> RedirectResponse:
    """Another way, train, cutter or lead: the next version of the job."""
    kept = desk.book.job(name)
    fields = dict(flat(tables_of(kept.text, name)))
    for field in CHOICES:
        if field in typed:
            _choose(fields, field, typed[field].strip(), pair="gear.1.teeth" in fields)
    file = job_from_fields(fields, kept.text)
    desk.book.replace_job(name, file.title, file.text, desk.now(), rig=kept.rig)
    gear = "2" if typed.get("gear") == "2" else ""
    part = {"choice.way": "dividing", "choice.cutter": "cutter", "choice.train": "lead-and-link", "choice.lead": "lead-and-link"}
    return see(
        address("jobs", name, "plan", gear=gear) + "#" + next((part[field] for field in typed if field in part), "choices")
    )


def _choose(fields: dict[str, str], field: str, value: str, *, pair: bool) -> None:
    """Set one choice; what it overrules falls away. A way for one gear of a pair is kept by its kind, for the other has another count."""
    together_with = {"choice.way": ("choice.dividing",), "choice.dividing": ("choice.way",), "choice.lead": ("choice.train",)}
    for gone in (field, *together_with.get(field, ())):
        fields.pop(gone, None)
    if value == BEST:
        return
    if field == "choice.way" and pair:
        field, value = "choice.dividing", value.partition(":")[0]
    fields[field] = value
    if field == "choice.train":
        fields["choice.lead"] = "change gears"


@router.post("/jobs/{name:path}/issue")
def issue_it(desk: AtDesk, name: str, typed: TypedForm) -> RedirectResponse:
    """Make the plan final and show its sheet. A press from a page that is no longer what the book holds is refused."""
    kept = desk.book.job(name)
    if typed.get("version", str(kept.version)) != str(kept.version):
        likely = "The job was changed after this page was loaded."
        raise refuse(
            "plan", f"version {typed['version']}", f"version {kept.version}", likely, "Read the plan again, then issue that."
        )
    issue(desk.book, name, desk.now)
    return see(address("jobs", name, "sheet.pdf"))


@router.get("/jobs/{name:path}/sheet.pdf")
def sheet_pdf(
    desk: AtDesk, name: str, index: Which, paper: PaperAsked = None, plan: Annotated[int | None, Query(ge=1)] = None
) -> Response:
    """The sheet for the wall: the issued one where job and rig still are as then, or the plan asked for by its number; else a draft."""
    kept = desk.book.job(name)
    releases = desk.book.releases(name)
    if plan is not None:
        issued: KeptRelease | None = desk.book.release(name, plan)
    else:
        issued = releases[-1] if releases and still_stands(desk.book, kept, releases[-1]) else None
    if issued is not None:
        pages = kept_pages(issued.document)
        document = pages[min(index, len(pages) - 1)]
        document = replace(document, paper=paper or document.paper)
    else:
        made = plan_of(desk.book, kept, desk.now().date())
        one_of(made, index)
        document = sheet_document(made, index, paper=paper)
    number = f"plan {issued.number}" if issued is not None else "draft"
    return Response(pdf(document), media_type=PDF, headers=named(f"{name} {number}.pdf"))


@router.get("/jobs/{name:path}/trial.pdf")
def trial_pdf(desk: AtDesk, name: str, index: Which, paper: PaperAsked = None) -> Response:
    """The sheet of the trial piece."""
    made = plan_of(desk.book, desk.book.job(name))
    one_of(made, index)
    return Response(pdf(trial_document(made, index, paper)), media_type=PDF, headers=named(f"{name} trial piece.pdf"))


@router.get("/jobs/{name:path}/outline.dxf")
def outline_dxf(desk: AtDesk, name: str, index: Which) -> Response:
    """Blank and tooth space as a drawing."""
    made = plan_of(desk.book, desk.book.job(name))
    one_of(made, index)
    return Response(outline(made, index), media_type="image/vnd.dxf", headers=named(f"{name} outline.dxf", keep=True))


@router.get("/jobs/{name:path}/job.toml")
def job_toml(desk: AtDesk, name: str) -> Response:
    """The job as a text file, as it was typed."""
    return Response(desk.book.job(name).text, media_type="application/toml", headers=named(f"{name}.toml", keep=True))


@router.get("/jobs/{name:path}/record.csv")
def job_record(desk: AtDesk, name: str) -> Response:
    """The cut record as a table."""
    desk.book.job(name)
    return Response(record_csv(desk.book, name), media_type=CSV, headers=named(f"{name} cut record.csv", keep=True))


@router.get("/jobs/{name:path}/targets.csv")
def job_targets(desk: AtDesk, name: str, index: Which) -> Response:
    """Where the work stands for each space of the issued plan."""
    made = targets_csv(place_of(desk.book, name, index + 1))
    return Response(made, media_type=CSV, headers=named(f"{name} targets.csv", keep=True))


@router.get("/jobs/{name:path}/job.jsonl")
def job_export(desk: AtDesk, name: str) -> Response:
    """The job whole, with its rigs, issued plans, records and inspections, as `evenpitch export` writes it."""
    from evenpitch import __version__

    content = write_exported(desk.book.give(name, __version__))
    return Response(content, media_type="application/jsonl", headers=named(f"{name}.jsonl", keep=True))


@router.get("/jobs/{name:path}")
def job_at(name: str) -> RedirectResponse:
    """A job's own address leads to its plan."""
    return see(address("jobs", name, "plan"))


def named(name: str, *, keep: bool = False) -> dict[str, str]:
    """The name under which a browser keeps a file; `keep`: it is kept, not shown."""
    plain = "".join(letter if letter.isascii() and (letter.isalnum() or letter in " .-_") else "-" for letter in name)
    return {"content-disposition": f'{"attachment" if keep else "inline"}; filename="{plain}"'}
