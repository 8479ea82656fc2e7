"""Worm drag by a spring balance on the crank handle, and what it does to the motor."""

from __future__ import annotations

import math
from dataclasses import dataclass

from evenpitch.quantity.units import Millimetre, Newton
from evenpitch.sources.citations import cites


@cites("textbook mechanics", formula="M = F l")
def worm_drag(force: Newton, arm: Millimetre) -> float:
    """Torque at the crank shaft, Nm, from the balance's reading while the crank just turns."""
    return force * arm / 1000


@dataclass(frozen=True, slots=True)
class DragAtMotor:
    """`torque` at the motor and `one_pulse`, the torque that moves it by one pulse, Nm; `lag` in pulses."""

    torque: float
    one_pulse: float

    @property
    def lag(self) -> float:
        """Pulses that the motor lags behind its commands."""
        return self.torque / self.one_pulse

    @property
    def sticks(self) -> bool:
        """Whether the drag exceeds one pulse's torque: stick and slip of a pulse either way."""
        return self.torque > self.one_pulse


@cites("Acarnley", "textbook mechanics", formula="M_m = M/i_b; M_1 = M_hold sin(90°/μ)")
def drag_at_motor(drag: float, belt: float, holding_torque: float, microsteps: int) -> DragAtMotor:
    """What the motor feels. `belt`: turns of the motor to one of the worm."""
    return DragAtMotor(drag / belt, holding_torque * math.sin(math.pi / 2 / microsteps))
