"""Order: one piece of work, or a pair, on one rig, with what the maker chose."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from evenpitch.gear.gear import Gear
from evenpitch.quantity.units import Millimetre
from evenpitch.rig.rig import Rig

Drive = Literal["clockwise", "anticlockwise", "both"]
"""Turning sense of the load, seen from the tailstock."""

Dividing = Literal["direct", "simple", "block", "compound", "differential", "pulses"]
Lead = Literal["link", "change gears"]
Paper = Literal["a4", "letter"]
Units = Literal["inch", "metric"]


Limits = tuple[Millimetre, Millimetre]
"""Upper and lower limit of a size, each a signed distance from its target."""

USUAL_LIMITS: Limits = (Millimetre(0.0), Millimetre(-0.05))
"""Of a span and of a turned blank; common practice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """A gear to be cut, its blank and its limits. `quantity`: cut as one stack; `outside_found`: of the blank as turned."""

    gear: Gear
    material: str | None = None
    bore: Millimetre | None = None
    drive: Drive | None = None
    quantity: int = 1
    outside_found: Millimetre | None = None
    span_tolerance: Limits = USUAL_LIMITS
    outside_tolerance: Limits = USUAL_LIMITS


@dataclass(frozen=True, slots=True)
class Train:
    """Change gears chosen by the maker, by their counts."""

    drivers: tuple[int, ...]
    driven: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """What the maker chose; None: the best is taken. `way`: the key of one particular way of dividing; `train`: for the lead.

    `paper_thickness`: of the touch paper; 0 if none. `units`: the bold ones on page and sheet.
    """

    dividing: Dividing | None = None
    lead: Lead | None = None
    paper: Paper = "a4"
    units: Units | None = None
    cutter: str | None = None
    paper_thickness: Millimetre = Millimetre(0.08)
    train: Train | None = None
    way: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """How two gears stand to each other. `backlash`: wanted, normal circular."""

    centre_distance: Millimetre | None = None
    backlash: Millimetre | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """One or two works on a rig. `typed`: what was typed, by the path of its field ("gear.0.teeth", "97")."""

    title: str
    works: tuple[Work, ...]
    rig: Rig
    choice: Choice = Choice()
    pair: Pair | None = None
    typed: tuple[tuple[str, str], ...] = ()
