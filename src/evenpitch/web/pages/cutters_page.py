"""The cutters of a job: what each would leave, one of them looked at with slips in it, and the fly cutter's bit to print."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Annotated, Any

from fastapi import APIRouter, Depends, Request
from fastapi.responses import HTMLResponse, Response
from markupsafe import Markup

from evenpitch.job.plan import GearPlan, Plan
from evenpitch.quantity.refusal import Fault, Refusal, refuse
from evenpitch.sheet.blocks_html import Setting, notes_html, sections_html
from evenpitch.sheet.document import Document
from evenpitch.sheet.flags import flagged
from evenpitch.sheet.frame_html import Action, Link
from evenpitch.sheet.markup import words
from evenpitch.sheet.print_html import head_html
from evenpitch.sheet.tables_html import Form
from evenpitch.web.cutters_answer import BitAsked, bit_dxf, bit_made, bit_pdf, read_bit
from evenpitch.web.pages.bit_fields import bit_fields, bit_shown, typed_for_bit
from evenpitch.web.pages.fields import Field, left_over
from evenpitch.web.pages.plan_page import PDF, PaperAsked, Which, named, one_of
from evenpitch.web.pages.shown import AtDesk, Desk, address, job_nav, sheet
from evenpitch.web.pages.slip_fields import SLIPS, SlipField, read_slips, slip_fields, slips_shown
from evenpitch.web.planned import plan_of, rig_of_job
from evenpitch.web.typed import Collected
from evenpitch.web.virtually import virtually_cut

if TYPE_CHECKING:
    from evenpitch.job.slips import CutSeen
    from evenpitch.job.virtual_cutting import VirtualCut, Weighed

router = APIRouter(include_in_schema=False)

LONGEST = 60
"""Letters of one slip as typed."""

EXAMPLES = (
    ("swing", "0.25°", "swing 0.25° off"), ("off", "0.05 mm", "0.05 mm off centre"), ("under", "0.1 mm", "blank 0.1 mm under"),
    ("worm", '30"', "worm 30″ once a turn"), ("lost", "1", "a lost pulse"), ("lead", "500 ppm", "lead 500 ppm off"),
)  # fmt: skip


def _asked(request: Request) -> dict[str, str]:
    return {key: text[:LONGEST] for key, text in request.query_params.items()}


Asked = Annotated[dict[str, str], Depends(_asked)]
"""What stands in the address after the question mark."""


@dataclass(frozen=True, slots=True)
class _Looked:
    """What the page shows: one cutter cut with its slips, or none, and what was refused."""

    shown: Weighed | None
    cut: CutSeen | None
    fields: tuple[SlipField, ...]
    faults: tuple[Fault, ...]
    bit_faults: tuple[Fault, ...] = ()


@router.get("/jobs/{name:path}/cutters")
def show_cutters(request: Request, desk: AtDesk, name: str, index: Which, asked: Asked) -> HTMLResponse:
    """Every cutter on one gear of a job; ?cutter= looks at one, ?swing= and others put slips into its cut."""
    from evenpitch.job.cut_findings import cut_findings
    from evenpitch.sheet.compose.cutters import compose_cutters

    made, gear, virtual = _virtual(desk, name, index)
    looked = _looked(made, gear, virtual, asked)
    findings = cut_findings(gear, virtual, looked.shown)
    bit, faults = bit_shown(gear, asked)
    document = compose_cutters(made, index, virtual, findings, looked.cut, bit)
    looked = replace(looked, bit_faults=faults)
    return _page(request, desk, name, index, made, virtual, looked, document, asked)


def _virtual(desk: Desk, name: str, index: int) -> tuple[Plan, GearPlan, VirtualCut]:
    kept = desk.book.job(name)
    one_of(plan_of(desk.book, kept), index)
    made, virtual = virtually_cut(kept.text, rig_of_job(desk.book, kept).text, index)
    return made, made.gears[index], virtual


def _looked(made: Plan, gear: GearPlan, virtual: VirtualCut, asked: dict[str, str]) -> _Looked:
    from evenpitch.job.slips import Slips, cut_seen

    rig = made.order.rig
    fields = slips_shown(helical=bool(gear.gear.helix), linked=rig.pulses_per_turn() is not None)
    slips, faults = read_slips(asked, fields)
    key = asked.get("cutter", "")
    shown = virtual.by_key(key) if key else virtual.recommended
    if key and shown is None:
        raise refuse(
            "cutter", key, "a cutter of this page", "The drawer was changed since, or the address was typed.", "Choose one there."
        )
    cut = None
    if shown is not None and shown.left is not None:
        try:
            cut = cut_seen(virtual, shown, rig, slips if not faults else Slips())
        except Refusal as refusal:
            faults = (*faults, *refusal.faults)
    return _Looked(shown, cut, fields, faults)


def _page(
    request: Request,
    desk: Desk,
    name: str,
    index: int,
    made: Plan,
    virtual: VirtualCut,
    looked: _Looked,
    document: Document,
    asked: dict[str, str],
) -> HTMLResponse:
    numbered = flagged(document.findings)
    which = str(index + 1)
    setting = Setting(numbered, Form(address("jobs", name, "choose"), (("gear", which),)))
    first = len(numbered) + 1
    fields = slip_fields(asked, looked.fields, looked.faults, first)
    grinding = bit_fields(asked, looked.bit_faults, first + len(looked.faults))
    typed = typed_for_bit(asked) if not looked.bit_faults else {}
    parts = {section.key: section for section in document.sections}
    ranked = tuple(parts[key] for key in ("cutters",) if key in parts)
    seen = tuple(replace(parts[key], place="wide") for key in ("looked-at", "inspection") if key in parts)
    rest = tuple(parts[key] for key in ("sets", "bit") if key in parts)
    return sheet(
        request,
        "cutters.html",
        title=document.title,
        nav=job_nav(name, "plan", issued=bool(request.app.state.desk.book.issued(name))),
        cells=[(cell.label, words(cell.value)) for cell in document.cells],
        action=Action("Back to the plan", address("jobs", name, "plan", gear=which if index else "")),
        status=422 if looked.faults or looked.bit_faults else 200,
        heading=head_html(document, numbered, _links(name, index, made, typed)),
        notes=Markup("<h2>Notes</h2>{}").format(notes_html(numbered)) if numbered else "",
        first=sections_html(ranked, setting),
        seen=sections_html(seen, setting),
        rest=sections_html(rest, setting),
        to=address("jobs", name, "cutters"),
        gear=which if index else "",
        choice=_choice(virtual, looked),
        fields=fields,
        left_over=left_over(looked.faults, fields, first),
        examples=_examples(name, index, looked, asked),
        plain=address("jobs", name, "cutters", gear=which if index else "", cutter=_key(looked)) + "#look",
        grinding=grinding if "bit" in parts else (),
        beside_bit=_kept(asked, {one.path for one in grinding}),
        beside_look=typed_for_bit(asked),
        slipped=any(asked.get(one.name, "").strip() for one in SLIPS),
    )


def _kept(asked: dict[str, str], own: set[str]) -> dict[str, str]:
    """What else stands in the address, to be kept when one of the forms is sent."""
    slips = {one.name for one in SLIPS} | {"cutter"}
    return {key: text for key, text in asked.items() if key in slips - own and text.strip()}


def _key(looked: _Looked) -> str:
    return looked.shown.held.key if looked.shown is not None else ""


def _choice(virtual: VirtualCut, looked: _Looked) -> Field:
    """The list of cutters: the recommended one, the drawer, the standard sets."""
    choices = tuple((one.held.key, _named(one)) for one in virtual.weighed if one.held.owned or one.left is not None)
    return Field(
        path="cutter",
        label="Look at",
        help="as set, or with the slips beneath",
        example="",
        value=_key(looked),
        choices=choices,
        wordy=True,
    )


def _named(one: Weighed) -> str:
    held = one.held
    where = "" if held.owned else ", not owned"
    return f"{held.words()}{where}" if one.left is not None else f"{held.name()}, not for this gear"


def _examples(name: str, index: int, looked: _Looked, asked: dict[str, str]) -> list[Link]:
    """Ready slips, each a link that looks at the same cutter with it."""
    shown = {field.name for field in looked.fields}
    gear = index + 1 if index else ""
    return [
        Link(
            said,
            address("jobs", name, "cutters", gear=gear, cutter=_key(looked), **{slip: text}) + "#look",
            asked.get(slip, "").strip() == text,
        )
        for slip, text, said in EXAMPLES
        if slip in shown
    ]


def _links(name: str, index: int, made: Plan, bit: dict[str, str]) -> tuple[Link, ...]:
    which: Any = index + 1 if index else ""
    links = [
        Link("bit, PDF", address("jobs", name, "bit.pdf", gear=which, **bit)),
        Link("bit, DXF", address("jobs", name, "bit.dxf", gear=which, **bit)),
    ]
    if len(made.gears) == 2:
        mate = made.gears[1 - index].gear
        links.insert(0, Link(f"its mate, {mate.teeth} teeth", address("jobs", name, "cutters", gear="" if index else 2)))
    return tuple(links)


def _bit_asked(asked: dict[str, str]) -> BitAsked:
    collected = Collected()
    found = read_bit(asked, collected)
    collected.settle()
    return found


@router.get("/jobs/{name:path}/bit.pdf")
def bit_sheet(desk: AtDesk, name: str, index: Which, asked: Asked, paper: PaperAsked = None) -> Response:
    """The sheet of the fly cutter's bit, ten times full size; ?bit-diameter=, ?bit-rake=, ?bit-relief= change it."""
    made = plan_of(desk.book, desk.book.job(name))
    gear = one_of(made, index)
    return Response(
        bit_pdf(made, index, bit_made(gear, _bit_asked(asked)), paper), media_type=PDF, headers=named(f"{name} bit.pdf")
    )


@router.get("/jobs/{name:path}/bit.dxf")
def bit_outline(desk: AtDesk, name: str, index: Which, asked: Asked) -> Response:
    """The edge of the bit in millimetres."""
    gear = one_of(plan_of(desk.book, desk.book.job(name)), index)
    content = bit_dxf(gear, bit_made(gear, _bit_asked(asked)))
    return Response(content, media_type="image/vnd.dxf", headers=named(f"{name} bit.dxf", keep=True))
