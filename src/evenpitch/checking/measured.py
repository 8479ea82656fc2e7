"""A measured value with its standard uncertainty, and the factor that makes of it an interval for 95 in 100."""

from __future__ import annotations

import math
from dataclasses import dataclass

from evenpitch.checking.student import student
from evenpitch.sources.citations import cites

COVERAGE = 0.95


@cites("JCGM 100:2008, G.3", formula="k = t_95(ν)")
def coverage_factor(freedom: float = math.inf) -> float:
    """k for a level of confidence of 95 %: 2.00 is near enough above some 60 degrees of freedom, few readings need more."""
    if math.isinf(freedom):
        return 2.0
    if freedom < 1:
        return math.inf
    return student(COVERAGE, float(freedom))


@dataclass(frozen=True, slots=True)
class Measured:
    """A value, its standard uncertainty `u` in the same unit, and the degrees of freedom that u rests on."""

    value: float
    u: float
    freedom: float = math.inf

    @property
    def U(self) -> float:  # noqa: N802
        """Expanded uncertainty, 95 %."""
        return coverage_factor(self.freedom) * self.u

    def shown(self) -> bool:
        """Whether the value can be told from 0."""
        return abs(self.value) > self.U

    def times(self, factor: float) -> Measured:
        """The same in another unit."""
        return Measured(self.value * factor, self.u * abs(factor), self.freedom)

    def facts(self) -> dict[str, float]:
        """Under the fixed keys of the machine-readable answer."""
        return {"value": self.value, "u": self.u, "U": self.U}
