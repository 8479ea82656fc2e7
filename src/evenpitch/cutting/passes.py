"""How many cuts round the gear, how deep, how long each takes."""

from __future__ import annotations

from dataclasses import dataclass

from evenpitch.cutting.depth import rough_depth
from evenpitch.cutting.materials import UNKNOWN, Material
from evenpitch.cutting.travel import minutes_per_space, travel_per_space
from evenpitch.quantity.units import Millimetre, Radian
from evenpitch.sources.citations import cites

ONE_PASS_TO = Millimetre(1.6)
"""Module up to which steel is cut to full depth at once (16 DP); common practice."""

ONE_PASS_SOFT_TO = Millimetre(2.6)
"""The same for cast iron, bronze, brass, aluminium and plastic (10 DP); common practice."""


@dataclass(frozen=True, slots=True)
class Pass:
    """One cut: `whole_round` False for the trial spaces that the span is first measured on. Depth from metal, feed mm/min."""

    name: str
    depth: Millimetre
    feed: Millimetre
    spaces: int
    minutes: float
    whole_round: bool


@cites("common practice", formula="one pass to m 1.6 in steel, m 2.6 in soft metal; above, rough to 90 % and finish")
def rounds(module: Millimetre, material: Material | None) -> int:
    """Times round the gear: one, or two."""
    limit = ONE_PASS_SOFT_TO if (material or UNKNOWN).soft else ONE_PASS_TO
    return 1 if module <= limit else 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """What the plan of passes needs: depth from touch, travel and feed. `spanned`: teeth of the span; `feed` in mm/min."""

    teeth: int
    module: Millimetre
    face: Millimetre
    depth: Millimetre
    cutter_outside: Millimetre
    feed: Millimetre
    helix: Radian = Radian(0.0)
    spanned: int = 0


def passes(cut: Cut, material: Material | None) -> tuple[Pass, ...]:
    """The cuts in order. One round: first `spanned` + 1 spaces roughed and measured, then all to full depth. Two: rough all, finish all."""
    travel = travel_per_space(cut.face, cut.depth, cut.cutter_outside, cut.helix)
    each = minutes_per_space(travel, cut.feed)
    rough = rough_depth(cut.depth)
    full = Pass("full", cut.depth, cut.feed, cut.teeth, cut.teeth * each, True)
    if rounds(cut.module, material) == 2:
        return Pass("rough", rough, cut.feed, cut.teeth, cut.teeth * each, True), full
    trial = min(cut.spanned + 1, cut.teeth) if cut.spanned else 0
    return ((Pass("trial", rough, cut.feed, trial, trial * each, False),) if trial else ()) + (full,)


@cites("common practice", formula="Σ minutes of the whole rounds")
def job_minutes(planned: tuple[Pass, ...]) -> float:
    """Minutes of all whole rounds; trial spaces and measuring come on top."""
    return sum(item.minutes for item in planned if item.whole_round)
