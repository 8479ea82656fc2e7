"""Explain: what was read, against what this rig and this plan can do; and what was expected beside what was found."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

import numpy as np

from evenpitch.checking.cause import Cause, Evidence, Rigged
from evenpitch.checking.causes import causes
from evenpitch.checking.least_squares import fit
from evenpitch.checking.measured import Measured
from evenpitch.checking.reading_budgets import USUAL_ANGLE, USUAL_SCATTER
from evenpitch.checking.slip_sizes import SlipSize, slip_sizes
from evenpitch.dividing.methods import Block, Compound, Differential, Method, Simple
from evenpitch.gear.limits import cumulative_pitch, rounded
from evenpitch.gear.sizes import pitch_diameter, transverse_pressure_angle
from evenpitch.job.found_beside import Logged, by_log
from evenpitch.job.inspection import Inspection, SizeRead
from evenpitch.job.plan import GearPlan
from evenpitch.job.seen import NOTHING_SEEN, Seen, expected_form, seen_causes
from evenpitch.job.sizes_judged import SizeJudged
from evenpitch.job.spacing_judged import AroundFound
from evenpitch.link.prediction import Expected as Predicted
from evenpitch.rig.rig import Rig

FEWEST_SPANS = 4
TAPER_SHOWN = 2.0
LEAN_SHOWN = 3.0
UM = 1000.0


@dataclass(frozen=True, slots=True)
class Expected:
    """The spacing that the head's map leads one to expect, µm at each space from space 1; empty where there is no map."""

    curve: tuple[float, ...]
    words: str


@dataclass(frozen=True, slots=True)
class Known:
    """What is known beside the readings: what the eye saw, what the rig was expected to leave, what the log of the link shows.

    `log` None: there is none; empty: it shows no loss.
    """

    seen: Seen = NOTHING_SEEN
    predicted: Predicted | None = None
    log: tuple[Logged, ...] | None = None


NOTHING_KNOWN = Known()


def explain(
    plan: GearPlan,
    rig: Rig,
    found: Inspection,
    around: AroundFound,
    sizes: tuple[SizeJudged, ...],
    known: Known = NOTHING_KNOWN,
) -> tuple[Cause, ...]:
    """Causes ranked: those of spacing and runout first, then lean, taper, form and depth, then what the eye saw."""
    evidence = _evidence(plan, rig, found, around)
    named = by_log(causes(evidence), known.log or (), around.spacing.mean)
    shape = (*_lean(found, evidence.radius), *_taper(found), *_form(plan, sizes))
    return (*named, *shape, *_depth(sizes), *seen_causes(plan, known.seen, _slope(plan)))


def _slope(plan: GearPlan) -> float | None:
    """Helix slope over the face that the ratio or the train of the plan leaves, µm."""
    lead = plan.lead
    if lead is None:
        return None
    facts = (
        lead.ratio.facts()
        if lead.by == "link" and lead.ratio is not None
        else lead.train.facts()
        if lead.train is not None
        else {}
    )
    slope = facts.get("helix_slope_um")
    return float(slope) if isinstance(slope, int | float) else None


def _evidence(plan: GearPlan, rig: Rig, found: Inspection, around: AroundFound) -> Evidence:
    gear, link, head = plan.gear, rig.link, rig.latest_map()
    way = plan.indexing.chosen
    pulses = rig.pulses_per_turn()
    pulley = Fraction(link.belt.head, link.belt.motor) if link is not None and link.belt is not None else None
    return Evidence(
        radius=float(pitch_diameter(gear)) / 2,
        pressure_angle=float(transverse_pressure_angle(gear)),
        limit=rounded(cumulative_pitch(pitch_diameter(gear), gear.module, plan.tolerance_class)) / UM,
        mean=around.spacing.mean,
        half=around.spacing.half,
        flanks=2 if around.spacing.half is not None else 1,
        runout=around.runout,
        span_wave=_span_wave(found),
        rig=Rigged(
            ratio=rig.head.ratio,
            pulley=pulley,
            sizes=slips_of(rig, way),
            harmonics=() if head is None else head.harmonics,
            backlash=None if rig.head.backlash is None else float(rig.head.backlash),
            pulse=None if pulses is None else 2 * math.pi / float(pulses),
        ),
    )


def slips_of(rig: Rig, way: Method | None) -> tuple[SlipSize, ...]:
    """What one slip is worth at the work, of all that this rig can slip by when it divides that way."""
    return slip_sizes(rig, way.name if way is not None else "", _circles(way))


def _circles(way: Method | None) -> tuple[int, ...]:
    """The hole circles that the plan's way uses."""
    if isinstance(way, Compound):
        return (way.circle, way.plate_circle)
    if isinstance(way, Simple | Block | Differential):
        return (way.circle,)
    return ()


def _span_wave(found: Inspection) -> Measured | None:
    """Once-a-turn wave of spans over one k read at several places."""
    around: list[SizeRead] = [size for size in found.sizes if size.kind == "span" and len(size.places()) >= FEWEST_SPANS]
    if not around:
        return None
    size = max(around, key=lambda one: len(one.places()))
    places = size.places()
    angle = 2 * np.pi * (np.array(list(places)) - 1) / found.teeth
    values = np.array(list(places.values()))
    try:
        fitted = fit({"mean": np.ones(len(values)), "cos": np.cos(angle), "sin": np.sin(angle)}, values)
    except ValueError:
        return None
    size_of = math.hypot(fitted.term("cos").value, fitted.term("sin").value)
    times = len(size.readings) / len(values)
    return Measured(size_of, USUAL_SCATTER * math.sqrt(2 / len(values) / times))


