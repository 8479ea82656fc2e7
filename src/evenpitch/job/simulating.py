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
from evenpitch.job.predicting import force_of
from evenpitch.link.filling import Filled, fill
from evenpitch.link.gearing import OnGear, on_gear
from evenpitch.link.motion import CrankFeed, Motion, PowerFeed
from evenpitch.link.notes import note
from evenpitch.link.passing import Linked, Pass, simulate_pass
from evenpitch.link.play import Dither, dither, opened
from evenpitch.link.pulse_train import Timing
from evenpitch.link.rates import rates
from evenpitch.link.resolution import take_up
from evenpitch.quantity.finding import Finding, by_weight
from evenpitch.quantity.refusal import refuse
from evenpitch.quantity.units import RADIAN_PER_ARCSEC, Millimetre, Second

POINTS = 120
"""Of the drawn curve."""
LONGEST = 3600.0
"""Seconds of one pass."""
OFFSET = 0.5
"""Where within a count the link begins; it moves the staircase, not its height."""
START = 1.0
"""Pulses a second from a standstill where the motor has no torque to start with."""
LAG_LOOK = 2.0
"""Micrometres of changing lag from which it is said."""


@dataclass(frozen=True, slots=True)
class Vibration:
    """A table that trembles: so far either way, mm, so often a second."""

    either_way: Millimetre
    per_second: float


@dataclass(frozen=True, slots=True, kw_only=True)
class AsSet:
    """What a pass is tried with beside the rig. `ramp`: the controller's acceleration limit, pulses/s², None: the drive takes any;
    `ramp_from`: where its ramp begins, pulses/s, None: what the motor takes from a standstill.

    `poll`: how often the controller looks, None: at every count; `open_play`: it begins with the play on the other side.
    """

    ramp: float | None = None
    ramp_from: float | None = None
    poll: Second | None = None
    open_play: bool = False
    vibration: Vibration | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Simulation:
    """One pass. `travel` mm; `error_um`: least and greatest at the pitch circle, + ahead; `swing_um`: what of it the changing lag makes.

    `track`: (mm, least µm, greatest µm) of each stretch, for the drawing; `behind_from` mm, or None; `delay` s, the longest.
    `take_up`: table travel that closes the play, mm; `start`: pulses a second without a ramp; `trembling`: None: a still table.
    """

    order: Order
    plan: GearPlan
    gear: OnGear
    filled: Filled
    as_set: AsSet
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
    take_up: float
    start: float
    trembling: Dither | None
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
            "take_up_mm": self.take_up,
            "play_open": self.as_set.open_play,
            "dither": None if self.trembling is None else self.trembling.facts(),
        }


def usual_motion(order: Order, gear: int = 0) -> Motion:
    """The table as this rig feeds it: the plan's feed, by hand as unevenly as is known of it, or by power."""
    made = plan(order).gears[gear]
    feeding = fill(order.rig, feed=made.running.speeds.feed.value() / 60).drive.feeding
    if feeding.unevenness == 0:
        return PowerFeed(feeding.mean)
    return CrankFeed(feeding.mean, feeding.unevenness, feeding.turns)


def simulate(order: Order, motion: Motion, *, gear: int = 0, as_set: AsSet = AsSet()) -> Simulation:
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
    start = as_set.ramp_from or rates(drive, on, float(feed), force_of(made)).start
    most = min(drive.pulse_rate, drive.motor_speed / 60 * drive.full_steps * drive.microsteps)
    link = Linked(
        count=float(drive.count),
        pulses=ratio.pulses,
        per_counts=ratio.counts,
        offset=OFFSET,
        pulses_per_turn=float(drive.pulses_per_turn),
        lead=on.lead,
        timing=Timing(
            latency=drive.latency, poll=as_set.poll, most=most, acceleration=as_set.ramp, start=min(start, most) or START
        ),
    )
    per_pulse = 2 * math.pi / link.pulses_per_turn
    result = opened(simulate_pass(motion, link, span), per_pulse, drive.backlash, other_side=as_set.open_play)
    return _told(order, made, on, filled, as_set, motion, ratio, travel, result, most, start)


def _told(
    order: Order,
    made: GearPlan,
    on: OnGear,
    filled: Filled,
    as_set: AsSet,
    motion: Motion,
    ratio: LinkRatio,
    travel: float,
    result: Pass,
    most: float,
    start: float,
) -> Simulation:
    um, drive = 1000 * on.radius, filled.drive
    middle = um * (result.before + result.after) / 2
    speeds = np.abs(motion.speed(np.linspace(0.0, result.span, 4001)))
    tangent = math.tan(on.helix)
    delay = result.longest_delay
    behind = result.behind_from(drive.latency + (as_set.poll or 0.0))
    shaken = as_set.vibration
    swing = 1000 * tangent * drive.latency * float(speeds.max() - speeds.min())
    low, high = result.error_range
    found = Simulation(
        order=order,
        plan=made,
        gear=on,
        filled=filled,
        as_set=as_set,
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
        take_up=take_up(drive.backlash, on.lead),
        start=start,
        trembling=None
        if shaken is None
        else dither(motion.place, result.span, shaken.either_way, shaken.per_second, float(drive.count)),
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
        um = abs(min(found.track, key=lambda stretch: stretch[1])[1])
        told.append(
            note(
                "falls-behind", place=found.behind_from, delay=found.delay * 1000, um=um, most=most, asked=per_mm * found.peak_feed,
                feed=60 * most / per_mm,
            )
        )  # fmt: skip
    else:
        told.append(note("keeps-up", delay=float(drive.latency) * 1000))
    told += _of_table(found)
    if found.swing_um > LAG_LOOK:
        told.append(note("lag-changes", delay=float(drive.latency) * 1000, um=found.swing_um))
    return by_weight(tuple(told))


def _of_table(found: Simulation) -> list[Finding]:
    """What the table asks of counter and play."""
    drive, told = found.filled.drive, []
    counts = found.peak_feed / float(drive.count)
    if counts > drive.count_rate:
        told.append(note("counts-too-fast", asked=counts, most=drive.count_rate, feed=60 * drive.count_rate * float(drive.count)))
    if found.as_set.open_play and found.take_up > 0:
        arcsec = drive.backlash / RADIAN_PER_ARCSEC
        um = 1000 * found.gear.radius * drive.backlash
        told.append(note("play-open", arcsec=arcsec, take_up=found.take_up, um=um, before=3 * found.take_up))
    shaken = found.trembling
    if shaken is not None and shaken.reversals:
        told.append(
            note(
                "counts-dither", um=1000 * shaken.either_way, hz=shaken.per_second, moves=shaken.moves, still=shaken.still,
                back=shaken.reversals, needed=shaken.hysteresis, s="" if shaken.hysteresis == 1 else "s",
            )
        )  # fmt: skip
    return told
