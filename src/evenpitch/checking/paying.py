"""Whether taking the scale's gain out pays: on this face, on a rack; and the lead to enter."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from evenpitch.checking.measured import Measured
from evenpitch.checking.notes import note
from evenpitch.quantity.finding import Finding
from evenpitch.quantity.units import Millimetre, Radian
from evenpitch.sources.citations import cites

RACK = 400.0
"""Length of rack, mm, that a shop of this kind cuts at most; common practice."""
COUNTS = 2.0
"""Micrometres below which a slope is lost in every other one; common practice."""


@cites("derived here", formula="L' = L (1 + ε)")
def corrected_lead(lead: Fraction, gain: Fraction) -> Fraction:
    """The lead to enter for a scale that reads too much by `gain` (bare number): the work then turns once in L of true travel."""
    return lead * (1 + gain)


@cites("derived here", formula="Δ = ε l")
def length_error(gain: float, length: Millimetre) -> Millimetre:
    """What a gain makes of a length, mm: a rack, or the table travel over a face."""
    return Millimetre(gain * length)


@cites("derived here", "ISO 1328-1:2013", formula="f_Hβ = b tan β_b |ε|")
def slope_over_face(gain: float, face: Millimetre, base_helix: Radian) -> Millimetre:
    """What a gain makes of the helix slope over a face, mm."""
    return Millimetre(face * math.tan(base_helix) * abs(gain))


@dataclass(frozen=True, slots=True)
class Paying:
    """`over_face`: µm over the face (the helix slope, or the length itself where no helix is named); `over_rack`: over RACK."""

    over_face: float
    over_rack: float
    pays: bool
    finding: Finding


def paying(gain: Measured, face: Millimetre, base_helix: Radian | None = None) -> Paying:
    """Whether correcting pays for a face: the gain must be shown, and must count."""
    over = abs(length_error(gain.value, face)) if base_helix is None else slope_over_face(gain.value, face, base_helix)
    um, rack = over * 1e3, abs(length_error(gain.value, Millimetre(RACK))) * 1e3
    parts, U = gain.value * 1e6, gain.U * 1e6
    if not gain.shown():
        return Paying(um, rack, False, note("gain-not-shown", gain=parts, U=U))
    facts = {"way": "long" if gain.value > 0 else "short", "gain": abs(parts), "U": U, "um": um, "length": face}
    if um < COUNTS:
        return Paying(um, rack, False, note("gain-leave", **facts, long=RACK, rack=rack))
    return Paying(um, rack, True, note("gain-correct", **facts, factor=1 + gain.value))
