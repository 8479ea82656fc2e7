"""Row: one printed figure beside ours."""

from __future__ import annotations

from dataclasses import dataclass


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
