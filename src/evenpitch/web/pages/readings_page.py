"""Calibrate the scale, know the head: a table of readings in, one sentence out, kept in the book; the head's map in the rig."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Annotated, Literal

from fastapi import APIRouter, Query, Request
from fastapi.responses import HTMLResponse, Response

from evenpitch import __version__
from evenpitch.checking.readings import HeadReading
from evenpitch.job.commissioning import commission_head
from evenpitch.quantity.field_names import FieldName
from evenpitch.quantity.refusal import Fault, Refusal, refuse
from evenpitch.sheet.answers import plain
from evenpitch.sheet.compose.rig_proof import with_date
from evenpitch.sheet.document import Cell, Document
from evenpitch.sheet.frame_html import Action, Link
from evenpitch.sheet.kept_document import kept as kept_text
from evenpitch.sheet.print_html import parts
from evenpitch.store.files.map_table import with_map
from evenpitch.store.files.readings import read_head
from evenpitch.store.files.rig_file import RigFile, read_rig
from evenpitch.store.kept import KeptRig
from evenpitch.web.answer import Answer
from evenpitch.web.pages.fields import field, left_over, with_messages
from evenpitch.web.pages.kept_proof import long_day, typed_before
from evenpitch.web.pages.sent import TABLE, Sent, SentForm
from evenpitch.web.pages.shown import AtDesk, Desk, address, bench_nav, see, sheet
from evenpitch.web.prove_answer import head_answer, scale_answer

router = APIRouter(include_in_schema=False)

Which = Literal["scale", "head"]
JUDGE = "judge"
FORM_ONLY = ("press", "version")


_PLACES = (0, 100, 200, 300, 400)
_ANGLES = tuple(0.75 * place for place in range(13))
"""Twelve places and the first again within one crank turn of a 40:1 head, degrees of the work."""


def _name(word: str, label: str, kind: Literal["length", "whole", "number"], told: str, example: str) -> FieldName:
    return FieldName(table="rig", word=word, label=label, kind=kind, help=told, example=example)


@dataclass(frozen=True, slots=True)
class Ask:
    """What one of the two pages asks for, and the answer to it. `laid_out`: a table whose readings are blank; `steps`: how to read it."""

    which: Which
    title: str
    lead: str
    fields: tuple[FieldName, ...]
    laid_out: str
    steps: tuple[str, ...]
    told: str
    answer: Callable[[bytes, Mapping[str, str], bytes, bytes | None], Answer]
    keep: str


SCALE = Ask(
    "scale",
    "Calibrate the scale",
    "What the scale reads where a reference says the table stood: five places or more, from both sides.",
    (
        _name("face", "Length that counts", "length", "A face, or a rack. Usual: 20 mm, or the face of the job.", "20 mm"),
        _name("travel", "Travel used", "length", "Readings ought to cover it.", "500 mm"),
        _name("period", "Period of a wave", "length", "Where one is known, such as the scale's own.", "20 µm"),
        _name(
            "kelvin", "Warmth, blocks against scale", "number", "They may differ by no more than this, in kelvin. Usual: 1.", "1"
        ),
    ),
    "run,direction,reference_mm,reading_mm\n"
    + "\n".join(f"1,{side},{at}," for side, places in (("up", _PLACES), ("down", _PLACES[::-1])) for at in places),
    (
        "Blocks and scale stand together an hour, cover on.",
        "Zero the indicator on the first block end; zero the display.",
        "Stack by stack to the far end, always moving up: write what the scale reads.",
        "The same places on the way back, approached from the other side: direction down.",
        "Come back to the first place at the end: the difference is the drift.",
    ),
    "Columns run, direction (up, down), reference_mm, reading_mm; perhaps temperature_c. Inch columns: reference_in, reading_in.",
    lambda table, typed, rig, job: scale_answer(table, typed, rig=rig, job=job),
    "Keep this calibration",
)

HEAD = Ask(
    "head",
    "Know the head",
    "What the work's angle is where the head says it stands: bar and indicator over one crank turn, square or hexagon over the turn.",
    (_name("targets", "Targets for a count", "whole", "Lists the pulses with the map taken out.", "97"),),
    "method,run,direction,nominal_deg,reading_um,radius_mm\n"
    + "\n".join(f"bar,1,{side},{angle:g},,100" for angle in _ANGLES for side in ("up", "down")),
    (
        "Count the crank turns of one turn of the work, chalk mark to chalk mark.",
        "Worm: bar on the spindle, indicator at a measured radius; twelve places in one crank turn, over three turns.",
        "Wheel: square or hexagon on the spindle; every face at every place, no master needed.",
        "Each place from below (up, as in the cut) and from above (down): the difference is the play.",
        "A full turn at the end: what it leaves is the closing residue.",
    ),
    "Columns method (bar, closure), run, direction (up, down), nominal_deg, and reading_arcsec, or reading_um with radius_mm.",
    lambda table, typed, rig, job: head_answer(table, typed, rig=rig),
    "Keep the map in the rig",
)


@router.get("/rigs/{name:path}/scale")
def scale(request: Request, desk: AtDesk, name: str, before: Annotated[int | None, Query(alias="from")] = None) -> HTMLResponse:
    """The page of the scale."""
    return _page(request, desk, SCALE, desk.book.rig(name), dict(typed_before(desk, name, before)))


@router.get("/rigs/{name:path}/head")
def head(request: Request, desk: AtDesk, name: str, before: Annotated[int | None, Query(alias="from")] = None) -> HTMLResponse:
    """The page of the head."""
    return _page(request, desk, HEAD, desk.book.rig(name), dict(typed_before(desk, name, before)))


@router.post("/rigs/{name:path}/scale")
def judge_scale(request: Request, desk: AtDesk, name: str, typed: SentForm) -> Response:
    """Readings of the scale judged, or kept."""
    return _judged(request, desk, SCALE, name, typed)


@router.post("/rigs/{name:path}/head")
def judge_head(request: Request, desk: AtDesk, name: str, typed: SentForm) -> Response:
    """Readings of the head judged, or kept with the rig's new map."""
    return _judged(request, desk, HEAD, name, typed)


