"""One side of a cutter as a curve in its axial plane: the half width w and the radius R, from the tip land to the far end.

The flank is first a function of one running number t (R falls as t grows); the tip corner is then put on as an arc tangent to
the flank and to the outside cylinder, or, when sharp, as a fan of tangents at one point.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

import numpy as np

from evenpitch.flank.wanted import Array
from evenpitch.quantity.refusal import refuse

Where = Literal["land", "corner", "below", "form", "beyond"]
"""Part of the side: the land on the outside cylinder, the tip corner, the form below its base circle, the form, straight beyond it."""


@dataclass(frozen=True, slots=True)
class Piece:
    """A smooth stretch of a side by nodes: half width `w`, radius `R` (mm) and the unit tangent (`dw`, `dR`)."""

    where: Where
    w: Array
    R: Array
    dw: Array
    dR: Array  # noqa: N815, the tangent of R


Side = tuple[Piece, ...]
"""The pieces of one side, in order from the land outwards in w; neighbours meet in one point with one tangent, fans included."""


@dataclass(frozen=True, slots=True)
class Form:
    """A cutter form: its two sides (the minus side mirrored, so that w is positive on both) and the outside radius (mm)."""

    plus: Side
    minus: Side
    outside_radius: float
    name: str

    def side(self, sense: int) -> Side:
        """The side that cuts the flank of that sense, +1 or -1."""
        return self.plus if sense > 0 else self.minus


@dataclass(frozen=True, slots=True)
class FlankCurve:
    """The flank of a form before its corner is put on: `at(t)` gives (w, R, dw, dR), the tangent of unit length.

    `stretches` are the smooth parts (where, t from, t to); `corners` are fans between them: (t, tangent angle before, after).
    """

    at: Callable[[Array], tuple[Array, Array, Array, Array]]
    stretches: tuple[tuple[Where, float, float], ...]
    corners: tuple[tuple[float, float, float], ...] = ()


def _fan(where: Where, w: float, R: float, start: float, stop: float, nodes: int) -> Piece:
    """Equal points with a turning tangent (sin phi, -cos phi), phi from start to stop."""
    phi = np.linspace(start, stop, nodes)
    return Piece(where, np.full(nodes, w), np.full(nodes, R), np.sin(phi), -np.cos(phi))


def _arc(w: float, R: float, radius: float, stop: float, nodes: int) -> Piece:
    """The tip corner about the centre (w, R): outward normal from the land (pi/2) to the flank (stop)."""
    phi = np.linspace(math.pi / 2, stop, nodes)
    return Piece("corner", w + radius * np.cos(phi), R + radius * np.sin(phi), np.sin(phi), -np.cos(phi))


def _meeting(curve: FlankCurve, outside_radius: float, corner: float) -> float:
    """The t at which the corner arc touches the flank: R = R_c - r (1 - dw)."""
    low, high = curve.stretches[0][1], curve.stretches[-1][2]

    def short(t: float) -> float:
        _, R, dw, _ = curve.at(np.array([t]))
        return float(R[0] - outside_radius + corner * (1 - dw[0]))

    at_low = short(low)
    if at_low <= 0.0:
        if at_low < -1e-9:
            raise refuse(
                "cutter, outside_dia_mm", f"{2 * outside_radius:.6g}", "a form that reaches the outside of the cutter",
                f"The form ends {-at_low:.3f} mm short of it.", "Give points up to the outside, or the diameter of the form."
            )  # fmt: skip
        return low
    return _root(short, low, high)


def _root(f: Callable[[float], float], low: float, high: float) -> float:
    """The root of a falling f between low and high, by false position with the stale end halved."""
    if f(high) > 0.0:
        raise refuse("cutter, tip_corner_mm", "", "a corner that fits on the form", "It is larger than the form is deep.",
                     "Give a smaller corner radius.")  # fmt: skip
    at_low, at_high = f(low), f(high)
    for _ in range(100):
        middle = low + (high - low) * at_low / (at_low - at_high) if at_low - at_high > 0.0 else 0.5 * (low + high)
        at_middle = f(middle)
        if abs(at_middle) < 1e-13 or middle in (low, high):
            return middle
        if at_middle > 0.0:
            low, at_low, at_high = middle, at_middle, at_high / 2
        else:
            high, at_high, at_low = middle, at_middle, at_low / 2
    return 0.5 * (low + high)


def _tip(w: float, R: float, phi: float, outside_radius: float, corner: float, nodes: int) -> list[Piece]:
    """Land and corner up to the flank point (w, R) whose tangent angle is phi."""
    middle = w - corner * math.cos(phi)
    if middle < -1e-12:
        raise refuse("cutter, tip_corner_mm", f"{corner:.6g}", f"at most {w / max(math.cos(phi), 1e-9):.4g} mm here",
                     "The two corners meet: the tip is too narrow for this radius.", "Give a smaller corner radius.")  # fmt: skip
    across = np.linspace(-middle, middle, max(nodes // 2, 8))
    flat = np.ones_like(across)
    pieces = [Piece("land", across, outside_radius * flat, flat, 0 * flat)] if middle > 1e-9 else []
    if corner > 0.0:
        return [*pieces, _arc(middle, outside_radius - corner, corner, phi, nodes)]
    return [*pieces, _fan("corner", w, R, math.pi / 2, phi, nodes)]


def side_of(curve: FlankCurve, outside_radius: float, corner: float, nodes: int = 96) -> Side:
    """The whole side: tip land, tip corner, flank. `corner` 0 is a sharp corner; `nodes` for each smooth stretch of the flank."""
    start = _meeting(curve, outside_radius, corner)
    w, R, dw, dR = (float(found[0]) for found in curve.at(np.array([start])))
    pieces = _tip(w, R, math.atan2(dw, -dR), outside_radius, corner, nodes)
    for where, low, high in curve.stretches:
        if high - start > 1e-9:
            t = np.linspace(max(low, start), high, nodes if where == "form" else max(nodes // 2, 8))
            pieces.append(Piece(where, *curve.at(_within(t, low, high))))
        pieces += [_fan("corner", *_point(curve, at), one, other, max(nodes // 4, 8))
                   for at, one, other in curve.corners if abs(at - high) < 1e-12 and at > start]  # fmt: skip
    return tuple(pieces)


def _within(t: Array, low: float, high: float) -> Array:
    """Nodes kept a breath inside their stretch, so that the tangent at a bend is that of this stretch."""
    breath = 1e-12 * (high - low)
    return np.clip(t, low + breath, high - breath)


def _point(curve: FlankCurve, t: float) -> tuple[float, float]:
    """Half width and radius at t."""
    w, R, _, _ = curve.at(np.array([t]))
    return float(w[0]), float(R[0])
