"""An audited log becomes a document: what it can show, what happened, and where."""

from __future__ import annotations

from evenpitch.job.auditing import LOST, LogAudit
from evenpitch.link.audit import Event, Found
from evenpitch.quantity.showing import grouped, number
from evenpitch.quantity.units import RADIAN_PER_ARCSEC
from evenpitch.sheet.compose.gear import gear_line
from evenpitch.sheet.compose.words import rig_words
from evenpitch.sheet.document import Block, Cell, Document, KeyFigure, Picture, Section, Table, TableRow, Words
from evenpitch.sheet.drawing import Drawing
from evenpitch.sheet.drawings.log_plot import Mark, log_plot


def compose_audit(made: LogAudit) -> Document:
    """What `evenpitch audit` prints, and its page."""
    found = made.found
    lost = [event for event in found.events if event.kind in LOST]
    gear = (
        made.order.works[0].gear
        if len(made.order.works) == 1
        else next(w.gear for w in made.order.works if w.gear.teeth == made.gear.teeth)
    )
    verdict = "nothing lost" if not lost else f"{len(lost)} loss{'es' if len(lost) > 1 else ''}"
    return Document(
        kind="answer",
        title=f"The log: {gear_line(gear)}",
        lead=_lead(made, lost),
        keys=(
            KeyFigure("lost", verdict),
            KeyFigure("ratio error", *_key(found.ratio, 1e6, "ppm", 0)),
            KeyFigure("lag", *_key(found.lag, 1e3, "ms", 1)),
            KeyFigure("worm", *_key(found.worm, 1 / RADIAN_PER_ARCSEC, "″", 1)),
        ),
        findings=made.findings,
        sections=(
            Section("events", "What happened", (_events(made),), "left"),
            Section("plot", "Against the table's place", (Picture(_plot(made)),), "right"),
            Section("values", "What the log measures", (_values(made),)),
            Section("observable", "What this log can and cannot show", (_observable(made),)),
        ),
        cells=(
            Cell("sheet", "log"),
            Cell("rows", grouped(found.rows)),
            Cell("rig", rig_words(made.order.rig)),
            Cell("verdict", verdict),
        ),
        paper=made.order.choice.paper,
    )


def _lead(made: LogAudit, lost: list[Event]) -> str:
    if not lost:
        return f"{grouped(made.found.rows)} rows over {number(made.found.travel, 1)} mm: no pulse was lost."
    spaces = ", ".join(dict.fromkeys(str(event.space) for event in lost))
    return f"Lost on space {spaces}, and on all after: see below, and re-pick up before going on."


def _key(found: Found | None, factor: float, unit: str, places: int) -> tuple[str, str, str]:
    """Value, unit and second line of a key figure."""
    if found is None:
        return "not shown", "", "by this log"
    return number(found.value * factor, places, plus=True), unit, f"± {number(found.U * factor, places)}"


def _events(made: LogAudit) -> Block:
    rows = [
        TableRow(
            (
                number(event.at, 2), number(event.time, 1), str(event.space), event.kind, _pulses(event),
                number(abs(event.pulses) * made.pulse_um, 1) if event.kind in LOST else "", event.seen_by,
            )
        )
        for event in made.found.events
    ]  # fmt: skip
    rows += [
        TableRow(
            (
                number(made.place(held.first), 2), "", str(made.found.spaces.space(held.first, 1, made.gear.teeth)),
                "held back, then made good", number(held.most, 0, plus=True), "", "pulses",
            )
        )
        for held in made.found.held
    ]  # fmt: skip
    if not rows:
        return Words("No pulse was lost, and none was held back.")
    heads = ("at mm", "at s", "space", "what", "pulses", "µm", "seen by")
    return Table(
        heads, tuple(rows), right=(0, 1, 2, 4, 5), note="− is behind; the space named and all after it stand off by so much."
    )


def _pulses(event: Event) -> str:
    if event.kind not in LOST:
        return ""
    doubt = f" ± {number(2 * event.u, 1)}" if event.u else ""
    return f"{number(event.pulses, 1 if event.u else 0, plus=True)}{doubt}"


def _values(made: LogAudit) -> Table:
    found, second = made.found, 1 / RADIAN_PER_ARCSEC
    rows = []
    for name, value, factor, unit, places in (
        ("ratio error", found.ratio, 1e6, "ppm", 0),
        ("lag", found.lag, 1e3, "ms", 2),
        ("backlash", found.backlash, second, "″", 0),
        ("worm, once a turn", found.worm, second, "″", 1),
    ):
        shown = (
            ("not shown by this log", "")
            if value is None
            else (
                f"{number(value.value * factor, places, plus=name == 'ratio error')} {unit}",
                f"± {number(value.U * factor, places)} {unit}",
            )
        )
        rows.append(TableRow((name, *shown)))
    note = f"From the {made.found.by}; U with k = 2."
    return Table(("what", "found", "U"), tuple(rows), right=(1, 2), note=note)


def _observable(made: LogAudit) -> Table:
    rows = tuple(TableRow((row.what, "yes" if row.shown else "no", row.why)) for row in made.found.observable)
    return Table(("what", "shown", "by what, or why not"), rows)


def _plot(made: LogAudit) -> Drawing:
    found = made.found
    factor, unit = (1 / RADIAN_PER_ARCSEC, "arcsec at the work") if found.by == "work angle" else (1.0, "pulses")
    points = [(float(x), float(y) * factor) for x, y in zip(found.place, found.residuals, strict=True)]
    fitted = [(float(x), float(y) * factor) for x, y in zip(found.place, found.fitted, strict=True)]
    marks = [Mark(event.at, f"{event.kind}{', ' + _pulses(event) if event.kind in LOST else ''}") for event in found.events]
    return log_plot(points, fitted, marks, unit)
