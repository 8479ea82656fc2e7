"""The plan as the one JSON object of `evenpitch plan`: keys and words of the contract."""

from __future__ import annotations

from typing import Any

from evenpitch.dividing.methods import Method, PlatePulses, Pulses
from evenpitch.job.explaining import slips_of
from evenpitch.job.indexing import way_key
from evenpitch.job.leading import LeadPlan
from evenpitch.job.plan import GearPlan, Plan
from evenpitch.quantity.units import RADIAN_PER_ARCSEC
from evenpitch.sheet.answers import answer, figures_json, findings_json


def plan_json(plan: Plan) -> dict[str, Any]:
    """The first gear's plan at the top, all gears under `gears`, the pair under `pair`."""
    gears = [gear_json(plan, gear) for gear in plan.gears]
    first = gears[0]
    figures = (*plan.gears[0].figures, *(plan.pair.figures if plan.pair else ()))
    more: dict[str, Any] = {key: value for key, value in first.items() if key != "figures"}
    more |= {"title": plan.order.title, "gears": gears}
    if plan.pair is not None:
        more["pair"] = {"figures": figures_json(plan.pair.figures)}
    return answer("plan", figures, plan.findings, **more)


def gear_json(plan: Plan, gear: GearPlan) -> dict[str, Any]:
    """Everything of one gear."""
    made = gear.indexing
    return {
        "figures": figures_json(gear.figures),
        "tolerances": figures_json(gear.limits),
        "tolerance_class": gear.tolerance_class,
        "methods": [method_json(method, targets=method == made.chosen) for method in made.methods],
        "chosen": None if made.chosen is None else method_json(made.chosen, targets=True),
        "by_hand": None if made.by_hand is None else method_json(made.by_hand),
        "excluded": [{"way": gone.way, "reason": gone.reason} for gone in made.excluded],
        "slips": [
            {"code": slip.code, "words": slip.words, "arcsec": slip.angle / RADIAN_PER_ARCSEC, "used": slip.used}
            for slip in slips_of(plan.order.rig, made.chosen)
        ],
        "worm_ratio": str(plan.order.rig.head.ratio),
        "head_error_arcsec": made.head_error,
        "head_measured": made.head_measured,
        "lead": None if gear.lead is None else lead_json(gear.lead),
        "cutters": [_cutter(gear, choice) for choice in gear.tools.all()],
        "depths": [{"name": rung.name, "mm": float(rung.depth), "knee_mm": float(rung.raised)} for rung in gear.running.ladder],
        "depth_left": [{"span_mm": float(left.span), "deeper_mm": float(left.to_go)} for left in gear.running.left],
        "passes": [
            {
                "name": item.name,
                "depth_mm": float(item.depth),
                "table_feed": float(item.feed),
                "spaces": item.spaces,
                "minutes": item.minutes,
            }
            for item in gear.running.passes
        ],
        "checks": [
            {
                "name": check.name,
                "least": float(check.least),
                "most": float(check.most),
                "unit": "mm",
                "instrument": check.instrument or None,
            }
            for check in gear.checks
        ],
        "direction": {
            "swing": gear.direction.swing,
            "swing_deg": gear.direction.swing_degrees,
            "push": gear.direction.push,
            "feed": gear.direction.feed,
            "work": gear.direction.work,
            "cutter": gear.direction.cutter,
        },
        "cautions": [caution.do for caution in plan.cautions],
        "link_good_to_um": None if gear.promise is None else gear.promise.good.facts(),
        "link_sentence": None if gear.promise is None else gear.promise.sentence,
        "gear_findings": findings_json(gear.findings),
    }


def method_json(method: Method, *, targets: bool = False) -> dict[str, Any]:
    """One way with the key by which it is chosen."""
    facts = {**method.facts(), "key": way_key(method)}
    if targets and isinstance(method, Pulses | PlatePulses):
        facts["targets"] = list(method.targets())
    return facts


def lead_json(lead: LeadPlan) -> dict[str, Any]:
    """As the commands lead and ratio answer."""
    shown: dict[str, Any] = {
        "lead": float(lead.lead),
        "machine_lead": None if lead.machine_lead is None else float(lead.machine_lead),
        "by": lead.by,
        "reason": lead.reason,
        "trains": [train.facts() for train in lead.trains],
        "train": None if lead.train is None else lead.train.facts(),
        "pairs": [pair.facts() for pair in lead.pairs],
        "take_up_mm": lead.take_up,
        "start_before_mm": lead.start_before,
        "slope_limit_um": lead.slope_limit,
    }
    if lead.ratio is not None:
        shown |= lead.ratio.facts()
        shown["simpler"] = [ratio.facts() for ratio in lead.simpler]
        shown["pair_ratio"] = None if lead.pair_ratio is None else lead.pair_ratio.facts()
        shown["decimal_traps"] = [trap.facts() for trap in lead.traps]
    return shown


def _cutter(gear: GearPlan, choice: Any) -> dict[str, Any]:
    return {
        "name": choice.cutter.name(),
        "owned": choice in gear.tools.owned,
        "chosen": choice is gear.tools.chosen,
        "number": choice.cutter.number,
        "numbering": choice.cutter.numbering,
        "range": choice.range.range_words(),
        "made_for": choice.made_for,
        "form_teeth": choice.form_teeth,
        "in_range": choice.in_range,
        "usable": choice.usable,
        "tip_um": choice.tip_um,
        "verdict": choice.verdict,
        "reasons": list(choice.reasons),
    }
