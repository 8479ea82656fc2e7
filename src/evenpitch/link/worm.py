"""The worm: how much of the motor's torque comes through, and whether the work can drive it back."""

from __future__ import annotations

import math
from dataclasses import dataclass

from evenpitch.link.drive import Drive
from evenpitch.link.gearing import OnGear
from evenpitch.quantity.units import Newton, Radian
from evenpitch.sources.citations import cites

TOOTH_ANGLE = math.radians(20.0)
"""Normal pressure angle of the worm, where nothing else is known; common practice."""

UNEQUAL = 0.2
"""Part of the cutting force that an unequal load on the two flanks puts round the axis; common practice."""

UNLOAD_FACTOR = 1.5
"""By which a drag must exceed the torque that would unload the worm; common practice."""


@cites("textbook mechanics", formula="tan γ = starts/q_d")
def lead_angle(starts: int, quotient: float) -> Radian:
    """Lead angle of the worm at its pitch cylinder."""
    return Radian(math.atan(starts / quotient))


@cites("textbook mechanics", formula="η = (cos α_n − μ tan γ)/(cos α_n + μ/tan γ)")
def worm_efficiency(starts: int, quotient: float, friction: float, tooth_angle: float = TOOTH_ANGLE) -> float:
    """Share of the worm's torque that reaches the wheel, the worm driving."""
    slope = starts / quotient
    return (math.cos(tooth_angle) - friction * slope) / (math.cos(tooth_angle) + friction / slope)


@cites("textbook mechanics", formula="μ ≥ cos α_n tan γ")
def self_locking(starts: int, quotient: float, friction: float, tooth_angle: float = TOOTH_ANGLE) -> bool:
    """Whether the work cannot turn the worm."""
    return friction >= math.cos(tooth_angle) * starts / quotient


@cites("derived here", formula="T_work = r F (sin β + κ)")
def work_torque(gear: OnGear, force: Newton, unequal: float = UNEQUAL) -> float:
    """Torque of the cut about the work axis, Nm. The force lies along the groove, which leans by the helix angle."""
    return gear.radius / 1000 * force * (math.sin(gear.helix) + unequal)


def efficiency(drive: Drive) -> float:
    """Of this head's worm; never less than a hundredth, so that a very rough worm still gives a figure."""
    return max(0.01, worm_efficiency(drive.worm_starts, drive.worm_quotient, drive.worm_friction))


@cites("textbook mechanics", formula="T_m = ((T_work + T_brake)/(η i_w) + T_drag)/i_b")
def motor_torque(drive: Drive, at_work: float) -> float:
    """Torque that the motor must give, Nm, acceleration left out; a drag brake on the spindle is charged to the motor."""
    at_worm = (at_work + drive.drag_brake) / (efficiency(drive) * float(drive.worm_ratio)) + drive.worm_drag
    return at_worm / float(drive.belt)


@cites("textbook mechanics", formula="J = J_m + J_load/(i_w i_b)²")
def inertia_at_motor(drive: Drive) -> float:
    """Inertia that the motor has to turn, kg m²."""
    return drive.rotor_inertia + drive.load_inertia / float(drive.reduction) ** 2


@cites("textbook mechanics", formula="T = J 2π a i_w i_b/L")
def acceleration_torque(drive: Drive, gear: OnGear, acceleration: float) -> float:
    """Torque for an acceleration of the table in mm/s², Nm; matters below a lead of about 30 mm."""
    return inertia_at_motor(drive) * 2 * math.pi * acceleration * float(drive.reduction) / gear.lead


@dataclass(frozen=True, slots=True)
class Seating:
    """Whether the cut keeps one flank of the worm loaded: `by_cut` in conventional milling; else a drag of so many Nm is needed."""

    by_cut: bool
    margin: float
    unload: float
    brake_needed: float


@cites("derived here", "common practice", formula="sin β > κ")
def seating(gear: OnGear, force: Newton, unequal: float = UNEQUAL) -> Seating:
    """Conventional milling pushes the work back along the groove and keeps the driving flank loaded while sin β exceeds κ."""
    margin = math.sin(gear.helix) - unequal
    unload = gear.radius / 1000 * force * max(0.0, -margin)
    return Seating(margin > 0, margin, unload, UNLOAD_FACTOR * unload)
