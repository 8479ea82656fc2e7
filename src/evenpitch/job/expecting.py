"""What was expected beside what was found: the prediction of the rig held against the readings of the gear."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Literal

from evenpitch.job.judging import Verdict
from evenpitch.job.predicting import Prediction

Stands = Literal["less", "as expected", "more"]


@dataclass(frozen=True, slots=True)
class Beside:
    """One characteristic, µm: half of the gears of this rig lie below `p50`, 95 of 100 below `p95`; found `value` ± `U`.

    `stands`: "more" where the reading less its U lies beyond 95 of 100, "less" where it lies, U and all, under half of them.
    """

    name: str
    words: str
    p50: float
    p95: float
    value: float
    U: float

    @property
    def stands(self) -> Stands:
        """Whether the rig as described explains it."""
        if self.value - self.U > self.p95:
            return "more"
        return "less" if self.value + self.U < self.p50 else "as expected"

    def facts(self) -> dict[str, Any]:
        """Under the fixed keys of the machine-readable answer."""
        return {"p50": self.p50, "p95": self.p95, "value": self.value, "U": self.U, "stands": self.stands}


@dataclass(frozen=True, slots=True)
class Expectation:
    """Every characteristic that was both predicted and read; `measured`: the head's waves come from its map, not from usual ones."""

    rows: tuple[Beside, ...]
    measured: bool
    unknown: int

    def more(self) -> tuple[Beside, ...]:
        """What the rig as described does not explain."""
        return tuple(row for row in self.rows if row.stands == "more")


def beside(verdict: Verdict, found: Prediction) -> Expectation:
    """The readings round a gear beside the prediction of that gear on its rig."""
    quantiles = {q.name: q for q in found.expected.quantiles}
    rows = tuple(
        Beside(one.name, one.words, quantiles[one.name].p50, quantiles[one.name].p95, one.value, one.U)
        for one in verdict.deciding()
        if one.name in quantiles
    )
    return Expectation(rows, found.filled.measured, len(found.doubts))
