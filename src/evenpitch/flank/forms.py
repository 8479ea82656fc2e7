"""Cutter forms that need no gear to be made for: numbered involute cutters, vee and slitting cutters, sampled points."""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import pairwise

import numpy as np

from evenpitch.flank.curve import FlankCurve, Form, Where, side_of
from evenpitch.flank.wanted import NOTHING, Array
from evenpitch.quantity.refusal import Fault, Refusal
from evenpitch.quantity.units import Millimetre, Radian
from evenpitch.sources.citations import cites

BEYOND = 2.0
"""How far the straight part beyond the form is followed, in modules: more than any depth needs."""


@cites("ISO 21771:2007", "common practice", formula="w = ρ sin η, R = r_f + R_c − ρ cos η; η = π/(2N) − inv α + inv(ρ)")
def numbered_form(
    teeth: float,
    module: Millimetre,
    pressure_angle: Radian,
    outside: Millimetre,
    *,
    corner: Millimetre = NOTHING,
    dedendum: float = 1.25,
    nodes: int = 96,
) -> Form:
    """The space of a spur gear of `teeth` teeth (a fraction stands for a form between two).

    `outside` is the cutter's diameter, `dedendum` in modules.

    Radial below the base circle (maker's practice, not standardised), straight on beyond 0.9 module above the tip.
    """
    radius = outside / 2
    curve = _involute_space(teeth, module, pressure_angle, radius, dedendum)
    side = side_of(curve, radius, corner, nodes)
    return Form(side, side, radius, f"made for {teeth:g} teeth, module {module:g}")


def _involute_space(teeth: float, module: float, pressure_angle: float, radius: float, dedendum: float) -> FlankCurve:
    """Half of the space, t = roll length; negative t is the way down the radial part, t beyond the last is the straight part."""
    pitch = teeth * module / 2
    base = pitch * math.cos(pressure_angle)
    opening = math.pi / (2 * teeth) - math.tan(pressure_angle) + pressure_angle
    centre = pitch - dedendum * module + radius
    last = math.sqrt((pitch + 1.9 * module) ** 2 - base * base)

    def at(t: Array) -> tuple[Array, Array, Array, Array]:
        xi = np.clip(t, 0.0, last) / base
        tau = opening + xi
        straight = np.minimum(t, 0.0) + np.maximum(t - last, 0.0)
        high = base * (np.cos(tau) + xi * np.sin(tau)) + straight * np.cos(tau)
        wide = base * (np.sin(tau) - xi * np.cos(tau)) + straight * np.sin(tau)
        return wide, centre - high, np.sin(tau), -np.cos(tau)

    stretches: list[tuple[Where, float, float]] = [("form", 0.0, last), ("beyond", last, last + BEYOND * module)]
    below = base - (pitch - dedendum * module)
    stretches.insert(0, ("below", -max(below, 0.0) - module, 0.0))
    return FlankCurve(at, tuple(stretches))


@cites("common practice", formula="w = b/2 + (R_c − R) tan(ψ/2)")
def vee_form(
    included_angle: Radian,
    tip_flat: Millimetre,
    outside: Millimetre,
    *,
    corner: Millimetre = NOTHING,
    reach: Millimetre | None = None,
    nodes: int = 96,
) -> Form:
    """A cutter with straight sides: an angle cutter, or a slitting saw when `included_angle` is 0.

    `tip_flat` is the flat before the corner is rounded; `reach`: the depth followed (usual: 0.6 of the radius).
    """
    radius = outside / 2
    half = included_angle / 2
    long = (reach if reach is not None else 0.6 * radius) / math.cos(half)

    def at(t: Array) -> tuple[Array, Array, Array, Array]:
        one = np.ones_like(t)
        return (tip_flat / 2 + t * math.sin(half), radius - t * math.cos(half), one * math.sin(half), -one * math.cos(half))

    side = side_of(FlankCurve(at, (("form", 0.0, long),)), radius, corner, nodes)
    return Form(side, side, radius, f"straight sides, {math.degrees(included_angle):g} degrees included")


