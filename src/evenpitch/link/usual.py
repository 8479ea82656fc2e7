"""Where the person does not know: the usual value, the range it lies in, and what it would cost to find out."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from evenpitch.link.drive import Drive
from evenpitch.sources.citations import cites

ARCSEC = 4.84813681109536e-6


@dataclass(frozen=True, slots=True)
class Usual:
    """One quantity. `path`: its place in a Drive; `field`: in the rig file; values in `unit`, `size` of it inside."""

    path: str
    field: str
    words: str
    value: float
    low: float
    high: float
    unit: str
    size: float
    cost: str


_LOG = "a log of one pass cranked unevenly: half an hour"
_PLATE = "the motor's plate or data sheet: five minutes"
_DRIVE = "the drive's sheet: five minutes"
_BAR = "bar and indicator over three worm turns: an hour"
_TURN = "a square and a hexagon through all their places: two hours"
_SCALE = "gauge blocks along the scale: an hour"
_WATCH = "a stop-watch over three passes: ten minutes"

# fmt: off
USUAL: tuple[Usual, ...] = (
    Usual("count", "link.count", "one count", 5, 1, 5, "µm", 1e-3, "the scale's plate: a minute"),
    Usual("full_steps", "link.full_steps", "full pulses a turn", 200, 200, 400, "", 1, _PLATE),
    Usual("microsteps", "link.microsteps", "parts of a full pulse", 8, 2, 32, "", 1, "the drive's switches: a minute"),
    Usual("belt", "link.belt", "belt", 1, 1, 3, ":1", 1, "count the pulleys' teeth: five minutes"),
    Usual("latency", "link.latency", "delay", 5, 0.2, 20, "ms", 1e-3, _LOG),
    Usual("windings.supply", "link.supply", "supply", 36, 24, 48, "V", 1, "a voltmeter: five minutes"),
    Usual("windings.rated", "link.current", "rated current", 3, 2, 4.2, "A", 1, _PLATE),
    Usual("windings.peak", "link.peak_current", "peak current", 3, 2, 4.2, "A", 1, "the drive's switches: a minute"),
    Usual("windings.holding", "link.holding_torque", "holding torque", 1.9, 1.2, 3, "Nm", 1, _PLATE),
    Usual("windings.inductance", "link.inductance", "inductance", 3.2, 1.6, 4, "mH", 1e-3, _PLATE),
    Usual("windings.resistance", "link.resistance", "resistance", 1, 0.5, 1.6, "ohm", 1, "an ohmmeter: five minutes"),
    Usual("pulse_rate", "link.largest_pulse_rate", "largest pulse rate", 20_000, 10_000, 100_000, "/s", 1, _DRIVE),
    Usual("motor_speed", "link.largest_speed",
          "largest speed", 600, 300, 1200, "rpm", 1, "run it up without the cutter: ten minutes"),
    Usual("count_rate", "link.largest_count_rate", "largest count rate", 50_000, 10_000, 200_000, "/s", 1, _DRIVE),
    Usual("rotor_inertia", "link.rotor_inertia", "inertia of the rotor", 5e-5, 2e-5, 1e-4, "kg m²", 1, _PLATE),
    Usual("load_inertia", "head.load_inertia_at_work_kgm2",
          "inertia of the work", 0.02, 0.005, 0.05, "kg m²", 1, "weigh the blank: ten minutes"),
    Usual("worm_quotient", "head.worm_diameter_quotient",
          "diameter quotient of the worm", 25, 15, 40, "", 1, "measure the worm when the head is open"),
    Usual("worm_starts", "head.worm_starts", "starts of the worm", 1, 1, 1, "", 1, "one in nearly every head"),
    Usual("worm_friction", "head.worm_friction",
          "friction of the worm", 0.08, 0.06, 0.10, "", 1, "spring balance on the crank under load: half an hour"),
    Usual("worm_drag", "link.worm_drag",
          "drag of the worm", 0.12, 0.05, 0.25, "Nm", 1, "spring balance on the crank: five minutes"),
    Usual("waves.worm", "head.worm_once_per_worm_turn_amplitude_arcsec",
          "wave of the worm, once", 20, 5, 60, "″", ARCSEC, _BAR),
    Usual("waves.worm_twice", "head.worm_twice_per_worm_turn_amplitude_arcsec",
          "wave of the worm, twice", 5, 1.5, 15, "″", ARCSEC, _BAR),
    Usual("waves.wheel", "head.wheel_once_per_work_turn_amplitude_arcsec",
          "wave of the wheel, once", 25, 8, 90, "″", ARCSEC, _TURN),
    Usual("waves.wheel_twice", "head.wheel_twice_per_work_turn_amplitude_arcsec",
          "wave of the wheel, twice", 6, 2, 20, "″", ARCSEC, _TURN),
    Usual("waves.pulley", "link.pulley_once_per_motor_turn_amplitude_arcsec",
          "wave of the pulley", 3, 0, 10, "″", ARCSEC, _BAR),
    Usual("motor_wave", "link.motor_step_amplitude_fraction_of_full_step",
          "motor within a full pulse", 5, 3, 10, "%", 1e-2, _PLATE),
    Usual("backlash", "head.backlash", "play", 90, 20, 360, "″", ARCSEC, "indicator on a bar, both ways: ten minutes"),
    Usual("seating", "head.seating_fraction_of_backlash",
          "play left", 5, 2, 50, "%", 1e-2, "the same space approached ten times: half an hour"),
    Usual("feeding.mean", "table.mean_feed_mm_per_s", "mean feed", 1, 0.5, 2, "mm/s", 1, _WATCH),
    Usual("feeding.unevenness", "link.crank_unevenness", "unevenness of the crank", 60, 40, 90, "%", 1e-2, _LOG),
    Usual("feeding.turns", "table.crank_turns_per_s", "turns of the crank", 1, 0.5, 1.5, "a second", 1, _WATCH),
    Usual("feeding.difference", "table.feed_difference_tooth_to_tooth_sd_fraction",
          "feed, space to space", 20, 5, 30, "%", 1e-2, _WATCH),
    Usual("scale_factor", "link.scale_factor_half_width", "scale factor", 20, 5, 50, "ppm", 1e-6, _SCALE),
    Usual("scale_wave", "link.scale_sine_amplitude_um", "wave of the scale", 3, 1, 5, "µm", 1e-3, _SCALE),
    Usual("scale_period", "link.scale_sine_period_mm", "length of that wave", 20, 2, 100, "mm", 1, _SCALE),
    Usual("axis_tilt", "setup.axis_tilt_half_width_rad",
          "axis against travel", 0.1, 0.04, 0.2, "mrad", 1e-3, "indicator along the mandrel: half an hour"),
    Usual("eccentricity", "setup.blank_eccentricity_um",
          "blank off centre", 10, 4, 20, "µm", 1e-3, "indicator on the blank: five minutes"),
    Usual("load_change", "setup.load_change_fraction_of_holding_torque",
          "change of load", 10, 5, 20, "%", 1e-2, "a log with a motor encoder"),
    Usual("drift", "setup.drift_over_gear_half_width_um",
          "drift", 4, 2, 10, "µm", 1e-3, "read the first space again at the end: five minutes"),
)
# fmt: on
"""Common practice throughout: nothing of it was measured on the person's own machine."""

