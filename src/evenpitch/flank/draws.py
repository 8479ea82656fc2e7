"""Inspection figures of many rigs at once, for drawing at random: closed form for the setting, first and second order for the motion.

Good for motions that are smooth against the cutter's own radius (a worm, a lead); short ripple and jumps need the slices.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from evenpitch.flank.curve import Form
from evenpitch.flank.inspection import helix_heights, profile_rolls
from evenpitch.flank.setting import Setting, Settings
from evenpitch.flank.slices import Knife, outline
from evenpitch.flank.trace import flank_trace
from evenpitch.flank.traces import many_traces
from evenpitch.flank.wanted import Array, WantedFlank

GUARD = 0.75
"""The second-order term is kept below where the motion bends as sharply as this share of the cutter's own bend."""


@dataclass(frozen=True, slots=True)
class Wave:
    """A sin(number s + phase + i advance) for each rig: amplitude and phase (rad) of shape (rigs,), `number` in rad per mm of travel."""

    amplitude: Array
    phase: Array
    number: float | Array
    advance: float = 0.0


@dataclass(frozen=True, slots=True)
class Rigs:
    """Many rigs cutting one gear with one cutter. Arrays of shape (rigs,); `q` = 2 pi / lead got; `index` (rigs, teeth)
    in rad, or None."""

    swing: Array
    offset: Array
    centre: Array
    q: Array
    waves: tuple[Wave, ...] = ()
    index: Array | None = None


@dataclass(frozen=True, slots=True)
class DrawnFigures:
    """Figures in mm of shape (rigs, 2): the '+' flank, then the '-' flank; `thickness` (rigs,): mean deviation of tooth thickness."""

    F_alpha: Array
    f_f_alpha: Array
    f_H_alpha: Array  # noqa: N815, the name in the standard
    F_beta: Array
    f_f_beta: Array
    f_H_beta: Array  # noqa: N815
    f_p: Array
    F_p: Array
    thickness: Array


@dataclass(frozen=True, slots=True)
class _Still:
    """Static trace of each rig: deviation and station (rigs, rolls); its slope in u; the bend of G there (rolls,)."""

    delta: Array
    zeta: Array
    slope: Array
    bend: Array


def drawn_figures(form: Form, wanted: WantedFlank, rigs: Rigs, *, n_profile: int = 200, n_lead: int = 50) -> DrawnFigures:
    """The inspection figures of every rig."""
    sides = [_side(form, wanted, rigs, sense, n_profile, n_lead) for sense in (1, -1)]
    thickness = (sides[0][-1] + sides[1][-1]) * wanted.pitch_radius / wanted.lever
    pairs = [np.stack(both, axis=1) for both in zip(sides[0][:-1], sides[1][:-1], strict=True)]
    return DrawnFigures(pairs[0], pairs[1], pairs[2], pairs[3], pairs[4], pairs[5], pairs[6], pairs[7], thickness)


def _side(form: Form, wanted: WantedFlank, rigs: Rigs, sense: int, n_profile: int, n_lead: int) -> tuple[Array, ...]:
    """All figures of one flank."""
    u, z = profile_rolls(wanted, n_profile), helix_heights(wanted, n_lead)
    rolls = np.append(u, wanted.u_helix)
    still = _still(form, wanted, rigs, sense, rolls)
    teeth = np.arange(wanted.teeth)
    profile = _moved(still, slice(0, n_profile), wanted, rigs, sense, np.zeros(n_profile), np.array([0]))
    helix = _moved(still, slice(n_profile, None), wanted, rigs, sense, z, np.array([0]))
    around = _moved(still, slice(n_profile, None), wanted, rigs, sense, np.zeros(wanted.teeth), teeth)
    place = -sense * around * wanted.pitch_radius / wanted.lever
    steps = np.abs(np.diff(place, axis=1, append=place[:, :1])).max(axis=1)
    return (*_figures(u, profile), *_figures(z, helix), steps, np.ptp(place, axis=1), around.mean(axis=1))


