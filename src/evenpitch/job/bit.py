"""The fly cutter's bit for one gear of an order: ground for the thinned space, so that whole depth alone brings the size."""

from __future__ import annotations

import math
from dataclasses import dataclass

from evenpitch.flank.bit import RELIEF, Bit, fly_bit
from evenpitch.flank.wanted import SQUARE
from evenpitch.gear.span import span_target, spanned
from evenpitch.job.plan import GearPlan
from evenpitch.job.virtual_cutting import wanted_of
from evenpitch.quantity.refusal import refuse
from evenpitch.quantity.units import Millimetre, Radian

USUAL_SWING = Millimetre(63.0)
"""Diameter on which the bit swings where none is named; common practice."""

MOST_RAKE = math.radians(30)
RELIEVED = (math.radians(3), math.radians(25))
"""End relief from and to; common practice 8 to 12 degrees."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BitPlan:
    """The bit, and what it is sunk to (mm from touch) for the span (mm over so many teeth)."""

    bit: Bit
    depth: Millimetre
    span: Millimetre
    spanned: int


def bit_plan(plan: GearPlan, outside: Millimetre | None = None, rake: Radian = SQUARE, relief: Radian = RELIEF) -> BitPlan:
    """The bit on a swing of `outside` mm, with its rake and end relief."""
    size = USUAL_SWING if outside is None else outside
    depth = float(plan.blank.whole_depth)
    if not 4 * depth <= size <= 400:
        raise refuse("bit-diameter", f"{size:.4g}", f"from {4 * depth:.3g} to 400 mm", "The holder would touch the work, or the head.",
                     "Give the diameter on which the end of the bit swings.")  # fmt: skip
    if abs(rake) > MOST_RAKE:
        raise refuse(
            "bit-rake", f"{math.degrees(rake):.4g}", "from -30 to 30 degrees", "", "Grind none: then the edge is the form itself."
        )
    if not RELIEVED[0] <= relief <= RELIEVED[1]:
        raise refuse("bit-relief", f"{math.degrees(relief):.4g}", "from 3 to 25 degrees", "", "8 to 12 degrees are usual.")
    gear = plan.gear
    count = spanned(gear)
    made = fly_bit(wanted_of(gear), size, rake=rake, relief=relief)
    return BitPlan(bit=made, depth=Millimetre(plan.blank.depth_from_touch), span=span_target(gear, count), spanned=count)
