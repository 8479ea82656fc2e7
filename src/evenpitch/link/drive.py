"""Drive: everything about link, head and set-up that the prediction reckons with; nothing unknown is left in it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from evenpitch.quantity.units import Millimetre, Radian, Second
from evenpitch.sources.citations import cites

TURN = 2 * math.pi


@dataclass(frozen=True, slots=True)
class Waves:
    """Amplitudes at the work, radian, of what repeats: the worm's turn and half turn, the wheel's, the motor's pulley."""

    worm: Radian
    worm_twice: Radian
    wheel: Radian
    wheel_twice: Radian
    pulley: Radian


@dataclass(frozen=True, slots=True)
class Windings:
    """The motor and its supply: V, A, Nm (both phases at rated current), H, ohm. `peak`: of the sine that the drive makes, A."""

    supply: float
    rated: float
    peak: float
    holding: float
    inductance: float
    resistance: float
    rotor_teeth: int


@dataclass(frozen=True, slots=True)
class Feeding:
    """How the table moves: mean feed mm/s, unevenness and turns a second of a hand crank (0 for power feed), space to space."""

    mean: float
    unevenness: float
    turns: float
    difference: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Drive:
    """`linked`: False where the head is indexed by hand, then pulses, motor and latency play no part.

    `count`: mm of one count. `seating`: what of the play is left as scatter (seated) or as a jump inside the pass (not seated).
    `load_change`: spread of the torque on the motor from space to space as a part of the holding torque. Half-widths and
    amplitudes in mm and radian; torque in Nm, inertia in kg m²; `motor_wave`: part of a full step, amplitude.
    """

    linked: bool
    count: Fraction
    full_steps: int
    microsteps: int
    belt: Fraction
    worm_ratio: Fraction
    windings: Windings
    waves: Waves
    motor_wave: float
    backlash: Radian
    seating: float
    seated: bool
    latency: Second
    feeding: Feeding
    scale_factor: float
    scale_wave: Millimetre
    scale_period: Millimetre
    axis_tilt: Radian
    eccentricity: Millimetre
    load_change: float
    drift: Millimetre
    pulse_rate: float
    motor_speed: float
    count_rate: float
    rotor_inertia: float
    load_inertia: float
    worm_quotient: float
    worm_starts: int
    worm_friction: float
    worm_drag: float
    drag_brake: float
    start_stop: float | None = None

    @property
    def reduction(self) -> Fraction:
        """Turns of the motor for one turn of the work."""
        return self.belt * self.worm_ratio

    @property
    def pulses_per_turn(self) -> Fraction:
        """Pulses for one turn of the work."""
        return pulses_per_turn(self.full_steps, self.microsteps, self.belt, self.worm_ratio)

    @property
    def per_turn(self) -> tuple[float, float, float, float, float]:
        """How often in a turn of the work each of the five waves comes."""
        worm = float(self.worm_ratio)
        return worm, 2 * worm, 1.0, 2.0, float(self.reduction)

    @property
    def amplitudes(self) -> tuple[float, float, float, float, float]:
        """The five amplitudes at the work, radian, in the order of `per_turn`."""
        waves = self.waves
        return waves.worm, waves.worm_twice, waves.wheel, waves.wheel_twice, waves.pulley

    @property
    def motor_amplitude(self) -> float:
        """Largest amplitude, at the work, of the motor's wave within four full steps, radian."""
        return self.motor_wave * TURN / (self.full_steps * float(self.reduction))

    @property
    def load_angle_spread(self) -> float:
        """Half of the spread of the motor's angle under load, at the work, radian: on the linear part of its torque curve."""
        return self.load_change / (2 * self.windings.rotor_teeth * float(self.reduction))


@cites("derived here", formula="N_w = s_f μ i_b i_w")
def pulses_per_turn(full_steps: int, microsteps: int, belt: Fraction, worm_ratio: Fraction) -> Fraction:
    """Pulses for one turn of the work, exact: the belt as a fraction of tooth counts, never as a decimal."""
    return full_steps * microsteps * belt * worm_ratio
