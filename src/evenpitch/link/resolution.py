"""What one pulse and one count are worth on the work, and what their rounding costs."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from evenpitch.link.drive import TURN, Drive
from evenpitch.link.gearing import OnGear
from evenpitch.quantity.units import ARCSEC_PER_TURN, Millimetre
from evenpitch.sources.citations import cites


@cites("derived here", formula="q = period/edges")
def count_length(period: Fraction, edges: int) -> Fraction:
    """Table travel of one count, mm, exact."""
    return period / edges


@cites("derived here", formula="25.4/q")
def counts_per_inch(count: Fraction) -> Fraction:
    """Counts in an inch of travel, exact: an inch scale with a metric lead stays a fraction."""
    return Fraction(254, 10) / count


@cites("derived here", formula="1 296 000″/N_w")
def pulse_arcsec(pulses_per_turn: Fraction) -> float:
    """One pulse at the work, arcsec."""
    return float(ARCSEC_PER_TURN / pulses_per_turn)


@cites("derived here", formula="r 2π/N_w")
def pulse_length(radius: float, pulses_per_turn: Fraction) -> float:
    """One pulse on a circle of that radius, in the unit of the radius."""
    return radius * TURN / float(pulses_per_turn)


@cites("derived here", formula="F_pq = (z′ − 1)/z′,  z′ = z/gcd(N_w, z)")
def rounding_cumulative(pulses_per_turn: Fraction, teeth: int) -> float:
    """Total cumulative pitch deviation that rounding to whole pulses leaves, in pulses."""
    met = (pulses_per_turn / teeth).denominator
    return (met - 1) / met


@cites("derived here", formula="f_pq = max(f, 1 − f),  f = frac(N_w/z)")
def rounding_single(pulses_per_turn: Fraction, teeth: int) -> float:
    """Largest single pitch deviation that rounding to whole pulses leaves, in pulses."""
    part = (pulses_per_turn / teeth) % 1
    return float(max(part, 1 - part)) if part else 0.0


@cites("derived here", formula="√((1 − 1/z′²)/12)")
def rounding_rms(pulses_per_turn: Fraction, teeth: int) -> float:
    """Root mean square of the rounding, in pulses."""
    met = (pulses_per_turn / teeth).denominator
    return math.sqrt((1 - 1 / met**2) / 12)


@cites("derived here", formula="round(N_w/z) z − N_w")
def closing_if_added(pulses_per_turn: int, teeth: int) -> int:
    """Pulses missing or over at the last space if each move were rounded by itself and added up."""
    return (2 * pulses_per_turn + teeth) // (2 * teeth) * teeth - pulses_per_turn


@dataclass(frozen=True, slots=True)
class Resolution:
    """Of one link on one gear: pulse at the work (arcsec, and µm on pitch and base circle), count along the flank, the band of both.

    `band`: width of the staircase that pulses and counts leave on a helix, µm; `per_count`, `per_mm`: pulses.
    """

    pulses_per_turn: Fraction
    per_space: Fraction
    arcsec: float
    pulse_um: float
    single_um: float
    cumulative_um: float
    count_um: float
    band: float
    per_mm: float
    per_count: float

    @property
    def coarser(self) -> str:
        """Which of the two limits the place of the flank."""
        return "count" if self.count_um > self.pulse_um else "pulse"


@cites("derived here", formula="band = r_b 2π/N_w + q tan β_b")
def resolution(drive: Drive, gear: OnGear) -> Resolution:
    """What the link can place on this gear."""
    pulses = drive.pulses_per_turn
    pulse = pulse_length(gear.radius, pulses) * 1000
    count = float(drive.count) * 1000 * gear.tan_base
    per_mm = float(pulses) / gear.lead
    return Resolution(
        pulses_per_turn=pulses,
        per_space=pulses / gear.teeth,
        arcsec=pulse_arcsec(pulses),
        pulse_um=pulse,
        single_um=pulse * rounding_single(pulses, gear.teeth),
        cumulative_um=pulse * rounding_cumulative(pulses, gear.teeth),
        count_um=float(drive.count) * 1000 * math.tan(gear.helix),
        band=pulse_length(gear.base_radius, pulses) * 1000 + count if gear.helical else 0.0,
        per_mm=per_mm,
        per_count=per_mm * float(drive.count),
    )


def take_up(backlash: float, lead: Millimetre) -> Millimetre:
    """Table travel that closes the play after turning round, mm."""
    return Millimetre(backlash * lead / TURN)
