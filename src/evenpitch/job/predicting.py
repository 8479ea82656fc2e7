"""predict(order): what will this rig leave on the gear, what spoils it, and what is worth mending?"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from evenpitch.checking.compensation import targets_without_map
from evenpitch.cutting.force import Engagement, mean_space_width, peak_force
from evenpitch.dividing.link_ratio import LARGEST, LinkRatio, link_ratio
from evenpitch.gear.gear import Gear
from evenpitch.gear.limits import profile_total, rounded
from evenpitch.gear.sizes import lead, pitch_diameter, whole_depth
from evenpitch.job.order import Order
from evenpitch.job.plan import GearPlan
from evenpitch.job.planning import plan
from evenpitch.link.budget import Budget, budget
from evenpitch.link.draws import DRAWS, Progress
from evenpitch.link.drive import Drive
from evenpitch.link.filling import Filled, fill
from evenpitch.link.gearing import OnGear, on_gear
from evenpitch.link.holding import Stiffness, stiffness
from evenpitch.link.improvements import DRAWS as IMPROVING
from evenpitch.link.improvements import Bought, Doubt, doubts, what_it_buys
from evenpitch.link.prediction import Expected, expect
from evenpitch.link.rates import ForceAt, Rates, rates
from evenpitch.link.resolution import Resolution, resolution
from evenpitch.link.torque_curve import curve
from evenpitch.link.worm import Seating, seating
from evenpitch.quantity.finding import Finding
from evenpitch.quantity.ratios import absolute_targets, round_half_up
from evenpitch.quantity.units import Millimetre, Newton

STEEL = (1700.0, 0.25)
"""Specific cutting force (N/mm², exponent) of medium steel, for materials whose own is not known; from memory."""

LAG_SHARE = 0.5
"""Part of the slope limit that a changing lag may use; common practice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Prediction:
    """`wanted`: the class asked for; `asked`: how many gears were to be drawn; `fields`: largest pulses and counts of a ratio.

    Of a spur gear, or without a link, `rates` is None: nothing turns while a space is cut.

    `form_um`: what the cutter of the plan leaves on the tooth form, µm, or None; `form_limit`: of the class wanted.
    `torque`: (rpm, Nm) for the chart.
    """

    order: Order
    plan: GearPlan
    gear: OnGear
    filled: Filled
    asked: int
    ratio: LinkRatio | None
    fields: tuple[int, int]
    wanted: int
    expected: Expected
    budget: Budget
    resolution: Resolution | None
    rates: Rates | None
    stiffness: Stiffness | None
    seating: Seating
    bought: tuple[Bought, ...]
    doubts: tuple[Doubt, ...]
    form_um: float | None
    form_limit: float
    torque: tuple[tuple[float, float], ...]
    findings: tuple[Finding, ...]

    def sentence(self) -> str:
        """The one sentence: class, probability, what decides, what would help."""
        found, best = self.expected, self.best()
        q = found.decides()
        cls = f"class {found.class95}" if found.class95 <= 11 else "no class of the standard"
        told = f"Expect {cls} in spacing and helix, in 95 of 100 gears"
        told += f"; class {self.wanted}, which you want, with probability {found.chance(self.wanted):.2f}"
        told += f". {q.symbol.replace('_beta', 'β').replace('_', '')} decides, {q.p95:.1f} µm; largest is {self.budget.largest().name}"
        return told + (
            f". {best.words[0].upper()}{best.words[1:]}: {best.after:.1f} µm." if best is not None and best.gain > 0.05 else "."
        )

    def best(self) -> Bought | None:
        """The improvement that helps most."""
        return self.bought[0] if self.bought else None

    def facts(self) -> dict[str, Any]:
        """Under the fixed keys of the machine-readable answer."""
        return {
            "sentence": self.sentence(),
            **self.expected.facts(),
            "class_wanted": self.wanted,
            "budget": [source.facts() for source in self.budget.sources],
            "slope_u_um": self.budget.slope_u_um,
            "limits": _limits(self.rates),
            "resolution": _resolution(self.resolution),
            "improvements": [one.facts() for one in self.bought],
            "assumed": [doubt.facts() for doubt in self.doubts],
            "form_um": self.form_um,
        }


