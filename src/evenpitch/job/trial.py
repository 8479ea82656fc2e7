"""The trial piece: a plastic or aluminium disc of the same outside, cut before the good blank, with the spans to expect."""

from __future__ import annotations

from dataclasses import dataclass, replace

from evenpitch.gear.formcut import FormCut, at_depth
from evenpitch.job.order import Order
from evenpitch.job.plan import GearPlan, Plan
from evenpitch.job.planning import plan
from evenpitch.quantity.units import Millimetre

USUAL_MATERIAL = "aluminium"
SPACES = 3
"""Spaces that a trial cuts beside each other, no fewer than the span needs; common practice."""


@dataclass(frozen=True, slots=True)
class Trial:
    """The plan of the disc, and what span and pins should read at each depth from metal."""

    plan: Plan
    gear: GearPlan
    spaces: int
    depths: tuple[tuple[Millimetre, FormCut], ...]


def trial(order: Order, index: int = 0, material: str = USUAL_MATERIAL) -> Trial:
    """The trial piece of one gear of an order, as its own plan in a soft material on a blank of the nominal size."""
    works = tuple(replace(work, material=material, outside_found=None, quantity=1) for work in order.works)
    made = plan(replace(order, works=works))
    gear = made.gears[index]
    full, sink = gear.blank.whole_depth, gear.form_cut.sink
    rough = next(rung.depth for rung in gear.running.ladder if rung.name == "rough")
    between = [rough + (full - rough) * share for share in (0.0, 0.5)]
    depths = sorted({*(round(depth, 2) for depth in between), round(full, 3), round(full + sink, 3)})
    outside = gear.tools.outside
    read = tuple((Millimetre(depth), at_depth(gear.gear, Millimetre(depth), outside)) for depth in depths)
    return Trial(made, gear, max(SPACES, gear.form_cut.spanned + 1), read)
