"""Further quantities of drive, head, table and set-up that only prediction and simulation use, under names that end in their unit."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from pydantic import PlainValidator

from evenpitch.quantity.physical_units import Kind
from evenpitch.quantity.reading import is_unknown, read_angle, read_length, read_number, read_physical
from evenpitch.quantity.refusal import Fault, Refusal, refuse
from evenpitch.quantity.units import degrees
from evenpitch.store.files.values import placed, text_of, travelling, with_unit

FIELD = "further"

Read = Callable[[str], float]
Further = tuple[tuple[str, float], ...]


def _number(text: str) -> float:
    return float(read_number(text, field=""))


def _share(text: str) -> float:
    return read_physical(text.replace("um/m", "ppm"), "share", field="", bare="")


def _yes(text: str) -> float:
    if text.casefold() in ("yes", "true", "1", "no", "false", "0"):
        return float(text.casefold() in ("yes", "true", "1"))
    raise refuse("", text, "yes or no", "It is neither.", "Write true or false.")


def _physical(kind: Kind, bare: str, factor: float = 1.0) -> Read:
    return lambda text: read_physical(text, kind, field="", bare=bare) * factor


def _micrometre(text: str) -> float:
    return float(read_length(with_unit(text, "um"), field="") * 1000)


def _millimetre(text: str) -> float:
    return float(read_length(text, field=""))


def _arcsec(text: str) -> float:
    return float(read_angle(with_unit(text, "arcsec"), field="") * 3600)


def _radian(text: str) -> float:
    try:
        return _number(text)
    except Refusal:
        return degrees(read_angle(text, field=""))


_MM_PER_S = _physical("feed", "mm/s", 1 / 60)

WITH_UNIT: dict[str, tuple[Read, float, float]] = {
    "rotor_teeth": (_number, 1, 500),
    "start_stop_pulse_rate_per_s": (_physical("frequency", "Hz"), 1, 1e7),
    "motor_and_pulley_inertia_kgm2": (_physical("inertia", "kg m2"), 1e-8, 1),
    "load_inertia_at_work_kgm2": (_physical("inertia", "kg m2"), 1e-8, 1000),
    "worm_diameter_quotient": (_number, 1, 200),
    "worm_starts": (_number, 1, 12),
    "worm_friction": (_share, 0, 1),
    "worm_friction_torque_Nm": (_physical("torque", "Nm"), 0, 1000),
    "worm_once_per_worm_turn_amplitude_arcsec": (_arcsec, 0, 36000),
    "worm_twice_per_worm_turn_amplitude_arcsec": (_arcsec, 0, 36000),
    "wheel_once_per_work_turn_amplitude_arcsec": (_arcsec, 0, 36000),
    "wheel_twice_per_work_turn_amplitude_arcsec": (_arcsec, 0, 36000),
    "pulley_once_per_motor_turn_amplitude_arcsec": (_arcsec, 0, 36000),
    "motor_step_amplitude_fraction_of_full_step": (_share, 0, 1),
    "seating_fraction_of_backlash": (_share, 0, 1),
    "flank_seated": (_yes, 0, 1),
    "mean_feed_mm_per_s": (_MM_PER_S, 0, 1000),
    "crank_turns_per_s": (_physical("frequency", "Hz"), 0, 100),
    "feed_difference_tooth_to_tooth_sd_fraction": (_share, 0, 1),
    "scale_factor_half_width": (_share, 0, 0.1),
    "scale_sine_amplitude_um": (_micrometre, 0, 10000),
    "scale_sine_period_mm": (_millimetre, 0.001, 10000),
    "axis_tilt_half_width_rad": (_radian, 0, 1),
    "blank_eccentricity_um": (_micrometre, 0, 10000),
    "load_change_fraction_of_holding_torque": (_share, 0, 2),
    "drift_over_gear_half_width_um": (_micrometre, 0, 10000),
    "drag_brake_Nm": (_physical("torque", "Nm"), 0, 1000),
}
"""Reader, least and most in the unit that the name ends in; a number alone is in that unit."""

_UNITS = ("_mm_per_s", "_per_s", "_kgm2", "_Nm", "_arcsec", "_um", "_mm", "_rad")


def _without_unit(name: str) -> str:
    return next((name.removesuffix(unit) for unit in _UNITS if name.endswith(unit)), name)


_SHORT = {_without_unit(name): name for name in WITH_UNIT}

OTHER_NAMES: dict[str, tuple[str, str]] = {
    "scale_count_mm": ("count", "mm"),
    "motor_full_steps_per_turn": ("full_steps", ""),
    "microsteps_per_full_step": ("microsteps", ""),
    "supply_V": ("supply", "V"),
    "holding_torque_Nm": ("holding_torque", "Nm"),
    "rated_current_A": ("current", "A"),
    "peak_current_A": ("peak_current", "A"),
    "winding_inductance_H": ("inductance", "H"),
    "winding_resistance_ohm": ("resistance", "ohm"),
    "pulse_rate_limit_per_s": ("largest_pulse_rate", "Hz"),
    "latency_s": ("latency", "s"),
    "feed_kind": ("feed", ""),
    "crank_ripple_fraction": ("crank_unevenness", ""),
    "worm_ratio": ("ratio", ""),
    "backlash_arcsec": ("backlash", "arcsec"),
}
"""Names that end in their unit, for fields that have a shorter one: that one, and the unit of a number alone."""


def is_further(name: str) -> bool:
    """Whether it is the name of a further quantity, with its unit or without."""
    return name in WITH_UNIT or name in _SHORT


def read_further(raw: Any) -> Further:
    """Every further quantity of one table: (name with its unit, value in that unit). All faults at once."""
    found: dict[str, float] = {}
    faults: list[Fault] = []
    for name, value in raw.items() if isinstance(raw, Mapping) else ():
        full = _SHORT.get(str(name), str(name))
        try:
            if (text := text_of(value, "a value")) is not None and not is_unknown(text):
                found[full] = _within(full, text)
        except Refusal as refusal:
            faults += placed(refusal.faults, name)
    if faults:
        raise travelling(Refusal(*faults))
    return tuple(found.items())


def _within(name: str, text: str) -> float:
    read, least, most = WITH_UNIT[name]
    value = read(text)
    if not least <= value <= most:
        expected = f"{name.replace('_', ' ')} from {least:g} to {most:g}"
        raise refuse("", text, expected, f"That is {value:.6g}.", "Check the digits and the unit.")
    return value


FURTHER = PlainValidator(read_further)
"""The field of a table that holds its further quantities."""
