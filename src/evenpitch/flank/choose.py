"""Which cutter of the drawer leaves the best flank: each with its best swing and with the depth that keeps the tooth's thickness."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from evenpitch.flank.curve import Form, Where
from evenpitch.flank.facts import FlankFacts, flank_facts
from evenpitch.flank.forms import numbered_form
from evenpitch.flank.inspection import TraceFigures, profile_rolls, trace_figures
from evenpitch.flank.setting import SWING_LIMIT, Setting, Settings
from evenpitch.flank.trace import flank_trace
from evenpitch.flank.traces import many_traces
from evenpitch.flank.wanted import NOTHING, Array, WantedFlank
from evenpitch.quantity.refusal import Refusal
from evenpitch.quantity.units import Millimetre, Radian
from evenpitch.sources.citations import cites

TIP_SHARE = 3.0
"""Metal left at the tip may foul the mate: it is to stay within a third of the limit on the whole profile."""

SEARCHED = 5
"""So many cutters, the best at swing = helix, have their swing searched; the others stand as they are there."""

FAR = 5.0
"""A cutter so many times worse than the best at swing = helix is not searched either."""

SWING_EITHER_WAY = math.radians(3)
"""The swing is looked for this far to either side of the helix angle."""

DUG_ALLOWED = 0.001
"""Depth (mm) to which the trailing side's corner may cut below the form at the start before a swing is refused."""

Verdict = Literal["within", "tip heavy", "over", "no limit named", "cannot"]
"""Against the limit on total profile deviation; tip heavy: within it, but more than a third of it is left at the tip."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """A cutter to be weighed: the count its form was made for, module and pressure angle, outside diameter and tip corner (mm, rad)."""

    name: str
    form_teeth: int
    module: Millimetre
    pressure_angle: Radian
    outside: Millimetre
    corner: Millimetre
    dedendum: float = 1.25


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """What one cutter would leave at its best swing and depth; deviations mm, + = metal left, the same on both flanks.

    `swing` rad and `sink` mm (+ deeper than the root circle) to be set; `facts`: where corner or maker's practice made the flank.
    `nominal`: figures at swing = helix. `why_not`: what keeps a cutter from the work at all.
    """

    candidate: Candidate
    swing: float
    sink: float
    start: float
    pitch: float
    tip: float
    figures: TraceFigures
    facts: FlankFacts | None
    score: float
    verdict: Verdict
    nominal: TraceFigures
    nominal_sink: float
    why_not: str = ""

    @property
    def tip_excess(self) -> float:
        """Metal left at the tip beyond that at the pitch cylinder, mm; 0 when there is less."""
        return max(self.tip - self.pitch, 0.0)


@cites("derived here", "Machinery's Handbook, 31st ed.", formula="z_e = z / cos³ β + (D − 2 h_f) tan² β / m_n")
def form_teeth_wanted(wanted: WantedFlank, outside: Millimetre) -> float:
    """The count of teeth whose form suits this helix and cutter diameter best, before it is tried."""
    slope = math.tan(wanted.helix) ** 2
    return wanted.teeth / math.cos(wanted.helix) ** 3 + (outside - 2 * wanted.dedendum) / wanted.module * slope


def rank_cutters(
    wanted: WantedFlank,
    candidates: tuple[Candidate, ...],
    *,
    limit: Millimetre | None = None,
    flank_target: Millimetre = NOTHING,
    free_swing: bool = True,
) -> tuple[Fit, ...]:
    """Every cutter at its best, best first. `limit`: on total profile deviation; `flank_target`: deviation wanted at the pitch
    cylinder (negative: thinned); with `free_swing` False the swing stays at the helix angle."""
    ready = [_Ready.of(wanted, one, limit, flank_target) for one in candidates]
    plain = sorted(ready, key=lambda one: one.score)
    near = [one.score <= FAR * plain[0].score and rank < SEARCHED for rank, one in enumerate(plain)]
    free = free_swing and wanted.helix != 0.0
    fits = [_fit(wanted, one, limit, flank_target, free and close, close) for one, close in zip(plain, near, strict=True)]
    return tuple(sorted(fits, key=lambda fit: fit.score))


@dataclass(frozen=True, slots=True)
class _Trial:
    """Several swings of one cutter, each sunk to the thickness: traces (swings, rolls), the form's own without its corner, the score."""

    swing: Array
    sink: Array
    whole: Array
    form: Array
    score: Array


