"""Change gears for a lead: from the table screw through the worm, or for short leads straight to the spindle."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from evenpitch.dividing.trains import Mounting, Train, every_ratio, mountings, ratios_near, train_words, trains_of
from evenpitch.quantity.refusal import refuse
from evenpitch.quantity.units import INCH, Millimetre, Radian
from evenpitch.rig.head import ChangeGears, Head
from evenpitch.sources.citations import cites

MOST_LISTED = 24
SHORT_LEAD = 2 * INCH
"""Below this the crank is turned by hand to feed the table (Practical Treatise on Milling and Milling Machines, pp. 180-182)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Helix:
    """What turns a wrong lead into micrometres of flank: the face, and the base helix angle."""

    face: Millimetre
    base_helix: Radian


@dataclass(frozen=True, slots=True, kw_only=True)
class LeadTrain:
    """A train and the lead it gives, mm. Drivers: screw and one on the stud; driven: the other on the stud, and the worm.

    `geared_to`: the shaft of the head that the last gear sits on.
    """

    train: Train
    lead: Fraction
    wanted: Fraction
    stud_clearance: int
    helix: Helix | None = None
    geared_to: str = "worm"

    @property
    def error_ppm(self) -> float:
        """(got/wanted - 1) 1e6."""
        return float((self.lead / self.wanted - 1) * 1_000_000)

    @property
    def helix_slope_um(self) -> float | None:
        """What the flank is out over the face, without sign; None where no gear was named."""
        return None if self.helix is None else helix_slope_um(self.helix, float(self.wanted / self.lead - 1))

    def mountings(self) -> tuple[Mounting, ...]:
        """The ways of putting the train up that clear, from the screw on."""
        return mountings(self.train, self.stud_clearance)

    def train_words(self) -> str:
        """Drivers : driven in the order of a mounting that clears, from the screw on."""
        return train_words(self.train, self.stud_clearance)

    def facts(self) -> dict[str, object]:
        """Under the fixed keys of the machine-readable answer; the lead in mm, exact."""
        told: dict[str, object] = {
            "drivers": list(self.train.drivers),
            "driven": list(self.train.driven),
            "mountings": [[list(pair) for pair in mounting] for mounting in self.mountings()],
            "lead": str(self.lead),
            "error_ppm": self.error_ppm,
            "geared_to": self.geared_to,
        }
        return told if self.helix is None else {**told, "helix_slope_um": self.helix_slope_um}


@cites("Practical Treatise on Milling and Milling Machines, p. 62", formula="ML = K P")
def machine_lead(head: Head, screw_lead: Fraction) -> Fraction:
    """The lead cut when the screw and the head's gear shaft turn alike: crank turns per work turn times the screw's lead, mm."""
    return head.ratio * screw_lead


@cites("derived here", formula="f = b tan β_b |L/L' - 1|")
def helix_slope_um(helix: Helix, relative: float) -> float:
    """How far the flank runs off over the face, µm, when the work turns by a share `relative` too far or too little.

    tan β_b is 2π times the base radius over the lead, so the share counts against the lead got: L/L' - 1.
    """
    return helix.face * math.tan(helix.base_helix) * abs(relative) * 1000


@cites("ISO 21771:2007", formula="sin β_b = sin β cos α_n")
def base_helix(helix: Radian, normal_pressure_angle: Radian) -> Radian:
    """The helix angle on the base cylinder."""
    return Radian(math.asin(math.sin(helix) * math.cos(normal_pressure_angle)))


@cites("Practical Treatise on Milling and Milling Machines, p. 62", formula="driven/drivers = L/(K P)")
def trains_for_lead(
    lead: Fraction | float,
    head: Head,
    screw_lead: Fraction,
    gears: ChangeGears,
    *,
    helix: Helix | None = None,
    most: int = MOST_LISTED,
) -> tuple[LeadTrain, ...]:
    """The trains nearest to a lead in mm, best first; of one lead, one pair before two, then small gears first."""
    wanted = checked_lead(lead)
    per_ratio = machine_lead(head, screw_lead)
    found = trains_giving(ratios_near(wanted / per_ratio, gears, most), per_ratio, wanted, gears, helix)
    return tuple(found)[:most]


def trains_giving(
    ratios: Iterable[Fraction], per_ratio: Fraction, wanted: Fraction, gears: ChangeGears, helix: Helix | None
) -> Iterable[LeadTrain]:
    """Every train for each driven/drivers ratio in turn. Swapping drivers and driven keeps every mounting clear."""
    for ratio in ratios:
        for train in trains_of(1 / ratio, gears):
            yield LeadTrain(train=train, lead=ratio * per_ratio, wanted=wanted, stud_clearance=gears.stud_clearance, helix=helix)


def every_lead(head: Head, screw_lead: Fraction, gears: ChangeGears) -> tuple[LeadTrain, ...]:
    """The wall chart: every regular lead one's gears give, rising, each with its simplest train."""
    per_ratio = machine_lead(head, screw_lead)
    rows = ((ratio * per_ratio, trains_of(1 / ratio, gears)[0]) for ratio in every_ratio(gears))
    return tuple(LeadTrain(train=train, lead=lead, wanted=lead, stud_clearance=gears.stud_clearance) for lead, train in rows)


def checked_lead(lead: Fraction | float) -> Fraction:
    """The lead as a fraction, or a refusal."""
    if not (isinstance(lead, Fraction) or math.isfinite(lead)) or lead <= 0:
        raise refuse("lead", lead, "a length above 0", "A straight tooth has no lead.", "Leave the lead out for straight work.")
    return Fraction(lead)


def hand_test() -> str:
    """An idler changes the hand and nothing else; which count gives which hand depends on the bracket, so it is tried."""
    return (
        "scribe a line with the cutter still: for a right hand the top of the work must turn away from you as the table goes left; "
        "one idler more or less changes the hand and leaves the lead"
    )