def _limits(found: Rates | None) -> dict[str, Any] | None:
    if found is None:
        return None
    told: dict[str, Any] = {
        "feed": {"mm_per_min": found.fastest.feed, "reason": found.fastest.reason, "at_mm_per_min": found.feed},
        "pulse_rate": found.pulses,
        "motor_rpm": found.rpm,
        "counts_per_s": found.counts,
        "torque_needed_Nm": found.torque_needed,
        "torque_there_Nm": found.torque_there,
        "torque_factor": found.factor if math.isfinite(found.factor) else None,
        "start_without_ramp": found.start,
        "shortest_lead_mm": float(found.least_lead),
        "shortest_lead_without_ramp_mm": float(found.least_lead_start) if math.isfinite(found.least_lead_start) else None,
        "all": [{"mm_per_min": limit.feed, "reason": limit.reason, "words": limit.words} for limit in found.limits],
    }
    if found.rapid is not None:
        told["rapid"] = {"mm_per_min": found.rapid[0], "pulse_rate": found.rapid[1], "motor_rpm": found.rapid[2]}
    return told


def _resolution(found: Resolution | None) -> dict[str, Any] | None:
    if found is None:
        return None
    return {
        "pulses_per_turn": found.pulses_per_turn, "pulses_per_space": found.per_space, "pulse_arcsec": found.arcsec,
        "pulse_um": found.pulse_um, "f_p_um": found.single_um, "F_p_um": found.cumulative_um, "band_um": found.band,
        "pulses_per_mm": found.per_mm, "pulses_per_count": found.per_count,
    }  # fmt: skip


def ratio_in(gear: Gear, drive: Drive, fields: tuple[int, int]) -> LinkRatio:
    """The link's ratio for a helical gear within the controller's fields."""
    return link_ratio(abs(lead(gear)), drive.pulses_per_turn, drive.count, largest_pulses=fields[0], largest_counts=fields[1])


def force_of(made: GearPlan) -> ForceAt:
    """Peak force of the cut of the plan at any feed, mm/min."""
    gear, tools, speeds = made.gear, made.tools, made.running.speeds
    material = made.material
    k_c, m_c = STEEL if material is None or material.k_c is None or material.m_c is None else (material.k_c, material.m_c)
    depth = Millimetre(min(whole_depth(gear), tools.outside / 2))

    def at(feed: float) -> Newton:
        return peak_force(
            Engagement(
                outside=tools.outside, teeth=tools.teeth, speed=float(speeds.speed.value()), feed=feed, depth=depth,
                width=mean_space_width(gear.module), k_c=k_c, m_c=m_c,
            )
        )  # fmt: skip

    return at


def predict(
    order: Order,
    draws: int = DRAWS,
    seed: int = 1,
    *,
    gear: int = 0,
    progress: Progress | None = None,
    virtual: bool = True,
    improving: int = IMPROVING,
    fields: tuple[int, int] = (LARGEST, LARGEST),
) -> Prediction:
    """The prediction of one gear of the order. `virtual`: with the tooth form that the plan's cutter leaves.

    `improving`: gears drawn for each improvement; 0: none is looked at. `fields`: largest numbers that the controller takes for
    pulses and counts of its ratio.
    """
    from evenpitch.job.predict_findings import predict_findings

    made = plan(order).gears[gear]
    on = on_gear(made.gear)
    feed, force = made.running.speeds.feed.value(), force_of(made)
    seat = seating(on, force(feed))
    filled = fill(order.rig, feed=feed / 60, seated=seat.by_cut or not on.helical)
    drive, wanted = filled.drive, made.tolerance_class
    linked = drive.linked and on.helical
    expected = expect(drive, on, draws, seed, progress=progress)
    limit = expected.quantile("helix_slope").limits[min(wanted, 11) - 1]
    found = Prediction(
        order=order,
        plan=made,
        gear=on,
        filled=filled,
        asked=draws,
        ratio=ratio_in(made.gear, drive, fields) if linked else None,
        fields=fields,
        wanted=wanted,
        expected=expected,
        budget=budget(drive, on),
        resolution=resolution(drive, on) if drive.linked else None,
        rates=rates(drive, on, float(feed), force, lag_allowed=LAG_SHARE * limit / 1000, rapid=order.rig.table.rapid)
        if linked
        else None,
        stiffness=stiffness(drive.windings.holding, drive.microsteps, drive.worm_drag / float(drive.belt))
        if drive.linked
        else None,
        seating=seat,
        bought=what_it_buys(drive, on, min(wanted, 11), min(draws, improving), seed)[1] if improving else (),
        doubts=doubts(drive, on, filled.assumed),
        form_um=_form(order, made) if virtual else None,
        form_limit=rounded(profile_total(pitch_diameter(made.gear), made.gear.module, wanted)),
        torque=curve(drive.windings, tuple(range(0, 2401, 60))) if drive.linked else (),
        findings=(),
    )
    return replace(found, findings=predict_findings(found))


