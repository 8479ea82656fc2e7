"""Which cutter of the drawer leaves the best flank: each with its best swing and with the depth that keeps the tooth's thickness."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from evenpitch.flank.curve import Form, Side
from evenpitch.flank.forms import numbered_form
from evenpitch.flank.inspection import TraceFigures, profile_rolls, trace_figures
from evenpitch.flank.setting import SWING_LIMIT, Settings
from evenpitch.flank.traces import many_traces
from evenpitch.flank.wanted import Array, WantedFlank
from evenpitch.quantity.refusal import Refusal
from evenpitch.quantity.units import Millimetre, Radian
from evenpitch.sources.citations import cites

TIP_SHARE = 3.0
"""Metal left at the tip may foul the mate: it is to stay within a third of the limit on the whole profile."""

SEARCHED = 6
"""So many cutters, the best at swing = helix, have their swing searched; the others stand as they are there."""

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

    `swing` rad and `sink` mm (+ deeper than the root circle) to be set; `dug`: how deep the trailing corner cuts below the form at
    the start; `corner_up_to`: the roll length up to which the corner made the flank (0 none). `nominal`: figures at swing = helix.
    """

    candidate: Candidate
    swing: float
    sink: float
    start: float
    pitch: float
    tip: float
    figures: TraceFigures
    dug: float
    corner_up_to: float
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
    flank_target: Millimetre = Millimetre(0.0),
    free_swing: bool = True,
) -> tuple[Fit, ...]:
    """Every cutter at its best, best first. `limit`: on total profile deviation; `flank_target`: deviation wanted at the pitch
    cylinder (negative: thinned); with `free_swing` False the swing stays at the helix angle."""
    plain = sorted((_fit(wanted, one, limit, flank_target, False) for one in candidates), key=lambda fit: fit.score)
    again = SEARCHED if free_swing and wanted.helix else 0
    searched = [_fit(wanted, fit.candidate, limit, flank_target, True) for fit in plain[:again] if fit.verdict != "cannot"]
    named = {fit.candidate for fit in searched}
    return tuple(sorted([*searched, *(fit for fit in plain if fit.candidate not in named)], key=lambda fit: fit.score))


@dataclass(frozen=True, slots=True)
class _Trial:
    """Several swings of one cutter, each sunk to the thickness: traces (swings, rolls), the form's own without its corner, the score."""

    swing: Array
    sink: Array
    whole: Array
    form: Array
    score: Array


def _fit(wanted: WantedFlank, candidate: Candidate, limit: float | None, target: float, free_swing: bool) -> Fit:
    """The best setting of one cutter."""
    try:
        form = numbered_form(candidate.form_teeth, candidate.module, candidate.pressure_angle, candidate.outside,
                             corner=candidate.corner, dedendum=candidate.dedendum, nodes=NODES)  # fmt: skip
    except Refusal as refusal:
        return _cannot(candidate, str(refusal))
    at_helix = _try(form, wanted, np.array([wanted.helix]), target, np.inf, limit)
    if not np.isfinite(at_helix.score[0]):
        return _cannot(candidate, "the form does not cut the whole flank at this thickness")
    best = at_helix
    if free_swing and wanted.helix:
        allowed = max(DUG_ALLOWED, float(np.nanmax(at_helix.form - at_helix.whole)))
        best = _search(form, wanted, at_helix, target, allowed, limit)
    return _told(wanted, candidate, best, at_helix, limit)


NODES = 64
"""Nodes of a form while cutters are weighed: errors below a hundredth of a micrometre away from the start of the flank."""

ROLLS = 61
"""Points of the profile while cutters are weighed."""


