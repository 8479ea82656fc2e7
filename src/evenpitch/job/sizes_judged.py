"""Thickness as read: spans, pins, balls and chords against the form-cut limits of the plan, each with its budget of uncertainty."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from statistics import stdev

from evenpitch.checking.budget import Budget
from evenpitch.checking.decision import Says, decide, worst
from evenpitch.checking.measured import Measured
from evenpitch.checking.reading_budgets import Read, chord_budget, pins_budget, span_budget
from evenpitch.checking.warmth import EXPANSION, REFERENCE
from evenpitch.gear.caliper import caliper_points
from evenpitch.gear.formcut import at_sink, sink_for_span
from evenpitch.gear.gear import Gear
from evenpitch.gear.halving import bisect
from evenpitch.gear.pins import nominal_over_balls, nominal_over_pins
from evenpitch.gear.sizes import base_pitch, outside_diameter
from evenpitch.gear.span import span_target, spanned
from evenpitch.gear.sunk import sunk_chord
from evenpitch.job.findings import finding
from evenpitch.job.inspection import Inspection, SizeRead, stands_out
from evenpitch.job.measuring import pin_findings
from evenpitch.job.plan import GearPlan
from evenpitch.job.recutting import recut
from evenpitch.quantity.finding import Finding
from evenpitch.quantity.refusal import Fault
from evenpitch.quantity.units import Millimetre
from evenpitch.rig.rig import Rig

NAMES = {"span": "span", "over pins": "over_pins", "over balls": "over_balls", "chordal": "chordal_thickness"}
FACTORS = (
    (25.4, "Inches typed for millimetres, or the other way round"),
    (10.0, "A decimal point one place off"),
    (1000.0, "Micrometres and millimetres mixed"),
)
FAR = 0.15
"""A size that differs from its target by more than this part is of another gear, another k, or in another unit."""
STEP = (0.5, 1.5)
"""One tooth more must add between these parts of the base pitch."""
WARM = 5.0
PRINTED = 3
"""Decimals of a millimetre with which a limit is printed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeJudged:
    """One size, mm at 20 °C. `value`: the mean; `places`: mean by space; `deeper`: how much deeper its mid-limit lies, mm.

    `usable`: whether the instrument could read it at all; a size that it could not is not judged. `by_cut`: how much deeper is by the
    virtual cut of the disc cutter, not to first order.
    """

    name: str
    words: str
    read: SizeRead
    value: float
    U: float
    least: float
    most: float
    says: Says
    budget: Budget
    places: dict[int, float]
    varies: bool
    usable: bool
    per_depth: float
    deeper: Measured
    warmth: float = 0.0
    by_cut: bool = False

    @property
    def side(self) -> str:
        """thin or thick, as it lies against the middle of the limits."""
        return "thick" if self.value > (self.least + self.most) / 2 else "thin"


@dataclass(frozen=True, slots=True)
class Sinks:
    """How far past the depth of no backlash the cutter stands at the upper limit, the middle and the lower limit, mm."""

    least: float
    middle: float
    most: float


def sinks_of(plan: GearPlan) -> Sinks:
    """From the span limits of the work."""
    gear, outside = plan.gear, plan.tools.outside
    target = span_target(gear, spanned(gear))
    upper, lower = plan.work.span_tolerance
    least, most = (float(sink_for_span(gear, Millimetre(target + limit), outside)) for limit in (upper, lower))
    return Sinks(least, (least + most) / 2, most)


def sizes_judged(
    plan: GearPlan, rig: Rig, found: Inspection, changes: Sequence[tuple[str, float]] = ()
) -> tuple[tuple[SizeJudged, ...], tuple[Finding, ...], tuple[Fault, ...]]:
    """Every size judged; what there is to say; and the faults of readings that cannot be of this gear."""
    judged: list[SizeJudged] = []
    told: list[Finding] = []
    faults: list[Fault] = []
    stepped = list(_span_steps(plan, found))
    for size in found.sizes:
        gear = _measured_so(plan, size)
        wrong = list(_wrong_unit(plan, gear, size))
        if wrong and not stepped:
            faults += wrong
            continue
        one, said = _judged(plan, rig, gear, size, stepped=bool(stepped and size.kind == "span"), changes=changes)
        judged.append(one)
        told += said
    return tuple(judged), tuple(dict.fromkeys((*stepped, *told))), tuple(faults)


