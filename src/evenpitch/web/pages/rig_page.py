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
from evenpitch.web.pages.bench import rig_line, rig_summary
from evenpitch.web.pages.fields import echo
from evenpitch.web.pages.shown import AtDesk, address, bench_nav, sheet
from evenpitch.web.usual_rig import usual_rig

router = APIRouter(include_in_schema=False)

HEADINGS = {
    "": "Rig",
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
        cells=(("sheet", "rig"), ("name", name), ("version", f"{kept.version}, {kept.created:%-d %b %Y}")),
        action=Action("Change this rig", address("rigs", name, "edit")),
        heading=name,
        summary=rig_summary(file.rig),
        sections=listed(file.typed),
        cautions=_cautions(file.rig),
        file=address("rigs", name, "rig.toml"),
        plan_on_it=address("jobs", "new", rig=name),
        jobs=[(job, address("jobs", job.name, "plan")) for job in desk.book.jobs() if job.rig == name],
        unknown=unknown(file.typed),
    )


def _cautions(rig: Rig) -> tuple[tuple[str, str], ...]:
    """Those of a motor, and of change gears; none for a rig without either."""
    if rig.link is None:
        return ()
    return tuple((one.do, one.why) for one in cautions(rig, linked=True, geared=bool(rig.change_gears.teeth)))


def listed(typed: Typed) -> tuple[tuple[str, tuple[tuple[str, str, str], ...]], ...]:
    """What was typed, by part: label, as typed, and what it was read as."""
    names = {(name.table, name.word): name for name in fields()}
    parts: dict[str, list[tuple[str, str, str]]] = {}
    for path, text in typed:
        table, *rest = path.split(".") if "." in path else ("", path)
        name = names.get((table or "rig", rest[-1]))
        label = name.label if name else " ".join(part for part in rest if not part.isdecimal()).replace("_", " ")
        place = f"{int(rest[0]) + 1}: " if rest[0].isdecimal() else ""
        parts.setdefault(table, []).append((place + label, text, echo(name, text) if name else ""))
    return tuple((HEADINGS[table], tuple(parts[table])) for table in HEADINGS if table in parts and table)


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
