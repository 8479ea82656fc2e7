"""Recut of a helical gear by the virtual cut: what the span loses as the disc cutter goes deeper, and how deep it must go.

To first order the flank goes back by the sinking times a share of its normal. A disc cutter in a helical space leaves another
surface at each depth, so that share grows on the way; here the surface itself is cut at each depth and the span taken of it.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from evenpitch.flank.curve import Form
from evenpitch.flank.exact import exact_form
from evenpitch.flank.setting import Setting, usual_setting
from evenpitch.flank.trace import contact_trace
from evenpitch.flank.wanted import WantedFlank
from evenpitch.gear.gear import Gear
from evenpitch.gear.halving import ridders
from evenpitch.gear.span import nominal_span, spanned
from evenpitch.job.virtual_cutting import wanted_of
from evenpitch.quantity.refusal import Refusal
from evenpitch.quantity.units import Millimetre, Radian
from evenpitch.sources.citations import cites

ABOUT = 0.15
"""Of the module: so far about the touch of the anvils the surface is looked at."""
POINTS = 61
NODES = 240
WITHIN = 1e-6
"""To which a depth is found, mm."""
FURTHEST = 0.4
"""Of the module: deeper or shallower than this nobody recuts, and the touch may leave the flank."""


@dataclass(frozen=True, slots=True, eq=False)
class DiscCut:
    """A disc cutter whose form leaves the gear without thinning when it stands at `design`; the gear as a right-hand one."""

    gear: Gear
    wanted: WantedFlank
    form: Form
    design: Setting

    @property
    def touch(self) -> float:
        """Roll length at which plane anvils touch, the line between them square to both: W cos β_b / 2, mm."""
        return float(nominal_span(self.gear, spanned(self.gear))) * math.cos(self.wanted.base_helix) / 2


@lru_cache(maxsize=16)
def disc_cut(gear: Gear, outside: Millimetre) -> DiscCut | None:
    """The cutter of that outside diameter, mm; None where no disc leaves the whole flank. Both hands lose the same by a sinking."""
    bare = replace(gear, hand="right", thinning=Millimetre(0.0))
    wanted = wanted_of(bare)
    design = usual_setting(Millimetre(wanted.root_radius), Millimetre(outside / 2), Radian(wanted.helix))
    try:
        form = exact_form(wanted, design, outside, nodes=NODES)
    except Refusal:
        return None
    return DiscCut(bare, wanted, form, design)


@cites(
    "Gear Geometry and Applied Theory",
    "derived here",
    formula="W(e) = W + 2 δ(u),  u = W cos β_b/2,  δ of the flank left at depth e",
)
def span_left(cut: DiscCut, sink: float) -> float | None:
    """Span, mm, with the cutter `sink` mm past the depth that leaves the gear without thinning; None where nothing is left there.

    A plane that leans as the base helix touches a helicoid along a line, all of whose points reach as far as it; what the sinking
    takes off at the radius where the line between the anvils is square to both is what the span loses, twice.
    """
    wanted, at = cut.wanted, cut.touch
    about = ABOUT * wanted.module + abs(sink)
    u = np.linspace(max(at - about, 0.01 * wanted.module), at + about, POINTS)
    left = contact_trace(cut.form.plus, wanted, wanted.q, replace(cut.design, centre=cut.design.centre - sink), u)
    good = ~np.isnan(left.delta)
    places = u[good] + left.delta[good] / math.cos(wanted.base_helix)
    if good.sum() < POINTS // 2 or not places[0] < at < places[-1]:
        return None
    near = np.argsort(np.abs(places - at))[:7]
    fitted = np.polynomial.Polynomial.fit(places[near] - at, left.delta[good][near], 3)
    return float(nominal_span(cut.gear, spanned(cut.gear))) + 2 * float(fitted(0.0))


@dataclass(frozen=True, slots=True)
class Recut:
    """`deeper`: mm from the span read to the span wanted; `per_depth`: what the span loses there for each mm deeper."""

    deeper: float
    per_depth: float


def recut(gear: Gear, outside: Millimetre, read: float, wanted: float) -> Recut | None:
    """How much deeper a disc cutter goes for the span to come from `read` to `wanted`, mm; None where the virtual cut cannot say."""
    cut = disc_cut(gear, outside)
    if cut is None:
        return None
    stands, comes = (_sink_for(cut, span) for span in (read, wanted))
    if stands is None or comes is None:
        return None
    step = 0.001 * cut.wanted.module
    one, other = span_left(cut, comes - step), span_left(cut, comes + step)
    return None if one is None or other is None else Recut(comes - stands, (one - other) / (2 * step))


def _sink_for(cut: DiscCut, span: float) -> float | None:
    """The sinking at which the span is so much; within reach."""
    far = FURTHEST * cut.wanted.module
    low, high = span_left(cut, -far), span_left(cut, far)
    if low is None or high is None or not high < span < low:
        return None
    return ridders(_short(cut, span), -far, far, WITHIN)


def _short(cut: DiscCut, span: float) -> Callable[[float], float]:
    def short(sink: float) -> float:
        found = span_left(cut, sink)
        return math.nan if found is None else found - span

    return short
