"""Dividing by hand without gears, as nouns: direct, simple, block, compound."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import ClassVar

from evenpitch.dividing.turns import move_text, sum_text, turns_text
from evenpitch.dividing.way import Cranked, MethodName, Way
from evenpitch.rig.head import Sense


@dataclass(frozen=True, slots=True, kw_only=True)
class Direct(Way):
    """The work turned by hand, worm out of mesh, and held by a pin in the plate on the spindle nose."""

    name: ClassVar[MethodName] = "direct"
    plate_holes: int
    spaces: int

    def words(self) -> str:
        return f"{self.spaces} of {self.plate_holes} on the spindle nose"

    @property
    def proof(self) -> str:
        if self.divisions is None:
            return f"{self.spaces}/{self.plate_holes} turn = {turns_text(Fraction(360 * self.spaces, self.plate_holes))} degrees"
        return f"{self.divisions} x {self.spaces} = {self.plate_holes} spaces"

    def facts(self) -> dict[str, object]:
        return {**Way.facts(self), "plate_holes": self.plate_holes, "spaces": self.spaces}


@dataclass(frozen=True, slots=True, kw_only=True)
class Simple(Cranked):
    """The crank alone, one space at a time."""

    name: ClassVar[MethodName] = "simple"

    @property
    def proof(self) -> str:
        return self._told(sum_text(*self.crank()))


@dataclass(frozen=True, slots=True, kw_only=True)
class Block(Cranked):
    """The crank alone, several spaces at a time: a count prime to the divisions, so that every space comes once."""

    name: ClassVar[MethodName] = "block"
    spaces_per_index: int

    @property
    def skip(self) -> int:
        return self.spaces_per_index

    def words(self) -> str:
        return f"every {_ordinal(self.skip)} space: {move_text(*self.crank())}"

    @property
    def proof(self) -> str:
        return self._told(sum_text(*self.crank()))

    def facts(self) -> dict[str, object]:
        return {**Cranked.facts(self), "spaces_per_index": self.spaces_per_index}


@dataclass(frozen=True, slots=True, kw_only=True)
class Compound(Cranked):
    """The crank on one circle, then crank and plate together on another circle of the same plate."""

    name: ClassVar[MethodName] = "compound"
    spaces_per_index: int
    plate_circle: int
    plate_spaces: int
    plate_sense: Sense

    @property
    def skip(self) -> int:
        return self.spaces_per_index

    def moves_by_hand(self) -> int:
        return 2

    def plate_turns(self) -> Fraction:
        """Turns of the plate in one move, + with the crank."""
        turns = Fraction(self.plate_spaces, self.plate_circle)
        return turns if self.plate_sense == "with" else -turns

    def words(self) -> str:
        skip = f"every {_ordinal(self.skip)} space: " if self.skip > 1 else ""
        way = "the same way" if self.plate_sense == "with" else "the other way"
        return f"{skip}{move_text(*self.crank())}, and the plate {self.plate_spaces} of {self.plate_circle} {way}"

    @property
    def proof(self) -> str:
        sign = "+" if self.plate_sense == "with" else "-"
        return self._told(f"{sum_text(*self.crank())} {sign} {self.plate_spaces}/{self.plate_circle}")

    def facts(self) -> dict[str, object]:
        return {
            **Way.facts(self),
            "spaces_per_index": self.spaces_per_index,
            "whole_turns": self.whole_turns,
            "crank": {"circle": self.circle, "spaces": self.spaces},
            "plate": {"circle": self.plate_circle, "spaces": self.plate_spaces, "sense": self.plate_sense},
        }


def _ordinal(number: int) -> str:
    if number % 100 in (11, 12, 13):
        return f"{number}th"
    return f"{number}{ {1: 'st', 2: 'nd', 3: 'rd'}.get(number % 10, 'th') }"
