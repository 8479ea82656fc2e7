"""Temperature: what a difference between block, scale and work does to a length."""

from __future__ import annotations

from evenpitch.quantity.units import Kelvin, Millimetre
from evenpitch.sources.citations import cites

EXPANSION = {
    "steel": 11.5e-6,
    "cast iron": 10.4e-6,
    "aluminium": 23.0e-6,
    "brass": 18.9e-6,
    "plate glass": 9.0e-6,
}
"""Parts per kelvin; published tables give 11 to 13, 10.0 to 10.8, 22 to 24, 18.7 to 19, 9.0."""
REFERENCE = 20.0
"""Degrees Celsius at which a size is true (ISO 1; from memory)."""


@cites("published tables", formula="ΔL = α L ΔT")
def growth(length: Millimetre, kelvin: Kelvin, per_kelvin: float = EXPANSION["steel"]) -> Millimetre:
    """What a length gains with warmth, mm."""
    return Millimetre(length * kelvin * per_kelvin)


@cites("published tables", "derived here", formula="Δ = L (α_s (T_s − 20) − α_w (T_w − 20))")
def scale_against_work(length: Millimetre, scale: tuple[float, float], work: tuple[float, float]) -> Millimetre:
    """How much more the scale's length has grown than the work's; each given as (expansion, °C). + the scale reads short of the work."""
    return Millimetre(length * (scale[0] * (scale[1] - REFERENCE) - work[0] * (work[1] - REFERENCE)))
