"""Rescue: what can still be done with a gear that is not right, as figures, each with its caution."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

from evenpitch.checking.cause import Cause
from evenpitch.checking.measured import Measured
from evenpitch.cutting.depth import DialReading, dial_reading
from evenpitch.gear.formcut import at_sink
from evenpitch.gear.sizes import outside_diameter, root_diameter
from evenpitch.job.plan import GearPlan
from evenpitch.job.sizes_judged import SizeJudged, sinks_of
from evenpitch.job.spacing_judged import AroundFound
from evenpitch.quantity.units import Millimetre
from evenpitch.rig.rig import Rig
from evenpitch.sources.citations import cites

FIRST_SHARE = 0.7
"""Of the depth left this much is taken first, rounded down; common practice."""
BITE_TO = 0.05
LEAST_BITE = 0.05
OFF_CENTRE = 0.02
"""The cutter must stand within this of the old centre, mm; common practice."""
WALL = 3.0
"""Least wall of a bush, mm; common practice."""
STRENGTH = "Strength is not checked: the gear goes back under load."
HARD = "A hardened tooth is not recut by high-speed steel: it chips."


@dataclass(frozen=True, slots=True)
class Deeper:
    """How much deeper, mm: to the middle of the limits, at least to the upper, at most to the lower one. `first`: the safe first bite."""

    by: SizeJudged
    deeper: Measured
    least: float
    most: float
    first: float
    dial: DialReading | None
    first_dial: DialReading | None
    approximate: bool


@dataclass(frozen=True, slots=True)
class Option:
    """One thing that can be done: `what`, its figures in words, its caution; `figures` by name, in mm and minutes."""

    code: str
    what: str
    says: str
    caution: str
    figures: tuple[tuple[str, float], ...] = ()


@dataclass(frozen=True, slots=True)
class Rescue:
    """`deeper`: where recutting mends it; all options, the least costly first; empty where nothing needs mending."""

    deeper: Deeper | None
    options: tuple[Option, ...]

    def facts(self) -> dict[str, Any]:
        """As the machine-readable answer has it."""
        shown: dict[str, Any] = {"needed": bool(self.options)}
        if self.deeper is not None:
            one = self.deeper
            shown |= {
                "deeper_mm": one.deeper.value,
                "U_mm": one.deeper.U,
                "least_mm": one.least,
                "most_mm": one.most,
                "first_bite_mm": one.first,
                "by": one.by.name,
                "rule": "form-cut, first order" if one.approximate else "virtual cut" if one.by.by_cut else "form-cut",
                "dial": None if one.dial is None else {"turns": one.dial.turns, "divisions": one.dial.divisions},
            }
        shown["options"] = [
            {"option": one.code, "what": one.what, "says": one.says, "caution": one.caution, "figures": dict(one.figures)}
            for one in self.options
        ]
        return shown


@cites("derived here", "common practice", formula="e = (W − W_mid)/(ΔW per depth);  first bite 0.7 e, rounded down to 0.05 mm")
def depth_to_go(plan: GearPlan, rig: Rig, size: SizeJudged) -> Deeper | None:
    """How much deeper from a size read; None where the size is already at the middle of its limits or past it."""
    deeper = size.deeper
    if deeper.value <= 0 or not size.usable:
        return None
    half = (size.most - size.least) / 2 / size.per_depth
    dial = rig.table.knee_dial
    least, most = max(0.0, deeper.value - half), deeper.value + half
    first = math.floor(FIRST_SHARE * deeper.value / BITE_TO + 1e-9) * BITE_TO
    if first < LEAST_BITE or deeper.value - first < deeper.U:
        first = max(0.0, min(deeper.value, most - deeper.U))
    dials = [None if dial is None else dial_reading(Millimetre(length), dial) for length in (deeper.value, first)]
    return Deeper(size, deeper, least, most, first, dials[0], dials[1], bool(plan.gear.helix) and not size.by_cut)


def rescue(
    plan: GearPlan,
    rig: Rig,
    sizes: Sequence[SizeJudged],
    around: AroundFound,
    causes: Sequence[Cause],
    mate: GearPlan | None = None,
) -> Rescue:
    """What can be done. `mate`: of a pair, whose shift or size can take up what is missing."""
    judged = next((size for size in sizes if size.usable and size.says == "fail"), None)
    thick = judged is not None and judged.side == "thick"
    deeper = depth_to_go(plan, rig, judged) if judged is not None and thick else None
    round_off = any(one.says == "fail" for one in around.judged)
    options: list[Option] = []
    if deeper is not None:
        options.append(_deeper(deeper))
    if judged is not None and not thick:
        options += _thin(plan, judged, mate)
    if round_off:
        options += _bush(plan, around, causes)
        options.append(_accept_spacing(around))
    if options:
        options += [*_smaller(plan), _scrap(plan)]
    return Rescue(deeper, tuple(options))


def _deeper(one: Deeper) -> Option:
    model = ", to first order for a disc cutter" if one.approximate else ", by the virtual cut" if one.by.by_cut else ""
    says = (
        f"{one.deeper.value:.3f} ± {one.deeper.U:.3f} mm deeper{model}, within {one.least:.3f} to {one.most:.3f}; "
        f"take {one.first:.2f} first and measure again."
    )
    caution = f"Pick up three spaces first: within {OFF_CENTRE} mm of the old centre. {HARD} {STRENGTH}"
    figures = (("deeper_mm", one.deeper.value), ("U_mm", one.deeper.U), ("first_bite_mm", one.first))
    return Option("deeper", "Cut deeper", says, caution, figures)


def _thin(plan: GearPlan, size: SizeJudged, mate: GearPlan | None) -> Iterator[Option]:
    gear = plan.gear
    outside, middle = plan.tools.outside, sinks_of(plan).middle
    bare, wanted, now = (float(at_sink(gear, Millimetre(at), outside).span) for at in (0.0, middle, middle - size.deeper.value))
    along = bare - now
    circular, more = along / math.cos(gear.pressure_angle), max(0.0, wanted - now) / math.cos(gear.pressure_angle)
    yield Option(
        "accept",
        "Accept it with wider backlash",
        f"this gear alone gives {circular:.2f} mm normal circular backlash (j_bn {along:.3f}), {more:.2f} mm more than wanted.",
        f"Usual for a loom take-up; too much for a timing pair. {STRENGTH}",
        (("backlash_normal_circular_mm", circular), ("backlash_normal_mm", along), ("more_mm", more)),
    )
    shift = more / (2 * gear.module * math.tan(gear.pressure_angle))
    larger = 2 * shift * gear.module
    yield Option(
        "mate",
        "Make the mate thicker",
        f"cut the mate with a profile shift of {shift:+.3f} more, its outside {larger:.3f} mm larger"
        + ("." if mate is None else f" ({mate.gear.teeth} teeth: {mate.blank.outside + larger:.3f} mm)."),
        "The shift belongs to the pair: mark both. Check tip clearance.",
        (("shift", shift), ("outside_larger_mm", larger)),
    )


def _bush(plan: GearPlan, around: AroundFound, causes: Sequence[Cause]) -> Iterator[Option]:
    circle = around.runout
    if circle is None or not any(cause.code == "eccentricity" and cause.rank == 1 for cause in causes):
        return
    e = circle.eccentricity
    bore = plan.work.bore
    size = (
        ""
        if bore is None
        else f"bore out to {bore + 2 * e.value + 2 * WALL:.1f} mm or more, bush, and bring it back to {bore:.3f} mm; "
    )
    yield Option(
        "bush",
        "Bush and re-bore true to the teeth",
        f"{size}the new axis {e.value * 1000:.0f} ± {e.U * 1000:.0f} µm from the old one, towards space {circle.high_space()} as read.",
        f"Set up by a pin in the spaces, not by the old bore or the outside. {STRENGTH}",
        (("off_mm", e.value), ("U_mm", e.U)),
    )


def _accept_spacing(around: AroundFound) -> Option:
    failed = [one for one in around.judged if one.says == "fail"]
    worst = max(failed, key=lambda one: one.value / one.limit)
    better = "no class up to 12" if worst.proven is None else f"class {worst.proven}"
    said = f"{worst.words} {worst.value:.0f} ± {worst.U:.0f} µm: {better} is proven for it."
    return Option("lower class", "Use it where a coarser class will do", said, f"Write that class on the gear. {STRENGTH}")


def _smaller(plan: GearPlan) -> Iterator[Option]:
    """Turn the teeth off and cut a smaller gear from what is left."""
    gear = plan.gear
    room = float(root_diameter(gear))
    teeth = gear.teeth
    while teeth > 5 and outside_diameter(replace(gear, teeth=teeth)) > room:
        teeth -= 1
    if outside_diameter(replace(gear, teeth=teeth)) > room:
        return
    size = outside_diameter(replace(gear, teeth=teeth))
    finer = gear.module * room / float(outside_diameter(gear))
    yield Option(
        "smaller",
        "Turn it to the next lower size",
        f"under the root of {room:.2f} mm the same pitch gives {teeth} teeth ({size:.2f} mm), "
        f"or {gear.teeth} teeth of module {finer:.3f} at most.",
        f"Another ratio, or a finer and weaker tooth: check its life. {STRENGTH}",
        (("teeth", float(teeth)), ("outside_mm", float(size)), ("module", finer)),
    )


def _scrap(plan: GearPlan) -> Option:
    minutes = plan.running.job_minutes
    time = "not known without a face" if minutes is None else f"{minutes:.0f} min of cutting"
    figures = () if minutes is None else (("minutes", minutes),)
    said = f"{time}, beside turning the blank to {plan.blank.outside:.3f} mm; material and hour rate are yours to add."
    return Option("scrap", "Scrap it and blank again", said, "Find the cause first, or the next comes out the same.", figures)
