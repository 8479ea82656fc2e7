"""The tooth space as a drawing needs it: wanted line, what is left, the cutter's section, in plain coordinates."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from evenpitch.flank.curve import Form
from evenpitch.flank.setting import Setting
from evenpitch.flank.slices import outline, sections
from evenpitch.flank.trace import flank_trace
from evenpitch.flank.wanted import Array, WantedFlank


@dataclass(frozen=True, slots=True)
class SpaceSeen:
    """One tooth space in the transverse plane at mid face; rows of x (across, + towards the right flank) and y (from the work axis), mm.

    `left_magnified`: the flank left, its deviation magnified `times`; the lines run from the start of inspection to the tip, right then
    left flank. `cutter`: the section of the cutter by that plane, from one side over its tip to the other.
    """

    wanted: tuple[Array, Array]
    left: tuple[Array, Array]
    left_magnified: tuple[Array, Array]
    cutter: Array
    times: float
    u: Array
    deviation: tuple[Array, Array]


def space_seen(
    form: Form,
    wanted: WantedFlank,
    setting: Setting,
    times: float = 100.0,
    points: int = 61,
    left: tuple[Array, Array] | None = None,
) -> SpaceSeen:
    """The space that a cut in the wanted motion leaves; `left`: right and left deviation (mm) of another motion, at as many points."""
    u = np.linspace(wanted.u_start, wanted.u_end, points if left is None else len(left[0]))
    found = left if left is not None else tuple(flank_trace(form, wanted, wanted.q, setting, u, sense).delta for sense in (1, -1))
    line = tuple(_line(wanted, u, np.zeros(len(u)), sense) for sense in (1, -1))
    pairs = tuple(zip(found, (1, -1), strict=True))
    plain = tuple(_line(wanted, u, delta, sense) for delta, sense in pairs)
    magnified = tuple(_line(wanted, u, delta * times, sense) for delta, sense in pairs)
    return SpaceSeen(_pair(line), _pair(plain), _pair(magnified), _section(form, setting), times, u, _pair(found))


def _pair(both: tuple[Array, ...]) -> tuple[Array, Array]:
    """Right, left."""
    return both[0], both[1]


def _line(wanted: WantedFlank, u: Array, delta: Array, sense: int) -> Array:
    """Flank points moved by delta along their transverse normal, into the space."""
    radius, angle = wanted.radius(u), sense * wanted.angle(u)
    normal = angle - sense * (math.pi / 2 - np.arctan(u / wanted.base_radius))
    away = delta * math.cos(wanted.base_helix)
    return np.column_stack([radius * np.sin(angle) + away * np.sin(normal), radius * np.cos(angle) + away * np.cos(normal)])


def _section(form: Form, setting: Setting) -> Array:
    """The cutter's section at mid face."""
    rows = []
    for sense in (1, -1):
        seen = setting if sense > 0 else setting.mirrored()
        edge = outline(form.side(sense))
        outer = edge.w >= 0
        radius, angle = sections(edge.w[outer], edge.R[outer], seen, np.zeros(1))
        here = np.isfinite(radius)
        rows.append(np.column_stack([sense * radius[here] * np.sin(angle[here]), radius[here] * np.cos(angle[here])]))
    return np.concatenate([rows[1][::-1], rows[0]])
