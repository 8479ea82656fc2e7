"""A rig's proof from its form: fields as typed and a table beside them become readings, checks and one sentence."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction
from typing import Any, Literal, TypeVar

from evenpitch.checking.link_proof import ProofMeans
from evenpitch.checking.mounting import USUAL_ALIGNMENT
from evenpitch.checking.readings import Direction, ProofReading
from evenpitch.job.commissioning import age_findings
from evenpitch.job.mounting import HANDLE, Mounted, MountingProven, prove_mounting
from evenpitch.job.order import Order
from evenpitch.job.proving import LinkProven, prove_link
from evenpitch.quantity.field_names import FieldName
from evenpitch.quantity.read_angle import read_angle
from evenpitch.quantity.read_length import read_length
from evenpitch.quantity.read_number import is_unknown, read_number, read_whole
from evenpitch.quantity.read_physical import read_physical
from evenpitch.quantity.refusal import Fault, Refusal, refuse
from evenpitch.quantity.units import Millimetre, Newton, Radian, degrees
from evenpitch.rig.rig import Rig
from evenpitch.sheet.answers import answer
from evenpitch.sheet.compose.rig_proof import compose_rig_proof
from evenpitch.sheet.document import Document
from evenpitch.store.files.readings import read_proof
from evenpitch.web import proof_fields as fields
from evenpitch.web.answer import Answer
from evenpitch.web.typed import Collected, Typed

T = TypeVar("T")
LONGEST = 10_000
"""Millimetres; no table is longer."""
MOST_COUNTS = 1_000_000
_HEIGHT = re.compile(r"mm\b|(?<![a-z])in\b|inch|thou|[µμu]m\b", re.IGNORECASE)
_PLAIN = re.compile(r"[-−+]?\d+(?:[.,]\d+)?(?:\s+[-−+]?\d+[.,]\d+)+")
Height = tuple[Millimetre | None, Radian | None]


@dataclass(frozen=True, slots=True)
class RigProof:
    """What the form came to. `kind`: link where the work's angle was read, else mounting."""

    mounting: MountingProven
    link: LinkProven | None
    document: Document
    answer: Answer

    @property
    def kind(self) -> Literal["mounting", "link"]:
        """What is kept in the book."""
        return "link" if self.link is not None and self.link.proof is not None else "mounting"


def prove_rig(rig: Rig, typed: Typed, *, order: Order | None = None, gear: int = 0, job: str = "", today: date) -> RigProof:
    """The checks that were made; a Refusal with every field that cannot be read, or where nothing was read at all."""
    collected = Collected()
    wanted = None if order is None else order.works[gear].gear
    mounted = _mounted(typed, collected)
    rows = [*_scale_rows(rig, typed, collected), *_link_rows(typed, collected, None if wanted is None else wanted.hand)]
    arm = _read(typed, collected, fields.ARM_KNOWN, _positive, None)
    try:
        rows += _table(typed)
    except Refusal as refusal:
        collected.faults += refusal.faults
    collected.settle()
    if not rows and mounted == Mounted(limit=mounted.limit, handle=mounted.handle):
        raise refuse("readings", "", "at least one reading", "Nothing was typed yet.", "Fill in one check, or give a table.")
    mounting = prove_mounting(rig, mounted, rows)
    link = None
    if order is not None:
        means = None if arm is None else ProofMeans(arm=Millimetre(float(arm)))
        link = prove_link(order, rows, gear=gear, means=means)
        link = replace(link, findings=(*link.findings, *age_findings(rig, today)))
    document = compose_rig_proof(mounting, link, rig.name, job)
    facts: dict[str, Any] = mounting.facts() | ({} if link is None else link.facts())
    facts["checks"] = [*(check.facts() for check in mounting.checks if check.kind == "along the scale" or link is None)]
    if link is not None:
        facts["lead_mm"] = float(link.gear.lead)
    facts["checks"] += [] if link is None else [check.facts() for check in link.checks]
    return RigProof(mounting, link, document, Answer(document, answer("prove", (), document.findings, **facts)))


def _read(typed: Typed, collected: Collected, name: FieldName, reader: Callable[[str, str], T], usual: T | None) -> T | None:
    path = fields.path_of(name)
    if not typed.get(path, "").strip():
        return usual
    return collected.read(typed, path, lambda text: reader(text, path), usual)


def _length(text: str, path: str) -> Fraction:
    found = read_length(text, field=path)
    if abs(found) > LONGEST:
        raise refuse(path, text, "a length up to 10 m", "No table is longer.", "Look at the unit.")
    return found


def _positive(text: str, path: str) -> Fraction:
    found = _length(text, path)
    if found <= 0:
        raise refuse(path, text, "a length above 0", "", "Write it with its unit: 100 mm.")
    return found


