"""The measured error of the head, dated."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from evenpitch.quantity.units import Radian

OLD_DAYS = 365
"""Days after which a calibration is called old; common practice."""


@dataclass(frozen=True, slots=True)
class Harmonic:
    """One wave of the head's error: amplitude x sin(per_turn x head angle + phase), + ahead.

    `U`: expanded uncertainty of the amplitude, k = 2, where it is known.
    """

    per_turn: int
    amplitude: Radian
    phase: Radian = Radian(0.0)
    U: Radian | None = None


@dataclass(frozen=True, slots=True)
class ErrorMap:
    """All waves found on one day."""

    date: date
    harmonics: tuple[Harmonic, ...]
