"""Prove the link on a gear: the checks read, the table against the work, and what the link is good to."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from evenpitch.checking.bar import turned_by
from evenpitch.checking.encoder import ScaleBuys, what_the_scale_buys
from evenpitch.checking.good_to import GoodTo, OnGear, good_to, sentence
from evenpitch.checking.link_proof import Proof, ProofMeans, proof_budget, wanted_angle
from evenpitch.checking.mounting import judge_block, judge_strokes
from evenpitch.checking.notes import note
from evenpitch.checking.readings import ProofReading
from evenpitch.checking.setting_slips import Setting
from evenpitch.checking.wrong_reading import explain_reading
from evenpitch.gear.gear import Gear
from evenpitch.job.linked_gear import link_chain, on_gear
from evenpitch.job.order import Order
from evenpitch.job.proof_checks import (
    FEW,
    GOOD_GAIN,
    CheckKind,
    ProofCheck,
    block_check,
    by_kind,
    cutter_check,
    dial_check,
    pen_check,
    strokes_check,
)
from evenpitch.quantity.finding import Finding, by_weight
from evenpitch.quantity.refusal import Fault, Refusal
from evenpitch.quantity.units import RADIAN_PER_ARCSEC, Millimetre, Radian
from evenpitch.rig.rig import Rig

ARM_LOOK = 0.05
SAME = 0.004
GROSS = 0.01
"""Part of an angle from which an error is looked up among the settings."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LinkProven:
    """`gear`: the gear it holds for; `proof`: None where no work angle was read; `good`: with its shares; `sentence`: to hang up."""

    name: str
    gear: OnGear
    checks: tuple[ProofCheck, ...]
    proof: Proof | None
    good: GoodTo
    sentence: str
    buys: ScaleBuys
    findings: tuple[Finding, ...]

    def facts(self) -> dict[str, Any]:
        """Under the fixed keys of the machine-readable answer."""
        told: dict[str, Any] = {
            "link_good_to_um": self.good.facts(),
            "sentence": self.sentence,
            "checks": [check.facts() for check in self.checks],
        }
        if self.proof is not None:
            told["link"] = {
                "wanted_deg": math.degrees(self.proof.wanted),
                "found_deg": math.degrees(self.proof.found),
                "error_arcsec": self.proof.error / RADIAN_PER_ARCSEC,
                "U_arcsec": self.proof.U / RADIAN_PER_ARCSEC,
                "U_ppm_of_lead": self.proof.of_lead * 1e6,
                "play_arcsec": None if self.proof.play is None else self.proof.play / RADIAN_PER_ARCSEC,
                "budget_arcsec": {part.name: part.u / RADIAN_PER_ARCSEC for part in self.proof.budget.parts},
            }
        return told


def prove_link(order: Order, readings: Sequence[ProofReading], *, gear: int = 0, means: ProofMeans | None = None) -> LinkProven:
    """All checks of a proof, and the sentence for one gear of the job."""
    made = order.works[gear].gear
    on, rig = on_gear(made), order.rig
    pulses, count = link_chain(rig)
    rows = by_kind(readings)
    proof = _proof(rows["link"], on, pulses, means or ProofMeans())
    checks = tuple(check for check in _checks(rows, proof, on, rig, count) if check is not None)
    latest = rig.latest_map()
    shown = proof is not None and proof.shown()
    good = good_to(
        on,
        pulses_per_turn=pulses,
        count=Millimetre(count),
        harmonics=None if latest is None else latest.harmonics,
        ratio=rig.head.ratio,
        proven=None if proof is None else proof.of_lead,
        off=proof.error / proof.wanted if proof is not None and shown else 0.0,
    )
    findings = [*_of_proof(proof, made, rig, means), *_of_pen(rows["pen line"], made, on), *row_findings(rows, rig, count)]
    findings += [not_proven(check) for check in checks if check.verdict == "not proven"]
    name = f"{made.teeth} teeth"
    return LinkProven(
        name=name,
        gear=on,
        checks=checks,
        proof=proof,
        good=good,
        sentence=sentence(name, on, good),
        buys=what_the_scale_buys(on.base_helix),
        findings=by_weight(tuple(findings)),
    )


def expected(rig: Rig, gear: Gear) -> tuple[GoodTo, str]:
    """What the link would be good to on a gear, by the rig's map and figures alone: no proof was made, and the sentence says so."""
    on = on_gear(gear)
    pulses, count = link_chain(rig)
    latest = rig.latest_map()
    harmonics = None if latest is None else latest.harmonics
    good = good_to(on, pulses_per_turn=pulses, count=Millimetre(count), harmonics=harmonics, ratio=rig.head.ratio, proven=None)
    return good, f"{sentence(f'{gear.teeth} teeth', on, good)} Not yet proven by block and bar."


