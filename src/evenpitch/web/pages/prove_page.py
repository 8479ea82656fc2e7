"""Prove the rig: mount and prove the scale, and with a helical job the link; eight checks, what each found, one sentence."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Annotated

from fastapi import APIRouter, Query, Request
from fastapi.responses import HTMLResponse, Response
from markupsafe import Markup

from evenpitch import __version__
from evenpitch.checking.good_to import OnGear
from evenpitch.job.linked_gear import on_gear
from evenpitch.job.mounting import Mounted
from evenpitch.job.order import Order
from evenpitch.job.proof_checks import CheckKind, ProofCheck
from evenpitch.quantity.refusal import Fault, Refusal
from evenpitch.rig.rig import Rig
from evenpitch.sheet.answers import plain
from evenpitch.sheet.blocks_html import Setting, notes_html, section_html, sections_html
from evenpitch.sheet.compose.proving import check_row
from evenpitch.sheet.compose.rig_proof import TITLE, along_picture, proof_pictures, proves_section, with_date
from evenpitch.sheet.document import Document, Section
from evenpitch.sheet.flags import flagged
from evenpitch.sheet.frame_html import Action, Link
from evenpitch.sheet.kept_document import kept as kept_text
from evenpitch.sheet.markup import cell_words, verdict
from evenpitch.sheet.print_html import head_html
from evenpitch.store.files.job_file import read_job
from evenpitch.store.files.rig_file import read_rig
from evenpitch.store.kept import KeptRig
from evenpitch.web import proof_fields as fields
from evenpitch.web.pages.fields import Field, field, left_over, with_messages
from evenpitch.web.pages.kept_proof import long_day, typed_before
from evenpitch.web.pages.proof_steps import Step, steps_on
from evenpitch.web.pages.sent import Sent, SentForm
from evenpitch.web.pages.shown import AtDesk, Desk, address, bench_nav, see, sheet
from evenpitch.web.rig_proof import RigProof, prove_rig

router = APIRouter(include_in_schema=False)

FORM_ONLY = ("press", "version")
JUDGE = "judge"
BEFORE = Document(
    kind="proof",
    title=TITLE,
    lead="Half an hour with indicator and block, cutter off the arbor. Write what you have read; the rest may wait.",
)
HANDS = (("", "hand of the job"), ("right", "right-hand"), ("left", "left-hand"))


@dataclass(frozen=True, slots=True)
class Work:
    """The job that the link is proven on. `gear`: from 0; `order`: on the rig of this page."""

    job: str
    gear: int
    order: Order
    on: OnGear
    words: str

    @property
    def value(self) -> str:
        """As the form sends it."""
        return f"{self.job}:{self.gear + 1}"


@router.get("/rigs/{name:path}/prove")
@router.get("/rigs/{name:path}/proof")
def show(
    request: Request,
    desk: AtDesk,
    name: str,
    job: str = "",
    gear: int = 1,
    before: Annotated[int | None, Query(alias="from")] = None,
) -> HTMLResponse:
    """The checks, empty or as they were typed for an earlier proof; with `job` those of the link too."""
    kept = desk.book.rig(name)
    typed = dict(typed_before(desk, name, before))
    if job:
        typed["job"] = f"{job}:{gear}"
    works = works_on(desk, kept)
    if job and typed["job"] not in [work.value for work in works]:
        desk.book.job(job)
    return _page(request, kept, typed, works, None, ())


@router.post("/rigs/{name:path}/prove")
@router.post("/rigs/{name:path}/proof")
def judge(request: Request, desk: AtDesk, name: str, typed: SentForm) -> Response:
    """Judge what was typed; or keep it, where nothing stands in the way."""
    kept, works = desk.book.rig(name), works_on(desk, desk.book.rig(name))
    work = next((one for one in works if one.value == typed.get("job")), None)
    rig = read_rig(kept.text).rig
    try:
        if typed.faults:
            raise Refusal(*typed.faults)
        made = _prove(rig, typed, work, desk)
    except Refusal as refusal:
        return _page(request, kept, typed, works, None, refusal.faults, status=422)
    if typed.get("press") == JUDGE:
        return _page(request, kept, typed, works, made, ())
    if made.answer.stopped():
        return _page(request, kept, typed, works, made, (), status=422)
    return see(_kept(desk, kept, typed, work, made))


def _prove(rig: Rig, typed: Sent, work: Work | None, desk: Desk) -> RigProof:
    if work is None:
        return prove_rig(rig, typed, today=desk.now().date())
    return prove_rig(rig, typed, order=work.order, gear=work.gear, job=work.job, today=desk.now().date())


def _kept(desk: Desk, kept: KeptRig, typed: Sent, work: Work | None, made: RigProof) -> str:
    at = desk.now()
    version = typed.get("version", "")
    linked = work if made.kind == "link" else None
    proof = desk.book.add_proof(
        kept.name,
        made.kind,
        {path: text for path, text in typed.items() if path not in FORM_ONLY},
        plain(made.answer.json),
        kept_text((with_date(made.document, long_day(at)),)),
        at,
        __version__,
        rig_version=int(version) if version.isdecimal() else None,
        job=linked.job if linked else None,
        gear=linked.gear if linked else None,
    )
    return address("rigs", kept.name, "proofs", str(proof.number))


def works_on(desk: Desk, kept: KeptRig) -> tuple[Work, ...]:
    """The helical gears of the jobs planned on this rig."""
    rig, found = read_rig(kept.text).rig, []
    for job in desk.book.jobs():
        if job.rig != kept.name:
            continue
        try:
            order = read_job(job.text).order(rig)
        except Refusal:
            continue
        for index, one in enumerate(order.works):
            if one.gear.helix and one.gear.face is not None:
                words = f"{job.name}: {one.gear.teeth} teeth, {one.gear.face:g} mm of face"
                found.append(Work(job.name, index, order, on_gear(one.gear), words))
    return tuple(found)


@dataclass(frozen=True, slots=True)
class CheckShown:
    """One check of the page: what to do, where to write, what came of it."""

    step: Step
    fields: tuple[Field, ...]
    found: Markup
    good: Markup
    verdict: Markup


def _page(
    request: Request,
    kept: KeptRig,
    typed: Mapping[str, str],
    works: tuple[Work, ...],
    made: RigProof | None,
    faults: tuple[Fault, ...],
    status: int = 200,
) -> HTMLResponse:
    rig = read_rig(kept.text).rig
    work = next((one for one in works if one.value == typed.get("job")), None)
    shown = dict(zip(fields.PATHS, _fields(typed, faults), strict=True))
    document = None if made is None else made.document
    numbered = () if document is None else flagged(document.findings)
    setting = Setting(numbered)
    checks = _checks(rig, work, shown, made)
    stops = 0 if made is None else sum(one.weight == "stop" for one in made.document.findings)
    pictures = (() if made is None else proof_pictures(made.mounting)) or (along_picture(Mounted()),)
    own = () if document is None else document.sections
    return sheet(
        request,
        "prove.html",
        title=TITLE,
        nav=bench_nav("rigs"),
        cells=(
            ("sheet", "prove the rig"),
            ("rig", kept.name),
            *((("good on " + work.job, _good(made)),) if work is not None and made is not None and made.link is not None else ()),
            ("until", "belt, plate or scale is moved"),
        ),
        action=_action(made, stops, len(faults)),
        status=status,
        head=head_html(replace(document or BEFORE, sections=()), numbered, _links(kept.name, work)),
        judged=document is not None,
        checks=checks,
        fields=shown,
        works=works,
        work=work,
        typed=typed,
        version=kept.version,
        to=address("rigs", kept.name, "prove"),
        left_over=left_over(faults, tuple(shown.values())),
        notes=notes_html(numbered),
        aside=sections_html(tuple(section for section in own if section.place == "notes"), setting),
        pictures=section_html(Section("", "", pictures), setting),
        more=sections_html(tuple(section for section in own if section.key in ("link", "scale")), setting),
        proves=section_html(proves_section(), setting),
        rows=(
            ("near the scale", [shown[f"block.{place}"] for place in fields.PLACES]),
            ("near the cutter", [shown[f"cutter.{place}"] for place in fields.PLACES]),
        ),
        planes=(
            ("on top", [shown[f"along.top_{place}"] for place in fields.PLACES]),
            ("on the front", [shown[f"along.front_{place}"] for place in fields.PLACES]),
        ),
        table_open=bool(typed.get("readings")) or any(fault.field not in fields.PATHS for fault in faults),
    )


def _links(name: str, work: Work | None) -> tuple[Link, ...]:
    return (
        Link("checks", "#checks"),
        Link("readings", "#readings"),
        Link("what they prove", "#what-they-prove"),
        Link("sheet to fill in", address("rigs", name, "prove.pdf", job=work.job if work else "")),
        Link("the rig", address("rigs", name)),
    )


def _good(made: RigProof) -> str:
    assert made.link is not None
    return f"±{made.link.good.size * 1e3:.1f} µm over {made.link.gear.face:g} mm"


def _action(made: RigProof | None, stops: int, faults: int) -> Action:
    if faults:
        return Action(f"{faults} to clear, then keep it", form="prove")
    if stops:
        return Action(f"{stops} stop{'s' * (stops > 1)} to clear", blocked=True)
    return Action("Keep this proof", form="prove")


def _fields(typed: Mapping[str, str], faults: tuple[Fault, ...]) -> tuple[Field, ...]:
    made = tuple(field(name, typed, asked=False) for name in fields.ALL)
    return with_messages(tuple(replace(one, choices=HANDS) if one.choices else one for one in made), faults)


def _checks(rig: Rig, work: Work | None, shown: Mapping[str, Field], made: RigProof | None) -> tuple[CheckShown, ...]:
    found: dict[CheckKind, ProofCheck] = {}
    if made is not None:
        found = {check.kind: check for check in (*made.mounting.checks, *(made.link.checks if made.link else ()))}
    steps = steps_on(rig, None if work is None else work.on)
    return tuple(_check(step, shown, found.get(step.kind)) for step in steps)


def _check(step: Step, shown: Mapping[str, Field], check: ProofCheck | None) -> CheckShown:
    here = tuple(shown[path] for path in step.fields)
    if check is None:
        return CheckShown(step, here, Markup(""), cell_words(step.good), Markup(""))
    row = check_row(check)
    found, good = (cell.replace(" µm in a metre", "\nµm in a metre") for cell in row.cells[1:3])
    return CheckShown(step, here, cell_words(found), cell_words(good), verdict(check.verdict, check.verdict))
