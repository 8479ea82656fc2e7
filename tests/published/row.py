"""Row: one printed figure beside ours."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

MORE_DIGITS = 2
"""Digits of ours shown beyond those in print: enough to see how far apart they are, and no noise."""


@dataclass(frozen=True, slots=True)
class Row:
    """`printed` is as in print; `computed` ours; `tolerance` half the last printed digit, 0.0 for words and whole numbers."""

    source: str
    what: str
    printed: str
    computed: float | str
    tolerance: float
    held: str
    note: str = ""

    @property
    def agrees(self) -> bool:
        """Whether ours is the printed figure, within the tolerance."""
        if isinstance(self.computed, str):
            return self.computed == self.printed
        return abs(self.computed - float(self.printed)) <= self.tolerance * (1 + 1e-9)

    @property
    def computed_text(self) -> str:
        """Ours as the trust page shows it: a few digits more than the print has."""
        if isinstance(self.computed, str):
            return self.computed
        if "." not in self.printed and self.computed == int(self.computed):
            return str(int(self.computed))
        exponent = Decimal(self.printed).as_tuple().exponent
        assert isinstance(exponent, int), self.printed
        return f"{self.computed:.{max(0, -exponent) + MORE_DIGITS}f}"
