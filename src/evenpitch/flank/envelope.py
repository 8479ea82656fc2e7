"""The flank under a motion with errors: at each radius the least of all slices, each turned as the work stood when it passed."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from evenpitch.flank.curve import Form, Side
from evenpitch.flank.interpolation import stencil, weights
from evenpitch.flank.motion import Motion, Teeth
from evenpitch.flank.setting import Setting
from evenpitch.flank.slices import Slices, slices
from evenpitch.flank.trace import contact_trace
from evenpitch.flank.wanted import Array, WantedFlank

Turn = Callable[[Teeth, Array], Array]

FINEST = 4000
"""No more slices than this in one window."""


@dataclass(frozen=True, slots=True)
class Cut:
    """Everything that makes one flank: the form, how it is set, what is wanted, how the work moved."""

    form: Form
    setting: Setting
    wanted: WantedFlank
    motion: Motion

    def turned(self, sense: int, tooth: Teeth, s: Array) -> Array:
        """Turn (rad) as the flank of that sense sees it: the other flank is the mirror image, its travel and angle reversed."""
        return sense * self.motion.turn(tooth, sense * s)

    def lead_error(self) -> float:
        """2 pi / lead really got, less the wanted, rad/mm."""
        return self.motion.q - self.wanted.q


def deviations(cut: Cut, u0: Array, z0: Array, tooth: Teeth, sense: int) -> Array:
    """Deviation (mm) at roll lengths `u0`, heights `z0` and spaces `tooth` (all of one length); not a number where nothing is cut."""
    if cut.motion.steady():
        found = _steady(cut, u0, z0, tooth, sense)
        missing = np.isnan(found)
        if not missing.any():
            return found
        found[missing] = by_slices(cut, u0[missing], z0[missing], tooth[missing], sense)
        return found
    return by_slices(cut, u0, z0, tooth, sense)


def _steady(cut: Cut, u0: Array, z0: Array, tooth: Teeth, sense: int) -> Array:
    """Closed form: a turn k moves the flank bodily, so that T'(u0) = T(u0 - k / cos b) - k."""
    seen = cut.setting if sense > 0 else cut.setting.mirrored()
    turn = cut.turned(sense, tooth, sense * z0) + cut.lead_error() * sense * z0
    k = cut.wanted.lever * turn
    trace = contact_trace(cut.form.side(sense), cut.wanted, cut.motion.q, seen, u0 - k / math.cos(cut.wanted.base_helix))
    return trace.delta - k


def by_slices(cut: Cut, u0: Array, z0: Array, tooth: Teeth, sense: int) -> Array:
    """The same by slices and (min,+), for any motion: fixed radius inside, three rounds to come back to the line of action."""
    seen = cut.setting if sense > 0 else cut.setting.mirrored()
    side, wanted = cut.form.side(sense), cut.wanted
    table = _table(cut, side, seen, u0, z0)
    lead = wanted.lever * cut.lead_error() * sense * z0
    delta = np.zeros(len(u0))
    for _ in range(6):
        u = u0 + delta / math.cos(wanted.base_helix)
        fresh = _least(cut, table, u, sense * z0, tooth, sense) - lead
        done = np.nanmax(np.abs(fresh - delta), initial=0.0) < 1e-9
        delta = fresh
        if done:
            break
    return delta


def _reach(side: Side, wanted: WantedFlank, seen: Setting) -> float:
    """Half length of the part of the cutter that is inside the tip cylinder, measured along the work, mm."""
    radius = max(float(piece.R.max()) for piece in side)
    wide = max(float(piece.w.max()) for piece in side)
    short = max(seen.centre - wanted.tip_radius, 0.0)
    chord = math.sqrt(max(radius * radius - short * short, 0.0))
    return chord * math.cos(seen.swing) + wide * abs(math.sin(seen.swing)) + 0.1 * wanted.module


