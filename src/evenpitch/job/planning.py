"""plan(order): how do I make it on my rig? Each part is chosen in its own file; here they are put together."""

from __future__ import annotations

from dataclasses import replace

from evenpitch.cutting.speeds import cutter_speed, table_feed
from evenpitch.cutting.travel import minutes_per_space
from evenpitch.dividing.lead_pair import LeadPair
from evenpitch.dividing.methods import Differential, PlatePulses, Pulses
from evenpitch.gear.check import faults_of
from evenpitch.gear.figures import figures
from evenpitch.gear.limits import tolerances
from evenpitch.gear.span import span_target, spanned
from evenpitch.job.blanking import blanking
from evenpitch.job.cautions import cautions
from evenpitch.job.direction import Direction, direction
from evenpitch.job.findings import finding
from evenpitch.job.gear_question import class_findings, shape_findings
from evenpitch.job.indexing import indexing
from evenpitch.job.leading import LeadPlan, feed_findings, joint_trains, lead_figures, leading
from evenpitch.job.measuring import measuring, with_pin
from evenpitch.job.order import Order, Work
from evenpitch.job.pairing import pairing
from evenpitch.job.plan import GearPlan, Plan
from evenpitch.job.running import Running, running, travel_findings
from evenpitch.job.size_doubts import size_faults, size_findings
from evenpitch.job.tooling import Tooling, tooling
from evenpitch.quantity.figure import Figure, figure
from evenpitch.quantity.finding import Finding, by_weight
from evenpitch.quantity.refusal import Fault, Refusal
from evenpitch.quantity.units import Millimetre

USUAL_CLASS = 8
"""Class where the drawing names none: usual for a change gear; common practice."""


def plan(order: Order) -> Plan:
    """The plan of an order; a Refusal with every fault where a gear of it cannot be."""
    _refuse_impossible(order)
    pair, pair_findings = pairing(order) if len(order.works) == 2 else (None, ())
    joint = joint_trains(order)
    gears = tuple(_gear_plan(order, work, index, joint) for index, work in enumerate(order.works))
    linked = any(_uses_motor(gear) for gear in gears)
    geared = any(_uses_gears(gear) for gear in gears)
    told = [found for gear in gears for found in gear.findings]
    whole = by_weight((*pair_findings, *dict.fromkeys(told), finding("strength")))
    return Plan(order=order, gears=gears, pair=pair, cautions=cautions(order.rig, linked=linked, geared=geared), findings=whole)


def _refuse_impossible(order: Order) -> None:
    faults: list[Fault] = []
    for index, work in enumerate(order.works):
        where = f"gear.{index}"
        found = [replace(fault, field=f"{where}.{fault.field}") for fault in faults_of(work.gear)]
        faults += found or size_faults(work, where)
    if faults:
        raise Refusal(*faults)


def _uses_motor(gear: GearPlan) -> bool:
    by_link = gear.lead is not None and gear.lead.by == "link"
    return by_link or isinstance(gear.indexing.chosen, Pulses | PlatePulses)


def _uses_gears(gear: GearPlan) -> bool:
    by_gears = gear.lead is not None and gear.lead.by == "change gears"
    return by_gears or isinstance(gear.indexing.chosen, Differential)


