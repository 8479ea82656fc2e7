"""virtual_cut(order, plan of a gear): what each cutter would leave on its flanks, which is best, and why.

The room of the virtual cut says + where metal is left. Here and on every page + is what is taken too much, as in the plan's own table.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from evenpitch.flank.choose import Candidate, Fit, rank_cutters
from evenpitch.flank.wanted import USUAL_FACE, WantedFlank, wanted_flank
from evenpitch.gear.gear import Gear
from evenpitch.gear.rack import rack_dedendum
from evenpitch.gear.sizes import addendum, dedendum
from evenpitch.job.drawer import Held, corner_of, held, standard_set
from evenpitch.job.order import Order
from evenpitch.job.plan import GearPlan
from evenpitch.quantity.units import Millimetre, Radian
from evenpitch.rig.tools import Cutter

SIGNS = "+ takes too much, − leaves metal"
"""The one convention of pages, sheets and answers."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Left:
    """What is left on a flank, µm, + takes too much: at tip, pitch cylinder and start of inspection (root end); total, form, slope."""

    tip: float
    pitch: float
    root: float
    total: float
    form: float
    slope: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighed:
    """One cutter weighed. `swing` rad and `depth` mm from touch to be set; `at_helix`: total (µm) with the swing at the helix angle.

    `why_not`: what keeps it from this gear, then `left` is None.
    """

    held: Held
    fit: Fit | None
    left: Left | None
    swing: Radian
    sink: Millimetre
    depth: Millimetre
    at_helix: float
    score: float
    why_not: str

    @property
    def verdict(self) -> str:
        """within, tip heavy, over, or cannot."""
        return "cannot" if self.fit is None or self.left is None else self.fit.verdict

    @property
    def form_wanted(self) -> float:
        """The count its form should be made for, by the rule with the cutter's diameter."""
        return self.held.choice.form_teeth

    @property
    def in_range(self) -> bool:
        """Whether that count lies in its printed range."""
        return self.held.choice.in_range


@dataclass(frozen=True, slots=True, kw_only=True)
class VirtualCut:
    """All cutters on one gear, the recommended one first. `limit` µm on total profile deviation in class `cls`.

    `quick`: the cutter the plan reckons with, as weighed here; `chosen_by_hand`: the maker asked for that one.
    """

    gear: Gear
    wanted: WantedFlank
    limit: float
    cls: int
    weighed: tuple[Weighed, ...]
    recommended: Weighed | None
    reason: str
    quick: Weighed | None
    chosen_by_hand: bool

    def by_key(self, key: str) -> Weighed | None:
        """The cutter at that address."""
        return next((one for one in self.weighed if one.held.key == key), None)


def wanted_of(gear: Gear, *, thinned: bool = True) -> WantedFlank:
    """The flank wanted. `thinned`: with the gear's thinning, half of it on each flank; without it as a bit is ground, then sunk."""
    turn = -1 if gear.hand == "left" else 1
    each = gear.thinning / 2 / math.cos(gear.helix) if thinned else 0.0
    return wanted_flank(
        gear.teeth,
        gear.module,
        gear.pressure_angle,
        Radian(turn * gear.helix),
        gear.face if gear.face is not None else USUAL_FACE,
        addendum=addendum(gear),
        dedendum=dedendum(gear),
        widening=Millimetre(each),
        shift=gear.shift,
    )


def virtual_cut(order: Order, plan: GearPlan, only: tuple[Cutter, ...] | None = None) -> VirtualCut:
    """Every cutter owned and the standard sets of this pitch weighed on the gear; with `only`, just those cutters."""
    gear, wanted = plan.gear, wanted_of(plan.gear)
    limit = Millimetre(plan.value("profile_total") / 1000)
    cutters = _held(order, gear, limit, only)
    fits = {fit.candidate.name: fit for fit in rank_cutters(wanted, _candidates(gear, cutters), limit=limit)} if cutters else {}
    depth = Millimetre(plan.blank.depth_from_touch)
    weighed = [_weighed(one, fits.get(one.key), depth) for one in cutters]
    best, reason = _recommended(weighed, plan)
    ranked = sorted(weighed, key=lambda one: (one is not best, not one.held.owned, one.left is None, one.score))
    return VirtualCut(
        gear=gear,
        wanted=wanted,
        limit=limit * 1000,
        cls=plan.tolerance_class,
        weighed=tuple(ranked),
        recommended=best,
        reason=reason,
        quick=_quick(plan, ranked),
        chosen_by_hand=order.choice.cutter is not None,
    )


def _held(order: Order, gear: Gear, limit: Millimetre, only: tuple[Cutter, ...] | None) -> tuple[Held, ...]:
    if only is not None:
        return held(gear, only, limit, owned=False)
    owned = held(gear, order.rig.cutters, limit, owned=True)
    words = "m15" if gear.pitch.kind == "module" else "dp15"
    return owned + held(gear, standard_set(gear, words, order.rig.cutters), limit, owned=False, taken=owned)


