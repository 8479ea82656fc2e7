"""What must be known about a cut beside its figures: where the flank is not made by the form that was chosen."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from evenpitch.flank.curve import Form, Side
from evenpitch.flank.inspection import span_place
from evenpitch.flank.setting import Setting
from evenpitch.flank.trace import PLACES, flank_trace
from evenpitch.flank.wanted import Array, WantedFlank

OVERLAP = 1e-4
"""Branches nearer than this (mm) to each other are one."""


@dataclass(frozen=True, slots=True)
class FlankFacts:
    """Facts of one flank for the findings; roll lengths in mm, 0 where there is nothing to say, deviations in mm.

    `corner_up_to`: up to there the tip corner made the flank (interference when the trailing side did it, `trailing` True);
    `practice_up_to`: up to there the form below its base circle did, which is maker's practice and not known;
    `beyond_from`: from there the straight part beyond the form did; `dug`: how deep the corner cut below what the form leaves;
    `uncut`: points that no part of the cutter touches; `undercut`: the corner cuts in above the start of active profile;
    `span_square`: a span can be read squarely on this face.
    """

    corner_up_to: float
    trailing: bool
    practice_up_to: float
    beyond_from: float
    dug: float
    uncut: int
    undercut: bool
    span_square: bool

    @property
    def form_start(self) -> float:
        """The form itself makes the flank from this roll length on, mm; 0 when it does from the start of inspection."""
        return max(self.corner_up_to, self.practice_up_to)


def flank_facts(form: Form, wanted: WantedFlank, setting: Setting, sense: int = 1, points: int = 201) -> FlankFacts:
    """The facts of one flank in the wanted screw motion."""
    u = np.linspace(wanted.u_start, wanted.u_end, points)
    whole = flank_trace(form, wanted, wanted.q, setting, u, sense)
    own = Form(_own(form.plus), _own(form.minus), form.outside_radius, form.name)
    alone = flank_trace(own, wanted, wanted.q, setting, u, sense)
    made = {where: np.flatnonzero(whole.by == PLACES.index(where)) for where in PLACES}
    cornered = np.union1d(made["corner"], made["land"])
    dug = np.where(np.isnan(alone.delta), 0.0, alone.delta - whole.delta)
    last = int(cornered[-1]) if cornered.size else -1
    return FlankFacts(
        corner_up_to=float(u[last]) if last >= 0 else 0.0,
        trailing=last >= 0 and bool(abs(whole.zeta[0]) > 2 * abs(_station(alone.zeta)) + 0.1 * wanted.module),
        practice_up_to=float(u[made["below"][-1]]) if made["below"].size else 0.0,
        beyond_from=float(u[made["beyond"][0]]) if made["beyond"].size else 0.0,
        dug=float(np.nanmax(dug, initial=0.0)),
        uncut=int(np.isnan(whole.delta).sum()),
        undercut=last > 0 and bool(np.nanmax(dug[: last + 1], initial=0.0) > OVERLAP),
        span_square=span_place(wanted).square,
    )


def _own(side: Side) -> Side:
    """A side without its land and corner."""
    return tuple(piece for piece in side if piece.where in ("below", "form", "beyond"))


def _station(zeta: Array) -> float:
    """The station at which the form itself touches, in the middle of what it makes; 0 where it touches nowhere."""
    known = zeta[np.isfinite(zeta)]
    return float(np.median(known)) if known.size else 0.0


def sides_apart(wanted: WantedFlank) -> float:
    """Least face (mm) on which the usual span can be read squarely: W_n sin(base helix)."""
    return abs(span_place(wanted).nominal * math.sin(wanted.base_helix))