def _gear_plan(order: Order, work: Work, index: int, joint: tuple[LeadPair, ...]) -> GearPlan:
    rig, gear = order.rig, with_pin(work.gear, order.rig)
    cls = gear.tolerance_class or USUAL_CLASS
    limits = tolerances(gear, cls)
    limit = {found.name: float(found.value) for found in limits if not isinstance(found.value, str)}
    blank, material, blank_findings = blanking(work, gear)
    tools, tool_findings = tooling(order, gear, Millimetre(limit["profile_total"] / 1000), cls)
    cutter_outside = tools.outside
    lead, lead_findings = leading(order, gear, index, limit.get("helix_slope"), cls, joint)
    divided, divide_findings = indexing(gear, rig, order.choice, lead.by if lead else None, cls, limit["single_pitch"])
    target = span_target(gear, spanned(gear))
    checks, form_cut, measure_findings = measuring(work, gear, rig, cutter_outside)
    run, run_findings = running(work, gear, rig, blank, material, tools, order.choice.paper_thickness, target)
    start = lead.start_before if lead and lead.start_before else Millimetre(0.0)
    found = (
        *shape_findings(gear),
        *size_findings(gear, rig),
        *blank_findings,
        *tool_findings,
        *lead_findings,
        *divide_findings,
        *run_findings,
        *feed_findings(lead, rig, run.speeds.feed.value()),
        *travel_findings(run, rig, start),
        *measure_findings,
        *_class(gear.tolerance_class, cls),
        *class_findings(gear, cls),
        *(() if gear.thinning or order.pair else (finding("thinning-none"),)),
    )
    swung = direction(gear.hand, gear.helix, rig.table.helix_set_by)
    own = (*figures(gear, cutter_outside=cutter_outside), *_swing(swung))
    return GearPlan(
        work=work,
        gear=gear,
        figures=_figures(own, run, tools, blank.depth_from_touch, lead, order),
        limits=limits,
        tolerance_class=cls,
        class_named=gear.tolerance_class is not None,
        blank=blank,
        material=material,
        tools=tools,
        indexing=divided,
        lead=lead,
        form_cut=form_cut,
        running=run,
        checks=checks,
        direction=swung,
        findings=by_weight(found),
    )


def _class(named: int | None, cls: int) -> tuple[Finding, ...]:
    return () if named is not None else (finding("class-assumed", cls=cls),)


def _swing(swung: Direction) -> tuple[Figure, ...]:
    """How far table or milling head is swung; nothing where the machine swings neither, and the plan is stopped for it."""
    if swung.set_by == "neither":
        return ()
    return (figure("table_swing", swung.swing_degrees, "deg", by=direction, note=swung.swing),)


def _figures(
    of_gear: tuple[Figure, ...], run: Running, tools: Tooling, depth: Millimetre, lead: LeadPlan | None, order: Order
) -> tuple[Figure, ...]:
    speeds = run.speeds
    cutter = (("D", f"{tools.outside:.4g} mm"), ("V", f"{speeds.surface:g} ft/min"))
    note = f"wanted {speeds.speed.wanted:.1f} rpm; nearest lower of the machine"
    made = [
        *of_gear,
        figure(
            "depth_from_touch",
            float(depth),
            "mm",
            sources=("derived here",),
            note="from metal; less half of what the blank is under",
        ),
        figure("cutter_speed", float(speeds.speed.value()), "rpm", by=cutter_speed, inputs=cutter, note=note),
        figure(
            "table_feed",
            float(speeds.feed.value()),
            "mm/min",
            by=table_feed,
            inputs=(("chip", f"{speeds.chip:.4g} mm"), ("teeth", str(speeds.teeth)), ("n", f"{speeds.speed.wanted:.1f} rpm")),
            note=f"wanted {speeds.feed.wanted:.0f} mm/min; nearest lower of the machine",
        ),
    ]
    if run.minutes is not None and run.travel is not None:
        inputs = (("travel", f"{run.travel:.1f} mm"), ("feed", f"{speeds.feed.value():.0f} mm/min"))
        made.append(figure("time_per_space", run.minutes * 60, "s", by=minutes_per_space, inputs=inputs))
    if run.job_minutes is not None:
        made.append(figure("job_time", run.job_minutes * 60, "s", sources=("common practice",), note="all whole rounds"))
    pulses = order.rig.pulses_per_turn()
    if pulses is not None:
        whole = pulses.numerator if pulses.denominator == 1 else pulses
        made.append(figure("pulses_per_turn", whole, "", sources=("derived here",), note="full steps × microsteps × belt × worm"))
    return (*made, *(lead_figures(lead) if lead else ()))
