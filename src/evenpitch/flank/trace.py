"""The flank in the middle of the face from the contact of all pieces: what was taken off last stays off (the lower envelope)."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from evenpitch.flank.contact import Touch, touch
from evenpitch.flank.curve import Form, Side, Where
from evenpitch.flank.interpolation import along
from evenpitch.flank.setting import Setting
from evenpitch.flank.wanted import Array, WantedFlank

PLACES: tuple[Where, ...] = ("land", "corner", "below", "form", "beyond")


@dataclass(frozen=True, slots=True)
class Trace:
    """Deviation `delta` (mm, + metal left) and station of contact `zeta` (mm) at roll lengths `u`; not a number where nothing touches.

    `by`: index in PLACES of the part of the cutter that made each point; `overlaps`: how many branches reach it.
    """

    u: Array
    delta: Array
    zeta: Array
    by: NDArray[np.int64]
    overlaps: NDArray[np.int64]


def _branches(found: Touch) -> list[tuple[int, int, int]]:
    """Runs of nodes (from, to, sense) linked to each other along which u0 only rises or only falls."""
    rise = np.where(found.linked[0], np.sign(np.diff(found.u0[0])), 0).astype(int)
    edges = np.flatnonzero(np.diff(rise)) + 1
    starts = np.concatenate([[0], edges])
    stops = np.concatenate([edges, [len(rise)]])
    return [(int(i), int(j) + 1, int(rise[i])) for i, j in zip(starts, stops, strict=True) if rise[i] != 0]


def _lay(found: Touch, where: Where, u: Array, trace: Trace) -> None:
    """Put the branches of one piece on the grid, keeping the lower."""
    for first, last, sense in _branches(found):
        rows = slice(first, last) if sense > 0 else slice(last - 1, first - 1 if first else None, -1)
        nodes = found.u0[0, rows]
        hair = 1e-9 * max(1.0, abs(nodes[-1]))
        here = np.flatnonzero((u >= nodes[0] - hair) & (u <= nodes[-1] + hair))
        if not here.size:
            continue
        delta, zeta = along(nodes, (found.delta[0, rows], found.zeta[0, rows]), u[here])
        lower = ~(trace.delta[here] <= delta)
        at = here[lower]
        trace.delta[at], trace.zeta[at], trace.by[at] = delta[lower], zeta[lower], PLACES.index(where)
        trace.overlaps[here] += 1


def contact_trace(side: Side, wanted: WantedFlank, q: float, setting: Setting, u: Array) -> Trace:
    """The '+' flank left by one side of the cutter in a screw motion of `q` = 2 pi / lead, on roll lengths `u` (rising)."""
    trace = Trace(u, np.full(len(u), np.nan), np.full(len(u), np.nan), np.full(len(u), -1), np.zeros(len(u), dtype=np.int64))
    for piece in side:
        _lay(touch(piece, wanted, q, setting), piece.where, u, trace)
    return trace


def flank_trace(form: Form, wanted: WantedFlank, q: float, setting: Setting, u: Array, sense: int) -> Trace:
    """The flank of either sense, +1 or -1, in the middle of the face; `zeta` is the station in the work's own direction."""
    seen = setting if sense > 0 else setting.mirrored()
    trace = contact_trace(form.side(sense), wanted, q, seen, u)
    return Trace(trace.u, trace.delta, sense * trace.zeta, trace.by, trace.overlaps)
