"""The single checks of a link proof: what was found, its U, what is good, and the verdict."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from evenpitch.checking.link_proof import RULER, pen_rise
from evenpitch.checking.mounting import COMPARATORS, block_budget
from evenpitch.checking.readings import ProofReading
from evenpitch.quantity.units import Millimetre

CheckKind = Literal["along the scale", "dial", "strokes", "block", "near the cutter", "link", "other side", "pen line"]
Verdict = Literal["pass", "not proven", "fail"]

GOOD_GAIN = 250e-6
"""Part of a length or of an angle within which scale and link are good; common practice."""
GOOD_DIAL = 1e-3
GOOD_TILT = 5.0
GOOD_PEN = 1.6
FEW = 3
"""From so many readings of one approach their own scatter stands for the repeat; from so many strokes a walk can be seen."""
INDICATOR_LINE = 0.004
"""U of an indicator led along a scale, mm; common practice."""
USUAL_BAR = Millimetre(25.0)
"""Radius of the bar for the pen line where none is said."""

PROVES: dict[CheckKind, tuple[str, str]] = {
    "along the scale": ("the reader runs free all along", "anything about the lead: 1 mm out in 500 is 2 µm in a metre"),
    "dial": (COMPARATORS[0].proves, COMPARATORS[0].cannot),
    "strokes": ("no count lost, none gained, no walking", "the gain"),
    "block": (COMPARATORS[2].proves, COMPARATORS[2].cannot),
    "near the cutter": ("tilt of the table between scale and cutter, from 6 µm up", "less than 6 µm"),
    "link": ("the whole link, ratio and sign", "the waves of worm and wheel in between"),
    "other side": ("the backlash", "how it changes round the wheel"),
    "pen line": ("hand; inch for millimetre; a factor; the mate's lead", "anything finer than 1 %"),
}


@dataclass(frozen=True, slots=True)
class ProofCheck:
    """One check: found ± U against good, all in `unit`."""

    kind: CheckKind
    found: float
    U: float
    good: float
    unit: str
    words: str = ""

    @property
    def verdict(self) -> Verdict:
        """Pass where found with its U lies within, fail where it lies outside with its U, else not proven (ISO 14253-1)."""
        if abs(self.found) + self.U <= self.good:
            return "pass"
        return "fail" if abs(self.found) - self.U > self.good else "not proven"

    def facts(self) -> dict[str, object]:
        """For the machine-readable answer."""
        proves, cannot = PROVES[self.kind]
        found = {"check": self.kind, "found": self.found, "U": self.U, "good_within": self.good, "unit": self.unit}
        return {**found, "verdict": self.verdict, "proves": proves, "cannot": cannot}


def kind_of(reading: ProofReading) -> CheckKind:
    """Which check a line belongs to: by its name, else by what was read."""
    name = f"{reading.check} {reading.place}"
    if "pen" in reading.check:
        return "pen line"
    if "along" in reading.check:
        return "along the scale"
    if reading.work is not None or reading.radius is not None:
        return "link"
    if "dial" in name:
        return "dial"
    if "stroke" in name:
        return "strokes"
    return "near the cutter" if "cutter" in name else "block"


def by_kind(readings: Sequence[ProofReading]) -> dict[CheckKind, list[ProofReading]]:
    """The lines of a proof, check by check."""
    rows: dict[CheckKind, list[ProofReading]] = {kind: [] for kind in PROVES}
    for one in readings:
        rows[kind_of(one)].append(one)
    return rows


def along_check(on_top: Sequence[float], on_front: Sequence[float], limit: Millimetre) -> ProofCheck | None:
    """Indicator along the scale body, mm: the wider of the two planes."""
    planes = [max(plane) - min(plane) for plane in (on_top, on_front) if len(plane) > 1]
    if not planes:
        return None
    words = "on top and on the front" if len(planes) == 2 else "one plane only"
    return ProofCheck("along the scale", max(planes), INDICATOR_LINE, limit, "mm", words)


STROKE_U = 0.5
"""Counts, U of half of what strokes spread: each of the two readings that bound it stands within half a count; derived here."""


def strokes_check(rows: Sequence[ProofReading], count: float) -> ProofCheck | None:
    """Fast strokes back to one zero: half of what they spread, in counts."""
    returned = [row.reading for row in rows if row.reading is not None]
    if len(returned) < FEW:
        return None
    spread = (max(returned) - min(returned)) / count
    return ProofCheck("strokes", spread / 2, STROKE_U, 2.0, "counts", f"{len(returned)} strokes")


def dial_check(rows: Sequence[ProofReading]) -> ProofCheck | None:
    """Whole turns of the dial."""
    off = [row.reading - row.moved for row in rows if row.reading is not None]
    if not off:
        return None
    found, moved = sum(off) / len(off) * 1e3, abs(rows[0].moved)
    return ProofCheck("dial", found, COMPARATORS[0].U * 1e3, GOOD_DIAL * moved * 1e3, "µm", f"over {moved:.3f} mm")


def block_check(rows: Sequence[ProofReading], count: float) -> ProofCheck | None:
    """The block, at one place or more: the gain, µm in a metre."""
    gains = [row.reading / row.moved - 1 for row in rows if row.reading is not None and row.moved]
    if not gains:
        return None
    length = abs(rows[0].moved)
    U = block_budget(Millimetre(length), Millimetre(count)).U / length
    return ProofCheck("block", sum(gains) / len(gains) * 1e6, U * 1e6, GOOD_GAIN * 1e6, "µm in a metre", f"{length:g} mm block")


def cutter_check(near_scale: Sequence[ProofReading], near_cutter: Sequence[ProofReading], count: float) -> ProofCheck | None:
    """The same block read near the cutter, less the reading near the scale at the same place, µm."""
    by_place: dict[str, list[float]] = {}
    for row in near_scale:
        if row.reading is not None:
            by_place.setdefault(_place(row), []).append(row.reading)
    every = [one for readings in by_place.values() for one in readings]
    off = []
    for row in near_cutter:
        beside = by_place.get(_place(row), every)
        if row.reading is not None and beside:
            off.append(row.reading - sum(beside) / len(beside))
    if not off:
        return None
    U = block_budget(Millimetre(abs(near_cutter[0].moved)), Millimetre(count)).U * math.sqrt(2)
    return ProofCheck("near the cutter", sum(off) / len(off) * 1e3, U * 1e3, GOOD_TILT, "µm")


def _place(row: ProofReading) -> str:
    return next((word for word in ("left", "middle", "right") if word in row.place), row.place)


def pen_check(rows: Sequence[ProofReading], lead: Millimetre) -> tuple[ProofCheck, float, float] | None:
    """The pen line in per cent of its rise, and the rises found and wanted, mm; a line that leans the other way falls."""
    drawn = [row for row in rows if row.reading is not None and row.moved]
    if not drawn:
        return None
    first = drawn[0]
    wanted = pen_rise(Millimetre(2 * (first.radius or USUAL_BAR)), Millimetre(abs(first.moved)), lead)
    found = sum((row.reading or 0.0) * math.copysign(1, row.moved) for row in drawn) / len(drawn)
    check = ProofCheck("pen line", (found / wanted - 1) * 100, RULER / wanted * 100, GOOD_PEN, "%")
    return check, found, wanted