def _measured_so(plan: GearPlan, size: SizeRead) -> Gear:
    gear = plan.gear
    if size.kind == "span" and size.k is not None:
        return replace(gear, spanned=size.k)
    if size.kind in ("over pins", "over balls") and size.pin is not None:
        return replace(gear, pin=Millimetre(size.pin))
    return gear


def _at(plan: GearPlan, gear: Gear, size: SizeRead, sink: float) -> float:
    """What the instrument should read with the cutter so far in."""
    cut = at_sink(gear, Millimetre(sink), plan.tools.outside)
    if size.kind == "span":
        return float(cut.span)
    if size.kind == "over pins":
        return float(cut.over_pins)
    if size.kind == "over balls":
        return float(cut.over_balls)
    height = cut.chordal_height if size.height is None else size.height
    low = height + _under(plan) / 2
    if gear.helix == 0.0:
        return float(sunk_chord(gear, Millimetre(low), Millimetre(sink)))
    return float(cut.chordal_thickness) + 2 * math.tan(gear.pressure_angle) * (low - cut.chordal_height)


def _under(plan: GearPlan) -> float:
    """What the blank was turned under size; 0 where it was not measured."""
    found = plan.work.outside_found
    return 0.0 if found is None else float(outside_diameter(plan.gear) - found)


def _wrong_unit(plan: GearPlan, gear: Gear, size: SizeRead) -> Iterator[Fault]:
    want = _at(plan, gear, size, sinks_of(plan).middle)
    for one in size.readings:
        if want <= 0 or (1 - FAR) * want <= one.value <= (1 + FAR) * want:
            continue
        share = one.value / want if one.value > 0 else 0.0
        likely = next(
            (words for factor, words in FACTORS if any(abs(share * f - 1) < 0.1 for f in (factor, 1 / factor))),
            "Another number of teeth spanned, another pin, or another gear",
        )
        where = f"line {one.line}, value" if one.line else "value"
        yield Fault(
            where,
            f"{one.value:.6g} mm",
            f"near {want:.3f} mm, {_words(size, gear)}",
            f"{likely}?",
            "Read it again, and see the unit of the column.",
        )


def _words(size: SizeRead, gear: Gear) -> str:
    if size.kind == "span":
        return f"span over {spanned(gear)}"
    if size.kind == "chordal":
        return "chordal thickness" if size.height is None else f"chord at {size.height:.3f} mm"
    pin = size.pin if size.pin is not None else gear.pin
    return size.kind if pin is None else f"{size.kind.replace('over ', f'over {pin:.4g} mm ')}"


