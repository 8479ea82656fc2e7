"""Speed, feed, depth, passes, time, and whether everything has room: figures and findings of one gear on one rig."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from evenpitch.cutting.blank import Blank
from evenpitch.cutting.depth import DepthLeft, Rung, depth_ladder, depth_left_table
from evenpitch.cutting.materials import Material
from evenpitch.cutting.passes import Cut, Pass, job_minutes, passes
from evenpitch.cutting.room import Room, room, table_end_comes_back
from evenpitch.cutting.speeds import SpeedAndFeed, speed_and_feed
from evenpitch.cutting.travel import minutes_per_space, travel_need, travel_per_space
from evenpitch.gear.formcut import depth_left
from evenpitch.gear.gear import Gear
from evenpitch.gear.span import nominal_span, spanned
from evenpitch.job.findings import finding
from evenpitch.job.order import Work
from evenpitch.job.tooling import Tooling
from evenpitch.quantity.finding import Finding
from evenpitch.quantity.units import Millimetre
from evenpitch.rig.rig import Rig

TABLE_ABOVE = Millimetre(0.16)
"""The depth-left table begins this much above the nominal span, where a roughed tooth stands; rounded to its row."""


@dataclass(frozen=True, slots=True)
class Running:
    """How the cut runs. `travel` and `minutes` are of one space; None where the face is not known."""

    speeds: SpeedAndFeed
    ladder: tuple[Rung, ...]
    left: tuple[DepthLeft, ...]
    passes: tuple[Pass, ...]
    travel: Millimetre | None
    minutes: float | None
    job_minutes: float | None
    room: Room


def running(
    work: Work,
    gear: Gear,
    rig: Rig,
    blank: Blank,
    material: Material | None,
    tools: Tooling,
    paper: Millimetre,
    target: Millimetre,
) -> tuple[Running, tuple[Finding, ...]]:
    """`target`: the span to reach, mm; `paper`: thickness of the touch paper, mm."""
    speeds = speed_and_feed(material, tools.outside, tools.teeth, rig.spindle.speeds, rig.spindle.feeds)
    depth = blank.depth_from_touch
    face = None if gear.face is None else Millimetre(gear.face * work.quantity)
    feed = Millimetre(speeds.feed.value())
    travel = None if face is None else travel_per_space(face, depth, tools.outside, gear.helix)
    cut = (
        None
        if face is None
        else Cut(
            teeth=gear.teeth,
            module=gear.module,
            face=face,
            depth=depth,
            cutter_outside=tools.outside,
            feed=feed,
            helix=gear.helix,
            spanned=spanned(gear),
        )
    )
    planned = () if cut is None else passes(cut, material)
    made = Running(
        speeds=speeds,
        ladder=depth_ladder(depth, paper, rig.table.knee_dial),
        left=_left(gear, target, rig, tools.outside),
        passes=planned,
        travel=travel,
        minutes=None if travel is None else minutes_per_space(travel, feed),
        job_minutes=job_minutes(planned) if planned else None,
        room=room(rig, blank.outside, tools.outside, depth),
    )
    return made, (*_speed(made, rig), *_reach(tools, rig, depth), *_room(made, gear, rig, blank), *_swung(gear, rig))


def _left(gear: Gear, target: Millimetre, rig: Rig, outside: Millimetre) -> tuple[DepthLeft, ...]:
    largest = Millimetre(max(nominal_span(gear, spanned(gear)), target) + TABLE_ABOVE)
    return depth_left_table(target, largest, lambda span: depth_left(gear, span, target, outside), rig.table.knee_dial)


def _speed(made: Running, rig: Rig) -> Iterator[Finding]:
    speed, feed = made.speeds.speed, made.speeds.feed
    if speed.has is None or feed.has is None:
        yield finding("speeds-unknown", rpm=speed.wanted, feed=feed.wanted)
    if speed.slowest_too_fast:
        yield finding("speed-too-fast", slowest=speed.value(), wanted=speed.wanted)


def _reach(tools: Tooling, rig: Rig, depth: Millimetre) -> Iterator[Finding]:
    """Whether the cutter's teeth stand far enough out of what carries it. Nothing is said of a cutter whose size is assumed."""
    on = max(
        ((size, what) for size, what in ((rig.spindle.collar, "collars"), (rig.spindle.arbor, "an arbor")) if size), default=None
    )
    if on is None or tools.chosen is None or tools.chosen.cutter.outside is None:
        return
    across, what = on
    reach = (tools.outside - across) / 2
    if reach <= depth:
        least = float(across + 2 * depth)
        yield finding(
            "cutter-too-small",
            outside=float(tools.outside),
            reach=reach,
            what=what,
            across=float(across),
            depth=float(depth),
            least=least,
        )


def _room(made: Running, gear: Gear, rig: Rig, blank: Blank) -> Iterator[Finding]:
    place, radius = made.room, blank.outside / 2
    if place.head_room is not None and rig.head.centre_height is not None and place.head_room <= 0:
        yield finding("head-room", radius=radius, centre=float(rig.head.centre_height))
    if place.collar_clears is not None and place.collar_clears <= 0:
        yield finding("tailstock-fouls", collar=float(place.collar or 0), top=float(place.tailstock or 0))
    if rig.table.knee_travel is not None and place.arbor > rig.table.knee_travel:
        yield finding("knee-short", need=float(place.arbor), most=float(rig.table.knee_travel))


def _swung(gear: Gear, rig: Rig) -> Iterator[Finding]:
    if not gear.helix:
        return
    if rig.table.helix_set_by == "milling head":
        yield finding("no-outer-support")
    elif rig.table.helix_set_by == "table" and rig.table.length is not None:
        back = table_end_comes_back(rig.table.length, gear.helix)
        yield finding("table-end", angle=math.degrees(gear.helix), back=float(back))


def travel_findings(made: Running, rig: Rig, start_before: Millimetre) -> Iterator[Finding]:
    """Travel of one space with its start before the blank, against the table and the scale."""
    scale = rig.link.scale_length if rig.link is not None else None
    if made.travel is not None:
        need = travel_need(made.travel, start_before, rig.table.travel, scale)
        if not need.fits():
            table, ruler = (math.inf if length is None else float(length) for length in (need.table, need.scale))
            what, most = ("the table", table) if table <= ruler else ("the scale", ruler)
            instead = (
                "Cut it in two settings, or on a longer table."
                if what == "the table"
                else "Move the reader, or fit a longer scale."
            )
            yield finding("travel-short", need=float(need.needed), what=what, most=most, instead=instead)
    if scale is not None and rig.table.travel is not None and scale < rig.table.travel:
        yield finding("scale-short", scale=float(scale), travel=float(rig.table.travel), over=float(rig.table.travel - scale))
