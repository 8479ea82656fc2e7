"""Describe a rig: the few fields that are needed first, the rest in sections; lists with "add another"."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, Response

from evenpitch.quantity.field_names import FieldName
from evenpitch.quantity.names import field_named, fields
from evenpitch.quantity.refusal import Fault, Refusal, refuse
from evenpitch.rig.generic import GEAR_SETS, PLATE_SETS
from evenpitch.sheet.frame_html import Action
from evenpitch.store.files.rig_file import rig_from_fields
from evenpitch.store.files.typed import flat, tables_of
from evenpitch.web.pages.fields import Field, field, left_over, named, with_messages
from evenpitch.web.pages.shown import AtDesk, Desk, TypedForm, address, bench_nav, see, sheet
from evenpitch.web.taken_in import NOT_A_NAME, keep_rig
from evenpitch.web.usual_rig import USUAL_GEARS, USUAL_PLATES, starting_fields

router = APIRouter(include_in_schema=False)

FORM_ONLY = ("press",)
MOST_ROWS = 200
LISTS = ("plate", "cutter", "instrument")
HEADINGS = {"plate": "Plate", "cutter": "Cutter", "instrument": "Instrument"}

HEAD = ("centre_height", "direct", "end", "backlash", "idler_test", "tailstock_top")
TABLE = ("screw_lead", "helix_set_by", "swing", "travel", "length", "rapid", "saddle_travel", "knee_travel")
SPINDLE = ("speeds", "feeds", "arbor", "collar", "overarm")
LINK = (
    "motor_on", "input", "count", "full_steps", "microsteps", "belt", "plate_turns", "period", "edges", "encoder_counts",
    "scale_length", "scale_side", "scale_offset", "counts_up", "largest_pulse_rate", "largest_speed", "largest_count_rate", "latency",
    "supply", "current", "peak_current", "holding_torque", "inductance", "resistance", "rotor_inertia", "worm_drag", "feed",
    "crank_unevenness",
)  # fmt: skip
SHOWN = {"head": ("ratio", *HEAD), "table": (*TABLE, "knee_dial", "saddle_dial"), "link": LINK}


@dataclass(frozen=True, slots=True)
class Form:
    """A rig form about to be shown. `name` "": a new rig; `rows`: how many of each list."""

    typed: Mapping[str, str]
    faults: tuple[Fault, ...] = ()
    name: str = ""
    more: str = ""


@router.get("/rigs/new")
def new_rig(request: Request, desk: AtDesk, plates: str = USUAL_PLATES, gears: str = USUAL_GEARS) -> HTMLResponse:
    """A form that starts from the sets chosen."""
    return _page(request, Form({"head.ratio": "40", "head.direct": "24", **starting_fields(plates, gears)}))


@router.post("/rigs/new")
def make_rig(request: Request, desk: AtDesk, typed: TypedForm) -> Response:
    """Keep a new rig; a name that is taken is refused here, for that would change the other one."""
    return _kept(request, desk, typed, "", "")


@router.get("/rigs/{name:path}/edit")
def edit_rig(request: Request, desk: AtDesk, name: str) -> HTMLResponse:
    """A rig in the book, to be changed."""
    kept = desk.book.rig(name)
    return _page(request, Form(stored_fields(kept.text, name), name=name))


@router.post("/rigs/{name:path}/edit")
def change_rig(request: Request, desk: AtDesk, name: str, typed: TypedForm) -> Response:
    """The next version of a rig; jobs on it are planned on that."""
    kept = desk.book.rig(name)
    unseen = {path: text for path, text in stored_fields(kept.text, name).items() if path.startswith("map.")}
    return _kept(request, desk, unseen | typed, name, kept.text)


def _kept(request: Request, desk: Desk, typed: Mapping[str, str], name: str, over: str) -> Response:
    press = typed.get("press", "")
    if press.startswith("another:") and press[8:] in LISTS:
        return _page(request, Form(typed, name=name, more=press[8:]))
    given = {path: text for path, text in typed.items() if path not in FORM_ONLY}
    try:
        file = rig_from_fields(given, over)
        _refuse_name(desk, file.rig.name, name)
    except Refusal as refusal:
        return _page(request, Form(typed, refusal.faults, name), status=422)
    if press == "read":
        return _page(request, Form(typed, name=name))
    return see(address("rigs", keep_rig(desk.book, file, desk.now()).name))


def _refuse_name(desk: Desk, wanted: str, name: str) -> None:
    if wanted.casefold() == NOT_A_NAME:
        raise refuse(
            "name", wanted, "a name that tells it from others", "It is the word of the form itself.", "Name the machine."
        )
    if wanted != name and any(kept.name == wanted for kept in desk.book.rigs()):
        likely = "Another rig bears it; this would take its place."
        raise refuse("name", wanted, "a name not yet used", likely, "Give another name, or change that rig on its own page.")


def stored_fields(text: str, name: str) -> dict[str, str]:
    """What was typed for a rig, as the fields of its form."""
    return dict(flat(tables_of(text, name)))


def _page(request: Request, form: Form, status: int = 200) -> HTMLResponse:
    typed, faults = form.typed, form.faults

    def shown(table: str, words: tuple[str, ...]) -> tuple[Field, ...]:
        return with_messages(tuple(named(table, word, typed) for word in words), faults)

    lists = {table: _rows(table, form) for table in LISTS}
    sections = {
        "needed": (*shown("rig", ("name",)), *shown("head", ("ratio",))),
        "gears": shown("change_gears", ("teeth", "stud_clearance")),
        "head": shown("head", HEAD),
        "table": (*shown("table", TABLE), *_dials(typed, faults)),
        "spindle": shown("spindle", SPINDLE),
        "link": shown("link", LINK),
        "further": with_messages(tuple(field(name, typed) for name in _further()), faults),
    }
    known = tuple(one for group in sections.values() for one in group) + tuple(
        one for rows in lists.values() for row in rows for one in row
    )
    stops = len(faults)
    return sheet(
        request,
        "rig_form.html",
        title=form.name or "New rig",
        nav=bench_nav("rigs"),
        cells=(("sheet", "rig"), ("name", form.name or typed.get("name", "") or "new")),
        action=Action("Keep this rig" if not stops else f"{stops} to clear, then keep it", form="rig"),
        status=status,
        body_class="refused" if stops else "",
        heading=form.name or "Describe your rig",
        to=address("rigs", form.name, "edit") if form.name else "/rigs/new",
        fields=sections,
        lists=lists,
        headings=HEADINGS,
        opened={key: any(one.value or one.messages for one in group) for key, group in sections.items()},
        left_over=left_over(faults, known),
        plate_sets=tuple(PLATE_SETS),
        gear_sets=tuple(GEAR_SETS),
        usual=(USUAL_PLATES, USUAL_GEARS),
        is_new=not form.name and not faults,
        maps=len({path.split(".")[1] for path in typed if path.startswith("map.")}),
    )


def _rows(table: str, form: Form) -> tuple[tuple[Field, ...], ...]:
    """The rows of a list that something was typed in, and one empty one where it was asked for or none is there."""
    places = sorted({int(found.group(1)) for path in form.typed if (found := re.match(rf"{table}\.(\d{{1,5}})\.", path))})
    used = [
        place
        for place in places
        if any(text.strip() for path, text in form.typed.items() if path.startswith(f"{table}.{place}."))
    ]
    if form.more == table or (table == "plate" and not used):
        used.append(max(places, default=-1) + 1)
    names = tuple(
        replace(name, help="Holes of each circle on this side.") if name.table == "plate" else name for name in fields(table)
    )
    return tuple(
        with_messages(tuple(field(name, form.typed, place, asked=True) for name in names), form.faults)
        for place in used[:MOST_ROWS]
    )


def _dials(typed: Mapping[str, str], faults: tuple[Fault, ...]) -> tuple[Field, ...]:
    """Each dial is two lengths: one division, and one whole turn."""
    made = []
    for word, example in (("knee_dial", "0.100 in"), ("saddle_dial", "0.200 in")):
        label = field_named("table", word).label
        for part, words, shown in (("division", "one division", "0.001 in"), ("turn", "one whole turn", example)):
            name = FieldName(
                table=f"table.{word}", word=part, label=f"{label}, {words}", kind="length", help="As engraved.", example=shown
            )
            made.append(field(name, typed))
    return with_messages(tuple(made), faults)


def _further() -> tuple[FieldName, ...]:
    """Quantities that only a prediction uses."""
    tables = ("link", "head", "table", "setup")
    return tuple(name for name in fields() if name.table in tables and name.word not in SHOWN.get(name.table, ()))
