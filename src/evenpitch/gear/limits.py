"""Flank tolerances after ISO 1328-1:2013: formulas, rounding, and what the standard covers. Lengths in mm, tolerances in µm.

Slopes, totals and helix are from memory; single and cumulative pitch, tooth form, runout, scope and rounding were read in extracts.
"""

from __future__ import annotations

import math
from collections.abc import Callable

from evenpitch.gear.gear import Gear
from evenpitch.gear.sizes import pitch_diameter
from evenpitch.quantity.figure import Figure, figure
from evenpitch.quantity.units import Millimetre
from evenpitch.sources.citations import cites

_KEY = "ISO 1328-1:2013"


@cites(_KEY, formula="√2^(A − 5)")
def class_factor(tolerance_class: int) -> float:
    """Factor from class 5 to class A."""
    return float(2.0 ** ((tolerance_class - 5) / 2.0))


@cites(_KEY, formula="f_pT = (0.001 d + 0.4 m_n + 5) √2^(A−5)")
def single_pitch(d: Millimetre, m: Millimetre, tolerance_class: int) -> float:
    """Single pitch tolerance, µm, not rounded."""
    return (0.001 * d + 0.4 * m + 5.0) * class_factor(tolerance_class)


@cites(_KEY, formula="F_pT = (0.002 d + 0.55 √d + 0.7 m_n + 12) √2^(A−5)")
def cumulative_pitch(d: Millimetre, m: Millimetre, tolerance_class: int) -> float:
    """Cumulative (total) pitch tolerance, µm, not rounded."""
    return (0.002 * d + 0.55 * math.sqrt(d) + 0.7 * m + 12.0) * class_factor(tolerance_class)


@cites(_KEY, formula="f_HαT = (0.4 m_n + 0.001 d + 4) √2^(A−5)")
def profile_slope(d: Millimetre, m: Millimetre, tolerance_class: int) -> float:
    """Slope tolerance of the tooth form, µm either way, not rounded."""
    return (0.4 * m + 0.001 * d + 4.0) * class_factor(tolerance_class)


@cites(_KEY, formula="f_fαT = (0.55 m_n + 5) √2^(A−5)")
def profile_form(d: Millimetre, m: Millimetre, tolerance_class: int) -> float:
    """Form tolerance of the tooth form, µm, not rounded; the diameter plays no part."""
    return (0.55 * m + 5.0) * class_factor(tolerance_class)


@cites(_KEY, formula="F_αT = √(f_HαT² + f_fαT²)")
def profile_total(d: Millimetre, m: Millimetre, tolerance_class: int) -> float:
    """Total tolerance of the tooth form, µm, from unrounded parts, not rounded."""
    return math.hypot(profile_slope(d, m, tolerance_class), profile_form(d, m, tolerance_class))


@cites(_KEY, formula="f_HβT = (0.05 √d + 0.35 √b + 4) √2^(A−5)")
def helix_slope(d: Millimetre, b: Millimetre, tolerance_class: int) -> float:
    """Helix slope tolerance, µm either way, not rounded."""
    return (0.05 * math.sqrt(d) + 0.35 * math.sqrt(b) + 4.0) * class_factor(tolerance_class)


@cites(_KEY, formula="f_fβT = (0.07 √d + 0.45 √b + 4) √2^(A−5)")
def helix_form(d: Millimetre, b: Millimetre, tolerance_class: int) -> float:
    """Helix form tolerance, µm, not rounded."""
    return (0.07 * math.sqrt(d) + 0.45 * math.sqrt(b) + 4.0) * class_factor(tolerance_class)


@cites(_KEY, formula="F_βT = √(f_HβT² + f_fβT²)")
def helix_total(d: Millimetre, b: Millimetre, tolerance_class: int) -> float:
    """Total helix tolerance, µm, from unrounded parts, not rounded."""
    return math.hypot(helix_slope(d, b, tolerance_class), helix_form(d, b, tolerance_class))


@cites(f"{_KEY}, annex (informative)", formula="F_rT = 0.9 F_pT")
def runout(d: Millimetre, m: Millimetre, tolerance_class: int) -> float:
    """Runout tolerance of a ball or pin in the spaces, µm, from the unrounded cumulative pitch, not rounded."""
    return 0.9 * cumulative_pitch(d, m, tolerance_class)