def _several(text: str, path: str) -> tuple[Fraction, ...]:
    """One reading or several, between spaces or semicolons; a unit stands behind each, or behind the last for all."""
    parts = [part for part in re.split(r"[;\s]+|,\s+", text.strip()) if part]
    joined: list[str] = []
    for part in parts:
        if joined and not any(sign.isdigit() for sign in part):
            joined[-1] += f" {part}"
        else:
            joined.append(part)
    unit = re.sub(r"^[\s+\-−\d.,]*", "", joined[-1])
    return tuple(_length(f"{part} {unit}" if re.fullmatch(r"[+\-−]?[\d.,]+", part) else part, path) for part in joined)


def _mounted(typed: Typed, collected: Collected) -> Mounted:
    def plane(names: tuple[FieldName, ...]) -> tuple[float | None, ...]:
        found = [_read(typed, collected, name, _length, None) for name in names]
        return tuple(None if value is None else float(value) for value in found) if any(one is not None for one in found) else ()

    def counts(name: FieldName) -> int | None:
        return _read(typed, collected, name, lambda text, path: read_whole(text, field=path, least=0, most=MOST_COUNTS), None)

    limit = _read(typed, collected, fields.LIMIT, _positive, None)
    handle = _read(typed, collected, fields.HANDLE, _positive, None)
    dial = typed.get(fields.path_of(fields.DIAL), "").strip()
    turns = _turns(typed, collected) if dial else None
    return Mounted(
        on_top=plane(fields.ALONG[:3]),
        on_front=plane(fields.ALONG[3:]),
        limit=USUAL_ALIGNMENT if limit is None else Millimetre(float(limit)),
        push=counts(fields.PUSH),
        lock=counts(fields.LOCK),
        noise=counts(fields.NOISE),
        turns=turns,
        pull=_read(typed, collected, fields.PULL, _force, None),
        handle=HANDLE if handle is None else Millimetre(float(handle)),
    )


def _force(text: str, path: str) -> Newton:
    return Newton(read_physical(text, "force", field=path, bare="N"))


def _turns(typed: Typed, collected: Collected) -> float:
    found = _read(typed, collected, fields.TURNS, lambda text, path: read_number(text, field=path, least=0, most=1000), None)
    return 10.0 if found is None else float(found)


def _scale_rows(rig: Rig, typed: Typed, collected: Collected) -> Iterator[ProofReading]:
    dial = _read(typed, collected, fields.DIAL, _length, None)
    if dial is not None:
        if rig.table.screw_lead is None:
            path, do = fields.path_of(fields.DIAL), "Fill in the lead of the table screw on the rig's page."
            collected.faults.append(
                Fault(path, typed[path], "a rig whose screw lead is known", "Turns are no length without it.", do)
            )
        else:
            yield _row("dial", "", _turns(typed, Collected()) * float(rig.table.screw_lead), float(dial))
    for value in _read(typed, collected, fields.STROKES, _several, None) or ():
        yield _row("stroke", "", 0.0, float(value))
    size = float(_read(typed, collected, fields.SIZE, _positive, None) or 100)
    for check, names in (("block", fields.BLOCK), ("near cutter", fields.CUTTER)):
        for place, name in zip(fields.PLACES, names, strict=True):
            for value in _read(typed, collected, name, _several, None) or ():
                yield _row(check, place, size, float(value))


def _row(check: str, place: str, moved: float, reading: float, radius: float | None = None) -> ProofReading:
    arm = None if radius is None else Millimetre(radius)
    return ProofReading(check, place, "up", Millimetre(moved), Millimetre(reading), None, arm)


def _link_rows(typed: Typed, collected: Collected, hand: str | None) -> Iterator[ProofReading]:
    moved = Millimetre(float(_read(typed, collected, fields.MOVED, _positive, None) or 50))
    arm = Millimetre(float(_read(typed, collected, fields.ARM, _positive, None) or 100))
    sides: tuple[tuple[Direction, FieldName], ...] = (("up", fields.UP), ("down", fields.DOWN))
    for side, name in sides:
        for height, angle in _read(typed, collected, name, _turned, None) or ():
            yield ProofReading("link", "", side, moved, height, angle, arm)
    rise = _read(typed, collected, fields.PEN, _length, None)
    bar = _read(typed, collected, fields.PEN_BAR, _positive, None)
    over = _read(typed, collected, fields.PEN_MOVED, _positive, None)
    if rise is not None:
        leans = typed.get(fields.path_of(fields.PEN_HAND), "")
        sign = -1 if leans and hand in ("left", "right") and leans != hand else 1
        yield _row("pen line", "", float(over or 100), sign * float(rise), float(bar or 50) / 2)


def _turned(text: str, path: str) -> tuple[Height, ...]:
    """Angles that the work turned, or heights between the contacts of the bar where a length is typed."""
    if _HEIGHT.search(text):
        return tuple((Millimetre(float(value)), None) for value in _several(text, path))
    parts = text.split() if _PLAIN.fullmatch(text.strip()) else [part for part in text.split(";") if part.strip()]
    return tuple((None, degrees(read_angle(part, field=path))) for part in parts)


def _table(typed: Typed) -> tuple[ProofReading, ...]:
    """The readings given as a table."""
    table = typed.get("readings", "")
    return read_proof(table) if table.strip() and not is_unknown(table) else ()
