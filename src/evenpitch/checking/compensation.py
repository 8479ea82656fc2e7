"""Targets with the head's map taken out, and whether that pays."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from evenpitch.checking.notes import note
from evenpitch.quantity.finding import Finding
from evenpitch.quantity.ratios import round_half_up
from evenpitch.quantity.units import RADIAN_PER_ARCSEC, Radian
from evenpitch.rig.maps import ErrorMap, Harmonic
from evenpitch.sources.citations import cites

PAYS_FROM = 1.5
"""So many times better the head must become before a table of targets is worth its trouble; common practice."""
TURN = 2 * math.pi
NOTHING = Radian(0.0)


@cites("derived here", formula="e(θ) = Σ A_h sin(h θ + φ_h)")
def error_at(harmonics: Sequence[Harmonic], angle: Radian) -> Radian:
    """How far ahead the work stands at a head angle, by the map."""
    return Radian(math.fsum(wave.amplitude * math.sin(wave.per_turn * angle + wave.phase) for wave in harmonics))


@cites("derived here", formula="θ' with θ' + e(θ') = θ, to first order θ' = θ − e(θ)")
def target_angle(harmonics: Sequence[Harmonic], wanted: Radian) -> Radian:
    """The head angle that brings the work to the wanted angle: the map read at the wanted angle, as the table is made."""
    return Radian(wanted - error_at(harmonics, wanted))


@cites("derived here", formula="s_k = round(N_w k/z − e(2π k/z) N_w/2π)")
def targets_without_map(pulses_per_turn: Fraction, divisions: int, harmonics: Sequence[Harmonic]) -> tuple[int, ...]:
    """The absolute target of each space with the map taken out, k = 0 … z − 1; each is rounded from the start, none adds up."""
    per_radian = float(pulses_per_turn) / TURN
    targets = []
    for k in range(divisions):
        off = error_at(harmonics, Radian(TURN * k / divisions)) * per_radian
        targets.append(round_half_up(pulses_per_turn * k / divisions - Fraction(off)))
    return tuple(targets)


@cites("derived here", formula="rms = √(Σ A²/2)")
def rms_of(amplitudes: Sequence[float]) -> float:
    """Root of the mean square of waves of unlike length."""
    return math.sqrt(math.fsum(amplitude**2 for amplitude in amplitudes) / 2)


@dataclass(frozen=True, slots=True)
class MapGain:
    """`before`, `after`: root mean square of the head's error in radian, plain and with the map taken out."""

    before: float
    after: float

    @property
    def factor(self) -> float:
        """How many times better."""
        return self.before / self.after if self.after else math.inf

    @property
    def pays(self) -> bool:
        """Whether it is worth the trouble."""
        return self.factor >= PAYS_FROM


@cites("derived here", formula="before² = Σ A²/2 + u_r² + p²/12; after² = Σ u_A² + u_r² + p²/12")
def map_gain(found: ErrorMap, pulse: Radian, repeat: Radian, unknown: Radian = NOTHING) -> MapGain:
    """What the map does: its waves go, their own uncertainty, the repeatability, the pulse and the unknown rest stay.

    `repeat`, `unknown`: standard deviations. The uncertainty of a wave counts for its amplitude and, as much, for its place.
    """
    floor = repeat**2 + pulse**2 / 12 + unknown**2
    waves = rms_of([wave.amplitude for wave in found.harmonics])
    doubt = math.fsum((float(wave.U or 0.0) / 2) ** 2 for wave in found.harmonics)
    return MapGain(math.sqrt(waves**2 + floor), math.sqrt(doubt + floor))


def gain_finding(gain: MapGain) -> Finding | None:
    """What to say where the map does not pay."""
    if gain.pays:
        return None
    return note(
        "map-does-not-pay", factor=gain.factor, left=gain.after / RADIAN_PER_ARCSEC, before=gain.before / RADIAN_PER_ARCSEC
    )
