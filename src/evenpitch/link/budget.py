"""The budget: what each source leaves on this tooth, in micrometres, largest first; the helix slope summed as the GUM sums."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Literal

from evenpitch.link.drive import Drive
from evenpitch.link.gearing import OnGear
from evenpitch.link.resolution import resolution
from evenpitch.link.waves import (
    axis_slopes,
    bessel,
    cumulative_share,
    eccentric_blank,
    jump_slope,
    jump_slope_sd,
    single_share,
    slope_share,
)
from evenpitch.sources.citations import cites

Owner = Literal["motor", "head", "scale", "setup"]
Shape = Literal["rectangular", "sine", "normal"]

DIVISOR: dict[Shape, float] = {"rectangular": math.sqrt(3), "sine": math.sqrt(2), "normal": 1.0}


@cites("JCGM 100:2008, 4.3", formula="u = |c| a/√3 (rectangular), |c| a/√2 (sine of unknown phase), |c| a (standard deviation)")
def contribution(weight: float, limit: float, shape: Shape) -> float:
    """Standard uncertainty that one source gives."""
    return abs(weight) * limit / DIVISOR[shape]


@cites("JCGM 100:2008, 5.1.2", formula="u² = Σ (c_i a_i/div)²")
def combined(parts: tuple[float, ...]) -> float:
    """The root of the sum of squares."""
    return math.sqrt(math.fsum(part * part for part in parts))


@cites("derived here", formula="A √(m² + w²/3) for A (m + w s)")
def amplitude_of(amplitude: float, mean: float, half: float) -> float:
    """Amplitude that counts for a wave whose amplitude is itself even within a range."""
    return amplitude * math.sqrt(mean * mean + half * half / 3)


SURE, LOOSE = (1.0, 0.2), (0.65, 0.35)
"""Mean and half-width of how much of its stated amplitude a wave has: 0.8 to 1.2, and 0.3 to 1 of a stated most."""


@dataclass(frozen=True, slots=True)
class Source:
    """One source on this tooth: the most it leaves alone, µm: single pitch, total pitch, slope of a flank; and what it adds to
    the slope's standard uncertainty.

    `scatter`: the pitch figures are of a scatter from space to space (its range), not of a fixed pattern.
    """

    name: str
    owner: Owner
    single_um: float
    cumulative_um: float
    slope_um: float
    slope_u_um: float
    scatter: bool = False

    @property
    def size_um(self) -> float:
        """By which it is ranked: total pitch or slope, whichever is more."""
        return max(self.cumulative_um, self.slope_um)

    def facts(self) -> dict[str, Any]:
        """Under the fixed keys of the machine-readable answer."""
        return {
            "name": self.name,
            "owner": self.owner,
            "um": self.size_um,
            "f_p_um": self.single_um,
            "F_p_um": self.cumulative_um,
            "f_H_beta_um": self.slope_um,
            "f_H_beta_u_um": self.slope_u_um,
        }


@dataclass(frozen=True, slots=True)
class Budget:
    """All sources, largest first. `slope_u_um`: of one flank, their sum."""

    sources: tuple[Source, ...]

    @property
    def slope_u_um(self) -> float:
        """Standard uncertainty of the helix slope of one flank, µm."""
        return combined(tuple(source.slope_u_um for source in self.sources))

    def largest(self) -> Source:
        """The source that counts most."""
        return self.sources[0]

    def by_owner(self, owner: Owner) -> float:
        """The largest of one owner, µm."""
        return max((source.size_um for source in self.sources if source.owner == owner), default=0.0)

    def slope_shares(self) -> tuple[tuple[Source, float], ...]:
        """Each source with its share of the squares of the slope, largest first."""
        whole = self.slope_u_um**2
        ranked = sorted(self.sources, key=lambda source: -source.slope_u_um)
        return tuple((source, source.slope_u_um**2 / whole) for source in ranked if whole and source.slope_u_um)


NAMES = ("worm, once a turn", "worm, twice a turn", "wheel, once a turn", "wheel, twice a turn", "pulley, once a motor turn")


def budget(drive: Drive, gear: OnGear, mapped: float = 1.0) -> Budget:
    """Every source on this tooth. `mapped`: part of the waves of worm and wheel that a head map leaves in the spacing."""
    found = [*_waves(drive, gear, mapped), *_motor(drive, gear), *_head(drive, gear), *_setup(drive, gear), *_scale(drive, gear)]
    left = [source for source in found if source.size_um > 0]
    return Budget(tuple(sorted(left, key=lambda source: -source.size_um)))


def _waves(drive: Drive, gear: OnGear, mapped: float) -> list[Source]:
    found = []
    counts = (drive.worm_ratio, 2 * drive.worm_ratio, Fraction(1), Fraction(2), drive.reduction)
    for name, per_turn, amplitude in zip(NAMES, counts, drive.amplitudes, strict=True):
        pulley = name.startswith("pulley")
        if pulley and not drive.linked:
            continue
        counted = amplitude_of(amplitude, *SURE)
        on_circle = 1000 * gear.radius * amplitude * (1.0 if pulley else mapped)
        slope = slope_share(float(per_turn), gear.face, gear.lead) if gear.helical else 0.0
        found.append(
            Source(
                name,
                "motor" if pulley else "head",
                on_circle * single_share(per_turn, gear.teeth),
                on_circle * cumulative_share(per_turn, gear.teeth),
                slope * 1000 * gear.base_radius * amplitude,
                contribution(slope, 1000 * gear.base_radius * counted, "sine"),
            )
        )
    return found


def _motor(drive: Drive, gear: OnGear) -> list[Source]:
    if not drive.linked:
        return []
    rounding = resolution(drive, gear)
    within = 1000 * gear.radius * amplitude_of(drive.motor_amplitude, *LOOSE)
    cycle = 4 * drive.microsteps
    met = (drive.pulses_per_turn / gear.teeth / cycle).denominator > 1
    slope = slope_share(float(drive.pulses_per_turn) / cycle, gear.face, gear.lead) if gear.helical else 0.0
    on_base = 1000 * gear.base_radius * amplitude_of(drive.motor_amplitude, *LOOSE)
    load = 2000 * gear.radius * drive.load_angle_spread
    return [
        Source("rounding to pulses", "motor", rounding.single_um, rounding.cumulative_um, 0.0, 0.0),
        Source(
            "motor, within a full pulse",
            "motor",
            2 * within * met,
            2 * within * met,
            slope * on_base,
            contribution(slope, on_base, "sine"),
        ),
        Source("load on the motor", "motor", load, load, 0.0, 0.0, scatter=True),
    ]


def _head(drive: Drive, gear: OnGear) -> list[Source]:
    play = drive.backlash * drive.seating
    scatter = 1000 * gear.radius * play
    jump = 1000 * gear.base_radius * play * (1.0 if gear.helical else 0.1)
    name = "play, one flank seated" if drive.seated else "play, not seated"
    most, slope = (0.0, 0.0) if drive.seated else (jump_slope(jump, 0.5), jump_slope_sd(jump))
    return [Source(name, "head", scatter, scatter, most, slope, scatter=True)]


def _setup(drive: Drive, gear: OnGear) -> list[Source]:
    off = 1000 * amplitude_of(drive.eccentricity, *LOOSE)
    cumulative, single, _ = eccentric_blank(off, gear.teeth, gear.transverse_angle)
    slope = slope_share(1.0, gear.face, gear.lead) if gear.helical else 0.0
    drift = 1000 * drive.drift
    tilted = axis_slopes(gear.face, 1000 * drive.axis_tilt, 1000 * drive.axis_tilt, gear.transverse_angle)
    return [
        Source("blank off centre", "setup", single, cumulative, slope * off, contribution(slope, off, "sine")),
        Source(
            "axis against travel", "setup", 0.0, 0.0, max(tilted), contribution(gear.face, 1000 * drive.axis_tilt, "rectangular")
        ),
        Source("drift over the gear", "setup", drift, drift, 0.0, 0.0),
    ]


def _scale(drive: Drive, gear: OnGear) -> list[Source]:
    if not gear.helical or not drive.linked:
        return []
    tangent, feed = gear.tan_base, drive.feeding
    wave = 6 * tangent * abs(bessel(math.pi * gear.face / drive.scale_period))
    lag = 1000 * drive.latency * feed.mean
    ripple = 6 * tangent * feed.unevenness * abs(bessel(math.pi * gear.face * feed.turns / feed.mean))
    between = 1000 * math.tan(gear.helix) * feed.mean * drive.latency * feed.difference
    factor, height = gear.face * tangent * 1000, 1000 * amplitude_of(drive.scale_wave, *LOOSE)
    return [
        _along("scale, too long or short", "scale", factor, drive.scale_factor, "rectangular"),
        _along("scale, its wave", "scale", wave, height, "sine"),
        _along("lag, uneven crank", "motor", ripple, lag, "sine"),
        Source(
            "lag, feed from space to space", "motor", 2.8 * between, _normal_range(gear.teeth) * between, 0.0, 0.0, scatter=True
        ),
    ]


def _along(name: str, owner: Owner, weight: float, limit: float, shape: Shape) -> Source:
    """A source that shows along the face only."""
    return Source(name, owner, 0.0, 0.0, weight * limit, contribution(weight, limit, shape))


@cites("derived here", formula="range of N normal values ≈ 2 Φ⁻¹((N − 0.375)/(N + 0.25)) σ")
def _normal_range(count: int) -> float:
    """About how many standard deviations so many normal values span."""
    from statistics import NormalDist

    return 2 * NormalDist().inv_cdf((count - 0.375) / (count + 0.25))
