"""Plan: everything the maker needs to cut one order, as frozen nouns. Made by job/planning.py, printed by the sheet room."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from evenpitch.checking.good_to import GoodTo
from evenpitch.cutting.blank import Blank
from evenpitch.cutting.materials import Material
from evenpitch.gear.formcut import FormCut
from evenpitch.gear.gear import Gear
from evenpitch.job.cautions import Caution
from evenpitch.job.direction import Direction
from evenpitch.job.indexing import Indexing
from evenpitch.job.leading import LeadPlan
from evenpitch.job.measuring import Check
from evenpitch.job.order import Order, Work
from evenpitch.job.pairing import PairPlan
from evenpitch.job.running import Running
from evenpitch.job.tooling import Tooling
from evenpitch.quantity.figure import Figure
from evenpitch.quantity.finding import Finding


@dataclass(frozen=True, slots=True)
class LinkPromise:
    """What the link is good to on a gear, and the sentence; `proven`: when it was proven on this gear, None if not yet."""

    good: GoodTo
    sentence: str
    proven: date | None


@dataclass(frozen=True, slots=True, kw_only=True)
class GearPlan:
    """The plan of one gear. `gear`: as in the work, with the pin to measure over chosen. `class_named`: by the maker, not assumed."""

    work: Work
    gear: Gear
    figures: tuple[Figure, ...]
    limits: tuple[Figure, ...]
    tolerance_class: int
    class_named: bool
    blank: Blank
    material: Material | None
    tools: Tooling
    indexing: Indexing
    lead: LeadPlan | None
    form_cut: FormCut
    running: Running
    checks: tuple[Check, ...]
    direction: Direction
    findings: tuple[Finding, ...]
    promise: LinkPromise | None = None

    def figure(self, name: str) -> Figure | None:
        """The figure of that name, if the plan has it."""
        return next((figure for figure in (*self.figures, *self.limits) if figure.name == name), None)

    def value(self, name: str) -> float:
        """The value of a figure the plan is known to have; KeyError otherwise."""
        found = self.figure(name)
        if found is None:
            raise KeyError(name)
        return float(Fraction(found.value)) if isinstance(found.value, str) else float(found.value)


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """The whole plan of an order: one gear, or two that run together. `findings`: all of them, stops first."""

    order: Order
    gears: tuple[GearPlan, ...]
    pair: PairPlan | None
    cautions: tuple[Caution, ...]
    findings: tuple[Finding, ...]

    def stopped(self) -> bool:
        """Whether a finding of weight stop stands: the plan can be read and printed, not issued."""
        return any(finding.weight == "stop" for finding in self.findings)
