"""Readings as they were taken, in the order they were taken. Lengths in mm, angles in radian, temperatures in °C."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from evenpitch.quantity.units import Millimetre, Radian

Direction = Literal["up", "down"]
"""up: approached towards growing readings, as in the cut; down: from the other side."""


@dataclass(frozen=True, slots=True)
class ScaleReading:
    """What the scale showed where the reference says the table stood. `line`: of the file, for messages."""

    run: int
    direction: Direction
    reference: Millimetre
    reading: Millimetre
    temperature: float | None = None
    line: int = 0

    @property
    def error(self) -> float:
        """Reading less reference."""
        return self.reading - self.reference


@dataclass(frozen=True, slots=True)
class HeadReading:
    """The work's angle less its nominal angle, as read; for a closure, of the face that stood before the indicator."""

    method: Literal["bar", "closure"]
    run: int
    direction: Direction
    nominal: Radian
    error: Radian
    line: int = 0


@dataclass(frozen=True, slots=True)
class ProofReading:
    """One line of the link proof.

    `moved`: the table, by block or dial; `reading`: what the scale showed, or with `radius` and no `work` the height between the
    two contacts of a bar; `work`: the angle that the work turned.
    """

    check: str
    place: str
    approach: Direction
    moved: Millimetre
    reading: Millimetre | None
    work: Radian | None = None
    radius: Millimetre | None = None
    line: int = 0


@dataclass(frozen=True, slots=True)
class GearReading:
    """One line of an inspection: `value` in mm or, where `angle` says so, in radian; `u` standard uncertainty in the same unit."""

    kind: str
    space: int
    flank: Literal["left", "right"] | None
    instrument: str
    value: float
    angle: bool = False
    spanned: int | None = None
    pin: Millimetre | None = None
    height: Millimetre | None = None
    round: int | None = None
    temperature: float | None = None
    u: float | None = None
    line: int = 0


@dataclass(frozen=True, slots=True)
class LogRow:
    """One line of a link's log: time in s, counts of the scale, pulses commanded; motor and work angle in radian where logged."""

    time: float
    count: int
    pulse: int
    motor: Radian | None = None
    work: Radian | None = None
