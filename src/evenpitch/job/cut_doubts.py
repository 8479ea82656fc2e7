"""What a cut that stands so far has to say beside its place: counts that differ, a closing gap and what it may be, a time to measure."""

from __future__ import annotations

import math
from collections.abc import Iterator

from evenpitch.checking.slip_sizes import SlipFound, SlipSize, explain_size
from evenpitch.job.following import Progress, complete
from evenpitch.job.record import Cutting
from evenpitch.quantity.finding import Finding
from evenpitch.quantity.showing import arcsec, mm, number
from evenpitch.quantity.units import ARCSEC_PER_TURN
from evenpitch.sources.citations import cites

EYE = 0.1
"""Millimetres to which the eye sees two scratches meet; common practice."""

MOST_NAMED = 3
"""Slips of the size of a gap that are named."""

PRACTICE = ("common practice",)


def doubts(
    cutting: Cutting, progress: Progress, outside: float | None = None, slips: tuple[SlipSize, ...] = ()
) -> tuple[Finding, ...]:
    """Findings of a cut record. `outside`: diameter of the blank, mm, for what a gap comes to; `slips`: what the rig can slip by."""
    return (*_count(cutting, progress), *_closing(cutting, progress, outside, slips), *_measure(cutting, progress))


def _count(cutting: Cutting, progress: Progress) -> Iterator[Finding]:
    if not progress.off or progress.counted is None:
        return
    more = progress.off > 0
    held = len(progress.cut)
    yield Finding(
        "count-differs",
        "stop",
        f"Counted {held + progress.off} cut; the record holds {held}.",
        "A space cut and not written is cut twice; one written and not cut is left out."
        if more
        else "One left out spoils the gear.",
        "Look at the last ones: write each that is cut." if more else "Look at each: take back what was not cut, or count again.",
        PRACTICE,
        "count",
    )


def _closing(cutting: Cutting, progress: Progress, outside: float | None, slips: tuple[SlipSize, ...]) -> Iterator[Finding]:
    gap = progress.closing
    if gap is None:
        return
    if abs(gap) <= EYE:
        yield Finding(
            "round-closes",
            "note",
            f"The round closes within {mm(abs(gap), 2)}; the eye reads 0.1 mm.",
            "Every move of it was right, or the slips cancelled.",
            "Go on.",
            PRACTICE,
            "closing",
        )
        return
    yield Finding(
        "round-does-not-close",
        "stop",
        f"The last scratch misses the first by {mm(abs(gap), 2)}{_comes_to(cutting, gap, outside)}.",
        f"A move was wrong, something slipped, or the ratio is. {of_that_size(gap, outside, slips)}".strip(),
        "Do not cut. Make the round again: a gap of the same size is a wrong number or gear, another size is a slip.",
        PRACTICE,
        "closing",
    )


def _comes_to(cutting: Cutting, gap: float, outside: float | None) -> str:
    """The gap as an angle, and in pulses or holes of what divides."""
    if not outside:
        return ""
    share = abs(gap) / (math.pi * outside)
    way = cutting.moves
    words = f": {arcsec(share * ARCSEC_PER_TURN)} at the work"
    if way.by_motor_alone:
        return f"{words}, {number(share * abs(way.pulses[-1]))} pulses"
    if way.circle:
        holes = way.spaces * (way.whole_turns * way.circle + way.holes) / way.skip
        return f"{words}, about {number(share * holes, 1)} holes of the {way.circle} circle"
    return words


@cites("derived here", "common practice", formula="gap ± 0.1 mm at the outside against the size of each slip of the rig")
def of_that_size(gap: float, outside: float | None, slips: tuple[SlipSize, ...]) -> str:
    """What of this rig has the size of a gap, the likeliest first: a hole, a belt tooth, a motor cycle; none that the eye cannot see,

    and none of a way of dividing that is not in use: with the eye's 0.1 mm some hole of some plate always fits.
    """
    if not outside or not slips:
        return ""
    fits = _fits(gap, outside, slips)[:MOST_NAMED]
    named = "; ".join(f"{fit.words()} is {fit.times * fit.kind.angle * outside / 2:.2f} mm" for fit in fits)
    return f"Of that size: {named}." if named else "No slip of this way of dividing has that size."


def likeliest(gap: float, outside: float | None, slips: tuple[SlipSize, ...]) -> str:
    """The likeliest of them in one short line, for the small screen; "" where there is none."""
    fits = () if not outside else _fits(gap, outside, slips)
    return f"perhaps {fits[0].words()}" if fits else ""


def _fits(gap: float, outside: float, slips: tuple[SlipSize, ...]) -> tuple[SlipFound, ...]:
    radius = outside / 2
    seen = tuple(slip for slip in slips if slip.used and slip.angle * radius > EYE)
    return explain_size(abs(gap) / radius, EYE / radius, seen)


def _measure(cutting: Cutting, progress: Progress) -> Iterator[Finding]:
    if progress.running == "trial" and complete(cutting, progress):
        yield Finding(
            "time-to-measure",
            "note",
            f"The {cutting.planned('trial').spaces} trial spaces are cut.",
            "The span over them says how much deeper the rest must go.",
            "Stop the cutter, measure, set the depth.",
            PRACTICE,
            "depth",
        )
