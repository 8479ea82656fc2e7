"""Classes of ISO 1328-1 for arrays of deviations; the limits come from the gear room."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from evenpitch.gear.limits import cumulative_pitch, helix_form, helix_slope, helix_total, rounded, runout, single_pitch
from evenpitch.link.gearing import OnGear
from evenpitch.link.pulse_train import Array, Whole
from evenpitch.quantity.units import Millimetre

CLASSES = tuple(range(1, 12))
NONE = 12
"""Beyond every class of the standard."""


@dataclass(frozen=True, slots=True)
class ClassLimits:
    """Rounded limits in µm of classes 1 to 11 of one gear, by the symbol of the deviation."""

    single: tuple[float, ...]
    cumulative: tuple[float, ...]
    slope: tuple[float, ...]
    form: tuple[float, ...]
    total: tuple[float, ...]
    runout: tuple[float, ...]


def class_limits(gear: OnGear) -> ClassLimits:
    """The limits of all classes."""
    d, m, b = gear.diameter, gear.module, gear.face

    def each(formula: Callable[[Millimetre, Millimetre, int], float], length: Millimetre) -> tuple[float, ...]:
        return tuple(rounded(formula(d, length, cls)) for cls in CLASSES)

    return ClassLimits(
        single=each(single_pitch, m),
        cumulative=each(cumulative_pitch, m),
        slope=each(helix_slope, b),
        form=each(helix_form, b),
        total=each(helix_total, b),
        runout=each(runout, m),
    )


def classes_of(values: Array, limits: tuple[float, ...]) -> Whole:
    """The smallest class whose limit is not passed; 12 beyond them all."""
    return np.asarray(np.searchsorted(np.asarray(limits), values, side="left") + 1, dtype=np.int64)
