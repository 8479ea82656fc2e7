"""Every flank of the whole gear at once, on a grid of roll length and height: the (min,+) in array code, one table for all teeth."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from evenpitch.flank.envelope import Cut
from evenpitch.flank.inspection import profile_rolls
from evenpitch.flank.slices import Knife, outline, slices
from evenpitch.flank.trace import flank_trace
from evenpitch.flank.wanted import Array

PAD = 2
"""Rows of roll length beyond each end, for the slope there."""


@dataclass(frozen=True, slots=True)
class Flanks:
    """Deviation (mm) of both flanks of all spaces: `plus`, `minus` of shape (teeth, heights, rolls); `u` and `z` (mm) are the grid."""

    u: Array
    z: Array
    plus: Array
    minus: Array


def whole_gear(cut: Cut, n_profile: int = 200, n_lead: int = 50, *, step: float = 0.25) -> Flanks:
    """Both flanks of every space over the whole face. `step`: distance of the slices (mm), refined for short waves of the motion."""
    u = profile_rolls(cut.wanted, n_profile)
    z = np.linspace(-cut.wanted.face / 2, cut.wanted.face / 2, n_lead)
    sides = [_steady(cut, u, z, sense) if cut.motion.steady() else _moving(cut, u, z, sense, step) for sense in (1, -1)]
    return Flanks(u, z, *sides)


def _padded(u: Array) -> Array:
    """The rolls with PAD more at each end, at the same distance."""
    step = (u[-1] - u[0]) / (len(u) - 1)
    return np.asarray(u[0] + step * np.arange(-PAD, len(u) + PAD), dtype=np.float64)


def _slope(rows: Array, step: float) -> Array:
    """Central difference along the last axis; two fewer columns."""
    slope: Array = (rows[..., 2:] - rows[..., :-2]) * (0.5 / step)
    return slope


def _steady(cut: Cut, u: Array, z: Array, sense: int) -> Array:
    """A turn moves the flank bodily: T(u0 - k/cos b) - k, to the second order in k."""
    wide = _padded(u)
    step = float(wide[1] - wide[0])
    T = flank_trace(cut.form, cut.wanted, cut.motion.q, cut.setting, wide, sense).delta
    slope, bend = _slope(T, step)[PAD - 1 : PAD - 1 + len(u)], np.diff(T, 2)[PAD - 1 : PAD - 1 + len(u)] / step**2
    teeth = np.arange(cut.wanted.teeth)
    turn = cut.motion.turn(teeth[:, None], z[None, :]) + cut.lead_error() * z
    k = (sense * cut.wanted.lever * turn)[..., None]
    along = k / math.cos(cut.wanted.base_helix)
    return T[PAD : PAD + len(u)] - slope * along + bend * along**2 / 2 - k


@dataclass(frozen=True, slots=True)
class _Windows:
    """For each roll the slices that matter: `G` of shape (rolls, places), `centre` the index of the middle one.

    `near`: the places that can be the least under the motion, (rolls, places).
    """

    G: Array
    near: NDArray[np.bool_]
    centre: NDArray[np.int64]
    half: int


def _moving(cut: Cut, u: Array, z: Array, sense: int, step: float) -> Array:
    """The (min,+) of one side: rolls with the same middle slice go together, so that all teeth and heights are one array operation."""
    wide, dz = _padded(u), float(z[1] - z[0])
    per_z = max(1, math.ceil(dz / min(step, cut.motion.shortest_wave() / 10)))
    height = dz / per_z
    windows, origin = _windows(cut, wide, height, sense)
    wave, first = _waves(cut, z, per_z, height, windows, origin, sense)
    teeth = cut.wanted.teeth
    found = np.empty((teeth, len(z), len(wide)))
    for centre in np.unique(windows.centre):
        columns = np.flatnonzero(windows.centre == centre)
        some = np.flatnonzero(windows.near[columns].any(axis=0))
        spread = range(int(some[0]), int(some[-1]) + 1)
        found[:, :, columns] = _group(windows.G[columns], wave, first - int(centre) + windows.half, len(z), per_z, spread)
    found -= (cut.wanted.lever * cut.lead_error()) * z[None, :, None]
    slope = _slope(found, float(wide[1] - wide[0]))[:, :, PAD - 1 : PAD - 1 + len(u)]
    inner = found[:, :, PAD : PAD + len(u)]
    return (inner / (1 - slope / math.cos(cut.wanted.base_helix)))[:, ::sense]


def _windows(cut: Cut, u: Array, height: float, sense: int) -> tuple[_Windows, int]:
    """The table of slices cut down to windows about the least of each roll; and the index of zeta = 0 in it."""
    seen = cut.setting if sense > 0 else cut.setting.mirrored()
    knife = Knife(outline(cut.form.side(sense)), cut.wanted, cut.motion.q, seen)
    swing = 1.05 * cut.wanted.lever * cut.motion.swing() + 1e-4
    first, last = _where_it_matters(cut, knife, u[:: max(1, len(u) // 16)], height, swing)
    G = slices(knife, height * np.arange(first, last + 1.0), u).G.T
    centre = np.argmin(G, axis=1)
    near = G - G.min(axis=1)[:, None] <= swing
    away = np.abs(np.arange(G.shape[1]) - centre[:, None])
    half = int(np.max(np.where(near, away, 0))) + 1
    at = centre[:, None] + np.arange(2 * half + 1)
    edge = np.full((len(u), half), np.inf)
    put = [np.take_along_axis(np.concatenate([edge, of, edge], axis=1), at, axis=1) for of in (G, np.where(near, 1.0, np.inf))]
    return _Windows(put[0], np.isfinite(put[1]), centre, half), -first


def _where_it_matters(cut: Cut, knife: Knife, u: Array, height: float, swing: float) -> tuple[int, int]:
    """First and last slice, counted from zeta = 0, that can be the least for some of these rolls."""
    radius, every = cut.form.outside_radius, 4
    short = max(cut.setting.centre - cut.wanted.tip_radius, 0.0)
    most = math.ceil((math.sqrt(max(radius * radius - short * short, 0.0)) + cut.wanted.module) / height / every)
    G = slices(knife, every * height * np.arange(-most, most + 1.0), u).G
    near = np.flatnonzero((G - G.min(axis=0) <= 2 * swing + 1e-3).any(axis=1)) - most
    return every * (int(near[0]) - 2), every * (int(near[-1]) + 2)


def _waves(cut: Cut, z: Array, per_z: int, height: float, windows: _Windows, origin: int, sense: int) -> tuple[Array, int]:
    """Turn x lever of every space (teeth, places) on the fine grid of table travel; and the place of (z[0], zeta index 0)."""
    most = int(windows.centre.max()) + windows.half - origin
    least = int(windows.centre.min()) - windows.half - origin
    places = np.arange(-most, (len(z) - 1) * per_z - least + 1.0)
    s = -cut.wanted.face / 2 + height * places
    teeth = np.arange(cut.wanted.teeth)[:, None]
    return cut.wanted.lever * cut.turned(sense, teeth, s[None, :]), most + origin


def _group(G: Array, wave: Array, start: int, heights: int, per_z: int, spread: range) -> Array:
    """Least over the places of `spread` for rolls (columns) with one middle slice: shape (teeth, heights, columns), parabola included."""
    shape = (len(wave), heights, len(G))
    best, at = np.full(shape, np.inf), np.full(shape, spread[0])
    value, lower = np.empty(shape), np.empty(shape, dtype=bool)
    stop = (heights - 1) * per_z + 1
    for k in spread:
        np.subtract(G[None, None, :, k], wave[:, start - k : start - k + stop : per_z, None], out=value)
        np.less(value, best, out=lower)
        np.copyto(best, value, where=lower)
        np.copyto(at, k, where=lower)
    return _bottom(G, wave, start, per_z, best, at)


def _bottom(G: Array, wave: Array, start: int, per_z: int, best: Array, at: NDArray[np.int64]) -> Array:
    """The bottom of the parabola through the least and its neighbours."""
    inside = (at > 0) & (at < G.shape[1] - 1)
    at = np.clip(at, 1, G.shape[1] - 2)
    place = start + per_z * np.arange(best.shape[1])[None, :, None] - at
    flat, row = G.ravel(), wave.ravel()
    index = np.arange(G.shape[0])[None, None, :] * G.shape[1] + at
    where = np.arange(len(wave))[:, None, None] * wave.shape[1] + place
    with np.errstate(invalid="ignore", divide="ignore"):
        before = flat[index - 1] - row[where + 1] - best
        after = flat[index + 1] - row[where - 1] - best
        bend = before + after
        lower = (after - before) ** 2 / (8 * bend)
    return best - np.where(inside & (bend > 0) & np.isfinite(bend), lower, 0.0)
