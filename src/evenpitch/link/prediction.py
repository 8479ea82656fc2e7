"""What a drive will leave on a gear: quantiles, the probability of each class, the class to expect."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from evenpitch.link.draws import DRAWS, Draws, Progress, draw
from evenpitch.link.drive import Drive
from evenpitch.link.gearing import OnGear
from evenpitch.link.limits import CLASSES, NONE, ClassLimits, class_limits, classes_of
from evenpitch.link.pulse_train import Array
from evenpitch.sources.citations import cites

SURE = 0.95


@cites("JCGM 101:2008, 7.7", formula="the values that leave (1 − p)/2 of the draws below and above")
def interval(values: Array, share: float = SURE) -> tuple[float, float]:
    """The interval, symmetrical in probability, that holds a share of the draws."""
    low, high = np.quantile(values, [(1 - share) / 2, (1 + share) / 2])
    return float(low), float(high)


@dataclass(frozen=True, slots=True)
class Quantile:
    """Half of the gears lie below `p50`, 95 of 100 below `p95`; µm. `limits`: of classes 1 to 11."""

    name: str
    symbol: str
    p50: float
    p95: float
    limits: tuple[float, ...]

    def share(self) -> float:
        """p95 as a part of the limit of class 5: by which deviations are compared."""
        return self.p95 / self.limits[4]


@dataclass(frozen=True, slots=True)
class Expected:
    """The prediction of one gear. `probability`: of the worst of f_p, F_p and F_β being class A or better, A from 1 to 11.

    `class95`: the best class that 95 of 100 gears keep, 12 if none; `draws`: gears drawn.
    """

    quantiles: tuple[Quantile, ...]
    probability: tuple[float, ...]
    class95: int
    draws: int

    def quantile(self, name: str) -> Quantile:
        """By the word of the nomenclature."""
        return next(found for found in self.quantiles if found.name == name)

    def chance(self, cls: int) -> float:
        """Probability of that class or better."""
        return self.probability[cls - 1] if cls <= CLASSES[-1] else 1.0

    def decides(self) -> Quantile:
        """Of the three that make the class, the one nearest to (or furthest over) its limit."""
        return max((q for q in self.quantiles if q.symbol in ("f_p", "F_p", "F_beta")), key=Quantile.share)

    def facts(self) -> dict[str, Any]:
        """Under the fixed keys of the machine-readable answer."""
        return {
            "quantiles": {q.symbol: {"p50": q.p50, "p95": q.p95} for q in self.quantiles},
            "class_probability": {str(cls): self.probability[cls - 1] for cls in CLASSES},
            "class95": self.class95 if self.class95 < NONE else None,
            "draws": self.draws,
        }


def expect(
    drive: Drive, gear: OnGear, draws: int = DRAWS, seed: int = 1, *, mapped: float = 1.0, progress: Progress | None = None
) -> Expected:
    """Draw so many gears and look at them."""
    return look_at(draw(drive, gear, draws, seed, mapped=mapped, progress=progress), class_limits(gear))


def look_at(drawn: Draws, limits: ClassLimits) -> Expected:
    """Quantiles and classes of what was drawn."""
    rows = (
        ("single_pitch", "f_p", drawn.single, limits.single),
        ("cumulative_pitch", "F_p", drawn.cumulative, limits.cumulative),
        ("runout", "F_r", drawn.runout, limits.runout),
        ("helix_slope", "f_H_beta", drawn.slope, limits.slope),
        ("helix_form", "f_f_beta", drawn.form, limits.form),
        ("helix_total", "F_beta", drawn.total, limits.total),
    )
    quantiles = tuple(
        Quantile(name, symbol, float(np.quantile(values, 0.5)), float(np.quantile(values, SURE)), limit)
        for name, symbol, values, limit in rows
    )
    worst = np.max([classes_of(rows[place][2], rows[place][3]) for place in (0, 1, 5)], axis=0)
    probability = tuple(float((worst <= cls).mean()) for cls in CLASSES)
    kept = [cls for cls in CLASSES if probability[cls - 1] >= SURE]
    return Expected(quantiles, probability, kept[0] if kept else NONE, len(worst))
