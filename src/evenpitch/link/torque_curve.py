"""What torque the motor has at a speed: two-phase hybrid motor, sine currents, chopper drive, from the phasor model."""

from __future__ import annotations

import math
from collections.abc import Sequence

from evenpitch.link.drive import Windings
from evenpitch.sources.citations import cites


@cites("Acarnley", "derived here", formula="k_T = T_hold/(√2 I_rated)")
def torque_constant(windings: Windings) -> float:
    """Nm for each ampere at the peak of the sine, holding torque being quoted with both phases at rated current."""
    return windings.holding / (math.sqrt(2) * windings.rated)


@cites("derived here", formula="T_pk = k_T I_pk")
def peak_torque(windings: Windings) -> float:
    """Largest torque at standstill with sine currents, Nm: at rated current only 0.707 of the holding torque."""
    return torque_constant(windings) * windings.peak


@cites("Acarnley", "derived here", formula="max Re I k_T over |I| ≤ I_pk and |E + Z I| ≤ (4/π) V;  E = k_T ω,  Z = R + j N_r ω L")
def torque_at(windings: Windings, speed: float) -> float:
    """Torque at a speed in rpm, Nm, losses and resonance left out; 0 where the supply cannot drive a current.

    The currents allowed are the disk of the current limit cut by the disk of the voltage limit. The most torque is at the
    current limit itself, at the rightmost point of the voltage disk, or where the two circles cross.
    """
    constant, turning = torque_constant(windings), speed * math.pi / 30
    impedance = complex(windings.resistance, windings.rotor_teeth * turning * windings.inductance)
    voltage, most = 4 / math.pi * windings.supply, windings.peak
    if abs(impedance) == 0:
        return constant * most
    centre, radius = -constant * turning / impedance, voltage / abs(impedance)
    if abs(most - centre) <= radius:
        return constant * most
    if abs(centre + radius) <= most:
        return max(0.0, constant * (centre + radius).real)
    return max(0.0, constant * _crossing(most, centre, radius))


def _crossing(most: float, centre: complex, radius: float) -> float:
    """Real part of the crossing, furthest to the right, of the circle about 0 with the circle about `centre`; 0 if they are apart."""
    apart = abs(centre)
    along = (most * most - radius * radius + apart * apart) / (2 * apart)
    across = most * most - along * along
    if across < 0:
        return 0.0
    unit = centre / apart
    return float((along * unit).real + abs((1j * unit).real) * math.sqrt(across))


@cites("derived here", formula="min(k_T I_pk, k_T V/|Z| − k_T² ω R/|Z|²)")
def torque_bound(windings: Windings, speed: float) -> float:
    """An upper bound only, Nm: each limit by itself."""
    constant, turning = torque_constant(windings), speed * math.pi / 30
    size = abs(complex(windings.resistance, windings.rotor_teeth * turning * windings.inductance))
    if size == 0:
        return constant * windings.peak
    by_voltage = constant * 4 / math.pi * windings.supply / size - constant**2 * turning * windings.resistance / size**2
    return max(0.0, min(constant * windings.peak, by_voltage))


def curve(windings: Windings, speeds: Sequence[float]) -> tuple[tuple[float, float], ...]:
    """(rpm, Nm) at each speed."""
    return tuple((speed, torque_at(windings, speed)) for speed in speeds)