BY_PATH = {row.path: row for row in USUAL}


@dataclass(frozen=True, slots=True)
class Assumed:
    """One don't-know: what was taken in its place and what lies within reach; `low`, `high`: of the range, in `unit`."""

    path: str
    field: str
    words: str
    value: float
    low: float
    high: float
    unit: str
    cost: str

    def shown(self) -> str:
        """The value with its range."""
        unit = f" {self.unit}" if self.unit and not self.unit.startswith((":", "″", "%")) else self.unit
        return f"{self.value:g}{unit} ({self.low:g} to {self.high:g})"

    def facts(self) -> dict[str, Any]:
        """Under the fixed keys of the machine-readable answer."""
        return {
            "field": self.field, "words": self.words, "value": self.value, "low": self.low, "high": self.high, "unit": self.unit,
            "cost": self.cost,
        }  # fmt: skip


@cites("common practice", formula="usual value and range")
def assumed(path: str, value: float | None = None) -> tuple[float, Assumed]:
    """The usual value of a quantity, as it is inside and as it is told. `value`: another than the usual, in its unit."""
    row = BY_PATH[path]
    taken = row.value if value is None else value
    low, high = min(row.low, taken), max(row.high, taken)
    return taken * row.size, Assumed(path, row.field, row.words, taken, low, high, row.unit, row.cost)


def changed(drive: Drive, path: str, value: float) -> Drive:
    """The drive with one quantity set, in the unit kept inside; those that are exact or whole stay so."""
    part, _, name = path.partition(".")
    kept: Any = value
    if path in ("count", "belt"):
        kept = Fraction(value).limit_denominator(1_000_000)
    elif path in ("full_steps", "microsteps", "worm_starts"):
        kept = round(value)
    inner: dict[str, Any] = {name: kept}
    outer: dict[str, Any] = {part: replace(getattr(drive, part), **inner) if name else kept}
    return replace(drive, **outer)


def at_end(drive: Drive, what: Assumed, *, high: bool) -> Drive:
    """The drive with a don't-know at one end of its range."""
    return changed(drive, what.path, (what.high if high else what.low) * BY_PATH[what.path].size)
