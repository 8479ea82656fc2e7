"""The milling machine: table, dials, spindle, arbor."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from evenpitch.quantity.units import Millimetre, Radian

HelixSetBy = Literal["table", "milling head", "neither"]


@dataclass(frozen=True, slots=True)
class Dial:
    """A handwheel dial: length of one division and of one whole turn."""

    division: Millimetre
    turn: Millimetre


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """The table and what moves it. `swing`: the largest swing either way. `rapid`: mm/min."""

    screw_lead: Millimetre | None = None
    helix_set_by: HelixSetBy | None = None
    swing: Radian | None = None
    travel: Millimetre | None = None
    length: Millimetre | None = None
    rapid: float | None = None
    saddle_travel: Millimetre | None = None
    knee_travel: Millimetre | None = None
    knee_dial: Dial | None = None
    saddle_dial: Dial | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Spindle:
    """Speeds in rpm, feeds in mm/min, both rising; `overarm`: arbor axis to the underside of the overarm."""

    speeds: tuple[float, ...] = ()
    feeds: tuple[float, ...] = ()
    arbor: Millimetre | None = None
    collar: Millimetre | None = None
    overarm: Millimetre | None = None
