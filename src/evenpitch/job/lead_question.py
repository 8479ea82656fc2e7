"""One question without a job: change gears for a lead, the link's ratio for it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from evenpitch.dividing.lead import SHORT_LEAD, Helix, LeadTrain, machine_lead, trains_for_lead
from evenpitch.dividing.lead_pair import LeadPair, lead_pairs
from evenpitch.dividing.link_ratio import LARGEST, DecimalTrap, LinkRatio, decimal_traps, link_ratio, simpler_ratios
from evenpitch.dividing.short_lead import spindle_trains
from evenpitch.dividing.trains import every_ratio
from evenpitch.job.leads_asked import beyond_the_gears, lead_in_inches, lead_short
from evenpitch.job.ratio_fields import field_findings
from evenpitch.quantity.finding import Finding
from evenpitch.rig.head import ChangeGears, Head


@dataclass(frozen=True, slots=True, kw_only=True)
class LeadQuestion:
    """A lead in mm on a head, a screw and a box of gears; `helix` for micrometres over a face; `mate`: lead of the mate, mm.

    `diameter`: pitch diameter of the gear named, mm, where there is one.
    """

    lead: Fraction
    head: Head
    screw_lead: Fraction
    change_gears: ChangeGears
    helix: Helix | None = None
    mate: Fraction | None = None
    diameter: float | None = None


@dataclass(frozen=True, slots=True)
class LeadAnswer:
    """Trains best first, and pairs of trains where a mate was named."""

    question: LeadQuestion
    machine_lead: Fraction
    trains: tuple[LeadTrain, ...]
    pairs: tuple[LeadPair, ...]
    findings: tuple[Finding, ...]


def ask_lead(question: LeadQuestion) -> LeadAnswer:
    """The trains nearest to a lead."""
    common = (question.head, question.screw_lead, question.change_gears)
    pairs: tuple[LeadPair, ...] = ()
    if question.mate is not None:
        pairs = lead_pairs(question.lead, question.mate, *common, helix=question.helix)
    machine = machine_lead(question.head, question.screw_lead)
    findings = (*_fits(question.lead, question.diameter), *_reached(question, machine))
    return LeadAnswer(question, machine, _trains(question, machine), pairs, findings)


def _trains(question: LeadQuestion, machine: Fraction) -> tuple[LeadTrain, ...]:
    """The nearest trains; below the shortest lead through the worm those to the spindle itself are among them."""
    gears, helix = question.change_gears, question.helix
    found = trains_for_lead(question.lead, question.head, question.screw_lead, gears, helix=helix)
    ratios = every_ratio(gears)
    if ratios and question.lead < ratios[0] * machine:
        found += spindle_trains(question.lead, question.screw_lead, gears, helix=helix)
        found = tuple(sorted(found, key=lambda train: abs(train.error_ppm)))[: max(len(found) // 2, 1)]
    return found


def _reached(question: LeadQuestion, machine: Fraction) -> Iterator[Finding]:
    yield from beyond_the_gears(question.lead, machine, question.change_gears)
    if question.lead < SHORT_LEAD:
        yield lead_short(float(question.lead), machine, typed=True)


def _fits(lead: Fraction | float, diameter: float | None) -> tuple[Finding, ...]:
    return () if diameter is None else tuple(lead_in_inches(float(lead), diameter))


@dataclass(frozen=True, slots=True, kw_only=True)
class RatioQuestion:
    """The link's ratio for a lead in mm; `count`: mm of one count. `lead` a float where π is in it. `diameter` as for a lead."""

    lead: Fraction | float
    pulses_per_turn: Fraction
    count: Fraction
    largest_pulses: int = LARGEST
    largest_counts: int = LARGEST
    helix: Helix | None = None
    diameter: float | None = None


@dataclass(frozen=True, slots=True)
class RatioAnswer:
    """The nearest whole numbers, smaller ones beside them, and what decimals would cost."""

    question: RatioQuestion
    ratio: LinkRatio
    simpler: tuple[LinkRatio, ...]
    traps: tuple[DecimalTrap, ...]
    findings: tuple[Finding, ...] = ()


def ask_ratio(question: RatioQuestion) -> RatioAnswer:
    """The ratio that fits the controller's fields."""
    lead, pulses, count = question.lead, question.pulses_per_turn, question.count
    largest, most, helix = question.largest_pulses, question.largest_counts, question.helix
    found = link_ratio(lead, pulses, count, largest_pulses=largest, largest_counts=most, helix=helix)
    um_per_ppm = None if helix is None else 1e-3 * helix.face * math.tan(helix.base_helix)
    small = field_findings(found, lead, pulses, count, (largest, most), um_per_ppm)
    return RatioAnswer(
        question,
        found,
        simpler_ratios(lead, pulses, count, largest_pulses=largest, largest_counts=most, helix=helix),
        decimal_traps(lead, pulses, count, helix=helix),
        (*small, *_fits(lead, question.diameter)),
    )
