"""What the virtual cut has to say beside its figures: wrong and reversed cutters, heavy tips, corners that cut, another choice."""

from __future__ import annotations

import math
from collections.abc import Iterator

from evenpitch.flank.inspection import span_place
from evenpitch.gear.rack import rack_addendum
from evenpitch.gear.span import face_needed, span_target, spanned
from evenpitch.job.findings import finding
from evenpitch.job.plan import GearPlan
from evenpitch.job.virtual_cutting import VirtualCut, Weighed, depth_thins, um_words
from evenpitch.quantity.finding import Finding, by_weight
from evenpitch.quantity.showing import degrees_text

DUG = 0.001
"""A corner that cuts less than this (mm) below the form is not worth a word."""

ROOT_HIGH = 0.4
"""Part of the clearance that may be lost at the root before it is said."""

SLOPED = 2.0
"""Micrometres that thinning by depth must add at the tip before it is said."""

SWUNG = math.radians(0.05)
"""A swing nearer than this to the helix angle is the helix angle to the eye."""


def cut_findings(plan: GearPlan, cut: VirtualCut, shown: Weighed | None = None) -> tuple[Finding, ...]:
    """Findings of the choice as a whole, and of the cutter looked at (usual: the recommended one)."""
    looked_at = shown if shown is not None else cut.recommended
    found = [*_choice(cut), *_drawer(cut), *_gear(plan, cut)]
    if looked_at is not None:
        found += _cutter(plan, cut, looked_at)
    return by_weight(tuple(dict.fromkeys(found)))


def _choice(cut: VirtualCut) -> Iterator[Finding]:
    best, quick = cut.recommended, cut.quick
    if best is None or best.left is None:
        return
    if best.verdict == "over":
        yield finding("cut-over", cutter=best.held.words(), um=um_words(best.left.total), cls=cut.cls, limit=cut.limit)
    elif not best.in_range:
        row = best.held.choice
        yield finding("cut-beyond-range", cutter=best.held.words(), teeth=row.form_teeth, range=row.range.range_words())
    if quick is not None and quick is not best:
        leaves = "something it cannot cut" if quick.left is None else um_words(quick.left.total)
        yield finding(
            "cut-other-cutter",
            quick=quick.held.words(),
            quick_um=leaves,
            best=best.held.words(),
            best_um=um_words(best.left.total),
            why=_why_other(cut),
            do=_choose_it(best, cut),
        )


def _why_other(cut: VirtualCut) -> str:
    if cut.chosen_by_hand:
        return "You chose the one in the plan; the virtual cut weighs the whole flank."
    return "The quick choice looks at the tip alone, at the helix angle; here the whole flank, swing and depth are weighed."


def _choose_it(best: Weighed, cut: VirtualCut) -> str:
    if best.held.owned:
        return f"Choose {best.held.name()} for the plan."
    return "Borrow or buy it, or grind a fly cutter; else the one in the plan is what you have."


def _drawer(cut: VirtualCut) -> Iterator[Finding]:
    for one in cut.weighed:
        trap = one.held.choice.trap
        if one.held.owned and trap is not None:
            yield finding("cut-reversed-number", cutter=one.held.name(), words=trap.words())


def _gear(plan: GearPlan, cut: VirtualCut) -> Iterator[Finding]:
    gear = plan.gear
    added = depth_thins(plan)
    if added >= SLOPED:
        yield finding("cut-thinning", um=um_words(added), thinning=float(gear.thinning))
    if gear.face is not None and gear.helix and not span_place(cut.wanted, spanned(gear)).square:
        need = face_needed(gear, span_target(gear, spanned(gear)))
        yield finding("span-face", k=spanned(gear), need=float(need), face=float(gear.face))


def _cutter(plan: GearPlan, cut: VirtualCut, one: Weighed) -> Iterator[Finding]:
    if one.left is None or one.fit is None:
        best = cut.recommended
        instead = (
            f"Take {best.held.words()}." if best is not None and best.left is not None else "Grind a fly cutter for this gear."
        )
        yield finding("cut-wrong-cutter", cutter=one.held.name(), reason=one.why_not, instead=instead)
        return
    yield from _tip(cut, one)
    yield from _start(cut, one)
    yield from _shallow(plan, cut, one)
    off = one.swing - cut.wanted.helix
    if abs(off) >= SWUNG and one.at_helix - one.left.total >= 1.0:
        turned = math.degrees(abs(one.swing) - abs(cut.wanted.helix))
        yield finding(
            "cut-swing",
            cutter=one.held.words(),
            degrees=f"swung {degrees_text(math.degrees(abs(one.swing)), 2)}",
            off=f"{degrees_text(abs(turned), 2)} {'more' if turned > 0 else 'less'} than",
            um=um_words(one.left.total),
            helix_um=um_words(one.at_helix),
        )


def _shallow(plan: GearPlan, cut: VirtualCut, one: Weighed) -> Iterator[Finding]:
    """Where the depth that holds the thickness leaves the root high."""
    assert one.fit is not None
    wanted = cut.wanted
    clearance = wanted.addendum + wanted.dedendum - 2 * rack_addendum(plan.gear.depth, plan.gear.module)
    up = -one.fit.sink
    if up > clearance * ROOT_HIGH:
        left = max(clearance - up, 0.0)
        yield finding("cut-shallow", cutter=one.held.words(), up=up, left=left, clearance=clearance)


def _tip(cut: VirtualCut, one: Weighed) -> Iterator[Finding]:
    assert one.left is not None
    if one.left.pitch - one.left.tip > cut.limit / 3:
        yield finding("cut-tip-excess", cutter=one.held.words(), um=um_words(one.left.pitch - one.left.tip), limit=cut.limit)


def _start(cut: VirtualCut, one: Weighed) -> Iterator[Finding]:
    facts = one.fit.facts if one.fit is not None else None
    if facts is None:
        return
    wanted = cut.wanted
    start = 2 * math.hypot(wanted.base_radius, wanted.u_start)
    words = {"cutter": one.held.words(), "start": start}
    if facts.corner_up_to > 0.0 and facts.dug > DUG:
        code = "cut-interference" if facts.trailing else "cut-undercut"
        diameter = 2 * math.hypot(wanted.base_radius, facts.corner_up_to)
        yield finding(code, um=um_words(facts.dug * 1000), diameter=diameter, **words)
    elif facts.form_start > wanted.u_start:
        below = facts.practice_up_to >= facts.corner_up_to
        why = (
            "Below its base circle a form is its maker's practice, not standardised."
            if below
            else "Beneath, its tip corner does."
        )
        yield finding("cut-form-start", diameter=2 * math.hypot(wanted.base_radius, facts.form_start), why=why, **words)
