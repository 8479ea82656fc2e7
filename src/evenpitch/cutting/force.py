"""Cutting force of a disc form cutter, by the specific cutting force. From memory and coarse: say ±40 %."""

from __future__ import annotations

import math
from dataclasses import dataclass

from evenpitch.quantity.units import Millimetre, Newton
from evenpitch.sources.citations import cites


@dataclass(frozen=True, slots=True, kw_only=True)
class Engagement:
    """A cutter in its cut: diameter and teeth, speed rpm, feed mm/min, depth and mean width of the space, mm.

    `k_c`: N/mm² at 1 mm of chip; `m_c`: how fast it falls with a thicker chip.
    """

    outside: Millimetre
    teeth: int
    speed: float
    feed: float
    depth: Millimetre
    width: Millimetre
    k_c: float
    m_c: float


@cites("common practice", formula="w = π m_n / 2")
def mean_space_width(module: Millimetre) -> Millimetre:
    """Mean width of a tooth space, mm."""
    return Millimetre(math.pi * module / 2)


@cites("textbook mechanics", formula="F = k_c1.1 h_m^−m_c w a_e v_f / v_c;  h_m = f_z √(a_e / D)")
def mean_force(cut: Engagement) -> Newton:
    """Mean tangential force on the cutter, N."""
    chip = cut.feed / (cut.speed * cut.teeth)
    mean_chip = chip * math.sqrt(cut.depth / cut.outside)
    surface = math.pi * cut.outside * cut.speed
    return Newton(cut.k_c * mean_chip**-cut.m_c * cut.width * cut.depth * cut.feed / surface)


@cites("textbook mechanics", formula="max Σ k_c1.1 w (f_z sin φ)^(1 − m_c), φ ≤ arccos(1 − 2 a_e / D)")
def peak_force(cut: Engagement) -> Newton:
    """Largest tangential force as teeth pass, N: the sum over all teeth in the cut, at the worst place of the cutter.

    The chip thickens all the way to the exit in conventional milling, so the worst place has one tooth just leaving the cut.
    """
    chip = cut.feed / (cut.speed * cut.teeth)
    exit_angle = math.acos(1 - 2 * cut.depth / cut.outside)
    apart = 2 * math.pi / cut.teeth
    angles = (exit_angle - index * apart for index in range(int(exit_angle / apart) + 1))
    return Newton(sum(cut.k_c * cut.width * (chip * math.sin(angle)) ** (1 - cut.m_c) for angle in angles if angle > 0))