def check_points(points: Array, outside_radius: float) -> tuple[Fault, ...]:
    """Why a list of (w, R) points cannot be the plus side of a cutter; empty when it can."""
    field, do = "cutter, points_mm", "Give w and R of one side from the tip outwards: w growing, R falling."
    if points.ndim != 2 or points.shape[1] != 2 or len(points) < 2:
        return (Fault(field, str(points.shape), "two columns, at least two points", "", do),)
    if not np.isfinite(points).all():
        return (Fault(field, "not a number", "numbers", "A value is missing.", do),)
    w, R = points.T
    faults = []
    if (R <= 0).any() or w[0] < 0:
        faults.append(Fault(field, f"w {w[0]:g}, R {R.min():g}", "w from 0 up and R above 0", "Was R counted from the tip?", do))
    back = np.flatnonzero((np.diff(R) > 0) | (np.diff(w) < 0) | ((np.diff(R) == 0) & (np.diff(w) == 0)))
    if back.size:
        i = int(back[0])
        faults.append(Fault(field, f"point {i + 1} to {i + 2}", "R falling while w grows",
                            "The outline turns back or crosses itself.", do))  # fmt: skip
    if R[0] > outside_radius + 1e-6 or R[0] < 0.5 * outside_radius:
        faults.append(Fault(field, f"first R {R[0]:g}", f"the outside radius, {outside_radius:g}",
                            "The first point stands at the tip.", do))  # fmt: skip
    return tuple(faults)


@cites("derived here", formula="cubic spline of w and R over the chord length, broken at corners")
def points_form(points: Array, outside: Millimetre, *, corner: Millimetre = NOTHING, nodes: int = 96) -> Form:
    """A form through sampled points (w, R) in mm, from the tip outwards; splined between its corners, straight beyond its ends."""
    radius = outside / 2
    faults = check_points(points, radius)
    if faults:
        raise Refusal(*faults)
    side = side_of(_splined(points, radius), radius, corner, nodes)
    return Form(side, side, radius, f"{len(points)} points")


def _bends(points: Array) -> list[int]:
    """Points at which the outline has a corner: turning far more than its neighbours do, or more than 30 degrees."""
    step = np.diff(points, axis=0)
    turn = np.abs(np.diff(np.unwrap(np.arctan2(step[:, 0], -step[:, 1]))))
    beside = np.maximum(np.append(turn[1:], 0.0), np.append(0.0, turn[:-1]))
    sharp = (turn > math.radians(30)) | ((turn > math.radians(4)) & (turn > 4 * beside))
    return [int(i) + 1 for i in np.flatnonzero(sharp)]


def _splined(points: Array, radius: float) -> FlankCurve:
    """Runs between corners, each splined over its chord length; the two ends run straight on."""
    from scipy.interpolate import CubicSpline

    cuts = [0, *_bends(points), len(points) - 1]
    long = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))])
    ends: tuple[str, ...] = ("natural", "not-a-knot")
    runs = [CubicSpline(long[i : j + 1], points[i : j + 1], bc_type=ends[j - i > 1]) for i, j in pairwise(cuts)]  # type: ignore[no-untyped-call]
    edges = long[cuts]
    first, last = edges[0], edges[-1]

    def at(t: Array) -> tuple[Array, Array, Array, Array]:
        within = np.clip(t, first, last)
        run = np.clip(np.searchsorted(edges, within, side="right") - 1, 0, len(runs) - 1)
        place, slope = np.empty((len(t), 2)), np.empty((len(t), 2))
        for k, spline in enumerate(runs):
            here = run == k
            place[here], slope[here] = spline(within[here]), spline(within[here], 1)
        slope /= np.hypot(slope[:, 0], slope[:, 1])[:, None]
        place += (t - within)[:, None] * slope
        return place[:, 0], place[:, 1], slope[:, 0], slope[:, 1]

    ahead = first - max(radius - float(points[0, 1]), 0.0) * 2 - (0.02 * radius if radius - points[0, 1] > 1e-9 else 0.0)
    beyond = last + 0.2 * radius
    stretches: list[tuple[Where, float, float]] = [("form", a, b) for a, b in pairwise(edges)]
    if ahead < first:
        stretches.insert(0, ("below", ahead, first))
    return FlankCurve(at, (*stretches, ("beyond", last, beyond)), _fans(at, edges[1:-1]))


def _fans(at: Callable[[Array], tuple[Array, Array, Array, Array]], edges: Array) -> tuple[tuple[float, float, float], ...]:
    """The turning tangent at each corner that stands out of the cutter; a corner that goes in needs none."""
    fans = []
    for edge in edges:
        _, _, dw, dR = at(np.array([edge - 1e-9, edge + 1e-9]))
        before, after = np.arctan2(dw, -dR)
        if before > after:
            fans.append((float(edge), float(before), float(after)))
    return tuple(fans)
