"""Choose how the helix is made: by the link or by change gears, both judged in micrometres over the face; a pair jointly."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from evenpitch.cutting.room import rapid_load
from evenpitch.cutting.travel import TAKE_UP_TIMES, take_up
from evenpitch.dividing.lead import SHORT_LEAD, Helix, LeadTrain, machine_lead, trains_for_lead
from evenpitch.dividing.lead_pair import LeadPair, lead_pairs
from evenpitch.dividing.link_ratio import DecimalTrap, LinkRatio, decimal_traps, link_pair, link_ratio, simpler_ratios
from evenpitch.gear.gear import Gear
from evenpitch.gear.sizes import base_helix, lead, pitch_diameter
from evenpitch.job.findings import finding
from evenpitch.job.leads_asked import beyond_the_gears, lead_short
from evenpitch.job.order import Order, Train
from evenpitch.quantity.figure import Figure, figure
from evenpitch.quantity.finding import Finding
from evenpitch.quantity.units import Millimetre
from evenpitch.rig.rig import Rig

FEED_SHARE = 0.8
"""Share of the drive's largest pulse rate that is used; common practice."""
COUNT_SHARE = 0.5
"""Share of the counter's largest rate that is used; common practice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LeadPlan:
    """How the helix of one gear is made. `by` None: the rig has nothing. Slopes in µm over the face; lengths in mm.

    `trains`: best first; `train`: the one of the plan, where change gears are used or may be fallen back on; `pairs`: chosen jointly.
    `ratio`: the nearest the fields hold; `simpler`: smaller numbers; `pair_ratio`: with the mate's same relative error; `traps`: decimals.
    `count`: table travel of one count, mm. `take_up`: of the head's backlash; `start_before`: how far before the blank to start.
    """

    lead: Millimetre
    machine_lead: Fraction | None
    by: Literal["link", "change gears"] | None
    reason: str
    trains: tuple[LeadTrain, ...] = ()
    train: LeadTrain | None = None
    pairs: tuple[LeadPair, ...] = ()
    ratio: LinkRatio | None = None
    simpler: tuple[LinkRatio, ...] = ()
    pair_ratio: LinkRatio | None = None
    traps: tuple[DecimalTrap, ...] = ()
    pulses_per_turn: Fraction | None = None
    count: Fraction | None = None
    slope_limit: float | None = None
    take_up: Millimetre | None = None
    start_before: Millimetre | None = None


def exact(length: float) -> Fraction:
    """A typed length that was kept as a float, as the fraction it was typed as: within a millionth of a millimetre."""
    return Fraction(length).limit_denominator(1_000_000)


def joint_trains(order: Order) -> tuple[LeadPair, ...]:
    """Change gears for both gears of a helical pair, chosen together; empty where there is nothing to choose."""
    rig = order.rig
    if len(order.works) != 2 or rig.table.screw_lead is None or not rig.change_gears.teeth:
        return ()
    first, second = (work.gear for work in order.works)
    if not first.helix or not second.helix:
        return ()
    screw = exact(rig.table.screw_lead)
    return lead_pairs(
        lead(first), lead(second), rig.head, screw, rig.change_gears, helix=_helix(first), second_helix=_helix(second)
    )


def _helix(gear: Gear) -> Helix | None:
    return None if gear.face is None else Helix(face=gear.face, base_helix=base_helix(gear))


def leading(
    order: Order, gear: Gear, index: int, slope_limit: float | None, cls: int, joint: tuple[LeadPair, ...]
) -> tuple[LeadPlan | None, tuple[Finding, ...]]:
    """None for a spur gear. `index`: which gear of the order; `slope_limit`: helix slope of class `cls`, µm."""
    if not gear.helix:
        return None, ()
    rig, wanted = order.rig, lead(gear)
    screw = None if rig.table.screw_lead is None else exact(rig.table.screw_lead)
    trains: tuple[LeadTrain, ...] = ()
    if screw is not None and rig.change_gears.teeth:
        trains = trains_for_lead(wanted, rig.head, screw, rig.change_gears, helix=_helix(gear))
    ratio, simpler, traps = _ratios(rig, gear, wanted)
    by, reason = _by(order, ratio, trains)
    up = None if rig.head.backlash is None else take_up(rig.head.backlash, wanted)
    made = LeadPlan(
        lead=wanted,
        machine_lead=None if screw is None else machine_lead(rig.head, screw),
        by=by,
        reason=reason,
        trains=trains,
        train=_train(order.choice.train, trains, index, joint, by),
        pairs=joint,
        ratio=ratio,
        simpler=simpler,
        pair_ratio=_pair_ratio(order, index),
        traps=traps,
        pulses_per_turn=rig.pulses_per_turn(),
        count=rig.link.count if rig.link else None,
        slope_limit=slope_limit,
        take_up=up,
        start_before=None if up is None else Millimetre(TAKE_UP_TIMES * up),
    )
    return made, (*_machine(rig, gear), *_ways(made, rig, cls), *_short(made, rig), *_link(made, rig, gear))


def _ratios(rig: Rig, gear: Gear, wanted: Millimetre) -> tuple[LinkRatio | None, tuple[LinkRatio, ...], tuple[DecimalTrap, ...]]:
    pulses = rig.pulses_per_turn()
    if pulses is None or rig.link is None or rig.link.count is None:
        return None, (), ()
    helix, count = _helix(gear), rig.link.count
    return (
        link_ratio(wanted, pulses, count, helix=helix),
        simpler_ratios(wanted, pulses, count, helix=helix),
        decimal_traps(wanted, pulses, count, helix=helix),
    )


def _pair_ratio(order: Order, index: int) -> LinkRatio | None:
    """For a pair the ratio that keeps the two leads in exact proportion."""
    rig, gears = order.rig, [work.gear for work in order.works]
    pulses = rig.pulses_per_turn()
    if len(gears) != 2 or not all(gear.helix for gear in gears) or pulses is None or rig.link is None or rig.link.count is None:
        return None
    leads = [lead(gear) for gear in gears]
    both = link_pair(leads[0], leads[1], pulses, rig.link.count, helix=_helix(gears[0]), second_helix=_helix(gears[1]))
    return None if both is None else both[index]


def _by(
    order: Order, ratio: LinkRatio | None, trains: tuple[LeadTrain, ...]
) -> tuple[Literal["link", "change gears"] | None, str]:
    asked = order.choice.lead
    can = {"link": ratio is not None, "change gears": bool(trains)}
    if asked is not None and can[asked]:
        return asked, "as you chose"
    if can["link"]:
        return "link", "any lead, to the rounding of a pulse"
    if can["change gears"]:
        return "change gears", "the rig has no link whose pulses and counts are known"
    return None, "nothing on this rig turns the work as the table moves"


def _train(
    asked: Train | None, trains: tuple[LeadTrain, ...], index: int, joint: tuple[LeadPair, ...], by: str | None
) -> LeadTrain | None:
    if asked is not None:
        for found in trains:
            if (sorted(found.train.drivers), sorted(found.train.driven)) == (sorted(asked.drivers), sorted(asked.driven)):
                return found
    if joint and by == "change gears":
        return joint[0].first if index == 0 else joint[0].second
    return trains[0] if trains else None


def _machine(rig: Rig, gear: Gear) -> Iterator[Finding]:
    table, angle = rig.table, math.degrees(gear.helix)
    if table.helix_set_by == "neither":
        yield finding("no-helix")
    elif table.helix_set_by is None:
        yield finding("helix-way-unknown")
    elif table.swing is not None and gear.helix > table.swing + 1e-9:
        yield finding("swing-beyond", need=angle, part=table.helix_set_by, most=math.degrees(table.swing))


def _ways(made: LeadPlan, rig: Rig, cls: int) -> Iterator[Finding]:
    if rig.table.screw_lead is None and rig.change_gears.teeth:
        yield finding("screw-lead-missing")
    if made.by is None:
        yield finding("no-lead")
    slope = made.train.helix_slope_um if made.train is not None else None
    if made.by == "change gears" and slope is not None and made.slope_limit is not None and slope > made.slope_limit:
        by_link = made.ratio is not None
        instead = "Let the link make the lead." if by_link else "Cut the mate by the pair's own lead, or add change gears."
        yield finding("lead-gears-coarse", um=slope, cls=cls, limit=made.slope_limit, instead=instead)


def _short(made: LeadPlan, rig: Rig) -> Iterator[Finding]:
    if made.lead < SHORT_LEAD:
        yield lead_short(float(made.lead), made.machine_lead)
    if made.by == "change gears" and made.machine_lead is not None:
        yield from beyond_the_gears(made.lead, made.machine_lead, rig.change_gears)


def _link(made: LeadPlan, rig: Rig, gear: Gear) -> Iterator[Finding]:
    link, pulses = rig.link, made.pulses_per_turn
    if made.by != "link" or link is None or pulses is None or made.count is None:
        return
    if made.take_up is not None and made.start_before is not None:
        yield finding("take-up", table=float(made.take_up), start=float(made.start_before))
    tangent = math.tan(base_helix(gear))
    if link.input == "screw encoder":
        yield finding("screw-lash", um_per_um=tangent)
    pulse, count = pitch_diameter(gear) * math.pi * 1000 / float(pulses), float(made.count) * 1000 * math.tan(gear.helix)
    if count > pulse:
        yield finding("count-coarse", clump=float(pulses * made.count) / made.lead, um=count, pulse=pulse)
    yield from _rates(made, rig, pulses)


def _rates(made: LeadPlan, rig: Rig, pulses: Fraction) -> Iterator[Finding]:
    link = rig.link
    assert link is not None
    per_motor = link.full_steps * link.microsteps if link.full_steps and link.microsteps else None
    limits = _feed_limits(rig, made.lead)
    if rig.table.rapid is not None:
        load = rapid_load(rig.table.rapid, pulses, made.lead, per_motor)
        if load.motor_speed is not None:
            beyond = limits and rig.table.rapid > limits[0][0]
            what = f"That is beyond {limits[0][1]}." if beyond else "The work spins with the table."
            yield finding("rapid", rapid=rig.table.rapid, pulses=load.pulses_per_second, rpm=load.motor_speed, limit=what)


def fastest_feed(rig: Rig, lead_mm: Millimetre) -> float | None:
    """Fastest table feed, mm/min, that the link's motor, drive and counter follow at a lead; None where no limit is known."""
    limits = _feed_limits(rig, lead_mm)
    return limits[0][0] if limits else None


