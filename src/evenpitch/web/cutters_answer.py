"""The cutters of a job weighed by the virtual cut, as a command: ranked, with the bit for when none will do."""

from __future__ import annotations

import math
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from evenpitch.quantity.read_angle import read_angle
from evenpitch.quantity.read_length import read_length
from evenpitch.quantity.read_number import read_whole
from evenpitch.quantity.refusal import Refusal, refuse
from evenpitch.quantity.units import Millimetre, Radian
from evenpitch.rig.tools import Cutter
from evenpitch.sheet.answers import answer
from evenpitch.store.files.bounded import read_bounded
from evenpitch.web.answer import Answer
from evenpitch.web.papers import pdf
from evenpitch.web.plan_answer import plan_at
from evenpitch.web.typed import Collected, Typed

if TYPE_CHECKING:
    from evenpitch.job.bit import BitPlan
    from evenpitch.job.plan import GearPlan, Plan


@dataclass(frozen=True, slots=True)
class BitAsked:
    """The bit as asked for; None: the usual value."""

    outside: Millimetre | None = None
    rake: Radian | None = None
    relief: Radian | None = None


def read_bit(typed: Typed, collected: Collected) -> BitAsked:
    """Swing diameter, rake and relief of the bit, as typed."""

    def length(text: str) -> Millimetre:
        return Millimetre(float(read_length(text, field="bit-diameter")))

    def angle(text: str, field: str) -> Radian:
        return Radian(math.radians(float(read_angle(text, field=field))))

    return BitAsked(
        collected.read(typed, "bit-diameter", length, None),
        collected.read(typed, "bit-rake", lambda text: angle(text, "bit-rake"), None),
        collected.read(typed, "bit-relief", lambda text: angle(text, "bit-relief"), None),
    )


def bit_made(gear: GearPlan, asked: BitAsked) -> BitPlan:
    """The bit for a gear."""
    from evenpitch.flank.bit import RELIEF
    from evenpitch.job.bit import bit_plan

    return bit_plan(gear, asked.outside, asked.rake or Radian(0.0), RELIEF if asked.relief is None else asked.relief)


def cutters_answer(job: Path | str, typed: Typed, *, rig: bytes | None = None) -> Answer:
    """Every cutter owned and of the standard sets, or of the set asked for, on one gear of a job."""
    from evenpitch.job.cut_findings import cut_findings
    from evenpitch.job.virtual_cutting import SIGNS, virtual_cut
    from evenpitch.sheet.compose.cutters import bit_json, compose_cutters, cutters_json

    collected = Collected()
    made = plan_at(job, rig)
    most = len(made.gears)
    index = collected.read(typed, "gear", lambda text: read_whole(text, field="gear", least=1, most=most), 1) - 1
    asked = read_bit(typed, collected)
    collected.settle()
    gear = made.gears[index]
    only = _set(typed["set"], made, gear) if "set" in typed else None
    weighed = virtual_cut(made.order, gear, only)
    findings = cut_findings(gear, weighed)
    bit = _bit_or_none(gear, asked)
    shown: dict[str, Any] = {
        "cutters": cutters_json(weighed),
        "recommended": None if weighed.recommended is None else weighed.recommended.held.name(),
        "reason": weighed.reason,
        "limit_um": weighed.limit,
        "tolerance_class": weighed.cls,
        "signs": SIGNS,
        "gear": index + 1,
        "fly_cutter": None if bit is None else bit_json(bit),
    }
    return Answer(
        compose_cutters(made, index, weighed, findings, bit=bit),
        answer("cutters", (), findings, **shown),
        {"bit_pdf": lambda: bit_pdf(made, index, bit_made(gear, asked)), "bit_dxf": lambda: bit_dxf(gear, bit_made(gear, asked))},
    )


def _bit_or_none(gear: GearPlan, asked: BitAsked) -> BitPlan | None:
    """The bit; none where the usual one cannot be had on this gear. What was asked for is refused aloud."""
    try:
        return bit_made(gear, asked)
    except Refusal:
        if asked != BitAsked():
            raise
        return None


def _set(words: str, made: Plan, gear: GearPlan) -> tuple[Cutter, ...]:
    from evenpitch.job.drawer import STANDARD_SETS, standard_set
    from evenpitch.store.files.rig_file import read_cutters

    if words.casefold() in STANDARD_SETS:
        return standard_set(gear.gear, words.casefold(), made.order.rig.cutters)
    file = Path(words)
    if not file.is_file():
        expected = f"{', '.join(STANDARD_SETS)}, or a file with [[cutter]] tables"
        raise refuse("set", words, expected, "No set and no file has this name.", "evenpitch cutters JOB.toml --set dp15")
    return read_cutters(read_bounded(file))


def bit_pdf(made: Plan, index: int, bit: BitPlan, paper: Any = None) -> bytes:
    """The sheet of the bit."""
    from evenpitch.sheet.compose.bit import compose_bit

    return pdf(compose_bit(made, index, bit, paper))


def bit_dxf(gear: GearPlan, bit: BitPlan) -> bytes:
    """The edge of the bit as a drawing in millimetres."""
    from evenpitch.sheet.compose.bit import bit_outline
    from evenpitch.sheet.print_dxf import dxf_bytes

    return dxf_bytes(bit_outline(gear, bit))
