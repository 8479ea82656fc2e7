"""RIG.toml, or the fields of a rig form, become a Rig."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from evenpitch.quantity.refusal import Fault, Refusal, refuse
from evenpitch.quantity.units import Millimetre, Radian, Second, degrees
from evenpitch.rig.head import ChangeGears, Head, Plate
from evenpitch.rig.link import Link
from evenpitch.rig.machine import Dial, Spindle, Table
from evenpitch.rig.maps import ErrorMap, Harmonic
from evenpitch.rig.rig import Rig
from evenpitch.rig.tools import Cutter, Instrument
from evenpitch.store.files.rig_tables import (
    CuttersTable,
    CutterTable,
    DialTable,
    HeadTable,
    InstrumentTable,
    LinkTable,
    MapTable,
    RigTable,
    TableTable,
)
from evenpitch.store.files.tables import checked
from evenpitch.store.files.typed import Fields, Typed, decoded, flat, tables_of


@dataclass(frozen=True, slots=True)
class RigFile:
    """A rig; what was typed, by the path of its field; and the text of its file."""

    rig: Rig
    typed: Typed
    text: str


def read_rig(text: str | bytes) -> RigFile:
    """Read RIG.toml. A Refusal holds every fault of it at once."""
    tables = tables_of(text, "RIG.toml")
    return RigFile(_rig_of(tables, str), flat(tables), decoded(text, "RIG.toml"))


def read_cutters(text: str | bytes) -> tuple[Cutter, ...]:
    """The cutters of a file of [[cutter]] tables, or of a whole RIG.toml. A Refusal holds every fault of it at once."""
    tables = tables_of(text, "the file of cutters")
    if "head" in tables:
        return _rig_of(tables, str).cutters
    found = checked(CuttersTable, tables, str).cutter
    if not found:
        raise refuse(
            "cutter", "none", "[[cutter]] tables", "The file holds no cutter.", "Write one table for each, as in RIG.toml."
        )
    return tuple(map(_cutter, found))


def rig_from_fields(fields: Mapping[str, str], over: str = "") -> RigFile:
    """Read the fields of a form, named by their paths. `over`: the file they were laid out from, whose comments stay."""
    from evenpitch.store.files.writing import written

    form = Fields(fields, "rig")
    rig = _rig_of(form.tables, form.path)
    return RigFile(rig, flat(form.tables), written(form.tables, RigTable, over))


def write_rig(file: RigFile) -> str:
    """The text of the file, as it was typed."""
    return file.text


def _rig_of(tables: Mapping[str, Any], path: Callable[[str], str]) -> Rig:
    # What is needed stands there empty, so that whoever left it out is told field by field.
    needed: dict[str, Any] = {
        name: empty for name, empty in (("head", {}), ("plate", [{}])) if tables.get(name) in (None, [], {})
    }
    found = checked(RigTable, {**tables, **needed}, path)
    if found.link is not None and (faults := _link_faults(found.link, found.table)):
        raise Refusal(*faults)
    return Rig(
        name=found.name or f"Mill and {found.head.ratio}:1 head",
        head=_head(found.head),
        plates=tuple(Plate(plate.circles) for plate in found.plate),
        change_gears=_change_gears(found),
        table=_table(found.table),
        spindle=Spindle(
            speeds=tuple(sorted(set(found.spindle.speeds))),
            feeds=tuple(sorted(set(found.spindle.feeds))),
            arbor=_mm(found.spindle.arbor),
            collar=_mm(found.spindle.collar),
            overarm=_mm(found.spindle.overarm),
        ),
        link=_link(found),
        cutters=tuple(map(_cutter, found.cutter)),
        instruments=tuple(map(_instrument, found.instrument)),
        maps=tuple(map(_map, found.map)),
    )


def _mm(value: Fraction | None) -> Millimetre | None:
    return None if value is None else Millimetre(float(value))


def _rad(value: Fraction | None) -> Radian | None:
    return None if value is None else degrees(value)


def _head(found: HeadTable) -> Head:
    return Head(
        ratio=found.ratio,
        centre_height=_mm(found.centre_height),
        direct=found.direct,
        end=found.end,
        backlash=_rad(found.backlash),
        idler_test=found.idler_test,
        tailstock_top=_mm(found.tailstock_top),
    )


def _change_gears(found: RigTable) -> ChangeGears:
    gears = found.change_gears
    return ChangeGears(gears.teeth) if gears.stud_clearance is None else ChangeGears(gears.teeth, gears.stud_clearance)


def _table(found: TableTable) -> Table:
    return Table(
        screw_lead=_mm(found.screw_lead),
        helix_set_by=found.helix_set_by,
        swing=_rad(found.swing),
        travel=_mm(found.travel),
        length=_mm(found.length),
        rapid=found.rapid,
        saddle_travel=_mm(found.saddle_travel),
        knee_travel=_mm(found.knee_travel),
        knee_dial=_dial(found.knee_dial),
        saddle_dial=_dial(found.saddle_dial),
    )


def _dial(found: DialTable | None) -> Dial | None:
    return None if found is None else Dial(Millimetre(float(found.division)), Millimetre(float(found.turn)))


def _counts(link: LinkTable, table: TableTable) -> dict[str, Fraction]:
    """Table travel of one count, exact, from each of the ways it was given."""
    found = {}
    if link.count is not None:
        found["count"] = link.count
    if link.period is not None and link.edges is not None:
        found["period"] = link.period / link.edges
    if link.encoder_counts is not None and table.screw_lead is not None:
        found["encoder_counts"] = table.screw_lead / link.encoder_counts
    return found


def _link_faults(link: LinkTable, table: TableTable) -> list[Fault]:
    counts = _counts(link, table)
    faults = []
    if len(set(counts.values())) > 1:
        shown = " and ".join(f"{float(value) * 1000:.6g} µm by {name}" for name, value in counts.items())
        first = next(iter(counts))
        faults.append(
            Fault(f"link.{first}", shown, "one length of a count", "They do not agree.", "Leave all but one of them out.")
        )
    if (link.period is None) != (link.edges is None) and link.count is None:
        missing = "edges" if link.edges is None else "period"
        likely = "A period needs the edges counted in it, and edges a period; 4 edges are usual."
        faults.append(Fault(f"link.{missing}", "", "period and edges, or count", likely, f"Write {missing} too."))
    if link.encoder_counts is not None and table.screw_lead is None and link.count is None:
        likely = "An encoder on the screw counts turns; the lead makes them lengths."
        faults.append(Fault("table.screw_lead", "", "the lead of the table screw", likely, "Write the lead, such as 0.25 in."))
    return faults


def _link(found: RigTable) -> Link | None:
    link = found.link
    if link is None:
        return None
    counts = _counts(link, found.table)
    plain = {name: getattr(link, name) for name in LinkTable.model_fields if name in _AS_READ}
    return Link(
        **plain,
        count=next(iter(counts.values()), None),
        scale_length=_mm(link.scale_length),
        scale_offset=_mm(link.scale_offset),
        plate_turns=link.plate_turns if link.plate_turns is not None else Fraction(1),
        latency=None if link.latency is None else Second(link.latency),
        further=further_of(found),
    )


_AS_READ = frozenset(Link.__dataclass_fields__) - {"count", "scale_length", "scale_offset", "plate_turns", "latency", "further"}


def further_of(found: RigTable) -> tuple[tuple[str, float], ...]:
    """The further quantities of all tables, by name; one typed twice counts as typed last."""
    link = found.link.further if found.link is not None else ()
    return tuple(dict((*found.head.further, *found.table.further, *link, *found.setup.further)).items())


def _cutter(found: CutterTable) -> Cutter:
    return Cutter(
        pitch=found.pitch,
        pressure_angle=degrees(found.pressure_angle),
        number=found.number,
        numbering=found.numbering or ("module" if found.pitch.kind == "module" else "dp"),
        made_for=found.made_for,
        outside=_mm(found.outside),
        width=_mm(found.width),
        teeth=found.teeth,
        tip_corner=_mm(found.tip_corner),
    )


def _instrument(found: InstrumentTable) -> Instrument:
    least, most = found.range or (None, None)
    sizes = tuple(Millimetre(float(size)) for size in found.sizes)
    return Instrument(
        kind=found.kind, least=_mm(least), most=_mm(most), division=_mm(found.division), U=_mm(found.U), sizes=sizes
    )


def _map(found: MapTable) -> ErrorMap:
    waves = (
        Harmonic(wave.per_turn, degrees(wave.amplitude), degrees(wave.phase or 0), None if wave.U is None else degrees(wave.U))
        for wave in found.harmonics
    )
    return ErrorMap(found.date, tuple(waves))