def _angle(row: ProofReading) -> float:
    if row.work is not None:
        return row.work
    assert row.reading is not None
    assert row.radius is not None
    return turned_by(row.reading, row.radius)


def _proof(rows: Sequence[ProofReading], on: OnGear, pulses: Fraction, means: ProofMeans) -> Proof | None:
    """The table against the work, of the readings made as in the cut (of the others where there are none)."""
    up = [row for row in rows if row.approach == "up"]
    used = up or list(rows)
    if not used:
        return None
    _refuse_unlike(rows)
    moved = used[0].moved
    wanted = wanted_angle(moved, on.lead)
    angles = [_angle(row) for row in used]
    mean = math.fsum(angles) / len(angles)
    means = replace(_with_scatter(means, angles, mean), pulse=Radian(2 * math.pi / float(pulses)))
    radius = next((row.radius for row in used if row.radius is not None), means.radius)
    budget = proof_budget(Radian(abs(wanted)), on.lead, replace(means, radius=radius))
    down = [_angle(row) for row in rows if row.approach == "down"]
    play = Radian(mean - math.fsum(down) / len(down)) if down and up else None
    return Proof(moved=moved, lead=on.lead, wanted=wanted, found=Radian(mean), budget=budget, play=play, readings=len(used))


def _with_scatter(means: ProofMeans, angles: Sequence[float], mean: float) -> ProofMeans:
    n = len(angles)
    if n >= FEW:
        s = math.sqrt(math.fsum((angle - mean) ** 2 for angle in angles) / (n - 1))
        return replace(means, repeat=Radian(s / math.sqrt(n)), repeat_freedom=n - 1)
    return replace(means, repeat=Radian(means.repeat / math.sqrt(n)))


def _refuse_unlike(rows: Sequence[ProofReading]) -> None:
    moves = sorted({round(row.moved, 4) for row in rows})
    if len(moves) > 1 or not moves[0]:
        given = ", ".join(f"{move:g}" for move in moves) + " mm"
        raise Refusal(
            Fault("moved_mm", given, "one block for the whole proof", "Different moves.", "Prove each move in a file of its own.")
        )


def _checks(
    rows: dict[CheckKind, list[ProofReading]], proof: Proof | None, on: OnGear, rig: Rig, count: float
) -> Iterator[ProofCheck | None]:
    yield dial_check(rows["dial"])
    yield strokes_check(rows["strokes"], count)
    yield block_check(rows["block"], count)
    yield cutter_check(rows["block"], rows["near the cutter"], count)
    if proof is not None:
        off, U = proof.error / RADIAN_PER_ARCSEC, proof.U / RADIAN_PER_ARCSEC
        yield ProofCheck(
            "link", off, U, abs(proof.wanted) / RADIAN_PER_ARCSEC * GOOD_GAIN, "″", f"of {math.degrees(proof.wanted):.4f}°"
        )
    if proof is not None and proof.play is not None and rig.head.backlash:
        beyond = (abs(proof.play) - rig.head.backlash) / RADIAN_PER_ARCSEC
        yield ProofCheck(
            "other side",
            beyond,
            proof.play_U / RADIAN_PER_ARCSEC,
            rig.head.backlash / RADIAN_PER_ARCSEC / 2,
            "″",
            "beyond the known play",
        )
    drawn = pen_check(rows["pen line"], on.lead)
    yield None if drawn is None else drawn[0]


def row_findings(rows: dict[CheckKind, list[ProofReading]], rig: Rig, count: float) -> Iterator[Finding]:
    """Strokes that walk, blocks that are not in the set, a dial that shows a factor."""
    returned = [row.reading for row in rows["strokes"] if row.reading is not None]
    if len(returned) >= FEW and (said := judge_strokes(returned, Millimetre(count)).finding) is not None:
        yield said
    for size in sorted({abs(row.moved) for kind in ("block", "near the cutter", "link") for row in rows[kind]}):
        if (said := judge_block(Millimetre(size), rig.instruments)) is not None:
            yield said
    for row in (*rows["dial"], *rows["block"]):
        if row.reading is None or not row.moved or abs(row.reading / row.moved - 1) <= GROSS:
            continue
        if abs(row.reading * 25.4 / row.moved - 1) < SAME:
            yield note("display-in-inches", shown=f"{row.reading:.3f}", moved=f"{row.moved:g} mm")
        else:
            yield from _factor(row.moved, row.reading, rig, "mm", angle=False)
        return