def _judged(
    plan: GearPlan, rig: Rig, gear: Gear, size: SizeRead, *, stepped: bool, changes: Sequence[tuple[str, float]]
) -> tuple[SizeJudged, list[Finding]]:
    sinks = sinks_of(plan)
    # judged against the limits as they are printed, to 1 µm
    most, least = (round(_at(plan, gear, size, sink), PRINTED) for sink in (sinks.least, sinks.most))
    middle = (least + most) / 2
    told = [*_pins(gear, size), *_chord(plan, size), *_range(rig, size), *_odd(size)]
    usable = not stepped and not any(one.weight == "stop" for one in told)
    per_kelvin = _expansion(plan)
    warm = [one.temperature for one in size.readings if one.temperature is not None]
    warmth = size.mean * per_kelvin * (sum(warm) / len(warm) - REFERENCE) if warm else 0.0
    told += _warm(size, warm, warmth)
    budget = _budget(plan, rig, gear, size, bool(warm), per_kelvin, changes)
    places = {space: value - warmth for space, value in size.places().items()}
    value, U = size.mean - warmth, budget.U
    varies = _varies(places, budget, size)
    says = worst(tuple(decide(one, U, least=least, most=most) for one in (places.values() if varies else (value,))))
    slope = (most - least) / (sinks.most - sinks.least) if sinks.most > sinks.least else 1.0
    by_cut = recut(gear, plan.tools.outside, value, middle) if gear.helix and size.kind == "span" and usable else None
    if by_cut is not None:
        deeper, slope = by_cut.deeper, by_cut.per_depth
    else:
        deeper = _deeper(plan, gear, size, value, sinks.middle, middle, slope)
    if varies:
        told.append(finding("size-varies", what=_words(size, gear), least=min(places.values()), most=max(places.values()), U=U))
    k = size.k if size.kind == "span" and size.k not in (None, spanned(plan.gear)) else None
    name = NAMES[size.kind] + (f"_{k}" if k else "")
    if says == "fail" and usable and value < least:
        told += _thin(plan, gear, size, value, least)
    return SizeJudged(
        name=name,
        words=_words(size, gear),
        read=size,
        value=value,
        U=U,
        least=least,
        most=most,
        says=says if usable else "not proven",
        budget=budget,
        places=places,
        varies=varies,
        usable=usable,
        per_depth=slope,
        deeper=Measured(deeper, budget.u / slope, budget.freedom),
        warmth=warmth,
        by_cut=by_cut is not None,
    ), told


def _deeper(plan: GearPlan, gear: Gear, size: SizeRead, value: float, sink: float, middle: float, slope: float) -> float:
    """From the size read to the middle of the limits: straight for span and pins, by halving for a chord of a spur gear."""
    if size.kind != "chordal" or gear.helix:
        return (value - middle) / slope
    low, high = sink - 1.5 * gear.module, sink + 0.5 * gear.module

    def short(at: float) -> float:
        return value - _at(plan, gear, size, at)

    if short(low) * short(high) > 0:
        return (value - middle) / slope
    return sink - bisect(short, low, high)


def _varies(places: dict[int, float], budget: Budget, size: SizeRead) -> bool:
    """Whether the places differ by more than reading them scatters."""
    if len(places) < 3:
        return False
    own = next((part.u for part in budget.parts if part.name == "repeat"), 0.004) * math.sqrt(
        len(size.readings) if any(part.name == "repeat" for part in budget.parts) else 1
    )
    return stdev(places.values()) > 2.0 * own


def _budget(
    plan: GearPlan, rig: Rig, gear: Gear, size: SizeRead, warm: bool, per_kelvin: float, changes: Sequence[tuple[str, float]]
) -> Budget:
    stated = [one.u for one in size.readings if one.u is not None]
    read = Read(
        length=size.mean,
        times=len(size.readings),
        scatter=_scatter(size),
        instrument=_instrument(rig, size),
        stated=max(stated) if stated else None,
        warm_known=warm,
        expansion=max(per_kelvin, EXPANSION["steel"]),
    )
    if size.kind == "span":
        budget = span_budget(read)
    elif size.kind == "chordal":
        budget = chord_budget(read, 2 * math.tan(gear.pressure_angle))
    else:
        pin = size.pin or gear.pin
        over = nominal_over_balls if size.kind == "over balls" else nominal_over_pins
        per_pin = 0.0 if pin is None else (over(gear, Millimetre(pin + 0.01)) - over(gear, Millimetre(pin))) / 0.01
        budget = pins_budget(read, per_pin)
    for name, limit in changes:
        if any(part.name == name for part in budget.parts):
            budget = budget.changed(name, limit)
    return budget


def _scatter(size: SizeRead) -> float | None:
    """Of readings repeated at one place; the usual figure where there are too few."""
    by_place: dict[int, list[float]] = {}
    for one in size.readings:
        by_place.setdefault(one.space, []).append(one.value)
    square = sum(sum((value - sum(held) / len(held)) ** 2 for value in held) for held in by_place.values())
    freedom = sum(len(held) - 1 for held in by_place.values())
    return max(math.sqrt(square / freedom), 0.0005) if freedom >= 8 else None


