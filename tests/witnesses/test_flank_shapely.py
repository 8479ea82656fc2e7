"""Outside witness of the virtual cut: the plain union of the cutter's plane sections by a polygon library, for one section of one space.

Its own error: chords of 1/60 mm on a flank of 6 mm radius sag 0.006 um, sections 1/15 mm apart leave cusps of 0.01 um.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely

from evenpitch.flank.curve import Side
from evenpitch.flank.envelope import Cut
from evenpitch.flank.inspection import profile_rolls, profile_trace
from flank.shop import cut, gear, made_for, numbered


def _side(side: Side, least: float) -> tuple[np.ndarray, np.ndarray]:
    """Half width and radius of one side down to the radius `least`: half land, corner, flank."""
    w, R = (np.concatenate([getattr(piece, name) for piece in side]) for name in ("w", "R"))
    keep = (w >= 0) & (least <= R) & np.concatenate([[True], np.hypot(np.diff(w), np.diff(R)) > 1e-9])
    return w[keep], R[keep]


def union(made: Cut, sections: int, half: float) -> shapely.Geometry:
    """What the cutter takes from the plane z = 0 of the work: its sections, each turned back by the screw."""
    w, R = _side(made.form.plus, made.setting.centre - made.wanted.tip_radius - 0.3)
    w, R = np.concatenate([-w[::-1], w]), np.concatenate([R[::-1], R])
    cosine, sine = math.cos(made.setting.swing), math.sin(made.setting.swing)
    taken = []
    for zeta in np.linspace(-half, half, sections):
        across = (zeta + w * sine) / cosine
        inside = np.abs(across) < R
        x = made.setting.centre - np.sqrt(R[inside] ** 2 - across[inside] ** 2)
        y = made.setting.offset + w[inside] / cosine + zeta * sine / cosine
        turn = -made.motion.q * zeta
        corners = np.column_stack([x * math.cos(turn) - y * math.sin(turn), x * math.sin(turn) + y * math.cos(turn)])
        taken.append(shapely.Polygon(corners))
    return shapely.union_all(taken)


def left_by_union(made: Cut, space: shapely.Geometry, u0: np.ndarray) -> np.ndarray:
    """Deviation of the '+' flank (um): along each normal, the distance from the wanted point to the edge of what was taken."""
    wanted, found = made.wanted, []
    edge = space.boundary
    for u in u0:
        tau = wanted.half_space + u / wanted.base_radius
        foot = wanted.base_radius * np.array([math.cos(tau), math.sin(tau)])
        along = np.array([math.sin(tau), -math.cos(tau)])
        ends = foot + (u - 0.5) * along, foot + (u + 0.5) * along
        crossing = shapely.get_coordinates(shapely.LineString(ends).intersection(edge))
        reach = np.sort((crossing - foot) @ along)
        found.append((reach[0] - u) * math.cos(wanted.base_helix))
    return 1e3 * np.array(found)


@pytest.mark.parametrize(("helix", "form", "half"), [(0.0, "numbered", 3.0), (20.0, "numbered", 8.0), (20.0, "made for it", 4.0)])
def test_the_union_of_sections_says_the_same(helix: float, form: str, half: float) -> None:
    wanted = gear(24, helix=helix)
    made = cut(wanted, numbered(26, nodes=400) if form == "numbered" else made_for(wanted, nodes=400), swing=0.25, offset=0.02)
    u = profile_rolls(wanted, 23)[2:]
    found = left_by_union(made, union(made, round(30 * half) + 1, half), u)
    true = 1e3 * profile_trace(made, 1, count=23)[2:]
    apart = np.abs(found - true)
    assert np.median(apart) < 0.02
    assert apart.max() < 0.07
