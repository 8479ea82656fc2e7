"""Which counts hide a wave of the head and which show all of it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from evenpitch.sources.citations import cites

ALL_OF_IT = 1.9


@cites("derived here", formula="z' = z/gcd(z, h)")
def phases(count: int, per_turn: Fraction | int) -> int:
    """At how many places of the wave the spaces stand. A wave that is no whole number to the turn is met everywhere."""
    return (Fraction(per_turn) / count).denominator


@cites("derived here", formula="F_p/A = 0 (z' = 1), 2 (z' even), 2 cos(π/2z') (z' odd)")
def cumulative_share(count: int, per_turn: Fraction | int) -> float:
    """Total cumulative pitch deviation that a wave of amplitude 1 gives, its phase being the worst."""
    met = phases(count, per_turn)
    if met == 1:
        return 0.0
    return 2.0 if met % 2 == 0 else 2 * math.cos(math.pi / (2 * met))


@cites("derived here", formula="f_p/A = 2 |sin(π h/z)|")
def single_share(count: int, per_turn: Fraction | int) -> float:
    """Largest single pitch deviation that a wave of amplitude 1 gives, its phase being the worst."""
    met = phases(count, per_turn)
    if met == 1:
        return 0.0
    return 2 * abs(math.sin(math.pi * float(Fraction(per_turn) / count)))


@dataclass(frozen=True, slots=True)
class Hiding:
    """What a count makes of the worm's wave: at how many phases it is met, and its shares of the amplitude."""

    count: int
    phases: int
    cumulative: float
    single: float

    @property
    def hides(self) -> bool:
        """Whether the wave cannot be seen in the spacing, nor spoil it."""
        return self.phases == 1

    @property
    def shows_all(self) -> bool:
        """Whether nearly the whole wave, peak to peak, is met."""
        return self.cumulative > ALL_OF_IT


def hiding(count: int, per_turn: Fraction | int) -> Hiding:
    """What a count makes of a wave."""
    return Hiding(count, phases(count, per_turn), cumulative_share(count, per_turn), single_share(count, per_turn))


def hidden_counts(per_turn: Fraction | int, least: int = 4, most: int = 200) -> tuple[int, ...]:
    """The counts in a range that hide the wave: those that divide the ratio."""
    return tuple(count for count in range(least, most + 1) if phases(count, per_turn) == 1)
