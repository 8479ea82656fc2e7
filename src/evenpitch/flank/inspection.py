"""What an inspection would read on the flanks: profile, helix, pitch, span and thickness, as ISO 1328-1 defines the figures."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from evenpitch.flank.envelope import Cut, deviations
from evenpitch.flank.wanted import Array, WantedFlank
from evenpitch.sources.citations import cites


@dataclass(frozen=True, slots=True)
class TraceFigures:
    """Total, form and slope deviation of one trace, in the unit of the trace."""

    total: float
    form: float
    slope: float


@cites("ISO 1328-1:2013", formula="F = range; f_H = rise of the least-squares line over the range; f_f = range about that line")
def trace_figures(at: Array, deviation: Array) -> TraceFigures:
    """The three figures of a profile or helix trace taken at the places `at`."""
    middle = at - at.mean()
    gradient = float((middle * deviation).sum() / (middle * middle).sum())
    about = deviation - gradient * middle
    return TraceFigures(float(np.ptp(deviation)), float(np.ptp(about)), gradient * float(at[-1] - at[0]))


@dataclass(frozen=True, slots=True)
class SpanPlace:
    """Span over `teeth`: where both anvils touch (roll length and height, mm), the nominal reading, and whether the face allows it."""

    teeth: int
    nominal: float
    u: float
    height: float
    square: bool


@cites("ISO 21771:2007", formula="W_t = 2π r_b k/z − 2 c r_b; W_n = W_t cos β_b; anvils at u = W_t/2 and z = ± W_n sin β_b / 2")
def span_place(wanted: WantedFlank, spanned: int | None = None) -> SpanPlace:
    """The span whose anvils touch nearest the middle of the inspected flank, or the span over `spanned` teeth."""
    counts = np.arange(1, wanted.teeth) if spanned is None else np.array([spanned])
    half = wanted.base_radius * (math.pi * counts / wanted.teeth - wanted.half_space)
    nearest = int(np.argmin(np.abs(half - (wanted.u_start + wanted.u_end) / 2)))
    normal = 2 * float(half[nearest]) * math.cos(wanted.base_helix)
    need = abs(normal * math.sin(wanted.base_helix))
    square = wanted.face >= need
    height = normal * math.sin(wanted.base_helix) / 2 if square else 0.0
    return SpanPlace(int(counts[nearest]), normal, float(half[nearest]), height, square)


def profile_rolls(wanted: WantedFlank, count: int = 101) -> Array:
    """Roll lengths of the profile trace, mm, evenly from start to end."""
    return np.linspace(wanted.u_start, wanted.u_end, count)


def helix_heights(wanted: WantedFlank, count: int = 51) -> Array:
    """Heights of the helix trace, mm: the face less the smaller of 5 % and one module at each end."""
    half = wanted.face / 2 - min(0.05 * wanted.face, wanted.module)
    return np.linspace(-half, half, count)


def profile_trace(cut: Cut, sense: int, tooth: int = 0, count: int = 101) -> Array:
    """Profile deviation (mm) in the middle of the face at `profile_rolls`."""
    u = profile_rolls(cut.wanted, count)
    return deviations(cut, u, np.zeros(count), np.full(count, tooth), sense)


def helix_trace(cut: Cut, sense: int, tooth: int = 0, count: int = 51) -> Array:
    """Helix deviation (mm) on the pitch cylinder at `helix_heights`."""
    z = helix_heights(cut.wanted, count)
    return deviations(cut, np.full(count, cut.wanted.u_helix), z, np.full(count, tooth), sense)


@dataclass(frozen=True, slots=True)
class PitchFigures:
    """Worst neighbour difference round the circle and range of position, in the unit given."""

    single: float
    cumulative: float


@cites("ISO 1328-1:2013", formula="position = −(±1) δ r_p / (r_b cos β_b); f_p = worst neighbour difference; F_p = range")
def pitch_figures(cut: Cut, sense: int, deviation: Array) -> PitchFigures:
    """f_p and F_p (mm) of the deviations of all spaces on the pitch cylinder in the middle of the face."""
    place = -sense * deviation * cut.wanted.pitch_radius / cut.wanted.lever
    return PitchFigures(float(np.abs(np.diff(place, append=place[0])).max()), float(np.ptp(place)))


@dataclass(frozen=True, slots=True)
class Readings:
    """Deviation of span and of tooth thickness over the pairs evaluated, mm: mean and range."""

    span: SpanPlace
    span_mean: float
    span_range: float
    thickness_mean: float
    thickness_range: float


def readings(cut: Cut, teeth: tuple[int, ...], spanned: int | None = None) -> Readings:
    """Span and thickness over the spaces named; with a single space both flanks of that one are taken."""
    wanted, place = cut.wanted, span_place(cut.wanted, spanned)
    spaces = np.array(teeth, dtype=np.int64)
    on = 0 if len(teeth) == 1 else 1
    ones = np.ones(len(spaces))

    def pair(u: float, height: float, apart: int) -> Array:
        plus = deviations(cut, u * ones, height * ones, spaces, +1)
        minus = deviations(cut, u * ones, -height * ones, (spaces + on * apart) % wanted.teeth, -1)
        return plus + minus

    span = pair(place.u, place.height, place.teeth)
    thickness = pair(wanted.u_helix, 0.0, 1) * wanted.pitch_radius / wanted.lever
    return Readings(place, float(span.mean()), float(np.ptp(span)), float(thickness.mean()), float(np.ptp(thickness)))
