"""The cutter in slices: what it would leave at a fixed radius if it stood still at each height, before the motion is known.

Cut by the plane at height zeta the cutter is known in closed form: R sin(th) = (zeta + w sin G) / cos G.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from evenpitch.flank.curve import Side
from evenpitch.flank.interpolation import weights
from evenpitch.flank.setting import Setting
from evenpitch.flank.wanted import Array, WantedFlank
from evenpitch.sources.citations import cites


@dataclass(frozen=True, slots=True)
class Slices:
    """`G` (mm) at heights `zeta` (mm, evenly spaced) and roll lengths `u` (mm): shape (heights, rolls); infinite where nothing is cut."""

    zeta: Array
    u: Array
    G: Array

    @property
    def height(self) -> float:
        """Distance of two slices, mm."""
        return float(self.zeta[1] - self.zeta[0])


@dataclass(frozen=True, slots=True)
class Outline:
    """The nodes of a side that bound its body, and for each interval the first and last node of its smooth piece."""

    w: Array
    R: Array
    first: NDArray[np.int64]
    last: NDArray[np.int64]


def outline(side: Side) -> Outline:
    """The side as one list of nodes from the far corner of the land outwards; fans are single points and fall out."""
    real = [piece for piece in side if np.ptp(piece.w) + np.ptp(piece.R) > 1e-12]
    counts = [len(piece.w) for piece in real]
    ends = np.cumsum(counts)
    starts = ends - counts
    return Outline(
        np.concatenate([piece.w for piece in real]),
        np.concatenate([piece.R for piece in real]),
        np.repeat(starts, counts),
        np.repeat(ends - 1, counts),
    )


@cites("DERIVED", formula="x = a − √(R² − ((ζ + w sin Γ)/cos Γ)²), y = e + w/cos Γ + ζ tan Γ")
def sections(edge: Outline, setting: Setting, zeta: Array) -> tuple[Array, Array]:
    """Radius and angle (mm, rad) of the cutter's section at each height: shape (heights, nodes); the radius is infinite where it ends."""
    cos_g, sin_g = math.cos(setting.swing), math.sin(setting.swing)
    across = (zeta[:, None] + edge.w * sin_g) / cos_g
    square = edge.R * edge.R - across * across
    x = setting.centre - np.sqrt(np.maximum(square, 0.0))
    y = setting.offset + edge.w / cos_g + zeta[:, None] * (sin_g / cos_g)
    return np.where(square > 0.0, np.hypot(x, y), np.inf), np.arctan2(y, x)


def _outwards(radius: Array, angle: Array) -> Array:
    """Radius that only rises from the point nearest the work's axis on; what lies before that, or turns back, is minus infinity."""
    nearest = np.argmin(radius, axis=1)
    before = np.arange(radius.shape[1]) < nearest[:, None]
    rising = np.where(before, -np.inf, np.where(np.isfinite(radius), radius, -np.inf))
    return np.maximum.accumulate(rising, axis=1)


def _places(rising: Array, wanted: Array) -> NDArray[np.int64]:
    """Index of the last node not above each wanted radius, for every row at once (one search over shifted rows)."""
    low, high = wanted[0], wanted[-1]
    wide = 1.0 + high - low
    rows = np.arange(len(rising))[:, None] * (2 * wide)
    keys = np.clip(rising, low - 0.4 * wide, high + 0.4 * wide) + rows
    found = np.searchsorted(keys.ravel(), (wanted[None, :] + rows).ravel(), side="right").reshape(len(rising), -1)
    return found - 1 - np.arange(len(rising))[:, None] * rising.shape[1]


def slices(side: Side, wanted: WantedFlank, q: float, setting: Setting, zeta: Array, u: Array) -> Slices:
    """The table G(zeta, u) of one side for the '+' flank, `q` = 2 pi / lead of the true motion; `u` rising."""
    edge = outline(side)
    radius, angle = sections(edge, setting, zeta)
    rising = _outwards(radius, angle)
    at = wanted.radius(u)
    place = _places(rising, at)
    inside = (place >= 0) & (place < len(edge.w) - 1)
    place = np.clip(place, 0, len(edge.w) - 2)
    width = 4
    begin = np.maximum(np.minimum(place - 1, edge.last[place] - (width - 1)), edge.first[place])
    around = begin[..., None] + np.arange(width)
    rows = np.arange(len(zeta))[:, None, None]
    nodes, values = radius[rows, around], angle[rows, around]
    top, bottom = nodes[..., 1:], nodes[..., :-1]
    whole = inside & np.isfinite(nodes).all(axis=-1) & (top > bottom).all(axis=-1)
    nodes = np.where(whole[..., None], nodes, np.arange(width, dtype=float))
    phi = (weights(nodes, np.broadcast_to(at, whole.shape)) * values).sum(axis=-1)
    phi, known = _straight(whole, inside, place, radius, angle, at, phi)
    G = wanted.lever * (wanted.angle(u) - phi + q * zeta[:, None])
    return Slices(zeta, u, np.where(known, G, np.inf))


def _straight(
    whole: NDArray[np.bool_], inside: NDArray[np.bool_], place: NDArray[np.int64], radius: Array, angle: Array, at: Array, phi: Array
) -> tuple[Array, NDArray[np.bool_]]:
    """Where four rising nodes are not to be had (first interval of a section), two do."""
    rows, columns = np.nonzero(inside & ~whole)
    known = whole.copy()
    if rows.size:
        left = place[rows, columns]
        r0, r1 = radius[rows, left], radius[rows, left + 1]
        good = np.isfinite(r0) & np.isfinite(r1) & (r1 > r0)
        rows, columns, left, r0, r1 = rows[good], columns[good], left[good], r0[good], r1[good]
        share = (at[columns] - r0) / (r1 - r0)
        phi[rows, columns] = (1 - share) * angle[rows, left] + share * angle[rows, left + 1]
        known[rows, columns] = True
    return phi, known
