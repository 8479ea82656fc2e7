"""The fly cutter's bit for exactly one gear: outline of its cutting edge, one arc per flank, correction for rake, relief."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from evenpitch.flank.curve import FlankCurve
from evenpitch.flank.exact import exact_curve
from evenpitch.flank.setting import Setting
from evenpitch.flank.wanted import SQUARE, Array, WantedFlank
from evenpitch.quantity.refusal import refuse
from evenpitch.quantity.units import Millimetre, Radian
from evenpitch.sources.citations import cites

RELIEF = Radian(math.radians(10))
"""Relief behind the edge; common practice, 8 to 12 degrees."""


@dataclass(frozen=True, slots=True)
class EdgeArc:
    """One arc for a flank in the plane of the outline, mm: `radius`, `off_centre` and `depth` (below the edge's end) of its centre;
    `hollow`: the flank of the bit is hollow; `worst`: greatest distance of the true flank from it."""

    radius: float
    off_centre: float
    depth: float
    worst: float
    hollow: bool


@dataclass(frozen=True, slots=True)
class Bit:
    """The bit on a swing of `outside` diameter (mm). `outline`: rows of half width and depth from the end of the edge (mm), in the rake
    face; `radial`: the same with depth square to the cutter's axis. `least_side_relief` rad, for the end relief given.

    `form_from`: depth below which (towards the end) the edge is below the gear's base circle: any line that clears will do.
    """

    outside: float
    swing: float
    rake: float
    relief: float
    outline: Array
    radial: Array
    checks: tuple[tuple[float, float], ...]
    arc: EdgeArc
    least_side_relief: float
    form_from: float


@cites("derived here", formula="depth in the rake face L = R_c cos γ − √(R² − R_c² sin² γ)")
def depth_in_face(R: Array, outside_radius: float, rake: float) -> Array:
    """Depth along the rake face at which the bit reaches the radius R (mm): with no rake simply R_c - R."""
    return outside_radius * math.cos(rake) - np.sqrt(R * R - (outside_radius * math.sin(rake)) ** 2)


def fly_bit(
    wanted: WantedFlank,
    outside: Millimetre,
    *,
    swing: Radian | None = None,
    rake: Radian = SQUARE,
    relief: Radian = RELIEF,
    points: int = 41,
) -> Bit:
    """The bit whose turning edge leaves exactly the wanted flank at this swing (usual: the helix angle)."""
    radius = outside / 2
    if abs(math.sin(rake)) * radius >= radius - (wanted.tip_radius - wanted.root_radius):
        raise refuse("rake", f"{math.degrees(rake):.4g}", "a rake face that meets the edge down to the outside of the work", "",
                     "Grind less rake, usually none.")  # fmt: skip
    set_to = wanted.helix if swing is None else swing
    curve = exact_curve(wanted, Setting(set_to, 0.0, wanted.root_radius + radius))
    t, w, R, dw = _edge(curve, wanted, radius, points)
    depth = depth_in_face(R, radius, rake)
    formed = np.flatnonzero(t >= wanted.u_start - 1e-9)
    marks = [0, int(np.argmin(np.abs(t - wanted.u_pitch))), points - 1]
    return Bit(
        outside=outside,
        swing=set_to,
        rake=rake,
        relief=relief,
        outline=np.column_stack([w, depth]),
        radial=np.column_stack([w, radius - R]),
        checks=tuple((float(2 * w[k]), float(depth[k])) for k in marks),
        arc=best_arc(w[formed], depth[formed]),
        least_side_relief=float(np.arctan(math.tan(relief) * dw[formed].min())),
        form_from=float(depth[np.flatnonzero(t >= 0.0)[0]]),
    )


def _edge(curve: FlankCurve, wanted: WantedFlank, radius: float, points: int) -> tuple[Array, Array, Array, Array]:
    """Roll length, half width, radius and direction at points of the edge: from its end to the outside of the work, pitch included."""
    low = curve.stretches[0][1]
    many = np.linspace(low, wanted.u_end, 4001)
    _, R, _, _ = curve.at(many)
    start = float(np.interp(-radius, -R, many))
    t = np.linspace(start, wanted.u_end, points)
    t[int(np.argmin(np.abs(t - wanted.u_pitch)))] = wanted.u_pitch
    w, R, dw, _ = curve.at(t)
    return t, w, R, dw


@cites("derived here", formula="centre that makes the greatest distance from the circle least")
def best_arc(w: Array, depth: Array) -> EdgeArc:
    """The single arc nearest to a flank: its greatest distance from the flank is the least that any arc allows."""
    from scipy.optimize import minimize  # here, for it is slow to load

    first = _least_squares_centre(w, depth)
    scale = float(np.hypot(*(first - [w.mean(), depth.mean()])))

    def spread(centre: Array) -> float:
        away = np.hypot(w - centre[0], depth - centre[1])
        return float(np.ptp(away)) * 1e3

    simplex = first + 0.05 * scale * np.array([[0, 0], [1, 0], [0, 1]])
    best = minimize(  # type: ignore[no-untyped-call]
        spread, first, method="Nelder-Mead",
                    options={"initial_simplex": simplex, "xatol": 1e-9 * scale, "fatol": 1e-9, "maxiter": 4000})  # fmt: skip
    centre = best.x
    away = np.hypot(w - centre[0], depth - centre[1])
    radius = float(away.max() + away.min()) / 2
    return EdgeArc(radius, float(centre[0]), float(centre[1]), float(np.ptp(away)) / 2, bool(centre[0] > w.mean()))


def _least_squares_centre(w: Array, depth: Array) -> Array:
    """Centre of the circle by linear least squares."""
    rows = np.column_stack([2 * w, 2 * depth, np.ones_like(w)])
    found, *_ = np.linalg.lstsq(rows, w * w + depth * depth, rcond=None)
    return np.asarray(found[:2])
