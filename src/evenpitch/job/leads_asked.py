"""Leads that can hardly be meant, and leads that the gears do not reach: what is said of them wherever a lead is asked."""

from __future__ import annotations

import math
from collections.abc import Iterator
from fractions import Fraction

from evenpitch.dividing.trains import every_ratio
from evenpitch.job.findings import finding
from evenpitch.quantity.finding import Finding
from evenpitch.quantity.units import INCH
from evenpitch.rig.head import ChangeGears

STEEP = math.radians(50)
"""A helix so steep is asked back where it came from a lead that was typed; common practice."""


def lead_in_inches(lead: float, diameter: float) -> Iterator[Finding]:
    """Where a lead, mm, makes a steep helix on the pitch diameter, mm, and the same number in inches makes a usual one."""
    angle, in_inches = (math.atan2(math.pi * diameter, lead * factor) for factor in (1.0, float(INCH)))
    if angle > STEEP >= in_inches:
        facts = {"lead": lead, "diameter": diameter, "angle": math.degrees(angle), "mm": lead * float(INCH)}
        yield finding("lead-in-inches", **facts, inches=f"{lead:.4g}")


def lead_short(lead: float, machine_lead: Fraction | None, *, typed: bool = False) -> Finding:
    """A lead, mm, that the screw can hardly drive. `typed`: it was, and perhaps in the wrong unit."""
    turns = float(machine_lead) / lead if machine_lead else 0.0
    unit = " If inches were meant, write the unit." if typed else ""
    return finding(
        "lead-short", lead=lead, rpm=turns, spindle="lead divided by the worm ratio, indexed by slipping its gear", unit=unit
    )


def beyond_the_gears(lead: Fraction | float, machine_lead: Fraction, gears: ChangeGears) -> Iterator[Finding]:
    """A lead, mm, under the shortest or over the longest that the gears give through the worm."""
    ratios = every_ratio(gears)
    if not ratios:
        return
    shortest, longest = ratios[0] * machine_lead, ratios[-1] * machine_lead
    if lead < shortest:
        yield finding("lead-below-shortest", lead=float(lead), shortest=float(shortest))
    if lead > longest:
        yield finding("lead-beyond-longest", lead=float(lead), longest=float(longest), off=1 - float(longest / Fraction(lead)))
