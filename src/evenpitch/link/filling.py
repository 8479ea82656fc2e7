"""A rig becomes a drive: what is known is taken, from the head's map above all; what is not is filled with the usual value and told."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from evenpitch.link.drive import Drive, Feeding, Waves, Windings
from evenpitch.link.usual import ARCSEC, Assumed, assumed
from evenpitch.quantity.units import Millimetre, Radian, Second
from evenpitch.rig.link import Link
from evenpitch.rig.maps import ErrorMap
from evenpitch.rig.rig import Rig

ROTOR_TEETH = 4
"""Full steps of a two-phase hybrid motor for each rotor tooth."""

POWER = {"feeding.unevenness": 0.0, "feeding.difference": 5.0}
"""Usual values of power feed where they differ from a hand's."""

MOST_UNEVEN = 0.99
"""A hand that quite stops once a turn is no motion that can be turned round; a hundredth of its feed is left."""

SEATED, LOOSE = 5.0, 50.0
"""Percent of the play that is left as scatter, seated and not."""


@dataclass(frozen=True, slots=True)
class Filled:
    """A drive with nothing unknown in it, and what was assumed to make it so. `measured`: the head's waves come from a map."""

    drive: Drive
    assumed: tuple[Assumed, ...]
    measured: bool


@dataclass(slots=True)
class _Taking:
    """What the rig says, and what had to be assumed."""

    further: dict[str, float]
    told: list[Assumed] = field(default_factory=list)

    def take(
        self, path: str, known: float | None = None, name: str = "", factor: float = 1.0, usual: float | None = None
    ) -> float:
        """The known value; else the further quantity of that name times a factor; else the usual one."""
        if known is not None:
            return known
        if name in self.further:
            return self.further[name] * factor
        value, what = assumed(path, usual)
        self.told.append(what)
        return value


def fill(rig: Rig, *, feed: float | None = None, seated: bool = True) -> Filled:
    """`feed`: mean feed in mm/s where the job has one; `seated`: whether the cut itself keeps one flank of the worm loaded."""
    link = rig.link or Link()
    linked = rig.link is not None
    taking = _Taking(dict(link.further))
    latest = rig.latest_map()
    full_steps = round(taking.take("full_steps", link.full_steps))
    belt = Fraction(link.belt.head, link.belt.motor) if link.belt else Fraction(taking.take("belt")).limit_denominator(1000)
    count = link.count if link.count is not None else Fraction(taking.take("count")).limit_denominator(1_000_000)
    seating = _seating(taking, seated)
    drive = Drive(
        linked=linked,
        count=count,
        full_steps=full_steps,
        microsteps=round(taking.take("microsteps", link.microsteps)),
        belt=belt * link.plate_turns,
        worm_ratio=rig.head.ratio,
        windings=_windings(link, taking, full_steps),
        waves=_waves(latest, taking, rig.head.ratio, direct=belt == 1),
        motor_wave=taking.take("motor_wave", None, "motor_step_amplitude_fraction_of_full_step"),
        backlash=Radian(taking.take("backlash", rig.head.backlash)),
        seated=seating[0],
        seating=seating[1],
        latency=Second(taking.take("latency", link.latency)),
        feeding=_feeding(link, taking, feed),
        scale_factor=taking.take("scale_factor", None, "scale_factor_half_width"),
        scale_wave=Millimetre(taking.take("scale_wave", None, "scale_sine_amplitude_um", 1e-3)),
        scale_period=Millimetre(taking.take("scale_period", None, "scale_sine_period_mm")),
        axis_tilt=Radian(taking.take("axis_tilt", None, "axis_tilt_half_width_rad")),
        eccentricity=Millimetre(taking.take("eccentricity", None, "blank_eccentricity_um", 1e-3)),
        load_change=taking.take("load_change", None, "load_change_fraction_of_holding_torque"),
        drift=Millimetre(taking.take("drift", None, "drift_over_gear_half_width_um", 1e-3)),
        pulse_rate=taking.take("pulse_rate", link.largest_pulse_rate),
        motor_speed=taking.take("motor_speed", link.largest_speed),
        count_rate=taking.take("count_rate", link.largest_count_rate),
        rotor_inertia=taking.take("rotor_inertia", link.rotor_inertia, "motor_and_pulley_inertia_kgm2"),
        load_inertia=taking.take("load_inertia", None, "load_inertia_at_work_kgm2"),
        worm_quotient=taking.take("worm_quotient", None, "worm_diameter_quotient"),
        worm_starts=round(taking.further.get("worm_starts", 1)),
        worm_friction=taking.take("worm_friction", None, "worm_friction"),
        worm_drag=taking.take("worm_drag", link.worm_drag, "worm_friction_torque_Nm"),
        drag_brake=taking.further.get("drag_brake_Nm", 0.0),
        start_stop=taking.further.get("start_stop_pulse_rate_per_s"),
    )
    return Filled(drive, tuple(_of_interest(taking.told, linked)), latest is not None)


