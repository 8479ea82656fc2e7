"""How the work really turned while the table moved: everything that differs from the wanted screw, tooth by tooth."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from evenpitch.flank.wanted import Array

Teeth = NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class Sine:
    """A sin(2 pi s / period + phase + i advance): amplitude and angles in rad, period in mm of table travel."""

    amplitude: float
    period: float
    phase: float = 0.0
    advance: float = 0.0


@dataclass(frozen=True, slots=True)
class WormError:
    """A sin(per_turn ratio (work angle) + phase): `per_turn` waves for one turn of the worm, `ratio` turns of it for one of the work."""

    amplitude: float
    ratio: float
    phase: float = 0.0
    per_turn: float = 1.0


@dataclass(frozen=True, slots=True)
class AngleTable:
    """Work angle (rad) against table travel (mm), linear between; two equal places are a jump. Held beyond its ends."""

    s: tuple[float, ...]
    angle: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Motion:
    """The motion of one rig. `q`: 2 pi / lead really got; `index`: error of each space (rad, empty: none); all added.

    `teeth` is the count being cut: worm phase of space i is taken at i / teeth of a turn.
    """

    teeth: int
    q: float
    index: tuple[float, ...] = ()
    sines: tuple[Sine, ...] = ()
    worms: tuple[WormError, ...] = ()
    tables: tuple[AngleTable, ...] = ()

    def steady(self) -> bool:
        """Whether nothing changes along the face but the lead: then the contact is known in closed form."""
        waves = any(worm.amplitude for worm in self.worms) and self.q != 0.0
        return not (waves or any(sine.amplitude for sine in self.sines) or any(any(table.angle) for table in self.tables))

    def turn(self, tooth: Teeth, s: Array) -> Array:
        """Work angle beyond the true screw (rad) of space `tooth` with the table at `s` (mm); lead error not in it."""
        total = np.zeros(np.broadcast_shapes(np.shape(tooth), np.shape(s)))
        if self.index:
            total = total + np.asarray(self.index)[tooth]
        for sine in self.sines:
            total = total + sine.amplitude * np.sin(2 * math.pi / sine.period * s + (sine.phase + tooth * sine.advance))
        for worm in self.worms:
            many = worm.per_turn * worm.ratio
            total = total + worm.amplitude * np.sin(many * self.q * s + (many * 2 * math.pi / self.teeth * tooth + worm.phase))
        for table in self.tables:
            total = total + np.interp(s, table.s, table.angle)
        return total

    def shortest_wave(self) -> float:
        """The shortest period along the travel, mm; infinite when there is none."""
        waves = [sine.period for sine in self.sines if sine.amplitude]
        waves += [2 * math.pi / abs(worm.per_turn * worm.ratio * self.q) for worm in self.worms if worm.amplitude and self.q]
        return min(waves, default=math.inf)

    def knots(self) -> Array:
        """Places where a table bends or jumps (mm), rising."""
        return np.array(sorted({s for table in self.tables for s in table.s}))

    def swing(self) -> float:
        """No more than this lies between the greatest and the least turn along one space, rad."""
        waves = 2 * sum(abs(a) for a in [*(sine.amplitude for sine in self.sines), *(worm.amplitude for worm in self.worms)])
        return waves + sum(max(table.angle) - min(table.angle) for table in self.tables)


def true_screw(teeth: int, q: float) -> Motion:
    """The wanted motion, without error."""
    return Motion(teeth, q)
