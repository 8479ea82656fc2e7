"""Dividing by the motor, as nouns: on the worm shaft, or through the plate."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import ClassVar

from evenpitch.dividing.pulse_targets import targets_of
from evenpitch.dividing.turns import move_text, sum_text, turns_text
from evenpitch.dividing.way import Cranked, MethodName, Way
from evenpitch.quantity.units import ARCSEC_PER_TURN
from evenpitch.rig.head import Sense


@dataclass(frozen=True, slots=True, kw_only=True)
class Pulses(Way):
    """The motor on the worm shaft, sent to a whole pulse counted from the datum for each space, never from the space before.

    `counts`: (pulses of a move, how many moves), rising. `worst_space`: greatest distance of a space from its place, in pulses.
    `closing`: pulses over at the end, where a turn of the work is not a whole number of them.
    """

    name: ClassVar[MethodName] = "pulses"
    pulses_per_turn: Fraction
    counts: tuple[tuple[int, int], ...]
    worst_space: Fraction
    closing: Fraction = Fraction(0)

    @property
    def exact(self) -> bool:
        return self.worst_space == 0 and self.closing == 0

    @property
    def closing_error_arcsec(self) -> float:
        return float(self.closing * ARCSEC_PER_TURN / self.pulses_per_turn)

    @property
    def worst_error_arcsec(self) -> float:
        return float(self.worst_space * ARCSEC_PER_TURN / self.pulses_per_turn)

    def moves_by_hand(self) -> int:
        return 0

    def targets(self) -> tuple[int, ...]:
        """Where each space lies, in pulses from the datum; the last is the datum come round again. One angle: 0 and its pulse."""
        if self.divisions is None:
            return (0, self.counts[0][0])
        return targets_of(self.pulses_per_turn, self.divisions)

    def words(self) -> str:
        return " and ".join(f"{moves} x {pulses}" for pulses, moves in self.counts) + " pulses"

    @property
    def proof(self) -> str:
        if self.divisions is None:
            return f"{turns_text(self.wanted)} crank turns = {turns_text(self._wanted_pulses())} pulses; sent {self.counts[0][0]}"
        total = sum(pulses * moves for pulses, moves in self.counts)
        moved = " + ".join(f"{moves} x {pulses}" for pulses, moves in self.counts)
        return f"{moved} = {total} pulses; one turn is {turns_text(self.pulses_per_turn)}"

    def facts(self) -> dict[str, object]:
        return {
            **Way.facts(self),
            "pulses_per_turn": self.pulses_per_turn.numerator
            if self.pulses_per_turn.denominator == 1
            else str(self.pulses_per_turn),
            "moves": {str(pulses): moves for pulses, moves in self.counts},
            "arcsec_per_pulse": float(ARCSEC_PER_TURN / self.pulses_per_turn),
        }

    def _wanted_pulses(self) -> Fraction:
        return self.wanted * self.pulses_per_turn / self.head_ratio


@dataclass(frozen=True, slots=True, kw_only=True)
class PlatePulses(Cranked):
    """The crank against a plate that the motor turns: what a train would add, the motor adds, sent to absolute pulses of the plate.

    `pulses_in_all`: of the plate in one turn of the work, with its sign (+ with the crank), exact. `counts`, `worst_space`: as in `Pulses`.
    """

    name: ClassVar[MethodName] = "differential"
    pulses_per_turn: Fraction
    pulses_in_all: Fraction
    counts: tuple[tuple[int, int], ...]
    worst_space: Fraction
    closing: Fraction = Fraction(0)

    @property
    def exact(self) -> bool:
        return self.worst_space == 0 and self.closing == 0

    @property
    def plate_sense(self) -> Sense:
        """Which way the motor turns the plate."""
        return "with" if self.pulses_in_all > 0 else "against"

    @property
    def closing_error_arcsec(self) -> float:
        return float(self.closing * ARCSEC_PER_TURN / self.pulses_per_turn)

    @property
    def worst_error_arcsec(self) -> float:
        return float(self.worst_space * ARCSEC_PER_TURN / self.pulses_per_turn)

    def approximate_number(self) -> Fraction:
        """The count that the crank move alone would give."""
        return self.head_ratio / self.crank_turns()

    def plate_turns_per_work_turn(self) -> Fraction:
        """Turns of the plate in one turn of the work, + with the crank."""
        return self.pulses_in_all * self.head_ratio / self.pulses_per_turn

    def targets(self) -> tuple[int, ...]:
        """Pulses of the plate from the datum at each space, with their sign; nothing but the dividing (a helix comes on top)."""
        sign = 1 if self.pulses_in_all > 0 else -1
        return tuple(sign * target for target in targets_of(abs(self.pulses_in_all), self.moves_made()))

    def words(self) -> str:
        way = "with" if self.pulses_in_all > 0 else "against"
        moved = " and ".join(f"{moves} x {abs(pulses)}" for pulses, moves in self.counts)
        return f"{move_text(*self.crank())}; the motor turns the plate {way} the crank, {moved} pulses"

    @property
    def proof(self) -> str:
        crank, plate = self.moves_made() * self.crank_turns(), self.plate_turns_per_work_turn()
        verb = "plate adds" if plate > 0 else "plate takes back"
        moved = f"{self.moves_made()} x ({sum_text(*self.crank())}) = {turns_text(crank)} turns"
        return f"{moved}; {verb} {turns_text(abs(plate))}; total {turns_text(crank + plate)}"

    def facts(self) -> dict[str, object]:
        return {
            **Cranked.facts(self),
            "by": "motor",
            "approximate_number": str(self.approximate_number()),
            "drivers": [],
            "driven": [],
            "ratio": str(abs(self.plate_turns_per_work_turn())),
            "plate_sense": self.plate_sense,
            "mountings": [],
            "pulses_per_turn": str(self.pulses_per_turn),
            "plate_pulses": str(self.pulses_in_all),
            "moves": {str(pulses): moves for pulses, moves in self.counts},
        }
