"""How fast everything goes at a feed, and how fast the table may go: every limit with its reason, the least binds."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from evenpitch.link.drive import Drive
from evenpitch.link.gearing import OnGear
from evenpitch.link.holding import start_rate
from evenpitch.link.torque_curve import peak_torque, torque_at
from evenpitch.link.worm import inertia_at_motor, motor_torque, work_torque
from evenpitch.quantity.units import Millimetre, Newton
from evenpitch.sources.citations import cites

PULSE_SHARE = 0.8
"""Share of the drive's largest pulse rate that is used; common practice."""

COUNT_SHARE = 0.5
"""Share of the largest count rate that is used; common practice."""

TORQUE_FACTOR = 2.0
"""Torque there is over torque needed, at least; common practice: resonance is outside the model."""

FASTEST = 20_000.0
"""Feed in mm/min up to which a limit is looked for."""

ForceAt = Callable[[float], Newton]
"""Peak cutting force at a feed in mm/min."""


@cites("derived here", formula="f = N_w v/L")
def pulse_rate(pulses_per_turn: Fraction, lead: Millimetre, feed: float) -> float:
    """Pulses a second at a feed in mm/s."""
    return float(pulses_per_turn) * feed / lead


@cites("derived here", formula="n = 60 i_w i_b v/L")
def motor_rpm(reduction: Fraction, lead: Millimetre, feed: float) -> float:
    """Speed of the motor in rpm at a feed in mm/s."""
    return 60 * float(reduction) * feed / lead


@cites("derived here", formula="L = N_w v/f")
def shortest_lead(pulses_per_turn: Fraction, feed: float, rate: float) -> Millimetre:
    """Lead below which a pulse rate is passed at a feed in mm/s; infinite where the rate is 0."""
    return Millimetre(float(pulses_per_turn) * feed / rate if rate else math.inf)


@cites("derived here", formula="y = v τ tan β_b")
def lag_length(feed: float, latency: float, tangent: float) -> float:
    """How far the flank stands behind at a feed in mm/s, mm; the same for every tooth as long as the feed is the same."""
    return feed * latency * tangent


@cites("common practice", formula="v_peak = v_0 (1 + k),  a = 2π f k v_0")
def crank_peak(mean: float, unevenness: float, turns: float) -> tuple[float, float]:
    """Largest feed mm/s and largest acceleration mm/s² of a hand on the crank."""
    return mean * (1 + unevenness), 2 * math.pi * turns * unevenness * mean


@dataclass(frozen=True, slots=True)
class FeedLimit:
    """One limit of the feed, mm/min, and what sets it."""

    feed: float
    reason: str
    words: str


@dataclass(frozen=True, slots=True)
class Rates:
    """At one feed (mm/min): pulses a second, rpm of the motor, counts a second; torque in Nm; `limits` rising, the first binds.

    `factor`: torque the motor has at that speed over torque needed; `start`: pulses a second without a ramp.
    `least_lead`: with a ramp; `least_lead_start`: without one.
    """

    feed: float
    pulses: float
    rpm: float
    counts: float
    torque_needed: float
    torque_there: float
    factor: float
    start: float
    least_lead: Millimetre
    least_lead_start: Millimetre
    limits: tuple[FeedLimit, ...]
    rapid: tuple[float, float, float] | None

    @property
    def fastest(self) -> FeedLimit:
        """The limit that binds."""
        return self.limits[0]


def torque_factor(drive: Drive, gear: OnGear, feed: float, force: Newton) -> float:
    """Torque there is over torque needed at a feed in mm/min."""
    rpm = motor_rpm(drive.reduction, gear.lead, feed / 60)
    needed = motor_torque(drive, work_torque(gear, force))
    return torque_at(drive.windings, rpm) / needed if needed > 0 else math.inf


def feed_for_factor(drive: Drive, gear: OnGear, force_at: ForceAt, factor: float = TORQUE_FACTOR) -> float | None:
    """Feed in mm/min up to which the torque factor holds; None where it holds at any feed, 0 where at none."""

    def holds(feed: float) -> bool:
        return torque_factor(drive, gear, feed, force_at(feed)) >= factor

    if holds(FASTEST):
        return None
    low, high = 0.01, FASTEST
    if not holds(low):
        return 0.0
    for _ in range(60):
        middle = math.sqrt(low * high)
        low, high = (middle, high) if holds(middle) else (low, middle)
    return low


