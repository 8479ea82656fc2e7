"""Cases of the virtual cut that produce each of its findings: a gear on a rig, and the cutter looked at ("" for the recommended)."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache

from evenpitch.job.cut_findings import cut_findings
from evenpitch.job.plan import Plan
from evenpitch.job.virtual_cutting import VirtualCut, virtual_cut
from evenpitch.quantity.finding import Finding
from evenpitch.rig.rig import Rig
from job.shop import pinion, rig_of, rig_tables, wheel


def with_cutters(*cutters: dict[str, object]) -> Rig:
    """The museum rig with another drawer."""
    return rig_of(rig_tables() | {"cutter": list(cutters)})


NO_1 = {"pitch": "12 DP", "pressure_angle": "14½", "number": "1", "numbering": "dp", "made_for": 135, "outside": "2.75 in"}

CUT_CASES: dict[str, tuple[Callable[[], Plan], str]] = {
    "cut-other-cutter": (lambda: pinion(teeth=13), ""),
    "cut-over": (wheel, ""),
    "cut-beyond-range": (lambda: wheel(teeth=113, pitch="16 DP", face="0.625 in"), ""),
    "cut-reversed-number": (lambda: pinion(teeth=13), ""),
    "cut-wrong-cutter": (wheel, "module-2-no6-35"),
    "cut-tip-excess": (lambda: wheel(with_cutters(NO_1)), "12-dp-no1-135"),
    "cut-interference": (lambda: pinion(teeth=12, thinning=None), "module-2-no4.5-23"),
    "cut-undercut": (lambda: pinion(teeth=12, thinning=None), "module-2-no2-14"),
    "cut-form-start": (lambda: pinion(teeth=13), ""),
    "cut-swing": (pinion, ""),
    "cut-shallow": (
        lambda: pinion(teeth=31, pitch="mn 1.5", helix="22", hand="left", face="14 mm", thinning=None),
        "module-1.5-no6.5-42",
    ),
    "cut-thinning": (wheel, ""),
}


def weighed(plan: Plan, index: int = 0) -> VirtualCut:
    """The cutters of a plan's gear."""
    return virtual_cut(plan.order, plan.gears[index])


@cache
def the_wheel() -> tuple[Plan, VirtualCut]:
    """The 97-tooth wheel and its cutters."""
    plan = wheel()
    return plan, weighed(plan)


@cache
def the_pinion() -> tuple[Plan, VirtualCut]:
    """The 28-tooth helical gear and its cutters."""
    plan = pinion()
    return plan, weighed(plan)


@cache
def told(code: str) -> tuple[Finding, ...]:
    """The findings of the case of that code."""
    make, key = CUT_CASES[code]
    plan = make()
    cut = weighed(plan)
    shown = cut.by_key(key) if key else None
    assert shown is not None or not key, [one.held.key for one in cut.weighed]
    return cut_findings(plan.gears[0], cut, shown)
