"""A second method for the torque curve: a grid over the plane of currents, refined about its best point."""

from __future__ import annotations

import math

import numpy as np
import pytest

from evenpitch.link.drive import Windings
from evenpitch.link.torque_curve import torque_at, torque_constant

MOTORS = (
    Windings(24, 2, 2, 1.2, 0.0032, 1.6, 50),
    Windings(48, 4.2, 4.2, 1.9, 0.0016, 0.5, 50),
    Windings(12, 2, 2, 1.2, 0.0032, 1.6, 50),
)


def by_grid(motor: Windings, rpm: float) -> float:
    """The best of a grid of currents that both limits allow; the grid closes in on it."""
    k, w = torque_constant(motor), rpm * math.pi / 30
    z = complex(motor.resistance, motor.rotor_teeth * w * motor.inductance)
    centre, size, best = 0j, motor.peak, -math.inf
    for _ in range(26):
        line = np.linspace(-size, size, 161)
        current = centre + line[None, :] + 1j * line[:, None]
        able = (np.abs(current) <= motor.peak + 1e-12) & (np.abs(k * w + z * current) <= 4 / math.pi * motor.supply + 1e-12)
        if not able.any():
            return max(0.0, k * best)
        values = np.where(able, current.real, -math.inf)
        place = np.unravel_index(int(np.argmax(values)), values.shape)
        if values[place] > best:
            best, centre = float(values[place]), complex(current[place])
        size *= 0.55
    return max(0.0, k * best)


@pytest.mark.parametrize("motor", MOTORS)
@pytest.mark.parametrize("rpm", [60, 300, 450, 600, 900, 1200, 1800, 2400])
def test_closed_form_against_a_grid(motor: Windings, rpm: float) -> None:
    assert torque_at(motor, rpm) == pytest.approx(by_grid(motor, rpm), abs=1e-4)
