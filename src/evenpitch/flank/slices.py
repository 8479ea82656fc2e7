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

COARSE = 8
"""Every so many nodes are looked at first."""


@dataclass(frozen=True, slots=True)
class Slices:
    """`G` (mm) at heights `zeta` (mm, evenly spaced) and roll lengths `u` (mm): shape (heights, rolls); infinite where nothing is cut.

    `part`: which piece of the outline made each value, -1 for none; `nearest`: the node of each section nearest the work's axis.
    """

    zeta: Array
    u: Array
    G: Array
    part: NDArray[np.int64]
    nearest: NDArray[np.int64]

    @property
    def height(self) -> float:
        """Distance of two slices, mm."""
        return float(self.zeta[1] - self.zeta[0])


@dataclass(frozen=True, slots=True)
class Outline:
    """The nodes of a side that bound its body, and for each node the first and last node of its smooth piece."""

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


@cites("derived here", formula="x = a − √(R² − ((ζ + w sin Γ)/cos Γ)²), y = e + w/cos Γ + ζ tan Γ")
def sections(w: Array, R: Array, setting: Setting, zeta: Array) -> tuple[Array, Array]:
    """Radius and angle (mm, rad) of the cutter's section at height zeta for points of its side; the radius is infinite where it ends."""
    x, y = _section(w, R, setting, zeta)
    return np.sqrt(x * x + y * y), np.arctan2(y, x)


def _section(w: Array, R: Array, setting: Setting, zeta: Array) -> tuple[Array, Array]:
    """The section's x and y; x is infinite where it ends."""
    cos_g, sin_g = math.cos(setting.swing), math.sin(setting.swing)
    across = (zeta + w * sin_g) / cos_g
    square = R * R - across * across
    x = setting.centre - np.sqrt(np.maximum(square, 0.0))
    return np.where(square > 0.0, x, np.inf), setting.offset + w / cos_g + zeta * (sin_g / cos_g)


def _square_of_radius(w: Array, R: Array, setting: Setting, zeta: Array) -> Array:
    """Square of the section's radius, which is all that a search among nodes needs."""
    x, y = _section(w, R, setting, zeta)
    return x * x + y * y


@dataclass(frozen=True, slots=True)
class Knife:
    """One side of a cutter in its setting, ready to be sliced for the '+' flank; `q` = 2 pi / lead of the true motion."""

    edge: Outline
    wanted: WantedFlank
    q: float
    setting: Setting

    def nearest(self, zeta: Array) -> NDArray[np.int64]:
        """For each height the node from which the section goes outwards: that nearest the work's axis."""
        w, R, last = self.edge.w, self.edge.R, len(self.edge.w) - 1
        some = np.append(np.arange(0, last, COARSE), last)
        about = some[np.argmin(_square_of_radius(w[some], R[some], self.setting, zeta[:, None]), axis=1)]
        near = np.clip(about[:, None] + np.arange(-COARSE, COARSE + 1), 0, last)
        least = np.argmin(_square_of_radius(w[near], R[near], self.setting, zeta[:, None]), axis=1)
        return np.asarray(near[np.arange(len(zeta)), least])

    def left(self, zeta: Array, u: Array, nearest: NDArray[np.int64]) -> tuple[Array, NDArray[np.int64]]:
        """G (mm) and the piece that makes it, for pairs of height and roll length (of shapes that go together); infinite, -1 where none.

        Halves the row of nodes until two stand on either side of the radius, then takes four of one smooth piece.
        """
        edge, at = self.edge, self.wanted.radius(u)
        square = at * at
        shape = np.broadcast_shapes(zeta.shape, u.shape)
        low = np.broadcast_to(nearest, shape).copy()
        high = np.full(shape, len(edge.w) - 1)
        for _ in range(math.ceil(math.log2(len(edge.w)))):
            middle = (low + high) // 2
            inside = self._square(middle, zeta) <= square
            low, high = np.where(inside, middle, low), np.where(inside, high, middle)
        begin = np.maximum(np.minimum(low - 1, edge.last[low] - 3), edge.first[low])
        around = begin[..., None] + np.arange(4)
        radius, angle = sections(edge.w[around], edge.R[around], self.setting, zeta[..., None])
        between = (self._square(low, zeta) <= square) & (square <= self._square(high, zeta)) & (high == low + 1)
        phi = _angle_at(radius, angle, np.broadcast_to(at, shape), low - begin)
        G = self.wanted.lever * (self.wanted.angle(u) - phi + self.q * zeta)
        known = between & np.isfinite(phi)
        return np.where(known, G, np.inf), np.where(known, edge.first[low], -1)

    def _square(self, node: NDArray[np.int64], zeta: Array) -> Array:
        return _square_of_radius(self.edge.w[node], self.edge.R[node], self.setting, zeta)


def _angle_at(radius: Array, angle: Array, at: Array, left: NDArray[np.int64]) -> Array:
    """Angle of the section at the radius `at`: through four nodes while they rise, else through the two about it."""
    whole = np.asarray(np.isfinite(radius).all(axis=-1) & (radius[..., 1:] > radius[..., :-1]).all(axis=-1))
    nodes = np.where(whole[..., None], radius, np.arange(4.0))
    cubic = (weights(nodes, np.where(whole, at, 1.0)) * angle).sum(axis=-1)
    right = np.minimum(left + 1, 3)
    r0, r1, a0, a1 = (_pick(of, k) for of in (radius, angle) for k in (left, right))
    rising = np.isfinite(r0) & np.isfinite(r1) & (r1 > r0)
    low, high = np.where(rising, r0, 0.0), np.where(rising, r1, 1.0)
    share = np.where(rising, at - low, 0.0) / (high - low)
    straight = np.where(rising, a0 + share * (a1 - a0), np.where(np.isfinite(r0), a0, np.nan))
    return np.where(whole, cubic, straight)


def _pick(of: Array, k: NDArray[np.int64]) -> Array:
    """One of the four along the last axis."""
    return np.take_along_axis(of, k[..., None], axis=-1)[..., 0]


def slices(knife: Knife, zeta: Array, u: Array) -> Slices:
    """The table G(zeta, u); heights are taken in blocks that stay in the fast memory."""
    block = max(1, 200_000 // max(len(u), len(knife.edge.w)))
    parts = []
    for i in range(0, len(zeta), block):
        some = zeta[i : i + block]
        nearest = knife.nearest(some)
        parts.append((*knife.left(some[:, None], u[None, :], nearest[:, None]), nearest))
    G, part, nearest = (np.concatenate(column) for column in zip(*parts, strict=True))
    return Slices(zeta, u, G, part, nearest)
