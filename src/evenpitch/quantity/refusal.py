"""Refusal: the one exception of ours. What was given cannot be; it says what, what was expected, the likely reason, what to do."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing that cannot be. `field` is its name as typed in a file or form, e.g. "gear 1, teeth"."""

    field: str
    given: str
    expected: str
    likely: str
    do: str

    def __str__(self) -> str:
        given = f" {self.given!r}" if self.given else ""
        return f"{self.field}{given}: expected {self.expected}. {self.likely} {self.do}".strip()


class Refusal(Exception):
    """Input that cannot be answered; all faults at once, nothing written."""

    def __init__(self, *faults: Fault) -> None:
        super().__init__("; ".join(map(str, faults)))
        self.faults = faults


def refuse(field: str, given: object, expected: str, likely: str, do: str) -> Refusal:
    """A refusal of one fault, to be raised by the caller."""
    return Refusal(Fault(field, str(given)[:80], expected, likely, do))