def expected_of(order: Order, made: GearPlan, draws: int, seed: int = 1) -> Expected:
    """What the rig is expected to leave on a gear whose plan is at hand, without what mends it: to be held beside what was found."""
    on = on_gear(made.gear)
    feed = made.running.speeds.feed.value()
    seat = seating(on, force_of(made)(feed))
    filled = fill(order.rig, feed=feed / 60, seated=seat.by_cut or not on.helical)
    return expect(filled.drive, on, draws, seed)


def _form(order: Order, made: GearPlan) -> float | None:
    """Total deviation of the tooth form, µm, that the cutter of the plan leaves by the virtual cut."""
    from evenpitch.job.virtual_cutting import virtual_cut

    if made.tools.chosen is None:
        return None
    weighed = virtual_cut(order, made, (made.tools.chosen.cutter,)).weighed
    return weighed[0].left.total if weighed and weighed[0].left is not None else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Numbers:
    """For whatever controller there is: ratio as whole numbers, absolute targets of all spaces, the same with the head's map
    taken out, and what must not be passed.
    """

    pulses: int | None
    counts: int | None
    error_ppm: float | None
    targets: tuple[int, ...]
    corrected: tuple[int, ...]
    limits: tuple[tuple[str, float, str], ...]

    def facts(self) -> dict[str, Any]:
        """Under the fixed keys of the machine-readable answer."""
        return {
            "ratio": None if self.pulses is None else {"pulses": self.pulses, "counts": self.counts, "error_ppm": self.error_ppm},
            "targets": list(self.targets),
            "targets_with_map": list(self.corrected),
            "limits": [{"name": name, "value": value, "unit": unit} for name, value, unit in self.limits],
        }


def _closed(places: tuple[int, ...], turn: Fraction) -> tuple[int, ...]:
    """The places as the map has them, from head angle 0, and the first again a whole turn later."""
    return (*places, places[0] + round_half_up(turn))


def numbers_out(found: Prediction) -> Numbers | None:
    """None where the rig has no link."""
    drive, gear = found.filled.drive, found.plan.gear
    if not drive.linked:
        return None
    turn = drive.pulses_per_turn
    ratio = found.ratio
    latest = found.order.rig.latest_map()
    whole = turn.denominator == 1
    limits = [("largest pulse rate", drive.pulse_rate, "1/s"), ("largest motor speed", drive.motor_speed, "rpm")]
    if found.rates is not None:
        limits += [("fastest feed", found.rates.fastest.feed, "mm/min"), ("start without a ramp", found.rates.start, "1/s")]
    return Numbers(
        pulses=None if ratio is None else ratio.pulses,
        counts=None if ratio is None else ratio.counts,
        error_ppm=None if ratio is None else ratio.error_ppm,
        targets=absolute_targets(int(turn), gear.teeth)
        if whole
        else tuple(round_half_up(turn * k / gear.teeth) for k in range(gear.teeth + 1)),
        corrected=() if latest is None else _closed(targets_without_map(turn, gear.teeth, latest.harmonics), turn),
        limits=tuple(limits),
    )