def _feed_limits(rig: Rig, lead_mm: Millimetre) -> list[tuple[float, str]]:
    """What limits the table feed, mm/min, each with its words, the lowest first."""
    link, pulses = rig.link, rig.pulses_per_turn()
    if link is None or pulses is None:
        return []
    found = []
    if link.largest_speed is not None and link.full_steps and link.microsteps:
        speed = link.largest_speed * link.full_steps * link.microsteps * lead_mm / float(pulses)
        found.append((speed, f"the motor's {link.largest_speed:.0f} rpm"))
    if link.largest_pulse_rate is not None:
        rate = FEED_SHARE * link.largest_pulse_rate * 60 * lead_mm / float(pulses)
        found.append((rate, f"{FEED_SHARE:.0%} of the drive's {link.largest_pulse_rate:.0f} pulses/s"))
    if link.largest_count_rate is not None and link.count is not None:
        counted = COUNT_SHARE * link.largest_count_rate * 60 * float(link.count)
        found.append((counted, f"{COUNT_SHARE:.0%} of the counter's {link.largest_count_rate:.0f} counts/s"))
    return sorted(found)


def feed_findings(made: LeadPlan | None, rig: Rig, feed: float) -> tuple[Finding, ...]:
    """Whether the motor follows the feed of the cut, mm/min."""
    if made is None or made.by != "link" or made.pulses_per_turn is None:
        return ()
    limits, link = _feed_limits(rig, made.lead), rig.link
    if not limits or link is None or feed <= limits[0][0]:
        return ()
    rate = feed / 60 * float(made.pulses_per_turn) / made.lead
    speed = 60 * rate / (link.full_steps * link.microsteps) if link.full_steps and link.microsteps else 0.0
    most, limit = limits[0]
    return (finding("motor-too-fast", feed=feed, rpm=speed, pulses=rate, limit=limit, most=most),)


def lead_figures(made: LeadPlan) -> tuple[Figure, ...]:
    """The link's own figures: pulses for each mm and for each count of the scale."""
    if made.pulses_per_turn is None:
        return ()
    per_mm = float(made.pulses_per_turn) / made.lead
    inputs = (("N", str(made.pulses_per_turn)), ("p_z", f"{made.lead:.6f} mm"))
    found = [figure("pulses_per_mm", per_mm, "", sources=("derived here",), inputs=inputs)]
    if made.count is not None:
        count = (*inputs, ("count", f"{float(made.count):g} mm"))
        found.append(figure("pulses_per_count", per_mm * float(made.count), "", sources=("derived here",), inputs=count))
    return tuple(found)
