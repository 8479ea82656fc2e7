"""The head known from readings: slope, backlash and the waves of worm and wheel, all fitted together."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from itertools import pairwise
from typing import Any

import numpy as np

from evenpitch.checking.closing import closing_residue
from evenpitch.checking.head_terms import terms_of
from evenpitch.checking.least_squares import Array, Fitted, fit
from evenpitch.checking.measured import Measured
from evenpitch.checking.notes import note
from evenpitch.checking.periodic import amplitude_of
from evenpitch.checking.readings import HeadReading
from evenpitch.checking.standing_out import left_out
from evenpitch.quantity.finding import Finding
from evenpitch.quantity.refusal import Fault, Refusal
from evenpitch.quantity.units import RADIAN_PER_ARCSEC, Radian
from evenpitch.rig.maps import ErrorMap, Harmonic
from evenpitch.sources.citations import cites

FEWEST = 6
NEARLY = 0.9
"""Part of a turn from which a slope is as good as a closing test."""
JUMPS = 3.0
"""Where the fit scatters so many times more than places met again do, something jumps from turn to turn that no slope follows."""
Columns = dict[str, Array]


@dataclass(frozen=True, slots=True)
class FoundWave:
    """amplitude sin(per_turn × head angle + phase), radian. `phase_u`: standard uncertainty of the phase."""

    per_turn: int
    amplitude: Measured
    phase: float
    phase_u: float

    def facts(self) -> dict[str, float | int]:
        """Under the fixed keys of the machine-readable answer; u is that of the amplitude, in seconds."""
        found = self.amplitude.times(1 / RADIAN_PER_ARCSEC)
        return {
            "per_turn": self.per_turn,
            "amplitude_arcsec": found.value,
            "phase_deg": math.degrees(self.phase) % 360,
            "u": found.u,
            "U": found.U,
            "phase_u_deg": math.degrees(self.phase_u),
        }


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadFound:
    """`backlash`: down less up at the work, radian; `closure`: what a full turn leaves; `slope`: per radian of the work, of the bar.

    `s`: standard deviation of one reading. `faces`: deviations of the artefact's faces, radian.
    """

    waves: tuple[FoundWave, ...]
    backlash: Measured | None
    closure: Measured | None
    slope: Measured | None
    s: Measured
    faces: tuple[float, ...]
    readings: tuple[HeadReading, ...]
    findings: tuple[Finding, ...]

    def shown(self) -> tuple[FoundWave, ...]:
        """The waves that can be told from scatter."""
        return tuple(wave for wave in self.waves if wave.amplitude.shown())

    def as_map(self, day: date) -> ErrorMap:
        """The map to keep in the rig: the waves that are shown, with their date."""
        return ErrorMap(
            day,
            tuple(
                Harmonic(wave.per_turn, Radian(wave.amplitude.value), Radian(wave.phase), Radian(wave.amplitude.U))
                for wave in self.shown()
            ),
        )

    def facts(self) -> dict[str, Any]:
        """Under the fixed keys of the machine-readable answer."""
        return {
            "harmonics": [wave.facts() for wave in self.waves],
            **_plain("backlash", self.backlash),
            **_plain("closure", self.closure),
            "slope_ppm": None if self.slope is None else self.slope.times(1e6).facts(),
            "repeat_arcsec": _arcsec(self.s),
            "faces_arcsec": [face / RADIAN_PER_ARCSEC for face in self.faces],
        }


def _plain(name: str, found: Measured | None) -> dict[str, float | None]:
    """A value in seconds under its own key, its u and U beside it."""
    inside = None if found is None else found.times(1 / RADIAN_PER_ARCSEC)
    if inside is None:
        return {f"{name}_arcsec": None, f"{name}_u_arcsec": None, f"{name}_U_arcsec": None}
    return {f"{name}_arcsec": inside.value, f"{name}_u_arcsec": inside.u, f"{name}_U_arcsec": inside.U}


def _arcsec(found: Measured | None) -> dict[str, float] | None:
    return None if found is None else found.times(1 / RADIAN_PER_ARCSEC).facts()


@cites(
    "derived here",
    formula="error = a_run + m θ (bar) + face (closure) + B [down] + Σ (p_h sin hθ + q_h cos hθ); A_h = √(p_h² + q_h²)",
)
def know_head(readings: Sequence[HeadReading], ratio: Fraction) -> HeadFound:
    """All terms together, so that none takes what belongs to another. `ratio`: crank turns to one of the work."""
    _refuse_useless(readings)
    chosen = terms_of(readings, ratio)
    waves, common = list(chosen.waves), _nested(readings)
    findings = [*chosen.findings, *([note("runs-not-both-ways")] if common and _both_ways(readings) else [])]
    fitted, waves = _fitted(readings, waves, common)
    findings += _given_up(chosen.waves, waves)
    closure = _closure(readings, fitted)
    made = HeadFound(
        waves=tuple(_wave(fitted, per_turn) for per_turn in waves),
        backlash=fitted.term("backlash") if fitted.has("backlash") else None,
        closure=closure,
        slope=fitted.term("slope") if fitted.has("slope") else None,
        s=Measured(fitted.s, fitted.s / math.sqrt(2 * max(fitted.freedom, 1)), max(fitted.freedom, 1)),
        faces=_faces(fitted),
        readings=tuple(readings),
        findings=(),
    )
    from dataclasses import replace

    return replace(made, findings=(*findings, *_findings(made, _columns(readings, waves, common))))


def _fitted(readings: Sequence[HeadReading], waves: list[int], common: bool) -> tuple[Fitted, list[int]]:
    """The fit with as many of the waves as the readings bear; the last named give way first."""
    error = np.array([one.error for one in readings])
    kept = list(waves)
    while True:
        columns = _columns(readings, kept, common)
        if len(columns) < len(readings):
            try:
                return _weighed(readings, columns, error), kept
            except ValueError:
                pass
        if not kept:
            break
        kept.pop(kept.index(max(kept, key=lambda per_turn: (per_turn % 2 == 0 and per_turn // 2 in kept, per_turn))))
    given = f"{len(readings)} readings"
    do = "Read the same places again, from both sides, with more places in each run."
    raise Refusal(Fault("readings", given, "readings enough for zero, slope and backlash", "Fewer readings than unknowns.", do))


def _weighed(readings: Sequence[HeadReading], columns: Columns, error: Array) -> Fitted:
    """The fit; where bar and artefact are both there, each weighed by the scatter it showed."""
    weights = _weights(readings, columns, error)
    return fit(columns, error, weights)


def _weights(readings: Sequence[HeadReading], columns: Columns, error: Array) -> Array | None:
    """What a reading by bar and one by artefact count; None where only one of them was used."""
    methods = np.array([one.method for one in readings])
    kinds = sorted(set(methods.tolist()))
    if len(kinds) == 1:
        return None
    first, weights = fit(columns, error), np.ones(len(error))
    for kind in kinds:
        rest = first.residuals[methods == kind]
        weights[methods == kind] = 1 / max(float(np.sqrt(np.mean(rest**2))), 1e-9)
    return np.asarray(weights / weights.mean())


def _nested(readings: Sequence[HeadReading]) -> bool:
    """Whether every run was read from one side only: then one zero serves all runs of a method."""
    sides: dict[tuple[str, int], set[str]] = {}
    for one in readings:
        sides.setdefault((one.method, one.run), set()).add(one.direction)
    return _both_ways(readings) and all(len(found) == 1 for found in sides.values())


def _both_ways(readings: Sequence[HeadReading]) -> bool:
    return len({one.direction for one in readings}) > 1


def _columns(readings: Sequence[HeadReading], waves: Sequence[int], common: bool) -> Columns:
    angle = np.array([one.nominal for one in readings])
    columns: Columns = {}
    groups = ["bar" if common and one.method == "bar" else f"{one.method} {one.run}" for one in readings]
    for group in dict.fromkeys(groups):
        columns[f"at {group}"] = np.array([1.0 if name == group else 0.0 for name in groups])
    bar = np.array([one.method == "bar" for one in readings])
    if bar.any() and np.ptp(angle[bar]) > 0:
        columns["slope"] = np.where(bar, angle - angle[bar].mean(), 0.0)
    if _both_ways(readings):
        columns["backlash"] = np.array([0.5 if one.direction == "down" else -0.5 for one in readings])
    columns |= _face_columns(readings)
    for per_turn in waves:
        columns[f"sin {per_turn}"], columns[f"cos {per_turn}"] = np.sin(per_turn * angle), np.cos(per_turn * angle)
    return columns


def _face_columns(readings: Sequence[HeadReading]) -> Columns:
    """The artefact's faces, the last of them less the sum of the others."""
    shown = [_face(one, n) if one.method == "closure" else -1 for one in readings] if (n := faces_of(readings)) else []
    return {
        f"face {face}": np.array([1.0 if found == face else -1.0 if found == n - 1 else 0.0 for found in shown])
        for face in range(n - 1 if n else 0)
    }


