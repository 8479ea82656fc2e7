"""The electronic link: a scale or an encoder in, a stepper motor on the head out."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from evenpitch.quantity.units import Millimetre, Second

MotorOn = Literal["worm shaft", "plate drive"]


@dataclass(frozen=True, slots=True)
class Belt:
    """Teeth of the pulley on the motor and of the pulley on the head; equal for a direct coupling."""

    motor: int
    head: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """The link as built. Exact where dividing depends on it.

    `count`: table travel of one count, mm, exact. `belt`, steps: None if not known. `plate_turns`: turns of the plate per turn of
    the motor-driven shaft (plate drive only). Speeds in rpm of the motor, rates in pulses or counts a second, torque in Nm,
    inductance in H, inertia in kg m2. `further`: named quantities (name, value in SI or as the name says) that only prediction uses.
    """

    input: Literal["scale", "screw encoder"] | None = None
    count: Fraction | None = None
    scale_length: Millimetre | None = None
    scale_side: Literal["column", "operator"] | None = None
    scale_offset: Millimetre | None = None
    counts_up: Literal["left", "right"] | None = None
    motor_on: MotorOn | None = None
    full_steps: int | None = None
    microsteps: int | None = None
    belt: Belt | None = None
    plate_turns: Fraction = Fraction(1)
    largest_pulse_rate: float | None = None
    largest_speed: float | None = None
    largest_count_rate: float | None = None
    latency: Second | None = None
    supply: float | None = None
    current: float | None = None
    peak_current: float | None = None
    holding_torque: float | None = None
    inductance: float | None = None
    resistance: float | None = None
    rotor_inertia: float | None = None
    worm_drag: float | None = None
    feed: Literal["hand", "power"] | None = None
    crank_unevenness: float | None = None
    further: tuple[tuple[str, float], ...] = ()
