"""Finding: can be, but the person must know. A value on the plan, never raised."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Weight = Literal["stop", "look", "note"]
"""stop: metal or person at risk; look: result doubtful; note: worth knowing."""

WEIGHTS: tuple[Weight, ...] = ("stop", "look", "note")


@dataclass(frozen=True, slots=True)
class Finding:
    """What is so, in figures (`says`); why it matters; what to do. `about` names the figure or part it stands beside."""

    code: str
    weight: Weight
    says: str
    why: str
    do: str
    sources: tuple[str, ...] = ()
    about: str = ""


def by_weight(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Stops first, then looks, then notes; otherwise in the order found."""
    return tuple(sorted(findings, key=lambda finding: WEIGHTS.index(finding.weight)))
