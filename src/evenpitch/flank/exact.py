"""The inverse problem: the cutter form that leaves exactly the wanted helicoid, at a given swing, offset and centre distance.

Each flank point is turned along the screw until its normal meets the cutter axis; there w, R and the tangent follow.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from evenpitch.flank.curve import FlankCurve, Form, Where, side_of
from evenpitch.flank.setting import Setting
from evenpitch.flank.wanted import Array, WantedFlank
from evenpitch.quantity.refusal import refuse
from evenpitch.sources.citations import cites

Vector = tuple[Array, Array, Array]
REACHED = 0.9
"""Part of the inspected flank that a form must touch to be called made for it; what is left of the rest, the cut itself tells."""
FARTHEST = 400.0
"""The station of contact may run so many times faster than the roll; beyond, it has jumped to another branch."""


def _flank(wanted: WantedFlank, t: Array) -> tuple[Array, Array, Array]:
    """Transverse radius, angle and direction of the outward normal of the '+' flank; t = roll length, negative down the radial part."""
    xi = np.maximum(t, 0.0) / wanted.base_radius
    radius = np.where(t >= 0.0, wanted.base_radius * np.sqrt(1 + xi * xi), wanted.base_radius + np.minimum(t, 0.0))
    angle = wanted.half_space + xi - np.arctan(xi)
    return radius, angle, wanted.half_space + xi + math.pi / 2


def _turned(wanted: WantedFlank, t: Array, s: Array) -> tuple[Vector, Vector]:
    """Point and unit normal (into the metal) of the flank after the screw has carried it to s along the axis."""
    radius, angle, normal = _flank(wanted, t)
    turn = wanted.q * s
    slope = -wanted.q * radius * np.cos(normal - angle - math.pi / 2)
    long = np.sqrt(1 + slope * slope)
    point = (radius * np.cos(angle + turn), radius * np.sin(angle + turn), s)
    return point, (np.cos(normal + turn) / long, np.sin(normal + turn) / long, slope / long)


def _gap(wanted: WantedFlank, setting: Setting, t: Array, s: Array) -> Array:
    """Triple product [(P - C), n, k]: nothing when the normal meets the cutter axis."""
    (px, py, pz), (nx, ny, nz) = _turned(wanted, t, s)
    ky, kz = math.cos(setting.swing), -math.sin(setting.swing)
    dx, dy = px - setting.centre, py - setting.offset
    return dx * (ny * kz - nz * ky) - dy * nx * kz + pz * nx * ky


def _station(wanted: WantedFlank, setting: Setting, t: Array) -> tuple[Array, NDArray[np.bool_]]:
    """The station of contact nearest the middle, by secant steps that end at the last digit; and where there is one."""
    s0, s1 = np.zeros_like(t), np.full_like(t, 0.05)
    f0, f1 = _gap(wanted, setting, t, s0), _gap(wanted, setting, t, s1)
    change = np.zeros_like(t)
    for _ in range(60):
        change = np.where(f1 != f0, f1 * (s1 - s0) / np.where(f1 != f0, f1 - f0, 1.0), 0.0)
        change = np.clip(change, -wanted.module, wanted.module)
        s0, f0 = s1, f1
        s1 = s1 - change
        f1 = _gap(wanted, setting, t, s1)
        if np.abs(change).max() < 1e-13:
            break
    return s1, np.abs(change) < 1e-7


def _touched(wanted: WantedFlank, setting: Setting, low: float, high: float) -> tuple[float, float]:
    """The stretch of t that the cutter touches with a form that falls outwards, about the middle of the inspected flank. Beneath it,
    and above, the form has no say: it runs straight on. Refused where that would be more than a tenth of the inspected flank."""
    middle = 0.5 * (wanted.u_start + wanted.u_end)
    t = np.unique(np.append(np.linspace(low, high, 1601), middle))
    s, holds = _station(wanted, setting, t)
    s = np.where(holds, s, 0.0)
    _, R, dw, dR = _of_station(wanted, setting, t, s)
    falls = holds & (dR < -1e-3) & (dw > 0.0)
    near = holds[1:] & holds[:-1]
    falls[1:] &= (np.diff(R) < 0.0) & (~near | (np.abs(np.diff(s)) < FARTHEST * np.diff(t) + 1e-9))
    at = int(np.searchsorted(t, middle))
    under, over = np.flatnonzero(~falls[: at + 1]), np.flatnonzero(~falls[at:])
    first = float(t[under[-1] + 1]) if under.size and under[-1] < at else low
    last = float(t[at + over[0] - 1]) if over.size and over[0] > 0 else high
    reached = min(last, wanted.u_end) - max(first, wanted.u_start)
    if not falls[at] or reached < REACHED * (wanted.u_end - wanted.u_start):
        raise refuse("cutter, design_swivel_deg", f"{math.degrees(setting.swing):.6g}", "a setting that cuts the whole flank",
                     "The cutter cannot touch the whole of the flank.", "Set the swing near the helix angle.")  # fmt: skip
    return first, last


def _form_point(wanted: WantedFlank, setting: Setting, t: Array) -> tuple[Array, Array, Array, Array]:
    """(w, R, dw, dR) of the cutter at the flank points t."""
    return _of_station(wanted, setting, t, _station(wanted, setting, t)[0])


def _of_station(wanted: WantedFlank, setting: Setting, t: Array, s: Array) -> tuple[Array, Array, Array, Array]:
    """The same at stations already known."""
    (px, py, pz), (nx, ny, nz) = _turned(wanted, t, s)
    ky, kz = math.cos(setting.swing), -math.sin(setting.swing)
    dx, dy = px - setting.centre, py - setting.offset
    w = dy * ky + pz * kz
    rx, ry, rz = dx, dy - w * ky, pz - w * kz
    R = np.sqrt(rx * rx + ry * ry + rz * rz)
    along = ny * ky + nz * kz
    out = (nx * rx + ny * ry + nz * rz) / R
    sign = np.sign(along)
    long = np.hypot(along, out)
    return w, R, sign * out / long, -sign * along / long


@cites("Gear Geometry and Applied Theory", "derived here", formula="[(P − C), n, k] = 0; w = (P − C)·k, R = |P − C − w k|")
def exact_curve(wanted: WantedFlank, design: Setting, shifted: float = 0.0) -> FlankCurve:
    """The plus flank of the exact form; t is roll length on the gear. `shifted` moves the form out (mm), for another diameter.

    Conjugate to the radial line below the base circle (maker's practice); straight on beyond 0.9 module above the tip, and wherever
    the cutter touches nothing at this swing.
    """
    far = math.sqrt((wanted.tip_radius + 0.9 * wanted.module) ** 2 - wanted.base_radius**2)
    below = max(wanted.base_radius - wanted.root_radius, 0.0) + 0.5 * wanted.module
    low, last = _touched(wanted, design, -below, far)

    def at(t: Array) -> tuple[Array, Array, Array, Array]:
        w, R, dw, dR = _form_point(wanted, design, np.clip(t, low, last))
        straight = t - np.clip(t, low, last)
        return w + straight * dw, R + straight * dR + shifted, dw, dR

    parts: list[tuple[Where, float, float]] = [("form", max(low, 0.0), last), ("beyond", last, last + 2 * wanted.module)]
    if low < 0.0:
        parts.insert(0, ("below", low, 0.0))
    if low > -below:
        parts.insert(0, ("below", low - 2 * wanted.module, low))
    return FlankCurve(at, tuple(parts))


def exact_form(
    wanted: WantedFlank, design: Setting, outside: float, *, corner: float = 0.0, shifted: float = 0.0, nodes: int = 96
) -> Form:
    """The form made for this gear at the design setting, on a cutter of `outside` diameter (mm); both sides, each for its flank."""
    radius = outside / 2
    plus = side_of(exact_curve(wanted, design, shifted), radius, corner, nodes)
    even = design.offset == 0.0
    minus = plus if even else side_of(exact_curve(wanted, design.mirrored(), shifted), radius, corner, nodes)
    return Form(plus, minus, radius, "made for this gear")