def _search(form: Form, wanted: WantedFlank, best: _Trial, target: float, allowed: float, limit: float | None) -> _Trial:
    """Swings about the helix angle, closer each time: the least score wins."""
    centre, away = float(best.swing[0]), SWING_EITHER_WAY
    for _ in range(4):
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
    own: Side = tuple(piece for piece in form.plus if piece.where in ("below", "form", "beyond"))
    pitch = u[-1:]

    def left(sink: Array, side: Side, rolls: Array) -> Array:
        seen = Settings(swing[:, None], np.zeros((len(swing), 1)), (base - sink)[:, None])
        return many_traces(side, wanted, wanted.q, seen, rolls)[0]

    sink, earlier = np.zeros(len(swing)), np.full(len(swing), -0.02 * wanted.module)
    there, before = left(sink, own, pitch)[:, 0] - target, left(earlier, own, pitch)[:, 0] - target
    for _ in range(6):
        slope = np.where(np.abs(sink - earlier) > 1e-12, (there - before) / np.where(sink == earlier, 1.0, sink - earlier), -0.38)
        step = np.clip(-there / np.where(np.abs(slope) > 0.05, slope, -0.38), -0.2 * wanted.module, 0.2 * wanted.module)
        earlier, before = sink, there
        sink = np.clip(sink + step, -0.9 * wanted.module, 0.9 * wanted.module)
        there = left(sink, own, pitch)[:, 0] - target
        if np.nanmax(np.abs(there), initial=0.0) < 1e-5:
            break
    whole, alone = left(sink, form.plus, u), left(sink, own, u)
    return _Trial(swing, sink, whole, alone, _score(whole, alone, there, allowed, limit))


def _score(whole: Array, alone: Array, missed: Array, allowed: float, limit: float | None) -> Array:
    """Total profile deviation, or three times the metal left at the tip where that breaks the limit; infinite where it cannot be had."""
    profile, pitch = whole[:, :-1], whole[:, -1]
    tip = TIP_SHARE * (profile[:, -1] - pitch)
    score = np.maximum(np.ptp(profile, axis=1), np.where(tip > limit, tip, 0.0) if limit is not None else 0.0)
    with np.errstate(invalid="ignore"):
        dug = np.where(np.isnan(alone), 0.0, alone - whole).max(axis=1)
        out = np.isnan(whole).any(axis=1) | ~(np.abs(missed) < 1e-4) | (dug > allowed + 1e-6)
    return np.where(out, np.inf, score)


def _told(wanted: WantedFlank, candidate: Candidate, best: _Trial, at_helix: _Trial, limit: float | None) -> Fit:
    """The fit in figures."""
    u = _rolls(wanted)[:-1]
    profile, alone = best.whole[0, :-1], best.form[0, :-1]
    dug = np.where(np.isnan(alone), 0.0, alone - profile)
    cornered = np.flatnonzero((dug > 1e-5) | np.isnan(alone))
    found = Fit(
        candidate=candidate, swing=float(best.swing[0]), sink=float(best.sink[0]),
        start=float(profile[0]), pitch=float(best.whole[0, -1]), tip=float(profile[-1]),
        figures=trace_figures(u, profile), dug=float(dug.max()), corner_up_to=float(u[cornered[-1]]) if cornered.size else 0.0,
        score=float(best.score[0]), verdict="no limit named",
        nominal=trace_figures(u, at_helix.whole[0, :-1]), nominal_sink=float(at_helix.sink[0]),
    )  # fmt: skip
    return found if limit is None else replace(found, verdict=_verdict(found, limit))


def _verdict(fit: Fit, limit: float) -> Verdict:
    """Against a limit on total profile deviation."""
    if fit.figures.total > limit:
        return "over"
    return "tip heavy" if TIP_SHARE * fit.tip_excess > limit else "within"


def _cannot(candidate: Candidate, why: str) -> Fit:
    """A cutter that cannot do this gear at all."""
    none = TraceFigures(math.nan, math.nan, math.nan)
    return Fit(candidate=candidate, swing=math.nan, sink=math.nan, start=math.nan, pitch=math.nan, tip=math.nan, figures=none, dug=math.nan,
               corner_up_to=0.0, score=math.inf, verdict="cannot", nominal=none, nominal_sink=math.nan, why_not=why)  # fmt: skip
