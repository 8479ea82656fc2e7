"""The scale calibrated from readings: gain, reversal, drift, what is left; and what to say of them."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from evenpitch.checking.iso230 import Positioning, places_of, positioning_of
from evenpitch.checking.least_squares import Array, Fitted, fit
from evenpitch.checking.measured import Measured, coverage_factor
from evenpitch.checking.notes import note
from evenpitch.checking.readings import ScaleReading
from evenpitch.checking.standing_out import left_out, unit_faults
from evenpitch.quantity.finding import Finding
from evenpitch.quantity.refusal import Fault, Refusal
from evenpitch.sources.citations import cites

FEWEST = 5
FEWEST_PLACES = 3
WANTED_PLACES = 5
MILLION = 1e6
MICROMETRES = 1e3


@dataclass(frozen=True, slots=True)
class PlaceLeft:
    """What the fit leaves at one place: mean of its readings, mm, from both sides, with its standard uncertainty."""

    at: float
    left: Measured
    readings: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ScaleCalibration:
    """`gain`: bare number, + reads too much; `reversal`: up less down, mm; `drift`: first reading to last, mm; `s`: one reading, mm.

    `drift_fitted`: the drift was shown, so that gain and reversal have it fitted beside them. `curve`: what is left, place by place.
    """

    gain: Measured
    reversal: Measured | None
    drift: Measured | None
    s: Measured
    drift_fitted: bool
    middle: float
    curve: tuple[PlaceLeft, ...]
    positioning: Positioning | None
    readings: tuple[ScaleReading, ...]
    findings: tuple[Finding, ...]

    def facts(self) -> dict[str, Any]:
        """Under the fixed keys of the machine-readable answer."""
        return {
            "gain_ppm": self.gain.times(MILLION).facts(),
            "reversal_um": _or_none(self.reversal),
            "drift_um": _or_none(self.drift),
            "residual_um": self.s.times(MICROMETRES).facts(),
            "iso230": None if self.positioning is None else self.positioning.facts(MICROMETRES),
            "curve": [
                {"at_mm": one.at, "left_um": one.left.value * MICROMETRES, "u_um": one.left.u * MICROMETRES} for one in self.curve
            ],
        }


def _or_none(found: Measured | None) -> dict[str, float] | None:
    return None if found is None else found.times(MICROMETRES).facts()


@cites("derived here", "ISO 230-2:2014", formula="reading − reference = a + ε (x − x̄) + h dir/2 (+ d t), dir +1 up, −1 down")
def calibrate_scale(readings: Sequence[ScaleReading], travel_used: float | None = None) -> ScaleCalibration:
    """Gain, reversal, drift and the rest. Refused where the readings cannot give a gain; nothing is corrected or left out."""
    _refuse_useless(readings)
    plain = _fitted(readings, drift=False)
    drifting, fitted = _drift(readings)
    chosen = fitted if fitted is not None and drifting is not None and drifting.shown() else plain
    freedom = max(chosen.freedom, 1)
    found = tuple(readings)
    made = ScaleCalibration(
        gain=chosen.term("gain"),
        reversal=chosen.term("reversal") if chosen.has("reversal") else None,
        drift=drifting,
        s=Measured(chosen.s, chosen.s / math.sqrt(2 * freedom), freedom),
        drift_fitted=chosen is fitted,
        middle=float(np.mean([one.reference for one in found])),
        curve=_curve(found, chosen),
        positioning=positioning_of(found),
        readings=found,
        findings=(),
    )
    return _with_findings(made, chosen, travel_used, hidden=drifting is None)


def _columns(readings: Sequence[ScaleReading], drift: bool) -> dict[str, Array]:
    x = np.array([one.reference for one in readings])
    side = np.array([0.5 if one.direction == "up" else -0.5 for one in readings])
    columns: dict[str, Array] = {"at": np.ones(len(x)), "gain": x - x.mean()}
    if len(set(side.tolist())) > 1:
        columns["reversal"] = side
    if drift:
        columns["drift"] = np.linspace(-0.5, 0.5, len(x))
    return columns


def _fitted(readings: Sequence[ScaleReading], drift: bool) -> Fitted:
    return fit(_columns(readings, drift), np.array([one.error for one in readings]))


def _drift(readings: Sequence[ScaleReading]) -> tuple[Measured | None, Fitted | None]:
    """The drift and the fit that has it; None where places and time went together or readings are too few."""
    if len(readings) < 6:
        return None, None
    try:
        fitted = _fitted(readings, drift=True)
    except ValueError:
        return None, None
    if abs(fitted.correlation("gain", "drift")) > 0.99:
        return None, None
    return fitted.term("drift"), fitted


def _curve(readings: tuple[ScaleReading, ...], fitted: Fitted) -> tuple[PlaceLeft, ...]:
    left = {id(one): float(rest) for one, rest in zip(readings, fitted.residuals, strict=True)}
    curve = []
    for place in places_of(readings):
        mean = sum(left[id(one)] for one in place) / len(place)
        u = fitted.s / math.sqrt(len(place))
        curve.append(PlaceLeft(place[0].reference, Measured(mean, u, max(fitted.freedom, 1)), len(place)))
    return tuple(curve)


def _refuse_useless(readings: Sequence[ScaleReading]) -> None:
    faults = [
        Fault(f"line {one.line}", "not a number", "a length", "It is empty, or text.", "Read it again.")
        for one in readings
        if not (math.isfinite(one.reference) and math.isfinite(one.reading))
    ]
    if faults:
        raise Refusal(*faults)
    places = len(places_of(readings))
    if len(readings) < FEWEST or places < FEWEST_PLACES:
        given = f"{len(readings)} readings at {places} places"
        expected = f"at least {FEWEST} readings at {FEWEST_PLACES} places; 11 places, both ways, 3 runs is good"
        raise Refusal(Fault("readings", given, expected, "A line through so few has no doubt to be told.", "Read more places."))
    reference = np.array([one.reference for one in readings])
    reading = np.array([one.reading for one in readings])
    found = unit_faults(reference, reading, [one.line for one in readings], "reading")
    if found:
        raise Refusal(*found)


def _with_findings(made: ScaleCalibration, fitted: Fitted, used: float | None, hidden: bool) -> ScaleCalibration:
    from dataclasses import replace

    return replace(made, findings=tuple(_findings(made, fitted, used, hidden)))


def _findings(made: ScaleCalibration, fitted: Fitted, used: float | None, hidden: bool) -> Iterator[Finding]:
    for one in left_out(_columns(made.readings, made.drift_fitted), np.array([one.error for one in made.readings])):
        where = f"The reading of line {made.readings[one.place].line}"
        yield note(
            "reading-stands-out",
            where=where,
            times=one.times,
            off=f"{one.off * MICROMETRES:.1f} µm",
            others=f"{one.others * MICROMETRES:.1f} µm",
        )
    if made.reversal is None:
        yield note("direction-missing", direction=made.readings[0].direction)
    places = len(made.curve)
    if places < WANTED_PLACES:
        yield note("too-few-places", places=places, need=WANTED_PLACES)
    covered = made.curve[-1].at - made.curve[0].at
    if used is not None and covered < used * (1 - 1e-9):
        yield note("not-covered", covered=covered, used=used)
    if made.drift_fitted and made.drift is not None:
        yield note("drift", drift=made.drift.value * MICROMETRES, U=made.drift.U * MICROMETRES)
    if hidden and len(made.readings) >= 6:
        yield note("drift-hidden")
    warmth = [one.temperature for one in made.readings if one.temperature is not None]
    if warmth and max(warmth) - min(warmth) > 1:
        yield note("temperature-spread", least=min(warmth), most=max(warmth))


@cites("JCGM 100:2008, H.3.4", formula="U(x) = k √(u_a² + (x − x̄)² u_ε²)")
def band(made: ScaleCalibration, at: float) -> float:
    """Expanded uncertainty of the fitted line at a place, mm."""
    spread = made.s.value / math.sqrt(len(made.readings))
    return coverage_factor(made.s.freedom) * math.hypot(spread, (at - made.middle) * made.gain.u)
