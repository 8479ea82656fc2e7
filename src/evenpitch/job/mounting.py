"""Mount and prove the scale: a rig, no job. What was found along it, pushed at it and compared with it, and one sentence."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from evenpitch.checking.drag import drag_at_motor, worm_drag
from evenpitch.checking.measured import Measured
from evenpitch.checking.mounting import (
    USUAL_ALIGNMENT,
    USUAL_COUNT,
    block_budget,
    judge_alignment,
    judge_dial,
    judge_noise,
    judge_push,
    judge_stops,
)
from evenpitch.checking.notes import note
from evenpitch.checking.readings import ProofReading
from evenpitch.job.proof_checks import ProofCheck, along_check, block_check, by_kind, cutter_check, dial_check, strokes_check
from evenpitch.job.proving import not_proven, row_findings
from evenpitch.quantity.finding import Finding, by_weight
from evenpitch.quantity.units import Millimetre, Newton
from evenpitch.rig.rig import Rig

OVER = Millimetre(500.0)
"""Length of a scale where it is not known; only what misalignment costs of the lead rests on it."""
HANDLE = Millimetre(100.0)
"""Radius of a crank handle where none is named; common practice."""
SAME_DRAG = 0.1
"""Part by which a drag may differ from the one on the rig page and be called the same."""
PLACES = ("left", "middle", "right")
LONG = 400.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Mounted:
    """What was read at the mounting. Indicator readings in mm, left, middle, right, None where there is none.

    `push`, `lock`, `noise`: counts that came; `turns` of the dial as typed, None if none. `pull`: spring balance on the crank handle
    at `handle`, N and mm, while it just turns.
    """

    on_top: tuple[float | None, ...] = ()
    on_front: tuple[float | None, ...] = ()
    limit: Millimetre = USUAL_ALIGNMENT
    push: int | None = None
    lock: int | None = None
    noise: int | None = None
    turns: float | None = None
    pull: Newton | None = None
    handle: Millimetre = HANDLE


@dataclass(frozen=True, slots=True)
class BlockAt:
    """The block at one place: reading less block, mm, from so many readings; near the cutter or near the scale."""

    place: str
    off: float
    U: float
    readings: int
    cutter: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class MountingProven:
    """`gain`: of the block near the scale, bare; `block`: its length; `at`: place by place; `sentence`: what it comes to."""

    checks: tuple[ProofCheck, ...]
    mounted: Mounted
    gain: Measured | None
    block: Millimetre | None
    at: tuple[BlockAt, ...]
    sentence: str
    findings: tuple[Finding, ...]

    def facts(self) -> dict[str, Any]:
        """Under the fixed keys of the machine-readable answer."""
        return {
            "sentence": self.sentence,
            "checks": [check.facts() for check in self.checks],
            "gain_ppm": None if self.gain is None else self.gain.times(1e6).facts(),
        }


def prove_mounting(rig: Rig, mounted: Mounted, readings: Sequence[ProofReading]) -> MountingProven:
    """The checks of a mounting that were made; those of the link are left out."""
    link = rig.link
    count = float(USUAL_COUNT) if link is None or link.count is None else float(link.count)
    rows = by_kind(readings)
    made = (
        along_check(_read(mounted.on_top), _read(mounted.on_front), mounted.limit),
        dial_check(rows["dial"]),
        strokes_check(rows["strokes"], count),
        block_check(rows["block"], count),
        cutter_check(rows["block"], rows["near the cutter"], count),
    )
    checks = tuple(check for check in made if check is not None)
    gain = next((Measured(one.found / 1e6, one.U / 2e6) for one in checks if one.kind == "block"), None)
    at = blocks_at((*rows["block"], *rows["near the cutter"]), count)
    scale_rows = {kind: some if kind not in ("link", "other side", "pen line") else [] for kind, some in rows.items()}
    findings = (*mounted_findings(rig, mounted), *row_findings(scale_rows, rig, count), *map(_said, _doubtful(checks)))
    return MountingProven(
        checks=checks,
        mounted=mounted,
        gain=gain,
        block=next((Millimetre(abs(one.moved)) for one in rows["block"]), None),
        at=at,
        sentence=_sentence(checks, gain, at),
        findings=by_weight((*findings, *_of_gain(gain))),
    )


def _read(plane: Sequence[float | None]) -> tuple[float, ...]:
    return tuple(value for value in plane if value is not None)


def _doubtful(checks: Sequence[ProofCheck]) -> Iterator[ProofCheck]:
    return (check for check in checks if check.verdict == "not proven")


def _said(check: ProofCheck) -> Finding:
    return not_proven(check)


def mounted_findings(rig: Rig, mounted: Mounted) -> Iterator[Finding]:
    """What the mounting itself has to say: table stops, alignment, bracket, noise, turns of the dial."""
    link = rig.link
    length = OVER if link is None or link.scale_length is None else link.scale_length
    if link is not None and link.scale_length is not None and rig.table.travel is not None:
        yield from _there(judge_stops(link.scale_length, rig.table.travel))
    for plane in map(_read, (mounted.on_top, mounted.on_front)):
        if len(plane) > 1:
            yield from _there(judge_alignment(plane, length, mounted.limit))
    for counts in (mounted.push, mounted.lock):
        if counts is not None:
            yield from _there(judge_push(counts))
    if mounted.noise is not None:
        yield from _there(judge_noise(mounted.noise))
    if mounted.turns is not None and rig.table.screw_lead is not None:
        yield from _there(judge_dial(mounted.turns, rig.table.screw_lead))
    if mounted.pull is not None:
        yield from _drag(rig, worm_drag(mounted.pull, mounted.handle))


def _drag(rig: Rig, drag: float) -> Iterator[Finding]:
    """What the worm takes at the crank, and what of it the motor feels."""
    link = rig.link
    known = None if link is None else link.worm_drag
    motor = None
    if link is not None and link.belt is not None and link.holding_torque is not None and link.microsteps is not None:
        motor = drag_at_motor(drag, link.belt.head / link.belt.motor, link.holding_torque, link.microsteps)
    at_motor = "" if motor is None else f", {motor.torque:.2f} Nm at the motor, which it holds back by {motor.lag:.2f} pulse"
    if known is not None and abs(drag - known) <= SAME_DRAG * known:
        do = "Nothing: the rig page says the same."
    else:
        was = "it has none" if known is None else f"it has {known:.2f}"
        do = f"Write {drag:.2f} Nm as worm drag on the rig page; {was}."
    yield note("worm-drag", drag=drag, at_motor=at_motor, do=do)
    if motor is not None and motor.sticks:
        yield note("worm-sticks", torque=motor.torque, one=motor.one_pulse)


def _there(found: Finding | None) -> tuple[Finding, ...]:
    return () if found is None else (found,)


def blocks_at(rows: Sequence[ProofReading], count: float) -> tuple[BlockAt, ...]:
    """Every place's mean, near the scale and near the cutter, in the order left, middle, right."""
    found = []
    for cutter in (False, True):
        for place in PLACES:
            here = [one for one in rows if place in one.place and ("cutter" in f"{one.check} {one.place}") == cutter]
            off = [one.reading - one.moved for one in here if one.reading is not None]
            if off:
                U = block_budget(Millimetre(abs(here[0].moved)), Millimetre(count)).U
                found.append(BlockAt(place, math.fsum(off) / len(off), U, len(off), cutter))
    return tuple(found)


