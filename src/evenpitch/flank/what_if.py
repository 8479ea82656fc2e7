"""What if: one thing set or moved otherwise, and what the traces and the span would then read."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from evenpitch.flank.envelope import Cut
from evenpitch.flank.inspection import (
    Readings,
    TraceFigures,
    helix_heights,
    helix_trace,
    profile_rolls,
    profile_trace,
    readings,
    trace_figures,
)
from evenpitch.flank.motion import AngleTable, Sine, WormError
from evenpitch.flank.setting import Setting
from evenpitch.flank.wanted import Array
from evenpitch.quantity.units import Millimetre, Radian


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """What differs from the plan; all added. `blank_under`: the outside found less than the nominal (mm in diameter), which sinks the
    cutter half of it; `lost` and `lost_at`: work angle lost (rad, + behind) with the table there (mm from mid face); `lead_ppm`."""

    swing: Radian = Radian(0.0)
    offset: Millimetre = Millimetre(0.0)
    sink: Millimetre = Millimetre(0.0)
    blank_under: Millimetre = Millimetre(0.0)
    lead_ppm: float = 0.0
    worm: WormError | None = None
    ripple: Sine | None = None
    lost: Radian = Radian(0.0)
    lost_at: Millimetre = Millimetre(0.0)


def what_if(cut: Cut, change: Change) -> Cut:
    """The cut with the change in it."""
    setting, motion = cut.setting, cut.motion
    sink = change.sink + change.blank_under / 2
    tables = motion.tables
    if change.lost:
        far = cut.wanted.face + 4 * cut.form.outside_radius
        tables = (*tables, AngleTable((-far, change.lost_at, change.lost_at, far), (0.0, 0.0, -change.lost, -change.lost)))
    return replace(
        cut,
        setting=Setting(setting.swing + change.swing, setting.offset + change.offset, setting.centre - sink),
        motion=replace(
            motion,
            q=motion.q / (1 + change.lead_ppm * 1e-6),
            worms=motion.worms if change.worm is None else (*motion.worms, change.worm),
            sines=motion.sines if change.ripple is None else (*motion.sines, change.ripple),
            tables=tables,
        ),
    )


@dataclass(frozen=True, slots=True)
class FlankSeen:
    """Both traces of one flank of a space: places and deviations in mm, and their figures."""

    u: Array
    profile: Array
    z: Array
    helix: Array
    profile_figures: TraceFigures
    helix_figures: TraceFigures


@dataclass(frozen=True, slots=True)
class Seen:
    """What an inspection of one space would see: right ('+') and left flank, span and thickness; `equal_slopes`, `opposite_slopes`: half
    the sum and half the difference of the two profile slopes (mm): depth or swing shows in the first, off-centre in the second."""

    right: FlankSeen
    left: FlankSeen
    readings: Readings
    equal_slopes: float
    opposite_slopes: float


def seen(cut: Cut, tooth: int = 0, n_profile: int = 61, n_lead: int = 41) -> Seen:
    """The inspection of one space of a cut."""
    right, left = (_flank(cut, sense, tooth, n_profile, n_lead) for sense in (1, -1))
    slopes = right.profile_figures.slope, left.profile_figures.slope
    return Seen(right, left, readings(cut, (tooth,)), (slopes[0] + slopes[1]) / 2, (slopes[0] - slopes[1]) / 2)


def _flank(cut: Cut, sense: int, tooth: int, n_profile: int, n_lead: int) -> FlankSeen:
    """One flank."""
    u, z = profile_rolls(cut.wanted, n_profile), helix_heights(cut.wanted, n_lead)
    profile, helix = profile_trace(cut, sense, tooth, n_profile), helix_trace(cut, sense, tooth, n_lead)
    return FlankSeen(u, profile, z, helix, trace_figures(u, profile), trace_figures(z, helix))


def lead_slope(cut: Cut) -> float:
    """Helix deviation over the face from the lead alone, mm: lever x (q got - q wanted) x face."""
    return cut.wanted.lever * abs(cut.lead_error()) * cut.wanted.face


def worm_shows(teeth: int, ratio: float) -> int:
    """How many different teeth a worm error makes: z / gcd(z, ratio); 1 means it never shows in the pitch (whole ratios)."""
    return teeth // math.gcd(teeth, round(ratio))
