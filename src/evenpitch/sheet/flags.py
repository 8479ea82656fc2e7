"""Flags: findings numbered through a document, and which of them stand beside a figure."""

from __future__ import annotations

from dataclasses import dataclass

from evenpitch.quantity.figure import Figure
from evenpitch.quantity.finding import Finding, Weight, by_weight


@dataclass(frozen=True, slots=True)
class Flag:
    """A finding with its number in the document: stops first, then looks, then notes."""

    number: int
    finding: Finding

    @property
    def weight(self) -> Weight:
        """The weight, which is also the shape of the flag."""
        return self.finding.weight

    @property
    def name(self) -> str:
        """The accessible name, e.g. "stop 2"."""
        return f"{self.finding.weight} {self.number}"


def flagged(findings: tuple[Finding, ...]) -> tuple[Flag, ...]:
    """Findings in the order of their weight, numbered from 1."""
    return tuple(Flag(number, finding) for number, finding in enumerate(by_weight(findings), 1))


def beside(flags: tuple[Flag, ...], codes: tuple[str, ...], figure: Figure | None = None) -> tuple[Flag, ...]:
    """The flags that stand beside a figure: those of the codes it carries, and those of findings about it."""
    about = figure.name if figure else ""
    return tuple(flag for flag in flags if flag.finding.code in codes or (about and flag.finding.about == about))


def counted(flags: tuple[Flag, ...]) -> str:
    """How many of each weight, in words: "2 stops, 1 to look at, 3 notes"; "" for none."""
    many = {weight: sum(flag.weight == weight for flag in flags) for weight in ("stop", "look", "note")}
    words = []
    if many["stop"]:
        words.append(f"{many['stop']} stop{'s' * (many['stop'] > 1)}")
    if many["look"]:
        words.append(f"{many['look']} to look at")
    if many["note"]:
        words.append(f"{many['note']} note{'s' * (many['note'] > 1)}")
    return ", ".join(words)
