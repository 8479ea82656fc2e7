"""Finding: can be, but the person must know. A value on the plan, never raised."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

Weight = Literal["stop", "look", "note"]
"""stop: metal or person at risk; look: result doubtful; note: worth knowing."""

WEIGHTS: tuple[Weight, ...] = ("stop", "look", "note")

PRACTICE = "common practice"
OWN = "derived here"


_HYPHEN = re.compile(r"(?<![\w.,-])-(?=\d)")
"""A hyphen before a figure: there it is a minus. Not within a word, a range or an option."""


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


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of finding, a row of a table code by code. Braces in the texts are filled from the case."""

    weight: Weight
    says: str
    why: str
    do: str
    sources: tuple[str, ...] = (PRACTICE,)
    about: str = ""

    def of(self, code: str, **facts: object) -> Finding:
        """The finding of this kind with its texts filled from the facts of the case."""
        texts = (text.format(**facts) for text in (self.says, self.why, self.do, self.about))
        says, why, do, about = (_HYPHEN.sub("−", text) for text in texts)
        return Finding(code, self.weight, says, why, do, self.sources, about)


def by_weight(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Stops first, then looks, then notes; otherwise in the order found."""
    return tuple(sorted(findings, key=lambda finding: WEIGHTS.index(finding.weight)))