def feed_limits(drive: Drive, gear: OnGear, force_at: ForceAt | None, lag_allowed: float | None) -> tuple[FeedLimit, ...]:
    """Every limit, the least first. `lag_allowed`: mm that the flank may move where the feed changes by its unevenness."""
    pulses, lead = drive.pulses_per_turn, gear.lead
    found = [
        FeedLimit(
            PULSE_SHARE * drive.pulse_rate * lead / float(pulses) * 60,
            "pulse rate",
            f"{PULSE_SHARE:g} of the drive's {drive.pulse_rate:.0f} pulses a second",
        ),
        FeedLimit(
            drive.motor_speed / 60 * lead / float(drive.reduction) * 60,
            "motor speed",
            f"{drive.motor_speed:.0f} rpm of the motor",
        ),
        FeedLimit(
            COUNT_SHARE * float(drive.count) * drive.count_rate * 60,
            "count rate",
            f"{COUNT_SHARE:g} of the {drive.count_rate:.0f} counts a second that the link takes",
        ),
    ]
    by_torque = feed_for_factor(drive, gear, force_at) if force_at is not None else None
    if by_torque is not None:
        found.append(FeedLimit(by_torque, "torque", f"torque factor {TORQUE_FACTOR:g} in the cut"))
    change = drive.feeding.unevenness + drive.feeding.difference
    if lag_allowed is not None and drive.latency > 0 and change > 0:
        by_lag = lag_allowed / (drive.latency * gear.tan_base * change) * 60
        found.append(FeedLimit(by_lag, "lag", f"lag that changes by {lag_allowed * 1000:.1f} µm with the feed"))
    return tuple(sorted(found, key=lambda limit: limit.feed))


def rates(
    drive: Drive,
    gear: OnGear,
    feed: float,
    force_at: ForceAt | None = None,
    *,
    lag_allowed: float | None = None,
    rapid: float | None = None,
) -> Rates:
    """Everything that goes with a feed in mm/min on a helical gear. `rapid`: rapid traverse of the table, mm/min."""
    per_second, force = feed / 60, Newton(0.0) if force_at is None else force_at(feed)
    rpm = motor_rpm(drive.reduction, gear.lead, per_second)
    needed, there = motor_torque(drive, work_torque(gear, force)), torque_at(drive.windings, rpm)
    start = drive.start_stop or start_rate(
        peak_torque(drive.windings), needed, inertia_at_motor(drive), drive.microsteps, drive.full_steps
    )
    pulses = drive.pulses_per_turn
    fast = None
    if rapid is not None:
        fast = (rapid, pulse_rate(pulses, gear.lead, rapid / 60), motor_rpm(drive.reduction, gear.lead, rapid / 60))
    return Rates(
        feed=feed,
        pulses=pulse_rate(pulses, gear.lead, per_second),
        rpm=rpm,
        counts=per_second / float(drive.count),
        torque_needed=needed,
        torque_there=there,
        factor=there / needed if needed > 0 else math.inf,
        start=start,
        least_lead=shortest_lead(pulses, per_second, PULSE_SHARE * drive.pulse_rate),
        least_lead_start=shortest_lead(pulses, per_second, start),
        limits=feed_limits(drive, gear, force_at, lag_allowed),
        rapid=fast,
    )


@cites("derived here", "common practice", formula="tan β_r > 1")
def turn_by_hand(gear: OnGear) -> bool:
    """Whether the helix at the pitch circle is so steep that the work should be turned and the table let follow."""
    return math.tan(gear.helix) > 1.0


@cites("derived here", formula="dx sin β_r ≤ dx")
def normal_shift(table_error: float, radius: float, lead: Millimetre) -> float:
    """How far a table error displaces the groove square to itself: never more than the error, however short the lead."""
    return table_error * math.sin(math.atan(2 * math.pi * radius / lead))
