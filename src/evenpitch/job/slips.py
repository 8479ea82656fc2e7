"""What if: one cutter on one gear as it is set, and with small slips of setting and motion in it; what an inspection would then read."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from evenpitch.flank.choose import FINE_NODES
from evenpitch.flank.curve import Form
from evenpitch.flank.envelope import Cut, deviations
from evenpitch.flank.forms import numbered_form
from evenpitch.flank.inspection import PitchFigures, pitch_figures, readings, span_place
from evenpitch.flank.motion import WormError, true_screw
from evenpitch.flank.picture import SpaceSeen, space_seen
from evenpitch.flank.room import room_faults, setting_faults
from evenpitch.flank.setting import Setting
from evenpitch.flank.wanted import Array, WantedFlank
from evenpitch.flank.what_if import Change, Seen, seen, what_if
from evenpitch.gear.span import spanned
from evenpitch.job.drawer import corner_of
from evenpitch.job.virtual_cutting import VirtualCut, Weighed
from evenpitch.quantity.refusal import Refusal, refuse
from evenpitch.quantity.units import Millimetre, Radian
from evenpitch.rig.rig import Rig

MAGNIFIED = (200, 100, 50, 20, 10, 5, 2, 1)
"""What a difference may be magnified by in a picture."""

IN_PICTURE = 0.22
"""Share of the module that the greatest difference may take in a picture, magnified."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Slips:
    """Small slips, each 0 where there is none. `swing` rad; `off_centre`, `blank_under` (in diameter) mm; `worm` rad of the work, once
    for each turn of the worm; `lost` pulses lost at mid face; `lead` ppm."""

    swing: Radian = Radian(0.0)
    off_centre: Millimetre = Millimetre(0.0)
    blank_under: Millimetre = Millimetre(0.0)
    worm: Radian = Radian(0.0)
    lost: int = 0
    lead: float = 0.0

    def any(self) -> bool:
        """Whether there is one."""
        return any((self.swing, self.off_centre, self.blank_under, self.worm, self.lost, self.lead))


@dataclass(frozen=True, slots=True, kw_only=True)
class Inspected:
    """What an inspection of one cut would read: traces and figures of both flanks, the span (mm), pitch figures of each flank (mm)."""

    seen: Seen
    spanned: int
    span: float
    right_pitch: PitchFigures
    left_pitch: PitchFigures


@dataclass(frozen=True, slots=True, kw_only=True)
class CutSeen:
    """One cutter as set, and with the slips (None where there are none); the space it leaves for a picture."""

    weighed: Weighed
    slips: Slips
    as_set: Inspected
    slipped: Inspected | None
    space: SpaceSeen

    def last(self) -> Inspected:
        """With the slips where there are some."""
        return self.slipped if self.slipped is not None else self.as_set


def cut_seen(virtual: VirtualCut, one: Weighed, rig: Rig, slips: Slips = Slips()) -> CutSeen:
    """Cut one space with this cutter, as set and with the slips; a Refusal where that cannot be."""
    if one.left is None:
        raise refuse("cutter", one.held.name(), "a cutter that can cut this gear", one.why_not, "Look at another cutter.")
    wanted = virtual.wanted
    form = form_of(one, virtual)
    base = wanted.root_radius + one.held.outside / 2
    cut = Cut(form, Setting(float(one.swing), 0.0, base - float(one.sink)), wanted, true_screw(wanted.teeth, wanted.q))
    slipped = what_if(cut, _change(slips, wanted, rig)) if slips.any() else None
    last = slipped if slipped is not None else cut
    faults = (*setting_faults(last.setting, wanted, form.outside_radius), *room_faults(form, last.setting, wanted))
    if faults:
        raise Refusal(*faults)
    as_set = _inspected(cut, virtual)
    changed = None if slipped is None else _inspected(slipped, virtual)
    inspected = as_set if changed is None else changed
    return CutSeen(
        weighed=one,
        slips=slips,
        as_set=as_set,
        slipped=changed,
        space=_space(last, (inspected.seen.right.profile, inspected.seen.left.profile)),
    )


def form_of(one: Weighed, virtual: VirtualCut) -> Form:
    """The form of a cutter, with the nodes its figures are told by."""
    cutter = one.held.cutter
    assert one.fit is not None
    return numbered_form(
        one.held.made_for,
        Millimetre(float(cutter.pitch.module())),
        cutter.pressure_angle,
        one.held.outside,
        corner=corner_of(cutter),
        dedendum=one.fit.candidate.dedendum,
        nodes=FINE_NODES,
    )


def _change(slips: Slips, wanted: WantedFlank, rig: Rig) -> Change:
    lost = 0.0
    if slips.lost:
        pulses = rig.pulses_per_turn()
        if pulses is None:
            raise refuse("lost", slips.lost, "a rig with a link", "Without a motor no pulse can be lost.", "Leave it empty.")
        lost = slips.lost * 2 * math.pi / float(pulses)
    worm = WormError(slips.worm, float(rig.head.ratio)) if slips.worm else None
    right = math.copysign(1.0, wanted.q) if wanted.q else 1.0
    return Change(
        swing=Radian(right * slips.swing),
        offset=slips.off_centre,
        blank_under=slips.blank_under,
        worm=worm,
        lost=Radian(right * lost if wanted.q else 0.0),
        lead_ppm=slips.lead,
    )


def _inspected(cut: Cut, virtual: VirtualCut) -> Inspected:
    count = _spanned(virtual)
    span = readings(cut, (0,), count)
    return Inspected(
        seen=seen(cut),
        spanned=span.span.teeth,
        span=span.span.nominal + span.span_mean,
        right_pitch=_pitch(cut, 1),
        left_pitch=_pitch(cut, -1),
    )


def _spanned(virtual: VirtualCut) -> int | None:
    """The count the plan spans, if its anvils touch the inspected flank; else the count that suits the flank best."""
    count = spanned(virtual.gear)
    place = span_place(virtual.wanted, count) if 1 <= count < virtual.wanted.teeth else None
    return count if place is not None and virtual.wanted.u_start <= place.u <= virtual.wanted.u_end else None


def _pitch(cut: Cut, sense: int) -> PitchFigures:
    """Pitch on the pitch cylinder in the middle of the face, every space."""
    teeth = np.arange(cut.wanted.teeth)
    u = np.full(len(teeth), cut.wanted.u_helix)
    return pitch_figures(cut, sense, deviations(cut, u, np.zeros(len(teeth)), teeth, sense))


def _space(cut: Cut, left: tuple[Array, Array]) -> SpaceSeen:
    """The picture's space, its difference magnified as much as there is room for."""
    worst = max(float(np.nanmax(np.abs(each), initial=1e-9)) for each in left)
    times = next((many for many in MAGNIFIED if many * worst <= IN_PICTURE * cut.wanted.module), 1)
    return space_seen(cut.form, cut.wanted, cut.setting, float(times), left=left)
