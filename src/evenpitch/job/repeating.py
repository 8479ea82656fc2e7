"""Repeat: the same job on another rig. Gear, blank, cutter and targets stay; dividing and link are redone, and what differs is listed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from evenpitch.job.findings import finding
from evenpitch.job.indexing import way_key
from evenpitch.job.order import Order
from evenpitch.job.plan import GearPlan, Plan
from evenpitch.job.planning import plan
from evenpitch.quantity.finding import Finding, by_weight
from evenpitch.rig.rig import Rig

NOTHING = "none"


@dataclass(frozen=True, slots=True)
class Difference:
    """What differs, in the words of the sheet; `gear`: from 0."""

    gear: int
    what: str
    was: str
    now: str


@dataclass(frozen=True, slots=True)
class Repeated:
    """The plan as it was and as it is on the other rig; what differs, and what stays."""

    was: Plan
    now: Plan
    differences: tuple[Difference, ...]
    kept: tuple[str, ...]
    findings: tuple[Finding, ...]


def repeat(order: Order, other: Rig) -> Repeated:
    """The job of `order` planned again on another rig."""
    was = plan(order)
    rig, told = _with_tools(was, other)
    chosen = was.gears[0].tools.chosen
    choice = replace(order.choice, way=None, train=None, dividing=None, lead=None)
    if len(was.gears) == 1 and chosen is not None and chosen in was.gears[0].tools.owned:
        choice = replace(choice, cutter=chosen.cutter.name())
    now = plan(replace(order, rig=rig, choice=choice))
    differences = tuple(_differences(was, now))
    if not differences:
        told.append(finding("repeat-same"))
    return Repeated(was, now, differences, tuple(_kept(was, now)), by_weight((*told, *now.findings)))


def _with_tools(was: Plan, other: Rig) -> tuple[Rig, list[Finding]]:
    """The other rig with the cutter the job was cut with; what only it lacks of instruments is taken along too."""
    told: list[Finding] = []
    cutters = other.cutters
    for gear in was.gears:
        chosen = gear.tools.chosen
        if chosen is None or chosen not in gear.tools.owned or chosen.cutter in cutters:
            continue
        told.append(finding("repeat-cutter", cutter=chosen.cutter.name(), rig=other.name))
        cutters = (chosen.cutter, *cutters)
    instruments = other.instruments or was.order.rig.instruments
    return replace(other, cutters=cutters, instruments=instruments), list(dict.fromkeys(told))


def _differences(was: Plan, now: Plan) -> Iterator[Difference]:
    if was.order.rig.name != now.order.rig.name:
        yield Difference(0, "rig", was.order.rig.name, now.order.rig.name)
    for index, (first, second) in enumerate(zip(was.gears, now.gears, strict=True)):
        old, new = dict(_redone(was, first)), dict(_redone(now, second))
        for what in dict.fromkeys((*old, *new)):
            before, after = old.get(what, NOTHING), new.get(what, NOTHING)
            if before != after:
                yield Difference(index, what, before, after)


def _redone(made: Plan, gear: GearPlan) -> Iterator[tuple[str, str]]:
    """Everything of a plan that hangs on head, link and machine."""
    rig, way = made.order.rig, gear.indexing.chosen
    yield "head", f"{rig.head.ratio}:1"
    pulses = rig.pulses_per_turn()
    yield "pulses for a turn of the work", NOTHING if pulses is None else str(pulses)
    yield "dividing", NOTHING if way is None else way_key(way)
    if way is not None:
        yield "worst angle", f"{way.worst_error_arcsec:.2f}″"
    yield "error of the head", f"±{gear.indexing.head_error:.0f}″" + ("" if gear.indexing.head_measured else ", not measured")
    if gear.lead is not None:
        yield from _lead(gear)
    yield "set the helix by", gear.direction.swing if gear.gear.helix else NOTHING
    yield "feed of the table", gear.direction.feed
    yield "cutter speed", f"{gear.running.speeds.speed.value():.0f} rpm"
    yield "table feed", f"{gear.running.speeds.feed.value():.0f} mm/min"
    for rung in gear.running.ladder:
        dial = "no dial" if rung.dial is None else f"{rung.dial.turns} turns + {rung.dial.divisions:g}"
        yield f"knee dial, {rung.name}", dial
    if gear.running.job_minutes is not None:
        yield "time", f"{gear.running.job_minutes:.0f} min"


def _lead(gear: GearPlan) -> Iterator[tuple[str, str]]:
    lead = gear.lead
    assert lead is not None
    yield "lead made by", lead.by or NOTHING
    if lead.ratio is not None:
        facts = lead.ratio.facts()
        yield "link ratio", f"{facts['pulses']} pulses for {facts['counts']} counts"
    if lead.train is not None:
        train = lead.train.facts()
        yield "change gears", f"{train['drivers']} drive {train['driven']}"
    if lead.start_before is not None:
        yield "start before the blank", f"{lead.start_before:.2f} mm"


def _kept(was: Plan, now: Plan) -> Iterator[str]:
    """What is the same on both, so that it need not be thought through again."""
    for first, second in zip(was.gears, now.gears, strict=True):
        if first.figures == second.figures:
            yield f"sizes of the {first.gear.teeth} teeth"
        if first.blank == second.blank:
            yield f"blank, {first.blank.outside:.3f} mm"
        cutters = [None if one.tools.chosen is None else one.tools.chosen.cutter.name() for one in (first, second)]
        if cutters[0] is not None and cutters[0] == cutters[1]:
            yield f"cutter, {cutters[0]}"
        if first.form_cut == second.form_cut:
            yield "targets of span, pins and chord"
        if first.limits == second.limits:
            yield f"limits of class {first.tolerance_class}"