def _factor(moved: float, shown: float, rig: Rig, unit: str, *, angle: bool) -> Iterator[Finding]:
    link = rig.link
    belt = None if link is None or link.belt is None else (link.belt.motor, link.belt.head)
    setting = Setting(count=None if link is None else link.count, belt=belt, ratio=rig.head.ratio, angle=angle)
    causes = explain_reading(Fraction(moved), Fraction(shown), setting) if shown else ()
    words, do = (
        (causes[0].words, causes[0].test) if causes else ("no setting that is known here", "Begin again from the mounting.")
    )
    yield note(
        "count-entered-wrong",
        wanted=f"{moved:g} {unit}",
        shown=f"{shown:g}",
        words=_of_it(shown / moved),
        why=f"{words[:1].upper()}{words[1:]}.",
        do=do,
    )


def _of_it(factor: float) -> str:
    """A factor as it is spoken: "one fifth of it", "5 times it"."""
    for whole, word in enumerate(("half", "one third", "a quarter", "one fifth"), 2):
        if abs(factor * whole - 1) < SAME:
            return f"{word} of it"
    return f"{factor:.4g} times it" if factor > 1 else f"{factor:.3g} of it"


def _of_proof(proof: Proof | None, gear: Gear, rig: Rig, means: ProofMeans | None) -> Iterator[Finding]:
    if proof is None:
        return
    yield from _arm(proof, means)
    off = proof.found / proof.wanted
    if abs(off - 1) > GROSS:
        yield _gross(proof, off, rig)
        return
    if proof.shown():
        yield note("proof-off", off=proof.error / RADIAN_PER_ARCSEC, U=proof.U / RADIAN_PER_ARCSEC)
    if proof.play is None:
        yield note("direction-missing", direction="up, as in the cut")
        return
    known = rig.head.backlash
    if known and abs(proof.play) <= proof.play_U < known:
        yield note("both-sides-equal", backlash=known / RADIAN_PER_ARCSEC / 60)
    else:
        words = "the first figure of your backlash" if known is None else f"{known / RADIAN_PER_ARCSEC / 60:.1f}′ is known"
        yield note("backlash-known", play=abs(proof.play) / RADIAN_PER_ARCSEC / 60, known=words)


def _arm(proof: Proof, means: ProofMeans | None) -> Iterator[Finding]:
    if means is not None and means.arm >= ARM_LOOK:
        leaves = 2 * math.tan(abs(proof.wanted) / 2) * means.arm / means.radius / RADIAN_PER_ARCSEC / 60
        yield note("arm-not-measured", arm=means.arm, arcmin=leaves)


_WORDS: tuple[tuple[float, str, str, str], ...] = (
    (
        0.5,
        "exactly half",
        "The lead of a mate with twice the teeth is set, or the drive's dial is doubled.",
        "Read the ratio entered, then the drive's dial.",
    ),
    (
        2.0,
        "exactly twice",
        "The lead of a mate with half the teeth is set, or the drive's dial is halved.",
        "Read the ratio entered, then the drive's dial.",
    ),
    (
        25 / 25.4,
        "1.6 % short",
        "25 stands for 25.4: an inch or millimetre setting in the ratio.",
        "Look through the ratio for 25.",
    ),
    (
        25.4 / 25,
        "1.6 % over",
        "25.4 stands for 25: an inch or millimetre setting in the ratio.",
        "Look through the ratio for 25.4.",
    ),
    (
        -1.0,
        "the other way round",
        "Scale sign or motor direction: it would cut the other hand.",
        "Change one of the two, and prove again.",
    ),
)


def _gross(proof: Proof, off: float, rig: Rig) -> Finding:
    """An error that no doubt explains: looked up among the usual ones, then among all settings."""
    facts: dict[str, object] = {"found": math.degrees(proof.found), "wanted": math.degrees(proof.wanted)}
    for factor, words, why, do in _WORDS:
        if abs(off / factor - 1) < SAME:
            return note("proof-half", **facts, words=words, why=why, do=do)
    causes = next(_factor(math.degrees(proof.wanted), math.degrees(proof.found), rig, "°", angle=True))
    return note("proof-half", **facts, words=f"{off:.4g} of it", why=causes.why, do=causes.do)


def _of_pen(rows: Sequence[ProofReading], gear: Gear, on: OnGear) -> Iterator[Finding]:
    drawn = pen_check(rows, on.lead)
    if drawn is None:
        return
    check, found, wanted = drawn
    if found < 0:
        other = "Left" if gear.hand == "right" else "Right"
        yield note("hand-wrong", found=other, wanted=gear.hand)
    elif check.verdict == "fail":
        yield note("pen-off", found=found, moved=abs(rows[0].moved), wanted=wanted, percent=check.found)


def not_proven(check: ProofCheck) -> Finding:
    """A check whose U reaches over its limit."""
    return note("not-proven", check=check.kind.capitalize(), found=check.found, U=check.U, unit=check.unit, good=check.good)
