"""Readings that do not belong with the others: one that stands out, one in another unit, all in another unit."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from evenpitch.checking.least_squares import Array, Fitted, fit
from evenpitch.quantity.refusal import Fault
from evenpitch.sources.citations import cites

FAR = 8.0
"""So many robust standard deviations from the rest a reading stands out: once in 10¹⁵ by chance."""
CHANCE = 1e-5
FEWEST_FREE = 3
"""Degrees of freedom below which too few readings are left to say which of them is bad."""
LEAST_SPREAD = 1e-6
"""Millimetre or radian below which a spread is only the rounding of what was typed."""
UNITS = ((25.4, "inches where the others are millimetres"), (1 / 25.4, "millimetres where the others are inches"))
SLIPS = ((10.0, "a decimal mark one place to the right"), (0.1, "a decimal mark one place to the left"))
CLOSE = 0.02


@dataclass(frozen=True, slots=True)
class StandsOut:
    """A reading, by its place in the row, `times` as far off as the others: `off`, where the others lie within `others`."""

    place: int
    off: float
    others: float

    @property
    def times(self) -> float:
        """How many times as far off as the others."""
        return abs(self.off) / self.others


def stands_out(residuals: Array) -> tuple[StandsOut, ...]:
    """The residuals of a line that bad readings do not bend: those beyond eight times the spread of the rest."""
    if len(residuals) < 4:
        return ()
    away = np.abs(residuals - np.median(residuals))
    inner = np.sort(away)[: max(3, math.ceil(0.9 * len(away)) - 1)]
    spread = max(1.4826 * float(np.median(away)), float(inner.mean()), LEAST_SPREAD)
    others = max(float(away[away <= FAR * spread].max(initial=0.0)), LEAST_SPREAD)
    return tuple(StandsOut(int(place), float(residuals[place]), others) for place in np.flatnonzero(away > FAR * spread))


@cites("derived here", formula="t = e/(s₋ √(1 − h)), s₋² = (ν s² − e²/(1 − h))/(ν − 1): the residual against the fit without it")
def left_out(columns: dict[str, Array], values: Array, weights: Array | None = None) -> tuple[StandsOut, ...]:
    """Readings that do not belong to the fit of the others: each is held against the fit without it, the farthest leaves, and so on.

    A least-squares line through few readings bends so far to a bad one that its residual looks common; left out, it shows.
    """
    kept, out = np.arange(len(values)), list[int]()
    weighed = np.ones(len(values)) if weights is None else weights
    for _ in range(max(1, len(values) // 10) + 1):
        try:
            fitted = fit({name: column[kept] for name, column in columns.items()}, values[kept], weighed[kept])
        except ValueError:
            break
        if fitted.freedom < FEWEST_FREE or len(out) > len(values) // 10:
            break
        own = 1 - fitted.leverage
        left = np.where(own > 1e-6, fitted.residuals * weighed[kept] / np.sqrt(np.maximum(own, 1e-6)), 0.0)
        rest = np.maximum(fitted.freedom * fitted.s**2 - left**2, 0.0) / (fitted.freedom - 1)
        far = np.abs(left) / np.maximum(np.sqrt(rest), LEAST_SPREAD)
        worst = int(np.argmax(far))
        if far[worst] <= _beyond_chance(fitted.freedom - 1):
            return _told(columns, values, fitted, out)
        out.append(int(kept[worst]))
        kept = np.delete(kept, worst)
    return ()


def _told(columns: dict[str, Array], values: Array, fitted: Fitted, out: list[int]) -> tuple[StandsOut, ...]:
    """The readings left out against the fit of the rest."""
    others = max(float(np.abs(fitted.residuals).max()), LEAST_SPREAD)
    due = sum(columns[name] * term for name, term in zip(fitted.names, fitted.terms, strict=True))
    return tuple(StandsOut(place, float((values - due)[place]), others) for place in sorted(out))


def _beyond_chance(freedom: int) -> float:
    """So many standard deviations chance alone does not reach: once in a hundred thousand, and no fewer than eight."""
    from scipy.special import stdtrit

    return max(FAR, float(stdtrit(freedom, 1 - CHANCE / 2)))


def robust_line(x: Array, y: Array) -> tuple[float, float]:
    """At and slope of the line that halves the readings, hardly moved by a few bad ones (least sum of distances)."""
    weights = np.ones(len(x), float)
    at = slope = 0.0
    for _ in range(30):
        middle, centre = float((weights * x).sum() / weights.sum()), float((weights * y).sum() / weights.sum())
        reach = float((weights * (x - middle) ** 2).sum())
        new = float((weights * (x - middle) * (y - centre)).sum()) / reach if reach else 0.0
        moved = abs(new - slope) * float(np.ptp(x)) + abs(centre - new * middle - at)
        at, slope = centre - new * middle, new
        if moved < 1e-3 * LEAST_SPREAD:
            break
        distance = np.abs(y - at - slope * x)
        weights[:] = 1 / np.maximum(distance, 1e-9 + 1e-3 * float(np.median(distance)))
    return at, slope


def factor_words(factor: float) -> str:
    """What a reading so many times its due may be, or ""."""
    for times, words in (*UNITS, *SLIPS):
        if abs(factor / times - 1) < CLOSE:
            return words
    return ""


def unit_faults(reference: Array, reading: Array, lines: Sequence[int], field: str) -> tuple[Fault, ...]:
    """Readings in another unit than their reference: all of them, or some lines among the others."""
    at, slope = robust_line(reference, reading)
    whole = _whole_factor(slope)
    if whole is not None:
        return (
            Fault(
                field,
                f"{slope:.4g} times the reference",
                "reading and reference in the units their heads say",
                whole[0],
                whole[1],
            ),
        )
    faults = []
    for one in stands_out(reading - at - slope * reference):
        due = slope * reference[one.place] + at
        factor = (reading[one.place] / due) if abs(due) > 1e-9 else math.nan
        words = factor_words(1 / factor) if factor else ""
        if "inches" in words:
            given = f"{reading[one.place]:g} where {due:g} is due"
            do = "Write every reading in the unit of the head of its column."
            faults.append(
                Fault(f"line {lines[one.place]}, {field}", given, "one unit in the whole column", f"It looks like {words}.", do)
            )
    return tuple(faults)


def _whole_factor(slope: float) -> tuple[str, str] | None:
    if 0.9 < slope < 1.1:
        return None
    if slope < 0:
        return (
            "The scale counts the other way than the reference grows.",
            "Turn its counting direction round, or write the references with their sign.",
        )
    for times, words in ((25.4, "the reference is in inches"), (1 / 25.4, "the reading is in inches")):
        if abs(slope / times - 1) < CLOSE:
            return f"It looks as if {words}.", "Say the unit in the head of the column: reading_in or reading_mm."
    return (
        "The scale shows another multiple of the truth.",
        f"Ask for it: evenpitch reading --moved 50mm --shown {50 * slope:.4g}mm",
    )
