"""Flank tolerances after the withdrawn ISO 1328-1:1995, for reading old drawings. Never mix with the 2013 edition.

The old edition puts the geometric mean of the limits of each range into its formulas, not the gear's own figures. From memory.
"""

from __future__ import annotations

import itertools
import math

from evenpitch.gear.limits import rounded
from evenpitch.quantity.refusal import refuse
from evenpitch.quantity.units import Millimetre
from evenpitch.sources.citations import cites

_KEY = "ISO 1328-1:1995"

DIAMETERS = (5.0, 20.0, 50.0, 125.0, 280.0, 560.0, 1000.0, 1600.0, 2500.0, 4000.0, 6000.0, 8000.0, 10000.0)
MODULES = (0.5, 2.0, 3.5, 6.0, 10.0, 16.0, 25.0, 40.0, 70.0)
FACES = (4.0, 10.0, 20.0, 40.0, 80.0, 160.0, 250.0, 400.0, 650.0, 1000.0)


@cites(_KEY, formula="√(lower limit × upper limit) of the range")
def range_mean(value: float, limits: tuple[float, ...], field: str) -> float:
    """Geometric mean of the range that holds `value`; a range includes its upper limit."""
    for low, high in itertools.pairwise(limits):
        if low < value <= high or value == limits[0]:
            return math.sqrt(low * high)
    raise refuse(
        field,
        f"{value:g} mm",
        f"from {limits[0]:g} to {limits[-1]:g} mm",
        "The 1995 edition has no range there.",
        "Use the 2013 edition.",
    )


@cites(_KEY, formula="f_pt = 0.3 (m + 0.4 √d) + 4")
def single_pitch(d: float, m: float) -> float:
    """Single pitch, grade 5, µm, from range means in mm."""
    return 0.3 * (m + 0.4 * math.sqrt(d)) + 4.0


@cites(_KEY, formula="F_p = 0.3 m + 1.25 √d + 7")
def cumulative_pitch(d: float, m: float) -> float:
    """Cumulative pitch, grade 5, µm, from range means in mm."""
    return 0.3 * m + 1.25 * math.sqrt(d) + 7.0


@cites(_KEY, formula="F_α = 3.2 √m + 0.22 √d + 0.7")
def profile_total(d: float, m: float) -> float:
    """Tooth form, grade 5, µm, from range means in mm."""
    return 3.2 * math.sqrt(m) + 0.22 * math.sqrt(d) + 0.7


@cites(_KEY, formula="F_β = 0.1 √d + 0.63 √b + 4.2")
def helix_total(d: float, b: float) -> float:
    """Helix, grade 5, µm, from range means in mm."""
    return 0.1 * math.sqrt(d) + 0.63 * math.sqrt(b) + 4.2


def limits_1995(d: Millimetre, m: Millimetre, b: Millimetre, grade: int) -> dict[str, float]:
    """The old tolerances of a gear of pitch diameter, module and face in mm, rounded, µm, by the names of the nomenclature."""
    mean_d, mean_m, mean_b = (
        range_mean(d, DIAMETERS, "pitch_diameter"),
        range_mean(m, MODULES, "module"),
        range_mean(b, FACES, "face"),
    )
    factor = 2.0 ** ((grade - 5) / 2.0)
    exact = {
        "single_pitch": single_pitch(mean_d, mean_m),
        "cumulative_pitch": cumulative_pitch(mean_d, mean_m),
        "profile_total": profile_total(mean_d, mean_m),
        "helix_total": helix_total(mean_d, mean_b),
        "runout": 0.8 * cumulative_pitch(mean_d, mean_m),
    }
    return {name: rounded(value * factor) for name, value in exact.items()}
