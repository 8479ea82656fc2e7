"""What the eye sees on cut flanks and on the mate: marks at a distance, contact at one end; and what may have caused it.

No reading of a shop instrument shows either, so both are said by the person and held against what the plan runs.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, get_args

from evenpitch.checking.cause import Cause
from evenpitch.job.plan import GearPlan
from evenpitch.sources.citations import cites

Contact = Literal["even", "one end", "tips", "roots"]
CONTACTS: tuple[Contact, ...] = get_args(Contact)

ALIKE = 0.12
"""Marks whose distance is within this part of the feed for a tooth or a turn are those of a tooth or a turn; by rule and loupe."""


@dataclass(frozen=True, slots=True)
class Seen:
    """`marks`: their distance along the flank, mm; `contact`: where a mate rolled in blue touches. None: not looked at, or none."""

    marks: float | None = None
    contact: Contact | None = None


NOTHING_SEEN = Seen()


def seen_causes(plan: GearPlan, seen: Seen, slope_um: float | None = None) -> Iterator[Cause]:
    """Causes of what was seen. `slope_um`: helix slope over the face that the plan's own ratio or train leaves, µm."""
    if seen.marks is not None:
        yield _marks(plan, seen.marks)
    if seen.contact == "one end":
        yield _one_end(plan, slope_um)
    elif seen.contact in ("tips", "roots"):
        yield _high_or_low(plan, seen.contact)


@cites("derived here", "common practice", formula="feed a turn f/n, a tooth f/(n z_0), along the flank 1/cos β")
def _marks(plan: GearPlan, marks: float) -> Cause:
    """Marks as far apart as the feed for a turn are of the arbor, for a tooth of the teeth; others shake at a frequency of their own."""
    feed, speed = float(plan.running.speeds.feed.value()), float(plan.running.speeds.speed.value())
    along = 1 / math.cos(plan.gear.helix)
    turn = feed / speed * along
    tooth = turn / plan.tools.teeth
    ran = f"marks every {marks:.3g} mm; at {feed:.0f} mm/min and {speed:.0f} rpm a turn of the cutter is {turn:.2f} mm, a tooth {tooth:.3f}"
    if abs(marks / turn - 1) <= ALIKE:
        return Cause(
            "cutter runs out",
            "One mark for each turn of the cutter: arbor bent, or the cutter runs out on it",
            ran,
            "Indicate the teeth of the cutter on its arbor: one stands out.",
            "Clean the collars, true or change the arbor; a slower feed brings the marks nearer, it does not take them away.",
            0.0,
        )
    if abs(marks / tooth - 1) <= ALIKE:
        return Cause(
            "feed marks",
            "One mark for each tooth of the cutter: the usual feed marks",
            ran,
            "Halve the feed: the marks come twice as near.",
            "Less feed for the last pass, if the mate is to run quietly.",
            0.0,
        )
    a_second = feed * along / 60 / marks
    return Cause(
        "chatter",
        "Chatter: it shakes out of step with the cutter; a loose gib, an arbor too long or without its support, a head not locked",
        f"{ran}; neither fits: along the feed they come {a_second:.2g} times a second",
        "Cut a test space at another speed: marks that neither a turn nor a tooth explains at either speed are the machine's own.",
        "Lock what does not feed, support the arbor near the cutter, snug the gibs; then another speed.",
        0.0,
    )


def _one_end(plan: GearPlan, slope_um: float | None) -> Cause:
    if not plan.gear.helix:
        return Cause(
            "axes",
            "Contact at one end: the axes are not parallel, or the teeth taper",
            "blue rubs at one end of the face",
            "Span at both ends of the face: alike means the axes.",
            "Line up the shafts; if the spans differ, head and tailstock, and recut.",
            0.0,
        )
    if slope_um is None:
        told = "the plan does not say what its lead leaves"
    else:
        told = f"the plan's own lead leaves {abs(slope_um):.1f} µm over the face"
    return Cause(
        "lead",
        "Contact at one end: another lead than was planned, or the table swung for another angle",
        f"blue rubs at one end of the face; {told}",
        "Rub the other flanks too: a wrong lead touches the two at opposite ends. Read ratio or train again, figure by figure.",
        "Enter the right ratio, and recut the gear that is further off; a swing alone leaves the lead right and the flank hollow.",
        0.0 if slope_um is None else abs(slope_um) / 1000,
    )


def _high_or_low(plan: GearPlan, contact: Contact) -> Cause:
    heavy = contact == "tips"
    return Cause(
        "form",
        f"Contact at the {contact}: the form of the cutter, or the distance of the axes",
        f"blue rubs at the {contact}{expected_form(plan)}",
        "Spans over the fewest and the most teeth that can be read: both alike means the distance of the axes.",
        "Another cutter number, or one ground for this count." if heavy else "Another cutter number; see that the depth is full.",
        0.0,
    )


def expected_form(plan: GearPlan) -> str:
    """What the cutter of the plan was expected to leave at the tips, as the end of a sentence; "" where nobody can say."""
    chosen = plan.tools.chosen
    if chosen is None or chosen.tip_um is None:
        return ""
    way = "heavy" if chosen.tip_um > 0 else "light"
    return f"; {chosen.cutter.name()} was expected to leave the tips {abs(chosen.tip_um):.0f} µm {way}"