def _windings(link: Link, taking: _Taking, full_steps: int) -> Windings:
    rated = taking.take("windings.rated", link.current)
    return Windings(
        supply=taking.take("windings.supply", link.supply),
        rated=rated,
        peak=link.peak_current if link.peak_current is not None else rated,
        holding=taking.take("windings.holding", link.holding_torque),
        inductance=taking.take("windings.inductance", link.inductance),
        resistance=taking.take("windings.resistance", link.resistance),
        rotor_teeth=round(taking.further.get("rotor_teeth", max(1, full_steps // ROTOR_TEETH))),
    )


def _waves(latest: ErrorMap | None, taking: _Taking, ratio: Fraction, *, direct: bool) -> Waves:
    """From the map where one was made: what it does not name was not found, and counts as nothing."""
    mapped = None if latest is None else {h.per_turn: float(h.amplitude) for h in latest.harmonics}

    def one(path: str, per_turn: Fraction | int, name: str) -> Radian:
        known = None
        if mapped is not None and Fraction(per_turn).denominator == 1:
            known = mapped.get(int(per_turn))
            if known is None and name not in taking.further:
                known = 0.0
        return Radian(taking.take(path, known, name, ARCSEC))

    pulley = "pulley_once_per_motor_turn_amplitude_arcsec"
    return Waves(
        one("waves.worm", ratio, "worm_once_per_worm_turn_amplitude_arcsec"),
        one("waves.worm_twice", 2 * ratio, "worm_twice_per_worm_turn_amplitude_arcsec"),
        one("waves.wheel", 1, "wheel_once_per_work_turn_amplitude_arcsec"),
        one("waves.wheel_twice", 2, "wheel_twice_per_work_turn_amplitude_arcsec"),
        Radian(0.0 if direct and pulley not in taking.further else taking.take("waves.pulley", None, pulley, ARCSEC)),
    )


def _seating(taking: _Taking, by_cut: bool) -> tuple[bool, float]:
    """Whether one flank is kept seated, and the part of the play that is left."""
    brake = taking.further.get("drag_brake_Nm", 0.0) > 0
    said = taking.further.get("flank_seated")
    seated = bool(said) if said is not None else by_cut or brake
    left = taking.take("seating", None, "seating_fraction_of_backlash", 1.0, SEATED if seated else LOOSE)
    return seated, left


def _feeding(link: Link, taking: _Taking, feed: float | None) -> Feeding:
    usual = POWER if link.feed == "power" else {}
    known = link.crank_unevenness if link.feed != "power" or link.crank_unevenness else 0.0
    return Feeding(
        mean=taking.further.get("mean_feed_mm_per_s") or feed or taking.take("feeding.mean"),
        unevenness=min(MOST_UNEVEN, taking.take("feeding.unevenness", known, usual=usual.get("feeding.unevenness"))),
        turns=taking.take("feeding.turns", 1.0 if link.feed == "power" else None, "crank_turns_per_s"),
        difference=taking.take(
            "feeding.difference", None, "feed_difference_tooth_to_tooth_sd_fraction", usual=usual.get("feeding.difference")
        ),
    )


BY_HAND = (
    "waves.worm",
    "waves.worm_twice",
    "waves.wheel",
    "waves.wheel_twice",
    "backlash",
    "seating",
    "eccentricity",
    "axis_tilt",
    "drift",
)
"""What counts where the head is indexed by hand."""


def _of_interest(told: list[Assumed], linked: bool) -> list[Assumed]:
    return told if linked else [what for what in told if what.path in BY_HAND]
