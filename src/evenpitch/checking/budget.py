"""A budget of uncertainty: parts that can be changed, their shares, and their sum."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Literal

from evenpitch.checking.measured import coverage_factor
from evenpitch.quantity.refusal import refuse
from evenpitch.sources.citations import cites

Shape = Literal["normal", "rectangular", "triangular", "sine"]
"""How a limit is meant: a standard uncertainty, or half the width of a range that is even, peaked, or that of a wave."""

DIVISORS: dict[Shape, float] = {"normal": 1.0, "rectangular": math.sqrt(3), "triangular": math.sqrt(6), "sine": math.sqrt(2)}


@dataclass(frozen=True, slots=True)
class Part:
    """One source: `limit` in its own unit, its shape, and by how much it counts (`weight`, unit of the sum per unit of the limit)."""

    name: str
    limit: float
    shape: Shape = "normal"
    weight: float = 1.0
    owner: str = "setup"
    freedom: float = math.inf

    @property
    def u(self) -> float:
        """Standard uncertainty that this source gives the sum."""
        return abs(self.weight) * self.limit / DIVISORS[self.shape]


@dataclass(frozen=True, slots=True)
class Budget:
    """All parts of one uncertainty, in one unit."""

    parts: tuple[Part, ...]
    unit: str

    @property
    def u(self) -> float:
        """The combined standard uncertainty."""
        return combined(tuple(part.u for part in self.parts))

    @property
    def freedom(self) -> float:
        """Degrees of freedom of the sum."""
        return effective_freedom(tuple((part.u, part.freedom) for part in self.parts))

    @property
    def U(self) -> float:  # noqa: N802
        """Expanded uncertainty, 95 %."""
        return coverage_factor(self.freedom) * self.u

    def largest(self) -> Part:
        """The part that counts most."""
        return max(self.parts, key=lambda part: part.u)

    def shares(self) -> tuple[tuple[Part, float], ...]:
        """Each part with its share of the sum of squares, largest first."""
        whole = self.u**2
        ranked = sorted(self.parts, key=lambda part: -part.u)
        return tuple((part, part.u**2 / whole if whole else 0.0) for part in ranked)

    def changed(self, name: str, limit: float) -> Budget:
        """The budget with the shop's own figure for one part."""
        if not any(part.name == name for part in self.parts):
            known = ", ".join(part.name for part in self.parts)
            raise refuse("budget", name, f"one of: {known}", "There is no part of that name.", "Take the name as it stands.")
        if not (math.isfinite(limit) and limit >= 0):
            raise refuse(name, limit, "a limit of 0 or more", "A limit has no sign.", "Write half the width of the range.")
        return replace(self, parts=tuple(replace(p, limit=limit) if p.name == name else p for p in self.parts))


@cites("JCGM 100:2008, 5.1.2", formula="u_c = √(Σ (c_i u_i)²)")
def combined(parts: tuple[float, ...]) -> float:
    """The root of the sum of squares."""
    return math.sqrt(math.fsum(part * part for part in parts))


@cites("JCGM 100:2008, G.4.1", formula="ν = u_c⁴/Σ (u_i⁴/ν_i)")
def effective_freedom(parts: tuple[tuple[float, float], ...]) -> float:
    """Degrees of freedom of a sum of parts (u, freedom)."""
    below = math.fsum(u**4 / freedom for u, freedom in parts if u and math.isfinite(freedom))
    return combined(tuple(u for u, _ in parts)) ** 4 / below if below else math.inf