@dataclass(frozen=True, slots=True)
class _Ready:
    """A cutter with its form, tried at swing = helix; or why there is none."""

    candidate: Candidate
    form: Form | None
    at_helix: _Trial | None
    why_not: str = ""

    @classmethod
    def of(cls, wanted: WantedFlank, one: Candidate, limit: float | None, target: float) -> _Ready:
        """Make the form and sink it to the thickness at swing = helix."""
        try:
            form = _form(one, NODES)
        except Refusal as refusal:
            return cls(one, None, None, str(refusal))
        return cls(one, form, _try(form, wanted, np.array([wanted.helix]), target, np.inf, limit))

    @property
    def score(self) -> float:
        """At swing = helix; infinite where it cannot be had."""
        return float(self.at_helix.score[0]) if self.at_helix is not None else math.inf


def _fit(wanted: WantedFlank, ready: _Ready, limit: float | None, target: float, free_swing: bool, fine: bool) -> Fit:
    """The best setting of one cutter."""
    form, at_helix = ready.form, ready.at_helix
    if form is None or at_helix is None:
        return _cannot(ready.candidate, ready.why_not)
    best = at_helix
    if free_swing:
        dug = at_helix.form - at_helix.whole
        allowed = max(DUG_ALLOWED, float(np.nanmax(dug, initial=0.0)))
        best = _search(form, wanted, at_helix, target, allowed, limit)
    if not np.isfinite(best.score[0]):
        return _cannot(ready.candidate, "the form does not cut the whole flank at this thickness")
    told_by = _form(ready.candidate, FINE_NODES) if fine else form
    return _told(wanted, ready.candidate, told_by, best, at_helix, limit)


USUAL_SLOPE = -0.38
"""Flank taken off (mm) for each mm the cutter is sunk, about; only the first guess."""

FINE_NODES = 192
"""Nodes of a form when its figures are told."""

NODES = 48
"""Nodes of a form while cutters are weighed: errors below a hundredth of a micrometre away from the start of the flank."""

ROLLS = 41
"""Points of the profile while cutters are weighed."""


def _search(form: Form, wanted: WantedFlank, best: _Trial, target: float, allowed: float, limit: float | None) -> _Trial:
    """Swings about the helix angle, closer each time: the least score wins."""
    centre, away = float(best.swing[0]), SWING_EITHER_WAY
    for _ in range(3):
        swings = np.clip(centre + np.linspace(-away, away, 13), -SWING_LIMIT, SWING_LIMIT)
        trial = _try(form, wanted, swings, target, allowed, limit)
        k = int(np.argmin(trial.score))
        if trial.score[k] < best.score[0]:
            best = _Trial(*(getattr(trial, name)[k : k + 1] for name in ("swing", "sink", "whole", "form", "score")))
        centre, away = float(best.swing[0]), away / 5
    return best


def _rolls(wanted: WantedFlank) -> Array:
    """The profile's rolls, and at the end that of the pitch cylinder."""
    return np.append(profile_rolls(wanted, ROLLS), wanted.u_helix)


def _try(form: Form, wanted: WantedFlank, swing: Array, target: float, allowed: float, limit: float | None) -> _Trial:
    """Each swing sunk to the thickness (secant on the depth), then scored; swings that dig deeper than allowed are out."""
    u, base = _rolls(wanted), wanted.root_radius + form.outside_radius

    def left(sink: Array, parts: tuple[Where, ...], rolls: Array) -> Array:
        side = tuple(piece for piece in form.plus if piece.where in parts)
        seen = Settings(swing[:, None], np.zeros((len(swing), 1)), (base - sink)[:, None])
        return many_traces(side, wanted, wanted.q, seen, rolls)[0]

    sink = _sunk(lambda sink: left(sink, ("form",), u[-1:])[:, 0] - target, len(swing), wanted.module)
    alone = left(sink, ("below", "form", "beyond"), u)
    whole = np.fmin(alone, left(sink, ("land", "corner"), u))
    return _Trial(swing, sink, whole, alone, _score(whole, alone, alone[:, -1] - target, allowed, limit))


def sunk_to_thickness(form: Form, wanted: WantedFlank) -> tuple[Array, Array]:
    """Rolls and the profile (mm) a form leaves at swing = helix, sunk until the tooth has its thickness; infinite where it cannot be."""
    trial = _try(form, wanted, np.array([wanted.helix]), 0.0, math.inf, None)
    left = trial.whole[0, :-1] if np.isfinite(trial.score[0]) else np.full(ROLLS, math.inf)
    return profile_rolls(wanted, ROLLS), left