def _judged(request: Request, desk: Desk, ask: Ask, name: str, typed: Sent) -> Response:
    kept = desk.book.rig(name)
    try:
        if typed.faults:
            raise Refusal(*typed.faults)
        made = _answered(desk, ask, kept, typed)
    except Refusal as refusal:
        return _page(request, desk, ask, kept, typed, faults=refusal.faults)
    if typed.get("press") == JUDGE:
        return _page(request, desk, ask, kept, typed, made=made)
    if made.stopped():
        return _page(request, desk, ask, kept, typed, made=made, status=422)
    return see(address("rigs", kept.name, "proofs", str(_keep(desk, ask, kept, typed, made))))


def _answered(desk: Desk, ask: Ask, kept: KeptRig, typed: Sent) -> Answer:
    table = typed.get(TABLE, "")
    if not table.strip():
        raise refuse(TABLE, "", "a table of readings", "Nothing was typed yet.", "Write it, or choose a file.")
    job = typed.get("job", "")
    text = desk.book.job(job).text.encode() if job else None
    plain_fields = {name.word: typed[name.word] for name in ask.fields if name.word in typed}
    return ask.answer(table.encode(), plain_fields, kept.text.encode(), text)


def _keep(desk: Desk, ask: Ask, kept: KeptRig, typed: Sent, made: Answer) -> int:
    """The number of the proof as kept."""
    at, version = desk.now(), typed.get("version", "")
    asked = {path: text for path, text in typed.items() if path not in FORM_ONLY}
    document = _of_rig(made.document, kept)
    known = int(version) if version.isdecimal() else kept.version
    pages = kept_text((with_date(document, long_day(at)),))
    if ask.which == "head" and (mapped := _mapped(desk, kept, typed)) is not None:
        proof = desk.book.add_head_proof(
            kept.name, mapped.text, asked, plain(made.json), pages, at, __version__, rig_version=known
        )
    else:
        proof = desk.book.add_proof(kept.name, ask.which, asked, plain(made.json), pages, at, __version__, rig_version=known)
    return proof.number


def _of_rig(document: Document, kept: KeptRig) -> Document:
    return replace(document, kind="proof", cells=(*document.cells, Cell("rig", kept.name)))


def _mapped(desk: Desk, kept: KeptRig, typed: Sent) -> RigFile | None:
    """The rig's file with the new map; None where no wave can be shown: an empty map would say that the head does not err."""
    rig = read_rig(kept.text).rig
    readings: tuple[HeadReading, ...] = read_head(typed.get(TABLE, ""))
    found = commission_head(readings, rig.head.ratio).found
    return with_map(kept.text, found.as_map(desk.now().date())) if found.shown() else None


def _page(
    request: Request,
    desk: Desk,
    ask: Ask,
    kept: KeptRig,
    typed: Mapping[str, str],
    *,
    made: Answer | None = None,
    faults: tuple[Fault, ...] = (),
    status: int = 200,
) -> HTMLResponse:
    links = (Link("the rig", address("rigs", kept.name)), Link("as the command line has it", "/help/commands"))
    before = Document(kind="proof", title=ask.title, lead=ask.lead)
    document = before if made is None else replace(made.document, title=ask.title)
    shown = parts(document, links=links)
    own = with_messages(tuple(field(name, typed, asked=False) for name in ask.fields), faults)
    jobs = [job.name for job in desk.book.jobs() if job.rig == kept.name] if ask.which == "scale" else []
    stops = made is not None and made.stopped()
    return sheet(
        request,
        "readings.html",
        title=ask.title,
        nav=bench_nav("rigs"),
        cells=(("sheet", ask.title.lower()), ("rig", kept.name), *_still_open(shown)),
        action=_action(ask, faults, stops, made),
        status=422 if faults else status,
        head=shown["head"],
        aside=shown["aside"],
        body=shown["body"] if made is not None else "",
        ask=ask,
        own=own,
        jobs=jobs,
        typed=typed,
        table=typed.get(TABLE, ""),
        version=kept.version,
        to=address("rigs", kept.name, ask.which),
        left_over=left_over(faults, own),
        opened=made is None or bool(faults),
        fields_open=any(one.value or one.messages for one in own),
    )


def _still_open(shown: Mapping[str, object]) -> tuple[tuple[str, str], ...]:
    cells = shown["cells"]
    assert isinstance(cells, list)
    return tuple(cell for cell in cells if cell[0] == "still open")


def _action(ask: Ask, faults: tuple[Fault, ...], stops: bool, made: Answer | None) -> Action:
    if faults:
        return Action(f"{len(faults)} to clear, then judge", form="readings")
    if stops:
        return Action("Not kept: a stop to clear", blocked=True)
    return Action(ask.keep if made is not None else "Judge the readings", form="readings")
