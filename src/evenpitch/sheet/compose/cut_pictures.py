"""Pictures of one cutter's cut: the space it leaves, and its profile and helix traces, in the sign of the pages."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np

from evenpitch.flank.picture import SpaceSeen
from evenpitch.flank.wanted import Array, WantedFlank
from evenpitch.flank.what_if import FlankSeen, Seen
from evenpitch.job.slips import CutSeen
from evenpitch.job.virtual_cutting import VirtualCut
from evenpitch.sheet.drawing import Drawing, LineClass, Point
from evenpitch.sheet.drawings.cut_space import FlankLeft, SpaceLeft, cut_space
from evenpitch.sheet.drawings.flank_trace import Traced, flank_trace

Part = Callable[[FlankSeen], Array]
"""A part of what was seen of a flank: places, or deviations."""

EVERY = 3
"""Of the points that were cut, each so many is drawn: the eye sees no more."""

ALIKE = 5e-5
"""Two flanks nearer than this (mm) to each other are drawn as one."""


def cut_pictures(virtual: VirtualCut, cut: CutSeen, helix_limit: float | None) -> tuple[Drawing, ...]:
    """Space, profile, and for a helical gear, or where the face shows something, the helix. `helix_limit`: µm of the class."""
    words = cut.weighed.held.words()
    pictures = [cut_space(space_left(virtual.wanted, cut.space), words), _profile(virtual, cut)]
    if virtual.wanted.q or any(float(np.ptp(flank.helix)) > ALIKE for flank in (cut.last().seen.right, cut.last().seen.left)):
        pictures.append(_helix(cut, helix_limit))
    return tuple(pictures)


def space_left(wanted: WantedFlank, seen: SpaceSeen) -> SpaceLeft:
    """The space as its drawing needs it."""
    right, left = (
        FlankLeft(
            wanted=_points(seen.wanted[side][::EVERY]),
            left=_points(seen.left_magnified[side][::EVERY]),
            um=tuple(-1000 * float(value) for value in seen.deviation[side][::EVERY]),
            pitch_um=-1000 * float(np.interp(wanted.u_helix, seen.u, seen.deviation[side])),
        )
        for side in (0, 1)
    )
    return SpaceLeft(
        right, left, _points(seen.cutter), wanted.root_radius, wanted.pitch_radius, wanted.tip_radius, round(seen.times)
    )


def _points(rows: Array) -> tuple[Point, ...]:
    return tuple((float(x), float(y)) for x, y in rows)


def _profile(virtual: VirtualCut, cut: CutSeen) -> Drawing:
    wanted = virtual.wanted
    marks = [(wanted.u_start, "start"), (wanted.u_end, "tip")]
    if wanted.u_start < wanted.u_pitch < wanted.u_end:
        marks.insert(1, (wanted.u_pitch, "pitch line"))
    traces = _traces(cut, lambda flank: flank.u, lambda flank: flank.profile)
    return flank_trace(
        "profile-trace", "Tooth form", traces, virtual.limit, marks, "Along the flank by roll, in the middle of the face"
    )


def _helix(cut: CutSeen, limit: float | None) -> Drawing:
    far = float(cut.as_set.seen.right.z[-1])
    marks = [(-far, f"−{far:.1f} mm"), (0.0, "mid face"), (far, f"+{far:.1f} mm")]
    traces = _traces(cut, lambda flank: flank.z, lambda flank: flank.helix)
    return flank_trace("helix-trace", "Helix", traces, limit, marks, "Along the face on the pitch line")


def _traces(cut: CutSeen, places: Part, values: Part) -> tuple[Traced, ...]:
    """One line where the flanks are alike; before and after where something slipped."""

    def line(name: str, flank: FlankSeen, pen: LineClass) -> Traced:
        pairs = zip(places(flank), values(flank), strict=True)
        return Traced(name, tuple((float(place), -1000 * float(value) + 0.0) for place, value in pairs), pen)

    def flanks(seen: Seen, flanks_are: str, pens: tuple[LineClass, LineClass]) -> list[Traced]:
        if _alike(values(seen.right), values(seen.left)):
            return [line(f"both{flanks_are.replace(' flank', ' flanks')}", seen.right, pens[0])]
        return [line(f"left{flanks_are}", seen.left, pens[1]), line(f"right{flanks_are}", seen.right, pens[0])]

    if cut.slipped is None:
        return tuple(flanks(cut.as_set.seen, " flank", ("dashed", "medium")))
    before = [line("as set", cut.as_set.seen.right, "other")]
    return (*before, *flanks(cut.slipped.seen, ", changed", ("dashed", "medium")))


def _alike(one: Array, other: Array) -> bool:
    return bool(np.nanmax(np.abs(one - other), initial=0.0) < ALIKE) and not math.isnan(float(one[0]))
