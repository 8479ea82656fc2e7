"""The four invented rigs and the two gears of the link's tests, as drives and sizes."""

from __future__ import annotations

import json
import math
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

from evenpitch.gear.gear import Gear
from evenpitch.link.drive import Drive, Feeding, Waves, Windings
from evenpitch.link.gearing import OnGear, on_gear
from evenpitch.quantity.pitch import Pitch
from evenpitch.quantity.units import Millimetre, Radian, Second

DATA = Path(__file__).parents[1] / "data"
ARCSEC = math.pi / 648_000


@cache
def rows(topic: str) -> tuple[dict[str, Any], ...]:
    """Cases of tests/data/link.json on one topic; each names its source and how it was verified."""
    found = json.loads((DATA / "link.json").read_text(encoding="utf-8"))
    return tuple(case for case in found if case["topic"] == topic)


@cache
def raw_rigs() -> dict[str, dict[str, Any]]:
    """The rigs of link_rigs.json by their letters."""
    data = json.loads((DATA / "link_rigs.json").read_text(encoding="utf-8"))
    return {rig["id"]: rig for rig in data["rigs"]}


def drive_of(letter: str, **changed: Any) -> Drive:
    """One of the four rigs."""
    r = raw_rigs()[letter]
    waves = Waves(
        *(
            Radian(r[name] * ARCSEC)
            for name in (
                "worm_once_per_worm_turn_amplitude_arcsec", "worm_twice_per_worm_turn_amplitude_arcsec",
                "wheel_once_per_work_turn_amplitude_arcsec", "wheel_twice_per_work_turn_amplitude_arcsec",
                "pulley_once_per_motor_turn_amplitude_arcsec",
            )
        )
    )  # fmt: skip
    fields: dict[str, Any] = {
        "linked": True,
        "count": Fraction(str(r["scale_count_mm"])),
        "full_steps": r["motor_full_steps_per_turn"],
        "microsteps": r["microsteps_per_full_step"],
        "belt": Fraction(r["belt_head_teeth"], r["belt_motor_teeth"]),
        "worm_ratio": Fraction(r["worm_ratio"]),
        "windings": Windings(
            r["supply_V"], r["rated_current_A"], r["peak_current_A"], r["holding_torque_Nm"], r["winding_inductance_H"],
            r["winding_resistance_ohm"], r["rotor_teeth"],
        ),
        "waves": waves,
        "motor_wave": r["motor_step_amplitude_fraction_of_full_step"],
        "backlash": Radian(r["backlash_arcsec"] * ARCSEC),
        "seating": r["seating_fraction_of_backlash"],
        "seated": r["flank_seated"],
        "latency": Second(r["latency_s"]),
        "feeding": Feeding(
            r["mean_feed_mm_per_s"], r["crank_ripple_fraction"], r["crank_turns_per_s"],
            r["feed_difference_tooth_to_tooth_sd_fraction"],
        ),
        "scale_factor": r["scale_factor_half_width"],
        "scale_wave": Millimetre(r["scale_sine_amplitude_um"] / 1000),
        "scale_period": Millimetre(r["scale_sine_period_mm"]),
        "axis_tilt": Radian(r["axis_tilt_half_width_rad"]),
        "eccentricity": Millimetre(r["blank_eccentricity_um"] / 1000),
        "load_change": r["load_change_fraction_of_holding_torque"],
        "drift": Millimetre(r["drift_over_gear_half_width_um"] / 1000),
        "pulse_rate": r["pulse_rate_limit_per_s"],
        "motor_speed": 100_000.0,
        "count_rate": 1e9,
        "rotor_inertia": r["motor_and_pulley_inertia_kgm2"],
        "load_inertia": r["load_inertia_at_work_kgm2"],
        "worm_quotient": r["worm_diameter_quotient"],
        "worm_starts": r["worm_starts"],
        "worm_friction": r["worm_friction"],
        "worm_drag": r["worm_friction_torque_Nm"],
        "drag_brake": 0.0,
    }  # fmt: skip
    return Drive(**{**fields, **changed})


def gear_named(name: str) -> Gear:
    """h24 or s127."""
    data = json.loads((DATA / "link_gears.json").read_text(encoding="utf-8"))
    g = next(gear for gear in data["gears"] if gear["id"] == name)
    return gear_of(g["teeth"], g["normal_module_mm"], g["helix_angle_deg"], g["face_mm"])


def gear_of(teeth: int, module: float, helix: float, face: float) -> Gear:
    """A gear of 20° pressure angle."""
    pitch = Pitch(kind="module", value=Fraction(str(module)), plane="normal")
    return Gear(
        teeth=teeth,
        pitch=pitch,
        module=Millimetre(module),
        pressure_angle=Radian(math.radians(20)),
        helix=Radian(math.radians(helix)),
        hand="right" if helix else "none",
        face=Millimetre(face),
    )


def sizes(name: str) -> OnGear:
    """The same as the link sees it."""
    return on_gear(gear_named(name))
