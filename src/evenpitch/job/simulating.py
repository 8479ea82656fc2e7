"""simulate(order, feed): does the link keep up in one pass?"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from evenpitch.dividing.link_ratio import LinkRatio, link_ratio
from evenpitch.gear.sizes import lead
from evenpitch.job.order import Order
from evenpitch.job.plan import GearPlan
from evenpitch.job.planning import plan
from evenpitch.link.filling import Filled, fill
from evenpitch.link.gearing import OnGear, on_gear
from evenpitch.link.motion import CrankFeed, Motion, PowerFeed
from evenpitch.link.notes import note
from evenpitch.link.passing import Linked, Pass, simulate_pass
from evenpitch.link.pulse_train import Timing
from evenpitch.quantity.finding import Finding, by_weight
from evenpitch.quantity.refusal import refuse

POINTS = 120
"""Of the drawn curve."""
LONGEST = 3600.0
"""Seconds of one pass."""
OFFSET = 0.5
"""Where within a count the link begins; it moves the staircase, not its height."""
LAG_LOOK = 2.0
"""Micrometres of changing lag from which it is said."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Simulation:
    """One pass. `travel` mm; `error_um`: least and greatest at the pitch circle, + ahead; `swing_um`: what of it the changing lag makes.

    `track`: (mm, least µm, greatest µm) of each stretch, for the drawing; `behind_from` mm, or None; `delay` s, the longest.
    """

    order: Order
    plan: GearPlan
    gear: OnGear
    filled: Filled
    motion: Motion
    ratio: LinkRatio
    travel: float
    made: Pass
    error_um: tuple[float, float]
    mean_um: float
    swing_um: float
    band_um: float
    behind_from: float | None
    delay: float
    peak_feed: float
    track: tuple[tuple[float, float, float], ...]
    findings: tuple[Finding, ...]

    def facts(self) -> dict[str, Any]:
        """Under the fixed keys of the machine-readable answer."""
        per_mm = float(self.filled.drive.pulses_per_turn) / self.gear.lead
        return {
            "pulses": self.made.pulses,
            "pulses_in_time": self.made.done,
            "seconds": self.made.span,
            "travel_mm": self.travel,
            "lag": {"longest_ms": self.delay * 1000, "mean_um": self.mean_um, "swing_um": self.swing_um},
            "error_range_um": {"least": self.error_um[0], "greatest": self.error_um[1], "staircase": self.band_um},
            "behind_from_mm": self.behind_from,
            "peak_pulse_rate": per_mm * self.peak_feed,
            "peak_motor_rpm": 60 * float(self.filled.drive.reduction) * self.peak_feed / self.gear.lead,
            "peak_counts_per_s": self.peak_feed / float(self.filled.drive.count),
        }


def simulate(order: Order, motion: Motion, *, gear: int = 0) -> Simulation:
    """One pass of one gear of the order, with the table moved so. A Refusal for a spur gear, where nothing is linked."""
    made = plan(order).gears[gear]
    if not made.gear.helix:
        raise refuse(
            "job",
            "a spur gear",
            "a helical gear",
            "The link turns the work only while a helix is cut.",
            "Simulate a helical job.",
        )
    if order.rig.link is None:
        raise refuse("rig, link", "", "a link", "The rig has none.", "Add it on the rig page; don't-knows are allowed.")
    on, feed = on_gear(made.gear), made.running.speeds.feed.value()
    filled = fill(order.rig, feed=feed / 60)
    travel = float(made.running.travel or on.face)
    span = float(motion.when([travel])[0]) if isinstance(motion, PowerFeed | CrankFeed) else float(motion.times[-1])
    if span > LONGEST:
        raise refuse(
            "feed", f"{span:.0f} s for one pass", f"at most {LONGEST:.0f} s", "The feed is very slow.", "Check its unit."
        )
    drive = filled.drive
    ratio = link_ratio(abs(lead(made.gear)), drive.pulses_per_turn, drive.count)
    most = min(drive.pulse_rate, drive.motor_speed / 60 * drive.full_steps * drive.microsteps)
    link = Linked(
        count=float(drive.count),
        pulses=ratio.pulses,
        per_counts=ratio.counts,
        offset=OFFSET,
        pulses_per_turn=float(drive.pulses_per_turn),
        lead=on.lead,
        timing=Timing(latency=drive.latency, most=most),
    )
    result = simulate_pass(motion, link, span)
    return _told(order, made, on, filled, motion, ratio, travel, result, most)


def _told(
    order: Order,
    made: GearPlan,
    on: OnGear,
    filled: Filled,
    motion: Motion,
    ratio: LinkRatio,
    travel: float,
    result: Pass,
    most: float,
) -> Simulation:
    um, drive = 1000 * on.radius, filled.drive
    middle = um * (result.before + result.after) / 2
    speeds = np.abs(motion.speed(np.linspace(0.0, result.span, 4001)))
    tangent = math.tan(on.helix)
    delay = result.longest_delay
    behind = result.behind_from(drive.latency)
    swing = 1000 * tangent * drive.latency * float(speeds.max() - speeds.min())
    low, high = result.error_range
    found = Simulation(
        order=order,
        plan=made,
        gear=on,
        filled=filled,
        motion=motion,
        ratio=ratio,
        travel=travel,
        made=result,
        error_um=(um * low, um * high),
        mean_um=float(middle.mean()) if len(middle) else um * (low + high) / 2,
        swing_um=swing,
        band_um=um * 2 * math.pi / float(drive.pulses_per_turn) + 1000 * float(drive.count) * tangent,
        behind_from=behind,
        delay=delay,
        peak_feed=float(speeds.max()),
        track=_track(result, um),
        findings=(),
    )
    return replace(found, findings=_findings(found, most))


def _track(result: Pass, um: float) -> tuple[tuple[float, float, float], ...]:
    """Least and greatest error of each stretch of the table."""
    if not len(result.place):
        return ()
    order = np.argsort(result.place, kind="stable")
    found = []
    for rows in np.array_split(order, min(POINTS, len(order))):
        low = um * float(min(result.before[rows].min(), result.after[rows].min()))
        high = um * float(max(result.before[rows].max(), result.after[rows].max()))
        found.append((float(result.place[rows].mean()), low, high))
    return tuple(found)


def _findings(found: Simulation, most: float) -> tuple[Finding, ...]:
    drive = found.filled.drive
    told = []
    if found.behind_from is not None:
        per_mm = float(drive.pulses_per_turn) / found.gear.lead
        um = abs(found.error_um[0])
        told.append(
            note(
                "falls-behind", place=found.behind_from, delay=found.delay * 1000, um=um, most=most, asked=per_mm * found.peak_feed,
                feed=60 * most / per_mm,
            )
        )  # fmt: skip
    else:
        told.append(note("keeps-up", delay=float(drive.latency) * 1000))
    if found.swing_um > LAG_LOOK:
        told.append(note("lag-changes", delay=float(drive.latency) * 1000, um=found.swing_um))
    return by_weight(tuple(told))