def faces_of(readings: Sequence[HeadReading]) -> int:
    """How many faces the artefact has: as many as it was shifted and as the places it stood at; 0 without one."""
    places = {round(math.degrees(one.nominal) % 360, 6) % 360 for one in readings if one.method == "closure"}
    return len(places)


def _face(one: HeadReading, n: int) -> int:
    step = round(one.nominal * n / (2 * math.pi))
    return (step + one.run - 1) % n


def _faces(fitted: Fitted) -> tuple[float, ...]:
    found = [float(fitted.terms[place]) for place, name in enumerate(fitted.names) if name.startswith("face ")]
    return (*found, -math.fsum(found)) if found else ()


def _given_up(asked: Sequence[int], kept: Sequence[int]) -> Iterator[Finding]:
    for per_turn in asked:
        if per_turn not in kept:
            code = "wheel-not-seen" if per_turn <= 2 else "worm-not-seen"
            yield note(code, per_turn=per_turn, reason="Among these places it looks like another term.")


def _closure(readings: Sequence[HeadReading], fitted: Fitted) -> Measured | None:
    """What a full turn leaves: from places met again, else from the slope where nearly a whole turn was read."""
    met = closing_residue(readings)
    if met is not None:
        if met.scatter is not None and JUMPS * met.scatter < fitted.s * math.sqrt(2):
            return Measured(met.value, met.scatter / math.sqrt(met.places), met.places - 1)
        return Measured(met.value, fitted.s * math.sqrt(2 / met.places), max(fitted.freedom, 1))
    bar = [one.nominal for one in readings if one.method == "bar"]
    if fitted.has("slope") and max(bar) - min(bar) >= NEARLY * 2 * math.pi:
        return fitted.term("slope").times(2 * math.pi)
    return None


