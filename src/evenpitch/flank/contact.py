"""Where a turning disc cutter touches the surface it leaves when the work moves as a screw: closed form, no iteration.

The normal of a surface of revolution meets its axis; at the place of contact its moment about the screw vanishes. Cleared of
divisions that is A sin(th) + B cos(th) = D for each point of the cutter's axial curve, and a spur gear is the case q = 0.

Of the two roots the one nearer the work counts; the other lies on the far side of the disc, except on nearly parallel sides, which
touch on both sides of the middle. There the two roots meet in a fold, and both are kept.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from evenpitch.flank.curve import Piece
from evenpitch.flank.setting import Setting, Settings
from evenpitch.flank.wanted import Array, WantedFlank
from evenpitch.sources.citations import cites

Rows = tuple[Array, Array, Array]


@dataclass(frozen=True, slots=True)
class Touch:
    """What the nodes of one piece leave, a row for each setting: roll `u0` on the line of action, deviation `delta`, station `zeta` (mm).

    `linked` (one column fewer): whether a node and the next are neighbours on one smooth branch.
    """

    u0: Array
    delta: Array
    zeta: Array
    linked: NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class ContactAngle:
    """Sine and cosine of the nearer root and of the other, at each node; `holds`: where there are any, else that part only roughs."""

    near: tuple[Array, Array]
    far: tuple[Array, Array]
    holds: NDArray[np.bool_]


@cites("Gear Geometry and Applied Theory", "derived here", formula="A sin θ + B cos θ = D")
def contact_angle(piece: Piece, q: float | Array, setting: Setting | Settings) -> ContactAngle:
    """Where on its circle each node of the piece touches; `q` = 2 pi / lead of the true motion.

    A = w' (cos G + q a sin G), B = q (e w' + (w w' + R R') cos G), D = R' (q a cos G - sin G).
    """
    cos_g, sin_g = np.cos(setting.swing), np.sin(setting.swing)
    a, e = setting.centre, setting.offset
    A = piece.dw * (cos_g + q * a * sin_g)
    B = q * (e * piece.dw + (piece.w * piece.dw + piece.R * piece.dR) * cos_g)
    D = piece.dR * (q * a * cos_g - sin_g)
    H = A * A + B * B
    square = H - D * D
    holds = (square >= 0.0) & (H > 1e-24)
    K = np.copysign(np.sqrt(np.where(holds, square, 0.0)), A)
    over = np.where(holds, H, 1.0)
    near, far = ((A * D - B * K) / over, (B * D + A * K) / over), ((A * D + B * K) / over, (B * D - A * K) / over)
    return ContactAngle(near, far, holds)


def touches_along_chords(piece: Piece, q: float, setting: Setting) -> bool:
    """Whether a stretch of the piece touches along whole chords (flat sides in straight feed): no single place of contact to solve for."""
    sine_factor = np.abs(piece.dw) * abs(math.cos(setting.swing) + q * setting.centre * math.sin(setting.swing))
    turning = np.abs(q * (setting.offset * piece.dw + (piece.w * piece.dw + piece.R * piece.dR) * math.cos(setting.swing)))
    across = np.abs(piece.dR * (q * setting.centre * math.cos(setting.swing) - math.sin(setting.swing)))
    return bool((sine_factor + turning + across < 1e-9).any())


def touch(piece: Piece, wanted: WantedFlank, q: float | Array, setting: Setting | Settings) -> Touch:
    """The '+' flank that one piece of the cutter leaves in the middle of the face; for the '-' flank mirror the setting."""
    angle = contact_angle(piece, q, setting)
    one = _left(piece, wanted, q, setting, *angle.near)
    holds = np.atleast_2d(angle.holds & (angle.near[1] > 0.0))
    reached = (setting.centre - wanted.tip_radius) / piece.R
    both = np.atleast_2d(angle.holds & (angle.far[1] > 0.98 * reached))
    if not both.any():
        return Touch(*one, holds[:, 1:] & holds[:, :-1])
    return _both_roots(one, _left(piece, wanted, q, setting, *angle.far), holds, both)


def _left(piece: Piece, wanted: WantedFlank, q: float | Array, setting: Setting | Settings, sine: Array, cosine: Array) -> Rows:
    """Roll, deviation and station of points of the cutter surface at these angles."""
    cos_g, sin_g = np.cos(setting.swing), np.sin(setting.swing)
    across = piece.R * sine
    x = setting.centre - piece.R * cosine
    y = setting.offset + piece.w * cos_g + across * sin_g
    zeta = across * cos_g - piece.w * sin_g
    u = wanted.roll(np.hypot(x, y))
    delta = wanted.lever * (wanted.angle(u) - np.arctan2(y, x) + q * zeta)
    return np.atleast_2d(u - delta / math.cos(wanted.base_helix)), np.atleast_2d(delta), np.atleast_2d(zeta)


def _both_roots(one: Rows, other: Rows, holds: NDArray[np.bool_], both: NDArray[np.bool_]) -> Touch:
    """Other root backwards, nearer root forwards, other root backwards: nodes that hold, in that order, linked through the folds."""
    count = holds.shape[1]
    index = np.arange(count)
    node = np.concatenate([index[::-1], index, index[::-1]])
    root = np.repeat([1, 0, 1], count)
    known = np.concatenate([both[:, ::-1], holds, both[:, ::-1]], axis=1)
    order = np.argsort(~known, axis=1, kind="stable")
    rows = [
        np.take_along_axis(np.concatenate([b[:, ::-1], a, b[:, ::-1]], axis=1), order, axis=1)
        for a, b in zip(one, other, strict=True)
    ]
    known, node, root = np.take_along_axis(known, order, axis=1), node[order], root[order]
    ended = np.concatenate([holds[:, :1], holds, holds[:, -1:]], axis=1)
    fold = np.take_along_axis(~ended[:, 2:] | ~ended[:, :-2], node, axis=1)
    step = np.abs(np.diff(node, axis=1))
    same = root[:, 1:] == root[:, :-1]
    linked = np.where(same, step == 1, (step == 0) & fold[:, 1:]) & known[:, 1:] & known[:, :-1]
    return Touch(rows[0], rows[1], rows[2], linked)
