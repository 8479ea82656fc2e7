"""The same trace for many settings at once: the lower envelope row by row in array code."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from evenpitch.flank.contact import Touch, touch
from evenpitch.flank.curve import Side
from evenpitch.flank.interpolation import weights
from evenpitch.flank.setting import Settings
from evenpitch.flank.wanted import Array, WantedFlank


def many_traces(side: Side, wanted: WantedFlank, q: float | Array, seen: Settings, u: Array) -> tuple[Array, Array]:
    """Deviation and station of contact (mm, (settings, rolls)) of the '+' flank; not a number where nothing touches."""
    shape = (len(seen.swing), len(u))
    delta, zeta = np.full(shape, np.inf), np.zeros(shape)
    for piece in side:
        _lay(touch(piece, wanted, q, seen), u, delta, zeta)
    return np.where(np.isfinite(delta), delta, np.nan), zeta


def _lay(found: Touch, u: Array, delta: Array, zeta: Array) -> None:
    """Lay one piece of all rigs on the rolls, keeping the lower: run after run of nodes along which u0 rises or falls."""
    rise = np.where(found.linked, np.sign(np.diff(found.u0, axis=1)), 0)
    number = np.cumsum(np.diff(rise, axis=1, prepend=rise[:, :1]) != 0, axis=1)
    for run in range(int(number.max()) + 1):
        member = (number == run) & (rise != 0)
        rows = np.flatnonzero(member.sum(axis=1) >= 3)
        if rows.size:
            _lay_run(found, member[rows], rows, u, delta, zeta)


def _lay_run(found: Touch, member: NDArray[np.bool_], rows: NDArray[np.int64], u: Array, delta: Array, zeta: Array) -> None:
    """One run of some rigs."""
    first = np.argmax(member, axis=1)
    last = member.shape[1] - np.argmax(member[:, ::-1], axis=1)
    low, high = found.u0[rows, first], found.u0[rows, last]
    falls = (low > high)[:, None]
    nodes = np.where(falls, -found.u0[rows], found.u0[rows])
    index = np.arange(nodes.shape[1])
    bottom, top = nodes[np.arange(len(rows)), first], nodes[np.arange(len(rows)), last]
    reach = np.flatnonzero((np.maximum(low, high) >= u.min()) & (np.minimum(low, high) <= u.max()))
    if not reach.size:
        return
    keys = np.where(index < first[:, None], -np.inf, np.where(index > last[:, None], np.inf, nodes))[reach]
    at = np.where(falls[reach], -u, u)
    place = _search(keys, at)
    inside = (at >= bottom[reach, None] - 1e-9) & (at <= top[reach, None] + 1e-9)
    begin = np.clip(place - 1, first[reach, None], last[reach, None] - 3)
    picked, at_node = np.nonzero(inside)
    around = begin[picked, at_node][:, None] + np.arange(4)
    row = rows[reach][picked]
    w = weights(nodes[reach][picked[:, None], around], at[picked, at_node])
    new = (w * found.delta[row[:, None], around]).sum(axis=1)
    lower = new < delta[row, at_node]
    where = (row[lower], at_node[lower])
    delta[where] = new[lower]
    zeta[where] = (w * found.zeta[row[:, None], around]).sum(axis=1)[lower]


def _search(keys: Array, at: Array) -> NDArray[np.int64]:
    """Index of the last key not above each place, row by row, in one search."""
    least, most = float(at.min()) - 1.0, float(at.max()) + 1.0
    shift = (most - least) * np.arange(len(keys))[:, None]
    found = np.searchsorted((np.clip(keys, least, most) + shift).ravel(), (at + shift).ravel(), side="right")
    return np.asarray(found.reshape(at.shape) - 1 - keys.shape[1] * np.arange(len(keys))[:, None])
