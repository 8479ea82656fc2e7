"""Two leads chosen together: a pair that meshes wants the same helix on both more than it wants the drawing's."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from evenpitch.dividing.lead import Helix, LeadTrain, checked_lead, helix_slope_um, machine_lead, trains_giving
from evenpitch.dividing.trains import every_ratio, ratios_between, ratios_near
from evenpitch.quantity.units import Radian
from evenpitch.rig.head import ChangeGears, Head
from evenpitch.sources.citations import cites

FURTHEST_PPM = 10_000
"""A lead further off than one in a hundred is another gear."""
SAME_PPM = 1e-6
"""Mismatches nearer than this are equal: what is left of rounding."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LeadPair:
    """A train for each of two leads. `mismatch_um`: what the flanks run apart over the first's face, None where no gear was named."""

    first: LeadTrain
    second: LeadTrain
    mismatch_ppm: float
    mismatch_um: float | None

    def facts(self) -> dict[str, object]:
        """Under the fixed keys of the machine-readable answer."""
        return {
            "first": self.first.facts(),
            "second": self.second.facts(),
            "mismatch_ppm": self.mismatch_ppm,
            "mismatch_um": self.mismatch_um,
        }

    def further(self) -> float:
        """The greater of the two lead errors, ppm, without sign."""
        return max(abs(self.first.error_ppm), abs(self.second.error_ppm))


@cites("derived here", formula="mismatch = (L2'/L1')/(L2/L1) - 1")
def lead_pairs(
    first: Fraction | float,
    second: Fraction | float,
    head: Head,
    screw_lead: Fraction,
    gears: ChangeGears,
    *,
    helix: Helix | None = None,
    second_helix: Helix | None = None,
) -> tuple[LeadPair, ...]:
    """Trains for two leads, mm, best matched first: no pair listed is worse than another in both mismatch and lead error.

    The gears are put up one after the other, so both trains may use the same. Each lead stays within one in a hundred of its own.
    The last pair listed is the two trains that would be chosen singly, for comparison.
    """
    wanted, other = checked_lead(first), checked_lead(second)
    if not every_ratio(gears):
        return ()
    per_ratio = machine_lead(head, screw_lead)
    centre = float(wanted / per_ratio)
    slack = FURTHEST_PPM / 1_000_000
    found = []
    for ratio in ratios_between(centre * (1 - slack), centre * (1 + slack), gears):
        for match in ratios_near(ratio * other / wanted, gears, 3):
            pair = _pair((ratio, wanted, helix), (match, other, second_helix), per_ratio, gears)
            if pair.further() <= FURTHEST_PPM:
                found.append(pair)
    found.sort(key=lambda pair: (round(abs(pair.mismatch_ppm) / SAME_PPM), pair.further()))
    alone = tuple(
        (ratios_near(lead / per_ratio, gears, 1)[0], lead, turned) for lead, turned in ((wanted, helix), (other, second_helix))
    )
    singly = _pair(alone[0], alone[1], per_ratio, gears)
    kept = _unbettered(found)
    return kept if singly in kept else (*kept, singly)


Asked = tuple[Fraction, Fraction, Helix | None]


def _pair(first: Asked, second: Asked, per_ratio: Fraction, gears: ChangeGears) -> LeadPair:
    trains = [next(iter(trains_giving((ratio,), per_ratio, lead, gears, helix))) for ratio, lead, helix in (first, second)]
    (got, wanted, helix), (got_other, other, _) = first, second
    mismatch = float((got_other / got) / (other / wanted) - 1) * 1_000_000
    mismatch = 0.0 if abs(mismatch) < SAME_PPM else mismatch
    apart = None if helix is None else helix_slope_um(helix, mismatch / 1_000_000)
    return LeadPair(first=trains[0], second=trains[1], mismatch_ppm=mismatch, mismatch_um=apart)


def _unbettered(pairs: list[LeadPair]) -> tuple[LeadPair, ...]:
    kept: list[LeadPair] = []
    for pair in pairs:
        if not kept or pair.further() < kept[-1].further():
            kept.append(pair)
    return tuple(kept)


@cites("ISO 21771:2007", formula="tan β' = tan β L/L'")
def helix_of_lead(helix: Radian, error_ppm: float) -> Radian:
    """The helix angle that a wrong lead gives on the same pitch cylinder."""
    return Radian(math.atan(math.tan(helix) / (1 + error_ppm / 1_000_000)))