def _wave(fitted: Fitted, per_turn: int) -> FoundWave:
    at = fitted.names.index(f"sin {per_turn}")
    p, q = float(fitted.terms[at]), float(fitted.terms[at + 1])
    inside = fitted.covariance[at : at + 2, at : at + 2]
    amplitude, u = amplitude_of(p, q, inside)
    across = np.array([-q, p])
    phase_u = math.sqrt(float(across @ inside @ across)) / amplitude**2 if amplitude > 0 else math.pi
    return FoundWave(per_turn, Measured(amplitude, u, max(fitted.freedom, 1)), math.atan2(q, p), min(phase_u, math.pi))


def _refuse_useless(readings: Sequence[HeadReading]) -> None:
    faults = [
        Fault(f"line {one.line}", "not a number", "an angle", "It is empty, or text.", "Read it again.")
        for one in readings
        if not (math.isfinite(one.nominal) and math.isfinite(one.error))
    ]
    if not faults and len(readings) < FEWEST:
        expected = f"at least {FEWEST} readings; 12 within a turn of the crank, over three turns, is good"
        faults.append(Fault("readings", f"{len(readings)}", expected, "So few show no wave.", "Read more places."))
    faults = faults or [*_skipped_turns(readings), *_artefact_faults(readings)]
    if faults:
        raise Refusal(*faults)


def _skipped_turns(readings: Sequence[HeadReading]) -> Iterator[Fault]:
    """Nominal angles that go on by more than a turn from one reading to the next, among others that do not."""
    gaps = [
        (after.line, math.degrees(after.nominal - before.nominal))
        for before, after in pairwise(readings)
        if after.run == before.run and after.method == before.method
    ]
    usual = sorted(abs(gap) for _, gap in gaps)[len(gaps) // 2] if gaps else 0.0
    for line, gap in gaps:
        if gap > 360 + 1e-6 and usual < 180:
            do = "Write the angle that the head stood at, from 0 to 360, or read the places between."
            yield Fault(
                f"line {line}, nominal_deg",
                f"{gap:g}° on from the line before",
                "less than a turn on",
                "The angles skip a turn.",
                do,
            )


def _artefact_faults(readings: Sequence[HeadReading]) -> Iterator[Fault]:
    n = faces_of(readings)
    if not n:
        return
    steps = [one for one in readings if one.method == "closure"]
    off = [one for one in steps if abs(math.degrees(one.nominal) * n / 360 - round(math.degrees(one.nominal) * n / 360)) > 1e-4]
    if off or n < 3:
        given = f"{n} places, among them {math.degrees(off[0].nominal):g}°" if off else f"{n} places"
        yield Fault(
            "nominal_deg",
            given,
            "the n equal parts of a turn, n at least 3",
            "An artefact of n faces stands at n places.",
            "Write the places as multiples of 360/n.",
        )
        return
    seen = {(round(one.nominal * n / (2 * math.pi)) % n, (one.run - 1) % n) for one in steps}
    if len(seen) < n * n:
        given = f"{len(seen)} of {n * n} places and shifts"
        yield Fault(
            "run",
            given,
            f"{n} shifts of {n} places",
            "Without every shift head and faces cannot be told apart.",
            "Turn the artefact on by one face until every face has stood at every place.",
        )


def _findings(made: HeadFound, columns: Columns) -> Iterator[Finding]:
    error = np.array([one.error for one in made.readings])
    for one in left_out(columns, error, _weights(made.readings, columns, error)):
        where = f"The reading of line {made.readings[one.place].line}"
        off, others = (f"{value / RADIAN_PER_ARCSEC:.0f}″" for value in (one.off, one.others))
        yield note("reading-stands-out", where=where, times=one.times, off=off, others=others)
    if made.backlash is None:
        yield note("direction-missing", direction=made.readings[0].direction)
    elif made.backlash.value < -made.backlash.U:
        yield note("directions-turned", ahead=-made.backlash.value / RADIAN_PER_ARCSEC)