def _sunk(missing: Callable[[Array], Array], count: int, module: float) -> Array:
    """The depth of every swing at which nothing is missing from the thickness wanted: secant steps, a quarter module at most."""
    sink, slope = np.zeros(count), np.full(count, USUAL_SLOPE)
    there = missing(sink)
    for _ in range(7):
        earlier, before = sink, there
        sink = np.clip(sink - np.clip(there / slope, -module / 4, module / 4), -0.9 * module, 0.9 * module)
        there = missing(sink)
        if np.nanmax(np.abs(there), initial=0.0) < 2e-5:
            break
        run = sink - earlier
        slope = np.where(np.abs(run) > 1e-12, (there - before) / np.where(run == 0.0, 1.0, run), USUAL_SLOPE)
        slope = np.where(np.abs(slope) > 0.05, slope, USUAL_SLOPE)
    return sink


def _score(whole: Array, alone: Array, missed: Array, allowed: float, limit: float | None) -> Array:
    """Total profile deviation, graded by `graded`; infinite where it cannot be had."""
    profile, pitch = whole[:, :-1], whole[:, -1]
    score = graded(np.ptp(profile, axis=1), profile[:, -1] - pitch, limit)
    with np.errstate(invalid="ignore"):
        dug = np.where(np.isnan(alone), 0.0, alone - whole).max(axis=1)
        out = np.isnan(whole).any(axis=1) | ~(np.abs(missed) < 1e-4) | (dug > allowed + 1e-6)
    return np.where(out, np.inf, score)


def _told(wanted: WantedFlank, candidate: Candidate, form: Form, best: _Trial, at_helix: _Trial, limit: float | None) -> Fit:
    """The fit in figures, cut again one by one."""
    base = wanted.root_radius + candidate.outside / 2
    u = np.append(profile_rolls(wanted), wanted.u_helix)
    at = [Setting(float(trial.swing[0]), 0.0, base - float(trial.sink[0])) for trial in (best, at_helix)]
    found, plain = (flank_trace(form, wanted, wanted.q, setting, u, 1) for setting in at)
    facts = flank_facts(form, wanted, at[0], points=101)
    figures = trace_figures(u[:-1], found.delta[:-1])
    fit = Fit(
        candidate=candidate,
        swing=float(best.swing[0]),
        sink=float(best.sink[0]),
        start=float(found.delta[0]),
        pitch=float(found.delta[-1]),
        tip=float(found.delta[-2]),
        figures=figures,
        facts=facts,
        score=float(graded(np.array(figures.total), found.delta[-2] - found.delta[-1], limit)),
        verdict="no limit named",
        nominal=trace_figures(u[:-1], plain.delta[:-1]),
        nominal_sink=float(at_helix.sink[0]),
    )
    return fit if limit is None else replace(fit, verdict=_verdict(fit, limit))


def graded(total: Array, tip: Array, limit: float | None) -> Array:
    """Total profile deviations (mm) so that all within the limit come before those that leave more than a third of it at the tip,
    and these before all beyond it; within each grade the least deviation wins. Without a limit the deviations as they are."""
    if limit is None:
        return total
    return total + limit * np.where(total > limit, 2.0, np.where(TIP_SHARE * tip > limit, 1.0, 0.0))


def _verdict(fit: Fit, limit: float) -> Verdict:
    """Against a limit on total profile deviation."""
    if fit.figures.total > limit:
        return "over"
    return "tip heavy" if TIP_SHARE * fit.tip_excess > limit else "within"


def _cannot(candidate: Candidate, why: str) -> Fit:
    """A cutter that cannot do this gear at all."""
    none = TraceFigures(math.nan, math.nan, math.nan)
    return Fit(
        candidate=candidate,
        swing=math.nan,
        sink=math.nan,
        start=math.nan,
        pitch=math.nan,
        tip=math.nan,
        figures=none,
        facts=None,
        score=math.inf,
        verdict="cannot",
        nominal=none,
        nominal_sink=math.nan,
        why_not=why,
    )


def _form(one: Candidate, nodes: int) -> Form:
    """The candidate's form."""
    return numbered_form(
        one.form_teeth, one.module, one.pressure_angle, one.outside, corner=one.corner, dedendum=one.dedendum, nodes=nodes
    )
