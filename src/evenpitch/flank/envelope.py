"""The flank under a motion with errors: at each radius the least of all slices, each turned as the work stood when it passed."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from evenpitch.flank.contact import touches_along_chords
from evenpitch.flank.curve import Form, Side
from evenpitch.flank.interpolation import stencil, weights
from evenpitch.flank.motion import Motion, Teeth
from evenpitch.flank.setting import Setting
from evenpitch.flank.slices import Knife, Slices, outline, slices
from evenpitch.flank.trace import contact_trace
from evenpitch.flank.wanted import Array, WantedFlank

FINEST = 4000
"""No more slices than this in one window."""

FINER = 5
"""Rounds of finer slices beside a corner of the cutter, each eight times finer."""

DOUBT = 0.005
"""A sharp minimum that is coarsely no more than this (mm) above the least may be the least when looked at closely."""

ROUNDS = 30
"""At most so many steps from fixed radius to the line of action; three do unless the deviation is a good part of a module."""


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
    seen = cut.setting if sense > 0 else cut.setting.mirrored()
    chords = any(touches_along_chords(piece, cut.motion.q, seen) for piece in cut.form.side(sense))
    if cut.motion.steady() and not chords:
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
    """The same by slices and (min,+), for any motion: fixed radius inside, a few rounds to come back to the line of action."""
    seen = cut.setting if sense > 0 else cut.setting.mirrored()
    wanted = cut.wanted
    knife = Knife(outline(cut.form.side(sense)), wanted, cut.motion.q, seen)
    passing = Passing(cut, knife, _table(cut, knife, sense, u0, z0), sense)
    lead = wanted.lever * cut.lead_error() * sense * z0
    per_u = math.cos(wanted.base_helix)

    def at_radius(delta: Array, points: Teeth) -> Array:
        return _least(passing, u0[points] + delta / per_u, sense * z0[points], tooth[points]) - lead[points]

    return _back_to_the_line(at_radius, len(u0), wanted.module)


def _back_to_the_line(at_radius: Callable[[Array, Teeth], Array], count: int, widest: float) -> Array:
    """delta = D(u0 + delta / cos b) for every point: by going round; by halving where that does not settle (at the root)."""
    delta, points = np.zeros(count), np.arange(count)
    for _ in range(ROUNDS):
        fresh = at_radius(delta[points], points)
        moved = ~(np.abs(fresh - delta[points]) < 1e-8)
        delta[points] = np.where(np.isnan(fresh), delta[points], fresh)
        points = points[moved]
        if not points.size:
            return delta
    low, high = np.full(len(points), -widest), np.full(len(points), widest)
    for _ in range(40):
        middle = (low + high) / 2
        above = ~(at_radius(middle, points) <= middle)
        low, high = np.where(above, middle, low), np.where(above, high, middle)
    delta[points] = np.where(high < widest, high, np.nan)
    return delta


def _reach(side: Side, wanted: WantedFlank, seen: Setting) -> float:
    """Half length of the part of the cutter that is inside the tip cylinder, measured along the work, mm."""
    radius = max(float(piece.R.max()) for piece in side)
    wide = max(float(piece.w.max()) for piece in side)
    short = max(seen.centre - wanted.tip_radius, 0.0)
    chord = math.sqrt(max(radius * radius - short * short, 0.0))
    return chord * math.cos(seen.swing) + wide * abs(math.sin(seen.swing)) + 0.1 * wanted.module


def _table(cut: Cut, knife: Knife, sense: int, u0: Array, z0: Array) -> Slices:
    """Slices over the heights that can matter for these points: those within the motion's swing of the least."""
    wanted, motion = cut.wanted, cut.motion
    side = cut.form.side(sense)
    reach = _reach(side, wanted, knife.setting)
    few = np.linspace(-reach, reach, 161)
    u = _rolls(cut, side, knife.setting, u0, z0)
    spread = slices(knife, few, u[:: max(1, len(u) // 40)])
    best = spread.G.min(axis=0)
    within = spread.G - np.where(np.isfinite(best), best, 0.0) <= 1.05 * wanted.lever * motion.swing() + 2e-4
    heights = np.flatnonzero((within & np.isfinite(spread.G)).any(axis=1))
    if not heights.size:
        return slices(knife, few, u)
    step = few[1] - few[0]
    low, high = few[heights[0]] - 1.5 * step, few[heights[-1]] + 1.5 * step
    fine = min(motion.shortest_wave() / 24, 0.05, (high - low) / 32)
    many = min(math.ceil((high - low) / fine) + 1, FINEST)
    return slices(knife, np.linspace(low, high, many), u)


def _rolls(cut: Cut, side: Side, seen: Setting, u0: Array, z0: Array) -> Array:
    """Rows of the table: the roll lengths of the points with room for their deviation on both sides."""
    wanted = cut.wanted
    some = np.linspace(u0.min(), u0.max(), 25)
    still = contact_trace(side, wanted, cut.motion.q, seen, some).delta
    index = max(map(abs, cut.motion.index), default=0.0)
    turn = wanted.lever * (cut.motion.swing() + index + abs(cut.lead_error()) * float(np.abs(z0).max()))
    least, most = np.nanmin(still, initial=0.0), np.nanmax(still, initial=0.0)
    room = 0.02 * wanted.module if np.isfinite(still).all() else 1.5 * wanted.module
    per_u = math.cos(wanted.base_helix)
    low, high = u0.min() + (least - turn) / per_u - room, u0.max() + (most + turn) / per_u + room
    return np.linspace(low, high, int(np.clip((high - low) / (0.0125 * wanted.module), 12, 480)))


@dataclass(frozen=True, slots=True)
class Passing:
    """One flank of a cut passing its slices: what is needed to turn a table of slices into what is left."""

    cut: Cut
    knife: Knife
    table: Slices
    sense: int

    def turned(self, G: Array, zeta: Array, z0: Array, tooth: Teeth) -> Array:
        """G of a slice that stood at z0 - zeta, with the turn of the work at that moment."""
        return G - self.cut.wanted.lever * self.cut.turned(self.sense, tooth, z0 - zeta)


def _least(passing: Passing, u: Array, z0: Array, tooth: Teeth) -> Array:
    """Least over all slices at roll lengths u, points taken in blocks that stay in the fast memory."""
    block = max(1, 400_000 // len(passing.table.zeta))
    parts = [_least_of_block(passing, u[i : i + block], z0[i : i + block], tooth[i : i + block]) for i in range(0, len(u), block)]
    return np.concatenate(parts)


def _at_rolls(passing: Passing, u: Array) -> tuple[Array, NDArray[np.int64]]:
    """G at roll lengths u, shape (points, heights), and the piece that made it: -2 where the rows about it are of several pieces and
    it had to be taken afresh."""
    table = passing.table
    within = np.clip(u, table.u[0], table.u[-1])
    begin = stencil(np.clip(np.searchsorted(table.u, within, side="right") - 1, 0, len(table.u) - 2), 0, len(table.u) - 1)
    around = begin[:, None] + np.arange(4)
    w = weights(table.u[around], within)
    part = table.part.T[around]
    smooth = (part == part[:, :1]).all(axis=1)
    rows = np.where(smooth[:, None, :] & (part[:, :1] >= 0), table.G.T[around], 0.0)
    total = np.einsum("pk,pkz->pz", w, rows)
    total[smooth & (part[:, 0] < 0)] = np.inf
    points, heights = np.nonzero(~smooth)
    total[points, heights] = passing.knife.left(table.zeta[heights], u[points], table.nearest[heights])[0]
    return total, np.where(smooth, part[:, 0], -2)


def _least_of_block(passing: Passing, u: Array, z0: Array, tooth: Teeth) -> Array:
    """The (min,+) of a block of points; between slices by a parabola, and by finer slices beside a corner of the cutter."""
    table = passing.table
    still, piece = _at_rolls(passing, u)
    moved = passing.turned(still, table.zeta, z0[:, None], tooth[:, None])
    least = np.argmin(moved, axis=1)
    rows = np.arange(len(u))
    found = moved[rows, least]
    knots = np.sort(passing.sense * passing.cut.motion.knots())
    found = _parabola(moved, table, z0, least, knots, found)
    sharp = _beside_corners(moved, piece)
    found = np.where(sharp[rows, least], moved[rows, least], found)
    moved[~sharp] = np.inf
    least = np.argmin(moved, axis=1)
    cornered = np.flatnonzero(moved[rows, least] < found + DOUBT)
    if cornered.size:
        finer = _finer(passing, u[cornered], z0[cornered], tooth[cornered], least[cornered])
        found[cornered] = np.minimum(found[cornered], finer)
    for knot in knots:
        found = np.minimum(found, _at_knot(passing, u, z0, tooth, float(knot)))
    return np.where(np.isfinite(found), found, np.nan)


def _beside_corners(moved: Array, piece: NDArray[np.int64]) -> NDArray[np.bool_]:
    """The slices that are, with their neighbours, not all of one piece; or that stand at the end of what is cut."""
    step = (piece[:, 1:] != piece[:, :-1]) | (np.isfinite(moved[:, 1:]) != np.isfinite(moved[:, :-1]))
    sharp = piece < -1
    sharp[:, 1:] |= step
    sharp[:, :-1] |= step
    return sharp & np.isfinite(moved)


def _finer(passing: Passing, u: Array, z0: Array, tooth: Teeth, least: Teeth) -> Array:
    """Least of ever finer slices about the least of the coarse ones: where a corner of the cutter passes the minimum is sharp."""
    zeta, step = passing.table.zeta[least], passing.table.height
    best = np.full(len(u), np.inf)
    for _ in range(FINER):
        some = zeta[:, None] + np.linspace(-step, step, 17)
        G, _ = passing.knife.left(some, u[:, None], np.broadcast_to(passing.table.nearest[least][:, None], some.shape))
        moved = passing.turned(G, some, z0[:, None], tooth[:, None])
        at = np.argmin(moved, axis=1)
        rows = np.arange(len(u))
        best, zeta, step = np.minimum(best, moved[rows, at]), some[rows, at], step / 8
    return best


def _parabola(moved: Array, table: Slices, z0: Array, least: Teeth, knots: Array, found: Array) -> Array:
    """Lower the least to the parabola's bottom, except at the ends, beside nothing, and across a bend of the motion."""
    rows = np.arange(len(found))
    middle = np.clip(least, 1, len(table.zeta) - 2)
    before, after = moved[rows, middle - 1], moved[rows, middle + 1]
    s = z0 - table.zeta[middle]
    whole = np.searchsorted(knots, s - table.height * 1.001) == np.searchsorted(knots, s + table.height * 1.001)
    good = (middle == least) & np.isfinite(before) & np.isfinite(after) & np.isfinite(found) & whole
    bottom = np.where(good, found, 0.0)
    before, after = np.where(good, before, bottom), np.where(good, after, bottom)
    bend = before + after - 2 * bottom
    lower = np.where(bend > 0, (after - before) ** 2 / (8 * np.where(bend > 0, bend, 1.0)), 0.0)
    return found - lower


def _at_knot(passing: Passing, u: Array, z0: Array, tooth: Teeth, knot: float) -> Array:
    """What the cutter leaves while the table stands at a bend of the motion, on both sides of it."""
    table, zeta = passing.table, z0 - knot
    found = np.full(len(u), np.inf)
    near = np.flatnonzero((zeta >= table.zeta[0]) & (zeta <= table.zeta[-1]))
    if near.size:
        row = np.clip(np.rint((zeta[near] - table.zeta[0]) / table.height).astype(np.int64), 0, len(table.zeta) - 1)
        G, _ = passing.knife.left(zeta[near], u[near], table.nearest[row])
        stood = [passing.turned(G, zeta[near] + aside, z0[near], tooth[near]) for aside in (-1e-10, 1e-10)]
        found[near] = np.minimum(*stood)
    return found