@cites(f"{_KEY}, annex (informative)", formula="f_uT = √2 f_pT")
def adjacent_pitch(d: Millimetre, m: Millimetre, tolerance_class: int) -> float:
    """Tolerance of the difference of two neighbouring pitches, µm, not rounded."""
    return math.sqrt(2.0) * single_pitch(d, m, tolerance_class)


@cites(_KEY, formula="above 10 µm to 1 µm; 5 to 10 µm to 0.5 µm; below 5 µm to 0.1 µm")
def rounded(micrometres: float) -> float:
    """A tolerance as the standard prints it, µm; a verdict is taken against this figure."""
    step = 1.0 if micrometres > 10.0 else 0.5 if micrometres >= 5.0 else 0.1
    return round(math.floor(micrometres / step + 0.5 + 1e-9) * step, 10)


_Formula = Callable[[Millimetre, Millimetre, int], float]

_BY_MODULE: tuple[tuple[str, str, _Formula], ...] = (
    ("single_pitch", "f_p", single_pitch),
    ("cumulative_pitch", "F_p", cumulative_pitch),
    ("profile_total", "F_alpha", profile_total),
    ("profile_form", "f_f_alpha", profile_form),
    ("profile_slope", "f_H_alpha", profile_slope),
)
_BY_FACE: tuple[tuple[str, str, _Formula], ...] = (
    ("helix_total", "F_beta", helix_total),
    ("helix_form", "f_f_beta", helix_form),
    ("helix_slope", "f_H_beta", helix_slope),
)
_RUNOUT: tuple[tuple[str, str, _Formula], ...] = (("runout", "F_r", runout),)


def tolerances(gear: Gear, tolerance_class: int) -> tuple[Figure, ...]:
    """Every tolerance of the gear in that class, rounded as the standard rounds; helix only where the face is known."""
    d, outside = pitch_diameter(gear), "; ".join(outside_validity(gear))
    note = f"outside the standard's range, extrapolated: {outside}" if outside else ""

    def one(name: str, symbol: str, formula: _Formula, length: Millimetre, letter: str) -> Figure:
        exact = formula(d, length, tolerance_class)
        inputs = (
            ("class A", str(tolerance_class)),
            ("d", f"{d:.4f} mm"),
            (letter, f"{length:.4g} mm"),
            ("unrounded", f"{exact:.4f} um"),
        )
        return figure(name, rounded(exact), "um", by=formula, symbol=symbol, inputs=inputs, note=note)

    found = [one(name, symbol, formula, gear.module, "m_n") for name, symbol, formula in _BY_MODULE]
    if gear.face is not None:
        found += [one(name, symbol, formula, gear.face, "b") for name, symbol, formula in _BY_FACE]
    found += [one(name, symbol, formula, gear.module, "m_n") for name, symbol, formula in _RUNOUT]
    return tuple(found)


@cites(f"{_KEY}, clause 1", formula="5 ≤ z ≤ 1000, 5 ≤ d ≤ 15000 mm, 0.5 ≤ m_n ≤ 70 mm, 4 ≤ b ≤ 1200 mm, β ≤ 45°, A 1 to 11")
def outside_validity(gear: Gear) -> tuple[str, ...]:
    """What of this gear the standard does not cover, each in words; empty where it covers all."""
    d, face = pitch_diameter(gear), gear.face
    checks = [
        (5 <= gear.teeth <= 1000, f"{gear.teeth} teeth (5 to 1000)"),
        (5.0 <= d <= 15000.0, f"pitch diameter {d:.4g} mm (5 to 15000)"),
        (0.5 <= gear.module <= 70.0, f"module {gear.module:.4g} mm (0.5 to 70)"),
        (face is None or 4.0 <= face <= 1200.0, f"face {face or 0.0:.4g} mm (4 to 1200)"),
        (gear.helix <= math.radians(45.0) + 1e-12, f"helix angle {math.degrees(gear.helix):.4g}° (up to 45)"),
    ]
    return tuple(words for held, words in checks if not held)
