"""Readings from CSV files: of a scale, a head, a link proof, an inspection, and the log of a link."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import TypeVar

from evenpitch.checking.bar import angle_of_height
from evenpitch.checking.readings import Direction, GearReading, HeadReading, LogRow, ProofReading, ScaleReading
from evenpitch.quantity.refusal import Fault, Refusal
from evenpitch.quantity.units import Millimetre, Radian
from evenpitch.store.files.csv_columns import Column, Row, read_rows

MOST_LOG_ROWS = 400_000
MOST_ROWS_WAITED_FOR = 60_000
"""Rows of a log that a page answers in a second or two."""
LARGEST_READINGS = 4_000_000
"""Bytes of a file of readings."""
LARGEST_LOG = 40_000_000
LONG_LOG = f"Keep every tenth row, or the log of one pass: {MOST_LOG_ROWS} rows are read at most."

_UP = frozenset({"up", "u", "+", "+1", "1", "↑"})
_DOWN = frozenset({"down", "d", "-", "-1", "−", "↓"})
_SIDE_WORDS = "up: towards growing readings, as in the cut; down: from the other side."
_SIDE = Column("direction", "word", among=_UP | _DOWN, wanted="up or down", do=_SIDE_WORDS)

SCALE = (
    Column("run", "whole"),
    _SIDE,
    Column("reference", "length", usual="mm"),
    Column("reading", "length", usual="mm"),
    Column("temperature", "temperature", needed=False, filled=False, usual="c"),
)
HEAD = (
    Column("method", "word"),
    Column("run", "whole"),
    _SIDE,
    Column("nominal", "angle", usual="deg"),
    Column("reading", "angle", needed=False, filled=False, usual="arcsec"),
    Column("move", "length", needed=False, filled=False, usual="um"),
    Column("height", "length", needed=False, filled=False, usual="mm"),
    Column("radius", "length", needed=False, filled=False, usual="mm"),
)
PROOF = (
    Column("check", "word"),
    Column("place", "word", filled=False),
    Column("approach", "word", filled=False, among=_UP | _DOWN, wanted="up or down", do=_SIDE_WORDS),
    Column("moved", "length", usual="mm"),
    Column("reading", "length", filled=False, usual="mm"),
    Column("work", "angle", needed=False, filled=False, usual="deg"),
    Column("radius", "length", needed=False, filled=False, usual="mm"),
)
LOG = (
    Column("time", "time", usual="s"),
    Column("count", "whole"),
    Column("pulse", "whole"),
    Column("motor", "angle", needed=False, filled=False, usual="deg"),
    Column("work", "angle", needed=False, filled=False, usual="arcsec"),
)
INSPECTION = (
    Column("kind", "word"),
    Column("space", "whole"),
    Column("flank", "word", filled=False),
    Column("instrument", "word", filled=False),
    Column("value", "length", needed=False, filled=False, usual="mm"),
    Column("angle", "angle", needed=False, filled=False, usual="arcsec"),
    Column("k", "whole", needed=False, filled=False),
    Column("pin", "length", needed=False, filled=False, usual="mm"),
    Column("height", "length", needed=False, filled=False, usual="mm"),
    Column("round", "whole", needed=False, filled=False),
    Column("temperature", "temperature", needed=False, filled=False, usual="c"),
    Column("u", "length", needed=False, filled=False, usual="um"),
)
KINDS = ("span", "over pins", "over balls", "chordal", "runout", "pitch step", "head angle")

T = TypeVar("T")


def read_scale(content: str | bytes) -> tuple[ScaleReading, ...]:
    """Scale readings: run, direction, reference, reading, perhaps temperature."""

    def one(row: Row) -> ScaleReading:
        side = _side(row, "direction")
        reference, reading = row.number("reference") or 0.0, row.number("reading") or 0.0
        return ScaleReading(_run(row), side, Millimetre(reference), Millimetre(reading), row.number("temperature"), row.line)

    return _each(read_rows(content, SCALE, "scale readings"), one)


def read_head(content: str | bytes) -> tuple[HeadReading, ...]:
    """Head readings: method, run, direction, nominal angle, and the reading as an angle, or as a length at a radius."""
    return _each(read_rows(_moves_named(content), HEAD, "head readings"), _head_row)


def _moves_named(content: str | bytes) -> str:
    """The text with a reading that is a length under the name `move`, so that one table may hold both kinds."""
    text = content if isinstance(content, str) else content.decode("utf-8-sig", errors="replace")
    lines = text.removeprefix("\ufeff").splitlines(keepends=True)
    for place, line in enumerate(lines):
        if line.strip() and not line.lstrip().startswith("#"):
            for unit in ("um", "µm", "μm", "mm", "in", "thou"):
                line = line.replace(f"reading_{unit}", f"move_{unit.replace('µ', 'u').replace('μ', 'u')}")
            lines[place] = line
            break
    return "".join(lines)


def _head_row(row: Row) -> HeadReading:
    method = row.word("method")
    if method not in ("bar", "closure"):
        raise _fault(
            row, "method", method, "bar or closure", "A word not known here.", "bar: bar and indicator; closure: square, hexagon."
        )
    nominal = row.number("nominal") or 0.0
    error = _head_error(row, nominal)
    side = _side(row, "direction")
    return HeadReading("bar" if method == "bar" else "closure", _run(row), side, Radian(nominal), Radian(error), row.line)


def _head_error(row: Row, nominal: float) -> float:
    """Work angle less nominal, from whichever column was filled."""
    angle, move, height, radius = (row.number(name) for name in ("reading", "move", "height", "radius"))
    given = [value for value in (angle, move, height) if value is not None]
    if len(given) != 1:
        expected = "one of reading_arcsec, reading_um, height_mm"
        said = f"{len(given)} of them"
        raise _fault(row, "reading", said, expected, "Nothing to read, or two readings.", "Fill one of the columns.")
    if angle is not None:
        return angle
    if radius is None or radius <= 0:
        given_radius = "" if radius is None else f"{radius:g} mm"
        expected = "radius_mm: the radius at which the indicator stood, above 0"
        raise _fault(
            row, "radius", given_radius, expected, "A length turns into an angle only at a radius.", "Measure it, and fill it in."
        )
    if move is not None:
        return move / radius
    assert height is not None
    found = angle_of_height(Millimetre(height), Millimetre(radius))
    return math.remainder(found - nominal, 2 * math.pi)


PROOF_WORDS = ("dial", "stroke", "block", "cutter", "link", "side", "pen", "along")
STILL = ("stroke", "along")
"""Checks in which nothing is moved."""


def read_proof(content: str | bytes) -> tuple[ProofReading, ...]:
    """Link-proof readings: check, place, approach, moved, reading, perhaps the work's angle or the bar's radius."""

    def one(row: Row) -> ProofReading:
        reading, work, radius = (row.number(name) for name in ("reading", "work", "radius"))
        if reading is None and work is None:
            raise _fault(
                row, "reading", "", "a reading, or the work's angle", "Nothing was read.", "Fill reading_mm or work_deg."
            )
        name = f"{row.word('check')} {row.word('place')}"
        if not any(word in name for word in PROOF_WORDS):
            do = "Write one of these words; a bracket, noise and drag go into the fields of the page."
            raise _fault(
                row, "check", row.word("check"), "dial, stroke, block, near cutter, link, pen line", "No such check.", do
            )
        if not row.number("moved") and not any(word in name for word in STILL):
            raise _fault(row, "moved", "0", "the move that was made, not 0", "Was it left out?", "Write the size of the block.")
        turned = work is not None and "pen" not in row.word("check")
        side = _side(row, "approach") if row.word("approach") or turned else "up"
        return ProofReading(
            row.word("check"),
            row.word("place"),
            side,
            Millimetre(row.number("moved") or 0.0),
            None if reading is None else Millimetre(reading),
            None if work is None else Radian(work),
            None if radius is None else Millimetre(radius),
            row.line,
        )

    return _each(read_rows(content, PROOF, "link proof"), one)


def read_log(content: str | bytes, most: int = MOST_LOG_ROWS) -> tuple[LogRow, ...]:
    """The log of a link: time, count, pulse, perhaps the motor's and the work's angle."""

    def one(row: Row) -> LogRow:
        motor, work = row.number("motor"), row.number("work")
        return LogRow(
            row.number("time") or 0.0,
            int(row.number("count") or 0),
            int(row.number("pulse") or 0),
            None if motor is None else Radian(motor),
            None if work is None else Radian(work),
        )

    return _each(read_rows(content, LOG, "log", most), one)


def read_inspection(content: str | bytes) -> tuple[GearReading, ...]:
    """Readings of an inspection: kind, space, flank, instrument, value, and what belongs to it."""
    return _each(read_rows(_angles_named(content), INSPECTION, "inspection"), _inspected)


def _angles_named(content: str | bytes) -> str:
    text = content if isinstance(content, str) else content.decode("utf-8-sig", errors="replace")
    first, _, rest = text.removeprefix("\ufeff").partition("\n")
    for unit in ("arcsec", "arcmin", "deg"):
        first = first.replace(f"value_{unit}", f"angle_{unit}")
    return f"{first}\n{rest}"


def _inspected(row: Row) -> GearReading:
    kind, flank = row.word("kind"), row.word("flank")
    if kind not in KINDS:
        raise _fault(row, "kind", kind, ", ".join(KINDS), "A word not known here.", "Take one of them.")
    if flank not in ("left", "right", ""):
        raise _fault(row, "flank", flank, "left, right or nothing", "A word not known here.", "Right: the side of growing angle.")
    length, angle = row.number("value"), row.number("angle")
    if (length is None) == (angle is None):
        expected = "a value, as a length or as an angle"
        raise _fault(row, "value", "none" if length is None else "two", expected, "", "Fill one of the columns.")
    pin, height = row.number("pin"), row.number("height")
    k, turn = row.number("k"), row.number("round")
    return GearReading(
        kind=kind,
        space=int(row.number("space") or 0),
        flank="left" if flank == "left" else "right" if flank == "right" else None,
        instrument=row.word("instrument"),
        value=angle if length is None and angle is not None else length or 0.0,
        angle=length is None,
        spanned=None if k is None else int(k),
        pin=None if pin is None else Millimetre(pin),
        height=None if height is None else Millimetre(height),
        round=None if turn is None else int(turn),
        temperature=row.number("temperature"),
        u=row.number("u"),
        line=row.line,
    )


def _run(row: Row) -> int:
    return int(row.number("run") or 0)


def _side(row: Row, name: str) -> Direction:
    word = row.word(name)
    if word in _UP:
        return "up"
    if word in _DOWN:
        return "down"
    likely = "It is missing." if not word else "A word not known here."
    raise _fault(row, name, word, "up or down", likely, _SIDE_WORDS)


def _fault(row: Row, column: str, given: str, expected: str, likely: str, do: str) -> Refusal:
    return Refusal(Fault(f"line {row.line}, {column}", given, expected, likely, do))


MOST_FAULTS = 12


def _each(rows: tuple[Row, ...], one: Callable[[Row], T]) -> tuple[T, ...]:
    """Every row made a reading; the faults of all rows at once, the first dozen told and the rest counted."""
    found: list[T] = []
    faults: list[Fault] = []
    for row in rows:
        try:
            found.append(one(row))
        except Refusal as refusal:
            faults += [fault if fault.field.startswith("line") else _placed(fault, row) for fault in refusal.faults]
    if len(faults) > MOST_FAULTS:
        more = f"{len(faults) - MOST_FAULTS} more lines"
        faults = [
            *faults[:MOST_FAULTS],
            Fault("readings", more, "lines like the first good ones", "The same again.", "Mend these first."),
        ]
    if faults:
        raise Refusal(*faults)
    return tuple(found)


def _placed(fault: Fault, row: Row) -> Fault:
    return Fault(f"line {row.line}, {fault.field}", fault.given, fault.expected, fault.likely, fault.do)
