"""The rigs, and one rig: what is known of it, and the cautions that come with a motor."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, Response

from evenpitch.job.cautions import cautions
from evenpitch.quantity.names import fields
from evenpitch.rig.rig import Rig
from evenpitch.sheet.frame_html import Action
from evenpitch.store.files.rig_file import read_rig
from evenpitch.store.files.typed import Typed
from evenpitch.web.opened import day
from evenpitch.web.pages.bench import rig_line, rig_summary
from evenpitch.web.pages.fields import echo
from evenpitch.web.pages.kept_proof import proof_line
from evenpitch.web.pages.shown import AtDesk, address, bench_nav, sheet
from evenpitch.web.usual_rig import usual_rig

router = APIRouter(include_in_schema=False)

HEADINGS = {
    "head": "Head",
    "plate": "Index plates",
    "change_gears": "Change gears",
    "table": "Machine",
    "spindle": "Spindle and arbor",
    "link": "Electronic link",
    "setup": "Set-up",
    "cutter": "Cutters",
    "instrument": "Instruments",
    "map": "Measured error of the head",
}

PROVING = (
    ("Prove scale and link", "prove"),
    ("Calibrate the scale", "scale"),
    ("Know the head", "head"),
    ("Sheet to fill in: scale and link, PDF", "prove.pdf"),
    ("Sheet to fill in: the head, PDF", "head.pdf"),
)
"""What can be proven of a rig, and where."""

SEVERAL = {
    "plate": ("circles",),
    "cutter": ("pitch", "pressure_angle", "number"),
    "instrument": ("kind", "range", "sizes"),
    "map": ("date",),
}
"""Parts of which there may be several, and the fields that tell one from the other."""


@router.get("/rigs")
def rigs(request: Request, desk: AtDesk) -> HTMLResponse:
    """All rigs in the book."""
    kept = desk.book.rigs()
    return sheet(
        request,
        "rigs.html",
        title="Rigs",
        nav=bench_nav("rigs"),
        cells=(("sheet", "rigs"), ("in the book", str(len(kept)))),
        action=Action("Describe a rig", "/rigs/new"),
        rigs=tuple((one, rig_line(one)) for one in kept),
        usual=rig_summary(usual_rig().rig),
        address=address,
    )


@router.get("/rigs/{name:path}/rig.toml")
def rig_toml(desk: AtDesk, name: str) -> Response:
    """The rig as a text file, as it was typed."""
    text = desk.book.rig(name).text
    return Response(text, media_type="application/toml", headers={"content-disposition": 'attachment; filename="rig.toml"'})


@router.get("/rigs/{name:path}")
def show_rig(request: Request, desk: AtDesk, name: str) -> HTMLResponse:
    """One rig as it is now."""
    kept = desk.book.rig(name)
    file = read_rig(kept.text)
    return sheet(
        request,
        "rig.html",
        title=name,
        nav=bench_nav("rigs"),
        cells=(("sheet", "rig"), ("name", name), ("version", f"{kept.version}, {day(kept.created)}")),
        action=Action("Change this rig", address("rigs", name, "edit")),
        heading=name,
        summary=rig_summary(file.rig),
        sections=listed(file.typed),
        cautions=_cautions(file.rig),
        file=address("rigs", name, "rig.toml"),
        plan_on_it=address("jobs", "new", rig=name),
        jobs=[(job, address("jobs", job.name, "plan")) for job in desk.book.jobs() if job.rig == name],
        unknown=unknown(file.typed),
        proving=tuple((words, address("rigs", name, page)) for words, page in PROVING),
        proofs=tuple(
            (proof_line(proof), address("rigs", name, "proofs", str(proof.number))) for proof in reversed(desk.book.proofs(name))
        ),
    )


def _cautions(rig: Rig) -> tuple[tuple[str, str], ...]:
    """Those of a motor, and of change gears; none for a rig without either."""
    if rig.link is None:
        return ()
    return tuple((one.do, one.why) for one in cautions(rig, linked=True, geared=bool(rig.change_gears.teeth)))


Rows = tuple[tuple[str, str, str], ...]
"""Label, as typed, and softer beneath it what it was read as."""


def listed(typed: Typed) -> tuple[tuple[str, Rows], ...]:
    """What was typed, by part; a cutter, an instrument or a plate is one row."""
    parts: dict[str, dict[str, str]] = {}
    for path, text in typed:
        table, _, rest = path.partition(".")
        parts.setdefault(table, {})[rest] = text
    shown = [
        (HEADINGS[table], _items(table, parts[table]) if table in SEVERAL else _plain(table, parts[table]))
        for table in HEADINGS
        if table in parts
    ]
    return tuple((heading, rows) for heading, rows in shown if rows)


def _plain(table: str, typed: dict[str, str]) -> Rows:
    names = {name.word: name for name in fields(table)}
    rows = []
    for rest, text in typed.items():
        name = names.get(rest)
        rows.append((name.label if name else _spoken(rest), text, echo(name, text) if name else ""))
    return tuple(rows)


def _items(table: str, typed: dict[str, str]) -> Rows:
    """One row for each of several: what tells it from the others in bold, the rest beneath."""
    labels = {name.word: name.label[:1].lower() + name.label[1:] for name in fields(table)}
    rows = []
    for place in dict.fromkeys(rest.partition(".")[0] for rest in typed):
        own = {rest.partition(".")[2]: text for rest, text in typed.items() if rest.startswith(f"{place}.")}
        told = [f"No. {own[word]}" if word == "number" else own[word] for word in SEVERAL[table] if word in own]
        more = [f"{labels[word]} {text}" for word, text in own.items() if word in labels and word not in SEVERAL[table]]
        rows.append((str(int(place) + 1), " · ".join(told), " · ".join([*more, *_waves(own)])))
    return tuple(rows)


def _waves(own: dict[str, str]) -> list[str]:
    """The waves of a map: how often in a turn, how high, at which phase."""
    places = dict.fromkeys(path.split(".")[1] for path in own if path.startswith("harmonics."))
    waves = [{part: own.get(f"harmonics.{place}.{part}", "0") for part in ("per_turn", "amplitude", "phase")} for place in places]
    return [f"{wave['per_turn']} a turn: {wave['amplitude']}, phase {wave['phase']}°" for wave in waves]


def _spoken(path: str) -> str:
    return path.replace("_", " ").replace(".", ", ")


def unknown(typed: Typed) -> tuple[str, ...]:
    """What a plan would want to know and this rig does not say."""
    have = {path for path, _ in typed}
    wanted = ("head.centre_height", "table.helix_set_by", "table.screw_lead", "table.travel", "spindle.speeds", "spindle.feeds")
    labels = {f"{name.table}.{name.word}": name.label for name in fields()}
    missing = [labels[path] for path in wanted if path not in have]
    missing += [
        words
        for table, words in (("cutter", "Cutters"), ("instrument", "Instruments"))
        if not any(path.startswith(f"{table}.") for path in have)
    ]
    return tuple(missing)
