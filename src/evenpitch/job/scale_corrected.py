"""The ratio of the link with the scale's gain taken out, for each helical gear of a job."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from evenpitch.checking.paying import corrected_lead
from evenpitch.dividing.link_ratio import LinkRatio, link_ratio
from evenpitch.gear.gear import Gear
from evenpitch.gear.sizes import lead
from evenpitch.rig.rig import Rig


@dataclass(frozen=True, slots=True, kw_only=True)
class Corrected:
    """`lead` as wanted and `enter` as to be entered, mm; `ratio`: of the lead to be entered, `plain` of the one wanted."""

    teeth: int
    lead: float
    enter: float
    ratio: LinkRatio
    plain: LinkRatio

    def facts(self) -> dict[str, Any]:
        """For the machine-readable answer."""
        return {"teeth": self.teeth, "lead_mm": self.lead, "enter_lead_mm": self.enter, **self.ratio.facts()}


def corrected_ratios(gears: Sequence[Gear], rig: Rig, gain: float) -> tuple[Corrected, ...]:
    """One for each helical gear; none where the pulses of a turn or the count are not known. `gain`: bare number, + reads too much."""
    pulses, count = rig.pulses_per_turn(), None if rig.link is None else rig.link.count
    if pulses is None or count is None:
        return ()
    found = []
    for gear in gears:
        if gear.helix:
            wanted = abs(lead(gear))
            enter = corrected_lead(Fraction(wanted), Fraction(gain))
            plain, ratio = link_ratio(wanted, pulses, count), link_ratio(float(enter), pulses, count)
            found.append(Corrected(teeth=gear.teeth, lead=float(wanted), enter=float(enter), ratio=ratio, plain=plain))
    return tuple(found)