def _figures(at: Array, rows: Array) -> tuple[Array, Array, Array]:
    """Total, form and slope of each row."""
    middle = at - at.mean()
    gradient = (rows @ middle) / (middle @ middle)
    return np.ptp(rows, axis=1), np.ptp(rows - gradient[:, None] * middle, axis=1), gradient * float(at[-1] - at[0])


def _still(form: Form, wanted: WantedFlank, rigs: Rigs, sense: int, u: Array) -> _Still:
    """The static traces of all rigs on the rolls u (the last is that of the pitch cylinder)."""
    settings = Settings(rigs.swing[:, None], rigs.offset[:, None], rigs.centre[:, None])
    seen = settings if sense > 0 else settings.mirrored()
    delta, zeta = many_traces(form.side(sense), wanted, rigs.q[:, None], seen, u)
    slope = np.gradient(delta[:, :-1], u[:-1], axis=1)
    at = int(np.clip(np.searchsorted(u[:-1], u[-1]), 0, len(u) - 2))
    return _Still(delta, zeta, np.concatenate([slope, slope[:, at : at + 1]], axis=1), _bend(form, wanted, rigs, sense, u))


def _bend(form: Form, wanted: WantedFlank, rigs: Rigs, sense: int, u: Array) -> Array:
    """Second derivative of G in zeta (1/mm) at the contact of the mean rig, by slices to either side."""
    setting = Setting(float(rigs.swing.mean()), float(rigs.offset.mean()), float(rigs.centre.mean()))
    seen, q = setting if sense > 0 else setting.mirrored(), float(rigs.q.mean())
    knife = Knife(outline(form.side(sense)), wanted, q, seen)
    trace = flank_trace(form, wanted, q, setting, u, sense)
    zeta, step = sense * np.nan_to_num(trace.zeta), 0.1
    radius_roll = u + np.nan_to_num(trace.delta) / math.cos(wanted.base_helix)
    G = [knife.left(zeta + k * step, radius_roll, knife.nearest(zeta + k * step))[0] for k in (-1, 0, 1)]
    with np.errstate(invalid="ignore"):
        bend = (G[0] - 2 * G[1] + G[2]) / step**2
    return np.where(np.isfinite(bend) & (bend > 0), bend, np.inf)


def _moved(still: _Still, rolls: slice, wanted: WantedFlank, rigs: Rigs, sense: int, z: Array, tooth: NDArray[np.int64]) -> Array:
    """The traces under the motion, at heights z and spaces `tooth` that go with the rolls or with each other: (rigs, points)."""
    delta, zeta = still.delta[:, rolls], still.zeta[:, rolls]
    slope, own = still.slope[:, rolls], still.bend[rolls]
    s = z - sense * zeta
    turn, rate, curl = _turns(rigs, s, tooth)
    turn = turn + (rigs.q[:, None] - wanted.q) * z
    k = sense * wanted.lever * turn
    sharper = own - np.minimum(sense * wanted.lever * curl, GUARD * own)
    second = (wanted.lever * rate) ** 2 / (2 * sharper)
    return delta - (k + second) * (1 + slope / math.cos(wanted.base_helix))


def _turns(rigs: Rigs, s: Array, tooth: NDArray[np.int64]) -> tuple[Array, Array, Array]:
    """Turn of the work beyond the screw (rad), its first and second derivative along the travel."""
    turn, rate, curl = np.zeros(s.shape), np.zeros(s.shape), np.zeros(s.shape)
    if rigs.index is not None:
        turn = turn + rigs.index[:, tooth]
    for wave in rigs.waves:
        number = wave.number[:, None] if isinstance(wave.number, np.ndarray) else wave.number
        angle = number * s + (wave.phase[:, None] + wave.advance * tooth)
        sine, cosine = wave.amplitude[:, None] * np.sin(angle), wave.amplitude[:, None] * np.cos(angle)
        turn, rate, curl = turn + sine, rate + number * cosine, curl - number * number * sine
    return turn, rate, curl