def expected(plan: GearPlan, rig: Rig) -> Expected:
    """What the map of the head says the spaces should do."""
    head = rig.latest_map()
    if head is None or not head.harmonics:
        return Expected((), "")
    count, radius = plan.gear.teeth, float(pitch_diameter(plan.gear)) / 2
    theta = 2 * np.pi * np.arange(count) / count
    curve = sum(
        (wave.amplitude * radius * UM * np.sin(wave.per_turn * theta + wave.phase) for wave in head.harmonics), np.zeros(count)
    )
    curve = curve - curve[0]
    return Expected(tuple(map(float, curve)), f"head's map of {head.date:%d %b %Y}: {float(np.ptp(curve)):.0f} µm")


def _taper(found: Inspection) -> tuple[Cause, ...]:
    """Spans read at two ends of the face, told apart by their height."""
    ends: dict[float, list[float]] = {}
    for size in found.sizes:
        if size.kind == "span":
            for one in size.readings:
                if one.height is not None:
                    ends.setdefault(float(one.height), []).append(one.value)
    if len(ends) < 2:
        return ()
    low, high = min(ends), max(ends)
    change = sum(ends[high]) / len(ends[high]) - sum(ends[low]) / len(ends[low])
    doubt = 0.006 * math.sqrt(1 / len(ends[high]) + 1 / len(ends[low]))
    if abs(change) <= TAPER_SHOWN * doubt:
        return ()
    evidence = f"span {change * UM:+.0f} ± {2 * doubt * UM:.0f} µm from {low:g} to {high:g} mm along the face"
    return (
        Cause(
            "taper",
            "Teeth taper along the face: head and tailstock not level or not parallel to the table",
            evidence,
            "Indicate a test bar between head and tailstock along the table, on top and at the side.",
            "Level and line them up, then recut.",
            abs(change),
        ),
    )


def _lean(found: Inspection, radius: float) -> tuple[Cause, ...]:
    """Head angles of both flanks at two heights (typed with them): the form cancels between the flanks, a lean does not."""
    rows = [one for one in found.readings if one.kind == "head angle" and one.height is not None and one.flank]
    heights = sorted({float(one.height) for one in rows if one.height is not None})
    if len(heights) < 2:
        return ()
    moved: dict[str, list[float]] = {"left": [], "right": []}
    at = {(one.space, one.flank or "", float(one.height or 0)): one.value * (1.0 if one.angle else 1 / radius) for one in rows}
    for (space, flank, height), value in at.items():
        other = at.get((space, flank, heights[0]))
        if flank and height == heights[-1] and other is not None:
            moved[flank].append((value - other) * radius)
    if not all(moved.values()):
        return ()
    each = [sum(own) / len(own) for own in moved.values()]
    lean, doubt = sum(each) / 2, USUAL_ANGLE * radius / math.sqrt(min(map(len, moved.values())))
    if abs(lean) <= LEAN_SHOWN * doubt:
        return ()
    side = "growing" if lean > 0 else "falling"
    rise = heights[-1] - heights[0]
    evidence = f"both flanks go {abs(lean) * UM:.0f} ± {2 * doubt * UM:.0f} µm to the {side} angle over {rise:g} mm of height"
    return (
        Cause(
            "lean",
            "Teeth lean: the cutter was off the centre of the work",
            evidence,
            "Flip the gear end for end on the mandrel: the lean is seen reversed.",
            "Re-centre the cutter, and recut if there is stock.",
            abs(lean),
        ),
    )


FORM_SHOWN = 1.0
"""Spans over few and many teeth disagree from so many times the doubt of both together."""


def _form(plan: GearPlan, sizes: tuple[SizeJudged, ...]) -> tuple[Cause, ...]:
    """Spans over few teeth touch low on the flank, over many high: depth moves both alike, so what differs is the form."""
    spans = sorted(
        (one for one in sizes if one.usable and one.read.kind == "span" and one.read.k), key=lambda one: one.read.k or 0
    )
    if len(spans) < 2:
        return ()
    low, high = spans[0], spans[-1]
    off = [one.value - (one.least + one.most) / 2 for one in (low, high)]
    more, doubt = off[1] - off[0], math.hypot(low.U, high.U)
    if abs(more) <= FORM_SHOWN * doubt:
        return ()
    heavy = more > 0
    evidence = (
        f"{high.words} stands {abs(more) * UM:.0f} ± {doubt * UM:.0f} µm {'thicker' if heavy else 'thinner'} "
        f"than {low.words} leads one to expect{expected_form(plan)}"
    )
    return (
        Cause(
            "form",
            "Flanks heavy at the tips: the cutter is of another number"
            if heavy
            else "Flanks hollow at the tips: the cutter is of another number",
            evidence,
            "Roll it with the mate in blue: it rubs at the tips."
            if heavy
            else "Roll it with the mate in blue: it rubs low on the flank.",
            "Another cutter number, or one ground for this count; deeper does not mend it.",
            abs(more) / 2,
        ),
    )


def _depth(sizes: tuple[SizeJudged, ...]) -> tuple[Cause, ...]:
    off = [size for size in sizes if size.usable and size.says == "fail"]
    if not off:
        return ()
    size = off[0]
    um = (size.value - size.most if size.side == "thick" else size.least - size.value) * UM
    evidence = f"{size.words} {size.value:.3f} ± {size.U:.3f} mm, {abs(um):.0f} µm beyond its limit"
    test = "Span at four places: all alike means the depth."
    if size.side == "thick":
        return (
            Cause("not deep enough", "All teeth thick: not deep enough, or the cutter is worn", evidence, test, "Deeper.", 0.0),
        )
    remedy = "It cannot be put back; see what can still be done with the gear."
    return (Cause("too deep", "All teeth thin: too deep, or the blank was under size", evidence, test, remedy, 0.0),)
