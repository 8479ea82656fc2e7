"""Short leads: the train put to the spindle itself, worm out of mesh, and the work indexed by slipping the spindle gear."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from evenpitch.dividing.counts import checked_divisions
from evenpitch.dividing.lead import MOST_LISTED, Helix, LeadTrain, checked_lead, trains_giving
from evenpitch.dividing.trains import Mounting, every_ratio, ratios_near
from evenpitch.rig.head import ChangeGears
from evenpitch.sources.citations import cites


@dataclass(frozen=True, slots=True, kw_only=True)
class ShortLead:
    """A spindle-geared train for work of N spaces: `spindle_gear` is a multiple of N, slipped `slip` teeth at each index."""

    train: LeadTrain
    spindle_gear: int
    slip: int
    mountings: tuple[Mounting, ...]

    def facts(self) -> dict[str, object]:
        """As a train, with how to index; only the mountings that end on the spindle gear."""
        kept = [[list(pair) for pair in mounting] for mounting in self.mountings]
        return {**self.train.facts(), "mountings": kept, "spindle_gear": self.spindle_gear, "slip": self.slip}


@cites(
    "Practical Treatise on Milling and Milling Machines, p. 63",
    formula="L = P driven/drivers; slip = z/N teeth, z a multiple of N",
)
def short_leads(
    lead: Fraction | float,
    divisions: int,
    screw_lead: Fraction,
    gears: ChangeGears,
    *,
    helix: Helix | None = None,
    most: int = MOST_LISTED,
) -> tuple[ShortLead, ...]:
    """The spindle-geared trains nearest to a lead, mm, whose spindle gear can be slipped by whole teeth for every space; best first."""
    checked_divisions(divisions)
    wanted = checked_lead(lead)
    if not any(gear % divisions == 0 for gear in gears.teeth):
        return ()
    found: list[ShortLead] = []
    for ratio in sorted(every_ratio(gears), key=lambda ratio: abs(ratio * screw_lead - wanted)):
        for train in trains_giving((ratio,), screw_lead, wanted, gears, helix):
            found += _slipped(train, divisions)
        if len(found) >= most:
            break
    return tuple(found[:most])


@cites("Practical Treatise on Milling and Milling Machines, p. 63", formula="L = P driven/drivers")
def spindle_trains(
    lead: Fraction | float, screw_lead: Fraction, gears: ChangeGears, *, helix: Helix | None = None, most: int = MOST_LISTED
) -> tuple[LeadTrain, ...]:
    """The trains to the spindle itself nearest to a lead, mm, best first; the worm is out of mesh, and the work indexed otherwise."""
    wanted = checked_lead(lead)
    found = trains_giving(ratios_near(wanted / screw_lead, gears, most), screw_lead, wanted, gears, helix)
    return tuple(replace(train, geared_to="spindle") for train in found)[:most]


def _slipped(train: LeadTrain, divisions: int) -> Iterator[ShortLead]:
    for gear in sorted({gear for gear in train.train.driven if gear % divisions == 0}):
        ending = tuple(mounting for mounting in train.mountings() if mounting[-1][1] == gear)
        if ending:
            yield ShortLead(
                train=replace(train, geared_to="spindle"), spindle_gear=gear, slip=gear // divisions, mountings=ending
            )
