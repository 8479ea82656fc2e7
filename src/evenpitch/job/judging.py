"""judge(plan, inspection): pass, not proven or fail for each characteristic that was read, and what may be claimed on it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from evenpitch.checking.cause import Cause
from evenpitch.checking.decision import Says, worst
from evenpitch.job.explaining import NOTHING_KNOWN, Expected, Known, expected, explain
from evenpitch.job.findings import finding
from evenpitch.job.found_beside import Beside, beside
from evenpitch.job.inspection import Inspection, inspection
from evenpitch.job.plan import GearPlan, Plan
from evenpitch.job.rescuing import OFF_CENTRE, Rescue, rescue
from evenpitch.job.sizes_judged import SizeJudged, sizes_judged
from evenpitch.job.spacing_judged import AroundFound, AroundJudged, around_judged, worst_of
from evenpitch.quantity.finding import Finding, by_weight
from evenpitch.quantity.refusal import Refusal, refuse

CLAIMED = ("single_pitch", "cumulative_pitch")
NOT_READ = {
    "single_pitch": "single pitch",
    "cumulative_pitch": "total pitch",
    "runout": "runout",
    "thickness": "tooth thickness",
    "form": "tooth form",
    "helix": "helix",
}


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Verdict:
    """The judgement of one gear. `claim`: what may be said of it on these readings only."""

    gear: GearPlan
    inspection: Inspection
    sizes: tuple[SizeJudged, ...]
    around: AroundFound
    says: Says
    claim: str
    causes: tuple[Cause, ...]
    rescue: Rescue
    expected: Expected
    beside: tuple[Beside, ...]
    next_reading: str
    findings: tuple[Finding, ...]

    def deciding(self) -> tuple[AroundJudged, ...]:
        """Of every characteristic read round the gear the flank that decides."""
        names = dict.fromkeys(one.name for one in self.around.judged)
        return tuple(one for one in (worst_of(self.around.judged, name) for name in names) if one is not None)

    def facts(self) -> dict[str, Any]:
        """`verdict`, `rework`, `causes` of the machine-readable answer, and what belongs to them."""
        verdict = {one.name: _size_facts(one) for one in self.sizes}
        verdict |= {one.name: _around_facts(one, self.around.judged) for one in self.deciding()}
        return {
            "verdict": verdict,
            "overall": self.says,
            "claim": self.claim,
            "rework": self.rescue.facts(),
            "causes": [_cause_facts(one) for one in self.causes],
            "expected_and_found": [one.facts() for one in self.beside],
            "next_reading": self.next_reading,
            "spacing_um": {
                flank or "mean": [value * 1000 for value in found.cumulative] for flank, found in self.around.spacing.flanks
            },
        }


def judge(
    plan: Plan,
    readings: Sequence[Any] | Inspection,
    index: int = 0,
    changes: Sequence[tuple[str, float]] = (),
    known: Known = NOTHING_KNOWN,
) -> Verdict:
    """The verdict on one gear of a plan. `changes`: the shop's own figures (mm) for parts of the budgets, by their names.

    `known`: what there is beside the readings, to explain them by.
    """
    if index >= len(plan.gears):
        raise refuse("gear", index + 1, f"1 to {len(plan.gears)}", "The job has no second gear.", "Leave it out.")
    gear, rig = plan.gears[index], plan.order.rig
    found = readings if isinstance(readings, Inspection) else inspection(gear.gear.teeth, readings)
    sizes, told, faults = sizes_judged(gear, rig, found, changes)
    if faults:
        raise Refusal(*faults)
    around = around_judged(gear, rig, found)
    named = explain(gear, rig, found, around, sizes, known)
    mate = plan.gears[1 - index] if len(plan.gears) == 2 else None
    saved = rescue(gear, rig, sizes, around, named, mate)
    says = worst((*(one.says for one in sizes), *(one.says for one in around.judged)))
    after = _next_reading(gear, found, sizes, around)
    findings = (*told, *around.findings, *_about(gear, found, sizes, around, saved))
    return Verdict(
        gear=gear,
        inspection=found,
        sizes=sizes,
        around=around,
        says=says,
        claim=_claim(gear, sizes, around),
        causes=named,
        rescue=saved,
        expected=expected(gear, rig),
        beside=beside(around.judged, known.predicted, known.log, around.spacing.mean),
        next_reading=after,
        findings=by_weight(tuple(dict.fromkeys(findings))),
    )


def _claim(gear: GearPlan, sizes: Sequence[SizeJudged], around: AroundFound) -> str:
    """Limited to what was read."""
    said = []
    decided = [one for one in (worst_of(around.judged, name) for name in (*CLAIMED, "runout")) if one is not None]
    classes = [one.proven for one in decided]
    if decided:
        names = _list([one.words for one in decided])
        known = [one for one in classes if one is not None]
        if len(known) < len(classes):
            said.append(f"no class is proven for {_list([one.words for one in decided if one.proven is None])}")
        if known and len(known) == len(classes):
            said.append(f"class {max(known)} is proven for {names}")
    if sizes:
        words = worst(tuple(one.says for one in sizes))
        said.append(
            {
                "pass": "the thickness is within its limits",
                "fail": "the thickness is not within its limits",
                "not proven": "the thickness is not proven",
            }[words]
        )
    left = _list(list(_not_read(gear, sizes, around)))
    what = "; ".join(said) or "nothing is claimed"
    return f"{what[0].upper()}{what[1:]}, on these readings only. Not read: {left}."


def _not_read(gear: GearPlan, sizes: Sequence[SizeJudged], around: AroundFound) -> Iterator[str]:
    read = {one.name for one in around.judged} | ({"thickness"} if sizes else set())
    for name, words in NOT_READ.items():
        if name not in read and (name != "helix" or gear.gear.face is not None):
            yield words


def _list(words: Sequence[str]) -> str:
    return " and ".join((", ".join(words[:-1]), words[-1])) if len(words) > 1 else "".join(words)


def _next_reading(gear: GearPlan, found: Inspection, sizes: Sequence[SizeJudged], around: AroundFound) -> str:
    """The one reading that would take most of the doubt away."""
    doubtful = [one for one in around.judged if one.says == "not proven"]
    if doubtful:
        one = max(doubtful, key=lambda row: row.U / row.limit)
        side = f", {one.flank} flank" if one.flank else ""
        if one.wanted:
            return f"{one.words}{side}: {one.wanted} rounds in all, for a U under {one.settles:.0f} µm (now {one.rounds}, U {one.U:.0f})."
        coarser = "no class here" if one.proven is None else f"class {one.proven}"
        if one.settles < 1:
            return f"{one.words}{side}: only a U under {max(one.settles, 0.1):.1f} µm could settle it. Not within reach: claim {coarser}."
        span = _wider(found.teeth)
        return f"{one.words}{side}: a round over {span} pitches beside that over one takes the doubt of the long waves away."
    for size in sizes:
        if size.says == "not proven" and size.usable:
            part = size.budget.largest()
            return (
                f"{size.words}: most of its U comes from the {part.name} ({part.u * 1000:.1f} of {size.budget.u * 1000:.1f} µm)."
            )
    if not around.judged:
        return "Pitch steps round the gear, adjacent spaces by comparator: nothing says yet how it is spaced."
    if not sizes:
        return f"Span over {gear.form_cut.spanned}: nothing says yet how thick the teeth are."
    if around.runout is None:
        return "A pin under an indicator in every space: it tells a bore off the axis from the wheel of the head."
    return ""


def _wider(teeth: int) -> int:
    """About a sixth of the circle, with no divisor in common."""
    return next((over for over in range(max(2, teeth // 6), teeth) if math.gcd(over, teeth) == 1), 1)


def _about(
    gear: GearPlan, found: Inspection, sizes: Sequence[SizeJudged], around: AroundFound, saved: Rescue
) -> Iterator[Finding]:
    if saved.deeper is not None:
        yield finding("pick-up-first", within=OFF_CENTRE)
        if saved.deeper.approximate:
            yield finding("recut-approximate")
    if around.judged:
        yield finding("limits-from-memory", cls=gear.tolerance_class)
    if sizes and not any(one.temperature is not None for one in found.readings):
        yield finding("temperature-asked", um=max(size.value for size in sizes) * 0.0115 * 3)
    for size in sizes[:1]:
        yield finding("size-budget", what=size.words, parts=_parts(size), u=size.budget.u * 1000, U=size.U * 1000)
    if saved.options:
        yield finding("rescue-strength")


def _parts(size: SizeJudged) -> str:
    return ", ".join(f"{part.name} {part.u * 1000:.1f}" for part, _ in size.budget.shares())


# ---- machine-readable


def _size_facts(one: SizeJudged) -> dict[str, Any]:
    return {
        "limit": [one.least, one.most],
        "least": one.least,
        "most": one.most,
        "value": one.value,
        "U": one.U,
        "unit": "mm",
        "says": one.says,
        "side": one.side if one.says == "fail" else None,
        "deeper_mm": one.deeper.value,
        "deeper_U_mm": one.deeper.U,
        "budget": [{"part": part.name, "u": part.u, "share": share} for part, share in one.budget.shares()],
    }


def _around_facts(one: AroundJudged, every: Sequence[AroundJudged]) -> dict[str, Any]:
    shown: dict[str, Any] = {
        "limit": one.limit,
        "value": one.value,
        "U": one.U,
        "unit": "um",
        "says": one.says,
        "class": one.cls,
        "class_proven": one.proven,
        "rounds": one.rounds,
    }
    if one.flank:
        shown["flank"] = one.flank
    if one.unbiased is not None:
        shown |= {"corrected": one.unbiased.corrected, "interval": [one.unbiased.low, one.unbiased.high]}
    shown["classes"] = {str(cls): {"limit": limit, "says": says} for cls, limit, says in one.others}
    same = [row for row in every if row.name == one.name and row.flank]
    if len(same) > 1:
        shown["flanks"] = {row.flank: {"value": row.value, "U": row.U, "says": row.says} for row in same}
    return shown


def _cause_facts(one: Cause) -> dict[str, Any]:
    return {
        "cause": one.cause,
        "evidence": one.evidence,
        "test": one.test,
        "remedy": one.remedy,
        "code": one.code,
        "um": one.size * 1000,
        "rank": one.rank,
        "waves": one.wave or None,
    }
