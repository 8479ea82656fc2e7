"""What all ways of dividing share: the move wanted, the error of the move made, and what it comes to at the work."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import ClassVar, Literal

from evenpitch.dividing.turns import move_text, turns_text
from evenpitch.quantity.units import ARCSEC_PER_TURN

MethodName = Literal["direct", "simple", "block", "compound", "differential", "pulses"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """What all ways of dividing share.

    `divisions`: spaces round the work, None for one move through an angle. `head_ratio`: crank turns per turn of the work.
    `wanted`: crank turns that one move ought to be, held against the frame of the head. `move_error`: made minus wanted.
    """

    name: ClassVar[MethodName]
    divisions: int | None
    head_ratio: Fraction
    wanted: Fraction
    move_error: Fraction = Fraction(0)

    def moves_made(self) -> int:
        """Moves until the work stands at its first space again; 1 for one angle."""
        return self.divisions or 1

    def at_work(self, crank_turns: Fraction) -> float:
        """Seconds of arc at the work of so many crank turns."""
        return float(crank_turns * ARCSEC_PER_TURN / self.head_ratio)

    @property
    def skip(self) -> int:
        """Spaces the work goes on at each move."""
        return 1

    @property
    def exact(self) -> bool:
        """Whether every space lies where it should."""
        return self.move_error == 0

    @property
    def closing_error_arcsec(self) -> float:
        """How far past (+) or short (-) of its start the work stands after all moves, at the work."""
        return self.at_work(self.moves_made() * self.move_error)

    @property
    def worst_error_arcsec(self) -> float:
        """Greatest distance of any space from its true place, space 1 taken as true. One angle: the error of its move."""
        return self.at_work(max(self.moves_made() - 1, 1) * abs(self.move_error))

    def crank(self) -> tuple[int, int, int] | None:
        """Whole turns, circle and spaces of one move of the crank; None where the crank is not used."""
        return None

    def moves_by_hand(self) -> int:
        """Things moved by hand at each index."""
        return 1

    def gears_to_fit(self) -> int:
        """Change gears to fit, idlers not counted."""
        return 0

    def words(self) -> str:
        """The move as a chart prints it."""
        raise NotImplementedError

    @property
    def proof(self) -> str:
        """One line of arithmetic that a person can follow with a pencil."""
        raise NotImplementedError

    def facts(self) -> dict[str, object]:
        """The method under the fixed keys of the machine-readable answer, exact numbers as text."""
        return {
            "method": self.name,
            "move_error": str(self.move_error),
            "closing_error_arcsec": self.closing_error_arcsec,
            "worst_error_arcsec": self.worst_error_arcsec,
            "exact": self.exact,
            "proof": self.proof,
            "words": self.words(),
        }

    def _told(self, made: str) -> str:
        """`made`: the sum of one move as text. Completes it to the whole turn, or says what is lacking."""
        total = self.moves_made() * self.wanted
        if self.divisions is None:
            return f"{made} = {turns_text(self.wanted)} turns{self._lacking()}"
        whole = f"{self.skip} x {turns_text(self.head_ratio)}" if self.skip > 1 else turns_text(total)
        return f"{self.divisions} x ({made}) = {whole} turns{self._lacking()}"

    def _lacking(self) -> str:
        if not self.move_error:
            return ""
        over = self.moves_made() * self.move_error
        return f" {'+' if over > 0 else '-'} {abs(over)} turn; {self.closes()}"

    def closes(self) -> str:
        """How the work comes round, in words."""
        error = self.closing_error_arcsec
        if not error:
            return "closes"
        return f'{"closes " if self.divisions else ""}{abs(error):.2f}" {"past" if error > 0 else "short"}'


@dataclass(frozen=True, slots=True, kw_only=True)
class Cranked(Way):
    """A way in which the crank moves whole turns and spaces on one circle."""

    whole_turns: int
    circle: int
    spaces: int

    def crank(self) -> tuple[int, int, int]:
        return self.whole_turns, self.circle, self.spaces

    def crank_turns(self) -> Fraction:
        """Turns of the crank against the plate in one move."""
        return self.whole_turns + Fraction(self.spaces, self.circle)

    def words(self) -> str:
        return move_text(*self.crank())

    def facts(self) -> dict[str, object]:
        return {
            **Way.facts(self),
            "whole_turns": self.whole_turns,
            "circle": self.circle,
            "spaces": self.spaces,
            "sector_holes": self.spaces + 1,
        }
