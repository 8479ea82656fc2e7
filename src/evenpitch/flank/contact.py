"""Where a turning disc cutter touches the surface it leaves when the work moves as a screw: closed form, no iteration.

The normal of a surface of revolution meets its axis; at the place of contact its moment about the screw vanishes. Cleared of
divisions that is A sin(th) + B cos(th) = D for each point of the cutter's axial curve, and a spur gear is the case q = 0.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from evenpitch.flank.curve import Piece
from evenpitch.flank.setting import Setting, Settings
from evenpitch.flank.wanted import Array, WantedFlank
from evenpitch.sources.citations import cites


@dataclass(frozen=True, slots=True)
class Touch:
    """What the nodes of one piece leave: roll `u0` on the line of action, deviation `delta`, station `zeta` (mm); `holds`: touches at all."""

    u0: Array
    delta: Array
    zeta: Array
    holds: np.ndarray


@cites("Gear Geometry and Applied Theory", "derived here", formula="A sin θ + B cos θ = D")
def contact_angle(piece: Piece, q: float | Array, setting: Setting | Settings) -> tuple[Array, Array, np.ndarray]:
    """(sin θ, cos θ, holds) at each node; `q` = 2 pi / lead of the true motion. Does not hold where that part only roughs.

    With many settings (columns of numbers) there is a row of nodes for each.
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
    return (A * D - B * K) / over, (B * D + A * K) / over, holds


def touches_along_chords(piece: Piece, q: float, setting: Setting) -> bool:
    """Whether a stretch of the piece touches along whole chords (flat sides in straight feed): no single place of contact to solve for."""
    sine_factor = np.abs(piece.dw) * abs(math.cos(setting.swing) + q * setting.centre * math.sin(setting.swing))
    turning = np.abs(q * (setting.offset * piece.dw + (piece.w * piece.dw + piece.R * piece.dR) * math.cos(setting.swing)))
    across = np.abs(piece.dR * (q * setting.centre * math.cos(setting.swing) - math.sin(setting.swing)))
    return bool((sine_factor + turning + across < 1e-9).any())


def touch(piece: Piece, wanted: WantedFlank, q: float | Array, setting: Setting | Settings) -> Touch:
    """The '+' flank that one piece of the cutter leaves in the middle of the face; for the '-' flank mirror the setting."""
    sine, cosine, holds = contact_angle(piece, q, setting)
    cos_g, sin_g = np.cos(setting.swing), np.sin(setting.swing)
    across = piece.R * sine
    x = setting.centre - piece.R * cosine
    y = setting.offset + piece.w * cos_g + across * sin_g
    zeta = across * cos_g - piece.w * sin_g
    u = wanted.roll(np.hypot(x, y))
    delta = wanted.lever * (wanted.angle(u) - np.arctan2(y, x) + q * zeta)
    return Touch(u - delta / math.cos(wanted.base_helix), delta, zeta, holds & (cosine > 0.0))
