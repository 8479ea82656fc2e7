"""Which pictures a plan and its sheet carry, drawn from its figures."""

from __future__ import annotations

from dataclasses import dataclass

from evenpitch.job.plan import GearPlan, Plan
from evenpitch.quantity.showing import System
from evenpitch.sheet.drawing import Drawing


@dataclass(frozen=True, slots=True)
class SheetPictures:
    """`sketch`: blank and tooth; `ladder`: depths; `set_up`: what is wanted while setting up."""

    sketch: Drawing | None
    ladder: Drawing | None
    set_up: tuple[Drawing, ...]


def plan_pictures(plan: Plan, gear: GearPlan, system: System) -> tuple[Drawing, ...]:
    """The pictures of one gear's plan, in the order they are wanted at the machine."""
    return ()


def sheet_pictures(plan: Plan, gear: GearPlan, system: System) -> SheetPictures:
    """Those of the sheet."""
    return SheetPictures(None, None, ())