def _of_gain(gain: Measured | None) -> tuple[Finding, ...]:
    if gain is None:
        return ()
    ppm = gain.times(1e6)
    if not gain.shown():
        return (note("gain-not-shown", gain=ppm.value, U=ppm.U),)
    way = "too much" if gain.value > 0 else "too little"
    facts = {"gain": abs(ppm.value), "U": ppm.U, "way": way, "um": abs(gain.value) * 20e3, "length": 20.0}
    return (note("gain-leave", **facts, long=LONG, rack=abs(gain.value) * LONG * 1e3),)


def _sentence(checks: Sequence[ProofCheck], gain: Measured | None, at: Sequence[BlockAt]) -> str:
    if not checks:
        return "No check has been made yet."
    bad = [check.kind for check in checks if check.verdict == "fail"]
    if bad:
        return f"Your scale is not proven: {' and '.join(bad)} fail{'s' if len(bad) == 1 else ''}."
    if gain is None:
        return f"{len(checks)} of 5 checks made; the gain is not known until a block is read."
    ppm = gain.times(1e6)
    size = f"{abs(ppm.value):.0f} ± {ppm.U:.0f} µm in a metre"
    way = (
        f"reads {'too much' if gain.value > 0 else 'too little'} by {size}"
        if gain.shown()
        else f"reads true within {ppm.U:.0f} µm in a metre"
    )
    return f"Your scale {way}{_alike(at)}."


def _alike(at: Sequence[BlockAt]) -> str:
    near = [one for one in at if not one.cutter]
    if len(near) < 2:
        return ""
    spread = max(one.off for one in near) - min(one.off for one in near)
    U = math.sqrt(2) * max(one.U for one in near)
    places = ", ".join(one.place for one in near[:-1]) + f" and {near[-1].place}"
    return f", {'the same' if spread <= U else 'not the same'} at {places} within {spread * 1e3:.0f} µm"
