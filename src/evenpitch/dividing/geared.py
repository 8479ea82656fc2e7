"""Dividing with the plate geared to the spindle, as a noun."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import ClassVar

from evenpitch.dividing.trains import Mounting, Train, mountings, train_words
from evenpitch.dividing.turns import move_text, sum_text, turns_text
from evenpitch.dividing.way import Cranked, MethodName
from evenpitch.rig.head import Sense


@dataclass(frozen=True, slots=True, kw_only=True)
class Differential(Cranked):
    """The crank against a plate that change gears turn from the spindle as the work goes round.

    `idlers`: how many, by the head's own trial; None where the head was never tried. `stud_clearance`: as the mountings were judged.
    """

    name: ClassVar[MethodName] = "differential"
    train: Train
    plate_sense: Sense
    stud_clearance: int
    idlers: int | None = None

    def approximate_number(self) -> Fraction:
        """The count that the crank move alone would give."""
        return self.head_ratio / self.crank_turns()

    def plate_turns_per_work_turn(self) -> Fraction:
        """Turns of the plate in one turn of the work, + with the crank."""
        ratio = self.train.ratio()
        return ratio if self.plate_sense == "with" else -ratio

    def mountings(self) -> tuple[Mounting, ...]:
        """The ways of putting the train up that clear."""
        return mountings(self.train, self.stud_clearance)

    def train_words(self) -> str:
        """Drivers : driven in the order of a mounting that clears."""
        return train_words(self.train, self.stud_clearance)

    def gears_to_fit(self) -> int:
        return self.train.gears()

    def test(self) -> str:
        """What to try before the first space, instead of trusting a count of idlers."""
        return plate_test(self.plate_turns_per_work_turn())

    def words(self) -> str:
        way = "plate with the crank" if self.plate_sense == "with" else "plate against the crank"
        return f"{move_text(*self.crank())}; gears {self.train_words()}, {way}"

    @property
    def proof(self) -> str:
        crank, plate = self.moves_made() * self.crank_turns(), self.plate_turns_per_work_turn()
        verb = "plate adds" if plate > 0 else "plate takes back"
        moved = f"{self.moves_made()} x ({sum_text(*self.crank())}) = {turns_text(crank)} turns; {verb} {turns_text(abs(plate))}"
        total = turns_text(crank + plate) if self.exact else f"{float(crank + plate):.6f}; {self.closes()}"
        return f"{moved}; total {total}"

    def facts(self) -> dict[str, object]:
        return {
            **Cranked.facts(self),
            "approximate_number": str(self.approximate_number()),
            "drivers": list(self.train.drivers),
            "driven": list(self.train.driven),
            "ratio": str(self.train.ratio()),
            "plate_sense": self.plate_sense,
            "mountings": [[list(pair) for pair in mounting] for mounting in self.mountings()],
            "idlers": self.idlers,
            "test": self.test(),
        }


def plate_test(plate_turns: Fraction) -> str:
    """The trial of a geared plate in words; `plate_turns` per turn of the work, + with the crank."""
    way = "the same way as the crank" if plate_turns > 0 else "against the crank"
    count = turns_text(abs(plate_turns))
    times = "once" if count == "1" else f"{count} times"
    return f"turn the crank through one work turn: the plate must turn {times} {way}"