def _table(cut: Cut, side: Side, seen: Setting, u0: Array, z0: Array) -> Slices:
    """Slices over the heights that can matter for these points: those within the motion's swing of the least."""
    wanted, motion = cut.wanted, cut.motion
    reach = _reach(side, wanted, seen)
    few = np.linspace(-reach, reach, 161)
    u = _rolls(cut, side, seen, u0, z0)
    spread = slices(side, wanted, motion.q, seen, few, u[:: max(1, len(u) // 40)])
    best = spread.G.min(axis=0)
    near = spread.G <= best + 1.05 * wanted.lever * motion.swing() + 2e-4
    heights = np.flatnonzero(near.any(axis=1))
    if not heights.size:
        return Slices(few, u, np.full((len(few), len(u)), np.inf))
    step = few[1] - few[0]
    low, high = few[heights[0]] - 1.5 * step, few[heights[-1]] + 1.5 * step
    fine = min(motion.shortest_wave() / 24, 0.05, (high - low) / 32)
    many = min(int(math.ceil((high - low) / fine)) + 1, FINEST)
    return slices(side, wanted, motion.q, seen, np.linspace(low, high, many), u)


def _rolls(cut: Cut, side: Side, seen: Setting, u0: Array, z0: Array) -> Array:
    """Rows of the table: the roll lengths of the points with room for their deviation on both sides."""
    wanted = cut.wanted
    some = np.linspace(u0.min(), u0.max(), 25)
    still = contact_trace(side, wanted, cut.motion.q, seen, some).delta
    lever = wanted.lever
    index = max(map(abs, cut.motion.index), default=0.0)
    turn = lever * (cut.motion.swing() + index + abs(cut.lead_error()) * float(np.abs(z0).max()))
    least, most = np.nanmin(still, initial=0.0), np.nanmax(still, initial=0.0)
    room = 0.02 * wanted.module
    low, high = u0.min() + least - turn - room, u0.max() + most + turn + room
    return np.linspace(low, high, int(np.clip((high - low) / (0.0125 * wanted.module), 12, 480)))


def _least(cut: Cut, table: Slices, u: Array, z0: Array, tooth: Teeth, sense: int) -> Array:
    """Least over all slices at roll lengths u, points taken in blocks that stay in the fast memory."""
    block = max(1, 400_000 // len(table.zeta))
    parts = [_least_of_block(cut, table, u[i : i + block], z0[i : i + block], tooth[i : i + block], sense) for i in range(0, len(u), block)]
    return np.concatenate(parts)


def _at_rolls(table: Slices, u: Array) -> Array:
    """G of the table at roll lengths u: shape (points, heights)."""
    begin = stencil(np.clip(np.searchsorted(table.u, u, side="right") - 1, 0, len(table.u) - 2), 0, len(table.u) - 1)
    around = begin[:, None] + np.arange(4)
    w = weights(table.u[around], u)
    total = np.zeros((len(u), len(table.zeta)))
    for k in range(4):
        total += w[:, k, None] * table.G.T[around[:, k]]
    return np.where(np.isfinite(total), total, np.inf)


def _least_of_block(cut: Cut, table: Slices, u: Array, z0: Array, tooth: Teeth, sense: int) -> Array:
    """The (min,+) of a block of points, with a parabola through the least slice and its neighbours."""
    with np.errstate(invalid="ignore"):
        still = _at_rolls(table, u)
    lever = cut.wanted.lever
    moved = still - lever * cut.turned(sense, tooth[:, None], z0[:, None] - table.zeta)
    least = np.argmin(moved, axis=1)
    rows = np.arange(len(u))
    found = moved[rows, least]
    knots = np.sort(sense * cut.motion.knots())
    found = _parabola(moved, table, z0, least, knots, found)
    for knot in knots:
        found = np.minimum(found, _at_knot(cut, table, still, z0, tooth, sense, float(knot)))
    return np.where(np.isfinite(found), found, np.nan)


def _parabola(moved: Array, table: Slices, z0: Array, least: Teeth, knots: Array, found: Array) -> Array:
    """Lower the least to the parabola's bottom, except at the ends, beside nothing, and across a bend of the motion."""
    rows = np.arange(len(found))
    middle = np.clip(least, 1, len(table.zeta) - 2)
    before, after = moved[rows, middle - 1], moved[rows, middle + 1]
    s = z0 - table.zeta[middle]
    whole = np.searchsorted(knots, s - table.height * 1.001) == np.searchsorted(knots, s + table.height * 1.001)
    good = (middle == least) & np.isfinite(before) & np.isfinite(after) & whole
    before, after = np.where(good, before, found), np.where(good, after, found)
    bend = before + after - 2 * found
    lower = np.where(bend > 0, (after - before) ** 2 / (8 * np.where(bend > 0, bend, 1.0)), 0.0)
    return found - lower


def _at_knot(cut: Cut, table: Slices, still: Array, z0: Array, tooth: Teeth, sense: int, knot: float) -> Array:
    """What the cutter leaves while the table stands at a bend of the motion, on both sides of it."""
    zeta = z0 - knot
    inside = (zeta >= table.zeta[0]) & (zeta <= table.zeta[-1])
    begin = stencil(np.clip(((zeta - table.zeta[0]) / table.height).astype(np.int64), 0, len(table.zeta) - 2), 0, len(table.zeta) - 1)
    around = begin[:, None] + np.arange(4)
    nodes = table.zeta[around]
    near = still[np.arange(len(zeta))[:, None], around]
    known = inside & np.isfinite(near).all(axis=1)
    G = (weights(nodes, zeta) * np.where(known[:, None], near, 0.0)).sum(axis=1)
    lever, breath = cut.wanted.lever, 1e-10
    turns = [cut.turned(sense, tooth, np.full(len(zeta), knot + side)) for side in (-breath, breath)]
    return np.where(known, G - lever * np.maximum(*turns), np.inf)
