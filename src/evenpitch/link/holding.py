"""How stiffly the motor holds its place: a full step is firm, one pulse is not."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from evenpitch.link.drive import TURN
from evenpitch.quantity.units import Radian
from evenpitch.sources.citations import cites


@cites("motor and drive notes", formula="T_hold sin(90°/μ)")
def torque_of_one_pulse(holding: float, microsteps: int) -> float:
    """Torque that moves the rotor by one pulse, Nm."""
    return holding * math.sin(math.pi / 2 / microsteps)


@cites("motor and drive notes", formula="θ = arcsin(T/T_pk)/(N_r i_b i_w)")
def load_angle(torque: float, peak: float, rotor_teeth: int, reduction: Fraction | float) -> Radian:
    """How far the work stands behind under a torque on the motor; a quarter of an electrical turn is the most."""
    return Radian(math.asin(min(1.0, torque / peak)) / rotor_teeth / float(reduction))


@dataclass(frozen=True, slots=True)
class Stiffness:
    """Torque of one pulse (Nm), how many pulses the drag holds back, whether it moves by jumps of whole pulses."""

    one_pulse: float
    held_back: float
    jumps: bool


def stiffness(holding: float, microsteps: int, drag: float) -> Stiffness:
    """`drag`: friction at the motor's shaft, Nm. Above the torque of one pulse the rotor sticks and slips by a pulse either way."""
    one = torque_of_one_pulse(holding, microsteps)
    held = math.asin(min(1.0, drag / holding)) / (math.pi / 2 / microsteps)
    return Stiffness(one, held, drag > one)


@cites("motor and drive notes", formula="±5 % of a full step, not adding up")
def motor_step_error(full_steps: int, reduction: Fraction | float, part: float = 0.05) -> Radian:
    """Error of a full step, at the work, radian either way."""
    return Radian(part * TURN / full_steps / float(reduction))


@cites("derived here", formula="f = μ √(2 (T − T_load)/(J φ))")
def start_rate(torque: float, load: float, inertia: float, microsteps: int, full_steps: int) -> float:
    """Pulses a second from a standstill without a ramp: one full step of lag while it gets going; 0 where no torque is left."""
    left = torque - load
    return microsteps * math.sqrt(2 * left / (inertia * TURN / full_steps)) if left > 0 else 0.0
