"""The wall charts of one's own head: every count, and every lead the gears give; as documents and as rows for a CSV."""

from __future__ import annotations

import math
from fractions import Fraction

from evenpitch.dividing.chart import ChartRow
from evenpitch.dividing.lead import LeadTrain
from evenpitch.dividing.methods import Compound, Differential, Method, PlatePulses
from evenpitch.dividing.trains import mounted
from evenpitch.quantity.showing import inch, mm, number
from evenpitch.sheet.compose.dividing import way_name
from evenpitch.sheet.compose.lead import mounting_words
from evenpitch.sheet.document import Cell, Document, Paper, Section, Table, TableRow, Words

COUNT_HEADS = ("count", "way", "crank, each space", "gears", "plate", "worst, arcsec", "by the motor, pulses", "worst, arcsec")
LEAD_HEADS = ("lead_mm", "lead_in", "drivers", "driven", "mesh", "helix_deg")


def _crank(method: Method | None) -> str:
    crank = method.crank() if method is not None else None
    if method is None or crank is None:
        return "" if method is None else method.words()
    whole, circle, spaces = crank
    text = f"{whole} + {spaces} of {circle}" if whole and spaces else f"{spaces} of {circle}" if spaces else _turns(whole)
    if isinstance(method, Compound):
        sign = "+" if method.plate_sense == "with" else "−"
        text = f"{text} {sign} {method.plate_spaces} of {method.plate_circle}"
    return f"{text}, every {method.skip}" if method.skip > 1 else text


def _turns(whole: int) -> str:
    return "1 turn" if whole == 1 else f"{whole} turns"


def count_cells(row: ChartRow) -> tuple[str, ...]:
    """One count as plain cells, the same on paper and in the CSV."""
    method = row.by_hand()
    gears = method.train_words() if isinstance(method, Differential) else ""
    plate = method.plate_sense if isinstance(method, Differential) else ""
    motor = row.motor
    by_motor = "" if motor is None else " / ".join(str(abs(pulses)) for pulses, _ in motor.counts)
    if isinstance(motor, PlatePulses):
        by_motor = f"{_crank(motor)}; {by_motor}"
    return (
        str(row.divisions),
        "none" if method is None else way_name(method),
        _crank(method),
        gears,
        plate,
        "" if method is None else "0" if method.exact else number(method.worst_error_arcsec, 1),
        by_motor,
        "" if motor is None else "0" if motor.exact else number(motor.worst_error_arcsec, 1),
    )


def compose_count_chart(rows: tuple[ChartRow, ...], head_words: str, paper: Paper, *, motor: bool) -> Document:
    """Every count on one head; two columns of rows on paper."""
    heads = ("count", "each space", "gears, plate", "off ″", *(("pulses", "off ″") if motor else ()))
    table_rows = []
    for row in rows:
        count, way, crank, gears, plate, off, pulses, motor_off = count_cells(row)
        geared = f"{gears}, {plate}" if gears else "nose plate" if way == "Direct plate" else ""
        cells = (count, crank or way, geared, off, *((pulses, motor_off) if motor else ()))
        table_rows.append(TableRow(cells))
    right = (0, 3, 5) if motor else (0, 3)
    table = Table(heads, tuple(table_rows), right=right, heavy=10, columns=1 if motor else 2)
    first, last = rows[0].divisions, rows[-1].divisions
    words = Words(
        "Spaces of a circle, not holes: the sector shows one hole more. Plate with or against the crank; try it before the first space: "
        "K less N times the crank move is what the plate must turn in one turn of the work. Off: the furthest space from its place."
    )
    return Document(
        kind="chart",
        title=f"Every count from {first} to {last} on {head_words}",
        sections=(Section("use", "", (words,)), Section("counts", "Counts", (table,))),
        cells=(Cell("wall chart", "every count"), Cell("head", head_words), Cell("strength", "not checked")),
        paper=paper,
    )


def lead_cells(train: LeadTrain, diameter: float | None) -> tuple[str, ...]:
    """One lead as plain cells."""
    angle = "" if diameter is None else number(math.degrees(math.atan(math.pi * diameter / float(train.lead))), 2)
    return (
        number(train.lead, 4),
        number(train.lead / Fraction(254, 10), 5),
        *("·".join(map(str, side)) for side in mounted(train.train, train.stud_clearance)),
        mounting_words(train.mountings()),
        angle,
    )


def compose_lead_chart(trains: tuple[LeadTrain, ...], head_words: str, diameter: float | None, paper: Paper) -> Document:
    """Every lead one's gears give, rising."""
    heads = ("lead mm", "lead in", "drivers", "driven", *((f"helix on {mm(diameter, 1)}",) if diameter is not None else ()))
    rows = []
    for train in trains:
        lead_mm, lead_in, drivers, driven, _, angle = lead_cells(train, diameter)
        rows.append(TableRow((lead_mm, lead_in, drivers, driven, *((f"{angle}°",) if diameter is not None else ()))))
    table = Table(heads, tuple(rows), right=(0, 1), heavy=10, columns=2)
    words = Words(
        "Drivers: the gear on the screw, then the first on the stud; driven: the second on the stud, then the gear on the worm. "
        "The gear on the screw meshes with the second on the stud, the first on the stud with the worm. "
        "An idler changes the hand, not the lead."
    )
    return Document(
        kind="chart",
        title=f"Every lead on {head_words}: {len(trains)} leads, {inch(trains[0].lead, 3)} to {inch(trains[-1].lead, 2)}",
        sections=(Section("use", "", (words,)), Section("leads", "Leads", (table,))),
        cells=(Cell("wall chart", "every lead"), Cell("head", head_words), Cell("leads", str(len(trains)))),
        paper=paper,
    )