def _instrument(rig: Rig, size: SizeRead) -> float | None:
    """U of the instrument named in the reading, where the rig has it with that range."""
    named = size.readings[0].instrument
    if not named:
        return None
    for tool in rig.instruments:
        inside = tool.least is None or tool.most is None or tool.least <= size.mean <= tool.most
        if tool.kind.casefold() in named and tool.U is not None and inside:
            return float(tool.U)
    return None


def _expansion(plan: GearPlan) -> float:
    if plan.material is None:
        return EXPANSION["steel"]
    if plan.material.words == "grey cast iron":
        return EXPANSION["cast iron"]
    return sum(plan.material.expansion) / 2e6


# ---- what there is to say


def _span_steps(plan: GearPlan, found: Inspection) -> Iterator[Finding]:
    """One tooth more must add a base pitch."""
    spans = sorted((size for size in found.sizes if size.kind == "span" and size.k), key=lambda size: size.k or 0)
    pitch = float(base_pitch(plan.gear))
    for first, second in itertools.pairwise(spans):
        assert first.k is not None
        assert second.k is not None
        grew, teeth = second.mean - first.mean, second.k - first.k
        if grew < 0:
            yield finding("span-swapped", more=second.k, fewer=first.k)
        elif not STEP[0] * pitch * teeth <= grew <= STEP[1] * pitch * teeth:
            yield finding("span-step", fewer=first.k, more=second.k, grew=grew, wanted=pitch * teeth)


def _pins(gear: Gear, size: SizeRead) -> list[Finding]:
    if size.kind not in ("over pins", "over balls") or gear.pin is None:
        return []
    said = list(pin_findings(gear))
    tips = float(caliper_points(gear))
    if size.mean <= tips and not any(one.weight == "stop" for one in said):
        said.append(finding("pins-under-tips-read", value=size.mean, tips=tips))
    return said


def _chord(plan: GearPlan, size: SizeRead) -> list[Finding]:
    under = _under(plan)
    if size.kind != "chordal" or abs(under) < 0.01:
        return []
    slip = abs(under) / 2 * 2 * math.tan(plan.gear.pressure_angle)
    return [finding("chord-undersize", under=abs(under), way="under" if under > 0 else "over", slip=slip)]


def _range(rig: Rig, size: SizeRead) -> list[Finding]:
    named = size.readings[0].instrument
    tools = [tool for tool in rig.instruments if named and tool.kind.casefold() in named and tool.least is not None]
    if not tools or any(
        tool.least is not None and tool.most is not None and tool.least <= size.mean <= tool.most for tool in tools
    ):
        return []
    ranges = " and ".join(f"{tool.least:g} to {tool.most:g} mm" for tool in tools)
    return [finding("reading-beyond-range", value=size.mean, instrument=named, ranges=ranges)]


def _odd(size: SizeRead) -> list[Finding]:
    odd = stands_out([one.value for one in size.readings])
    if odd is None:
        return []
    one = size.readings[odd[0]]
    return [
        finding(
            "reading-odd",
            what=f"{size.kind} at space {one.space}",
            value=f"{one.value:.3f} mm",
            times=odd[1],
            within=odd[2] * 1000,
        )
    ]


def _warm(size: SizeRead, warm: list[float], warmth: float) -> list[Finding]:
    if warm and abs(sum(warm) / len(warm) - REFERENCE) > WARM:
        return [
            finding(
                "work-warm", at=sum(warm) / len(warm), um=abs(warmth) * 1000, way="off" if warmth > 0 else "to", what=size.kind
            )
        ]
    return []


def _thin(plan: GearPlan, gear: Gear, size: SizeRead, value: float, least: float) -> list[Finding]:
    """Below the lowest target metal cannot be put back: what backlash this gear gives now."""
    if size.kind != "span":
        return []
    along = float(at_sink(gear, Millimetre(0.0), plan.tools.outside).span) - value
    return [finding("span-thin", value=value, below=least - value, circular=along / math.cos(gear.pressure_angle), along=along)]