def _candidates(gear: Gear, cutters: tuple[Held, ...]) -> tuple[Candidate, ...]:
    deep = rack_dedendum(gear.depth, gear.module) / gear.module
    return tuple(
        Candidate(
            name=one.key,
            form_teeth=one.made_for,
            module=Millimetre(float(one.cutter.pitch.module())),
            pressure_angle=one.cutter.pressure_angle,
            outside=one.outside,
            corner=corner_of(one.cutter),
            dedendum=deep,
        )
        for one in cutters
        if not one.unfit
    )


def _weighed(one: Held, fit: Fit | None, touch: Millimetre) -> Weighed:
    if fit is None or fit.why_not:
        why = "; ".join(one.unfit) if fit is None else fit.why_not
        nothing = Millimetre(math.nan)
        return Weighed(held=one, fit=None, left=None, swing=Radian(math.nan), sink=nothing, depth=nothing, at_helix=math.nan,
                       score=math.inf, why_not=why)  # fmt: skip
    return Weighed(
        held=one,
        fit=fit,
        left=left_of(fit),
        swing=Radian(fit.swing),
        sink=Millimetre(fit.sink),
        depth=Millimetre(touch + fit.sink),
        at_helix=fit.nominal.total * 1000,
        score=fit.score * 1000,
        why_not="",
    )


def left_of(fit: Fit) -> Left:
    """A fit in micrometres, in the sign of the pages."""
    return Left(
        tip=-fit.tip * 1000,
        pitch=-fit.pitch * 1000 + 0.0 if abs(fit.pitch) > 5e-5 else 0.0,
        root=-fit.start * 1000,
        total=fit.figures.total * 1000,
        form=fit.figures.form * 1000,
        slope=-fit.figures.slope * 1000,
    )


_GRADES = {"within": 0, "tip heavy": 1}


def _recommended(weighed: list[Weighed], plan: GearPlan) -> tuple[Weighed | None, str]:
    """The best that is owned and keeps the limit, else the best of a set that does, else the least bad.

    A cutter of which the count is not known is taken as the usual habit has it, as in the plan.
    """
    able = [one for one in weighed if one.left is not None]
    if not able:
        return None, "no cutter here can cut this gear"

    def rank(one: Weighed) -> tuple[bool, bool, bool, int, float]:
        grade = _GRADES.get(one.verdict, 2)
        return (not one.held.usual, grade == 2, not one.held.owned, grade, one.score)

    best = min(able, key=rank)
    return best, _reason(best, able, plan)


def _reason(best: Weighed, able: list[Weighed], plan: GearPlan) -> str:
    """Why that one, in figures: what is allowed, whether its printed range forbids it, and what its other habit would leave."""
    assert best.left is not None
    where = "the best in your drawer" if best.held.owned else "the best of the standard sets"
    allowed = f"the {plan.value('profile_total'):.0f} µm of class {plan.tolerance_class}"
    keeps = best.left.total * 1e-3 <= plan.value("profile_total") * 1e-3
    parts = [f"{where}, {um_words(best.left.total)} over the whole flank, {'inside' if keeps else 'more than'} {allowed}"]
    if not best.in_range:
        parts.append(f"{best.form_wanted:.4g} teeth lie outside its printed range, {best.held.choice.range.range_words()}")
        parts += _inside_range(best, able)
    other = [one for one in able if one.held.cutter is best.held.cutter and one is not best and one.left is not None]
    parts += [
        f"if it is made for {one.held.made_for} ({one.held.habit}) it leaves {um_words(one.left.total)}"
        for one in other
        if one.left
    ]
    if not keeps:
        parts.append("a fly cutter ground for this gear leaves nothing of that")
    return "; ".join(parts)


def _inside_range(best: Weighed, able: list[Weighed]) -> list[str]:
    """What the table of ranges would have chosen."""
    inside = [one for one in able if one.in_range and one.held.usual and one.held.owned == best.held.owned]
    if not inside:
        return []
    first = min(inside, key=lambda one: one.score)
    return [f"{first.held.words()}, which the printed range names, leaves {um_words(first.left.total)}"] if first.left else []


def um_words(value: float) -> str:
    """Micrometres with no more digits than they deserve."""
    return f"{value:.1f} µm" if abs(value) < 9.95 else f"{value:.0f} µm"


def _quick(plan: GearPlan, weighed: list[Weighed]) -> Weighed | None:
    """The cutter of the plan, as weighed here."""
    chosen = plan.tools.chosen
    if chosen is None:
        return None
    same = [one for one in weighed if one.held.cutter == chosen.cutter and one.held.made_for == chosen.made_for]
    if same:
        return same[0]
    return next((one for one in weighed if one.held.made_for == chosen.made_for and one.left is not None), None)


def depth_thins(plan: GearPlan) -> float:
    """What thinning by depth alone adds at the tip, µm: a form sunk further takes more where the flank leans more.

    e = T/2 cos α (sin α_a / sin α − 1), to the first order, α at pitch and tip cylinder; in a helical gear of the form seen by the cutter.
    """
    wanted = wanted_of(plan.gear)
    seen = wanted.pitch_radius / math.cos(wanted.helix) ** 2
    at_tip = math.acos(min(1.0, seen * math.cos(wanted.pressure_angle) / (seen + wanted.addendum)))
    lean = math.sin(at_tip) / math.sin(wanted.pressure_angle) - 1
    return 1000 * plan.gear.thinning / 2 * math.cos(wanted.pressure_angle) * lean
