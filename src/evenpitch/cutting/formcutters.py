"""Numbered gear cutters: which counts each number is for, in the two ways of numbering, and what its form is made for."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Literal

from evenpitch.quantity.pitch import Pitch
from evenpitch.quantity.refusal import refuse
from evenpitch.quantity.units import Millimetre, Radian
from evenpitch.rig.tools import Cutter, Numbering
from evenpitch.sources.citations import cites
from evenpitch.sources.printed import printed

SetOf = Literal[8, 15]
"""Cutters in a set: 8 whole numbers, or 15 with the half numbers between."""

_HALVES = {"½": ".5", " 1/2": ".5", "-1/2": ".5"}


@dataclass(frozen=True, slots=True)
class CutterNumber:
    """One number of a set. `most` None: to the rack. `number` as it is marked: "2", "1½"."""

    number: str
    numbering: Numbering
    least: int
    most: int | None

    def holds(self, form_teeth: float) -> bool:
        """Whether a count, whole or not, falls in the range: below the least of the next number still counts."""
        return form_teeth >= self.least and (self.most is None or form_teeth < self.most + 1)

    def words(self) -> str:
        """The trade's words: "No. 2 (55–134)", "No. 1 (135–rack)"."""
        return f"No. {self.number} ({self.range_words()})"

    def range_words(self) -> str:
        """The range alone: "55–134", "135–rack", "13"."""
        if self.most is None:
            return f"{self.least}–rack"
        return str(self.least) if self.least == self.most else f"{self.least}–{self.most}"


@dataclass(frozen=True, slots=True)
class Habit:
    """One habit of naming the count that a number is made for."""

    teeth: int
    words: str
    source: str


@cites("Practical Treatise on Milling and Milling Machines, p. 149", "common practice", formula="module number = 9 − DP number")
def cutter_set(numbering: Numbering, set_of: SetOf = 8) -> tuple[CutterNumber, ...]:
    """All numbers of a set, largest counts first. In a set of 15 each range ends where the next begins.

    The diametral-pitch ranges are printed; module sets are numbered the other way round, which is common practice.
    """
    return _set(numbering, set_of)


@cache
def _set(numbering: Numbering, set_of: SetOf) -> tuple[CutterNumber, ...]:
    table = printed("cutter_ranges")
    rows = sorted(table["whole"] + (table["half"] if set_of == 15 else []), key=lambda row: -row["least"])
    found: list[CutterNumber] = []
    for row in rows:
        number = Fraction(row["number"]) if numbering == "dp" else 9 - Fraction(row["number"])
        most = found[-1].least - 1 if found else None
        found.append(CutterNumber(number_words(number), numbering, row["least"], most))
    return tuple(found)


def number_words(number: Fraction) -> str:
    """A cutter number as it is marked: "2", "1½"."""
    whole, half = divmod(number, 1)
    return f"{whole}½" if half else str(whole)


def read_cutter_number(text: str) -> Fraction:
    """The number from its mark: "2", "No. 2", "1½", "1 1/2", "1.5". Refused where it is none of the fifteen."""
    plain = text.strip().lower().removeprefix("no").strip(" .")
    for word, half in _HALVES.items():
        plain = plain.replace(word, half)
    try:
        number = Fraction(plain)
    except (ValueError, ZeroDivisionError):
        number = Fraction(0)
    if not 1 <= number <= 8 or number.denominator > 2:
        raise refuse(
            "cutter, number",
            text,
            "1 to 8, or a half number between",
            "The mark may be a pitch or a count of teeth.",
            "Read the number beside the range on the side of the cutter.",
        )
    return number


def range_of(number: str, numbering: Numbering, set_of: SetOf | None = None) -> CutterNumber:
    """What a number is for. Where the set is not named, a whole number has the range of a set of 8, a half number that of 15."""
    wanted = read_cutter_number(number)
    size: SetOf = set_of or (8 if wanted.denominator == 1 else 15)
    words = number_words(wanted)
    for row in cutter_set(numbering, size):
        if row.number == words:
            return row
    raise refuse(
        "cutter, number", number, "a whole number in a set of 8", "Half numbers belong to a set of 15.", "Name the set of 15."
    )


def number_for(form_teeth: float, numbering: Numbering, set_of: SetOf = 8) -> CutterNumber | None:
    """The number whose range holds a count of teeth, whole or not; None below 12, where no set begins."""
    return next((row for row in cutter_set(numbering, set_of) if form_teeth >= row.least), None)


@cites("common practice", "Modern Machine-Shop Practice", formula="lowest of the range; or Rose's counts for Nos. 1 to 8")
def made_for_habits(number: str, numbering: Numbering) -> tuple[Habit, ...]:
    """The counts a number may be made for, the usual one first. Sources disagree, so both are shown."""
    row = range_of(number, numbering)
    habits = [Habit(row.least, "lowest of its range", "common practice")]
    table = printed("cutter_counts")
    own = read_cutter_number(number)
    in_dp = own if numbering == "dp" else 9 - own
    if in_dp.denominator == 1:
        habits.append(Habit(table["teeth"][int(in_dp) - 1], "after Rose", table["source"]))
    return tuple(habits)


@dataclass(frozen=True, slots=True)
class NumberingTrap:
    """A number that would be right in the other way of numbering. `own`: what it is for; `wanted`: what the count needs."""

    own: CutterNumber
    wanted: CutterNumber
    other: CutterNumber
    form_teeth: float

    def words(self) -> str:
        """The line that helps, with both numbers."""
        here, there = ("module", "DP") if self.own.numbering == "module" else ("DP", "module")
        return (
            f"In a {here} set No. {self.own.number} is for {self.own.range_words()} teeth. You need No. {self.wanted.number} "
            f"for {self.form_teeth:.4g}. In a {there} set it would be No. {self.other.number}."
        )


def numbering_trap(number: str, numbering: Numbering, form_teeth: float) -> NumberingTrap | None:
    """The trap, where the number holds the count only if it is read in the other numbering; else None."""
    size: SetOf = 8 if read_cutter_number(number).denominator == 1 else 15
    own = range_of(number, numbering, size)
    other = range_of(number, "dp" if numbering == "module" else "module", size)
    wanted = number_for(form_teeth, numbering, size)
    if wanted is None or own.holds(form_teeth) or not other.holds(form_teeth):
        return None
    return NumberingTrap(own, wanted, other, form_teeth)


def standard_cutters(
    pitch: Pitch, pressure_angle: Radian, numbering: Numbering, set_of: SetOf = 8, outside: Millimetre | None = None
) -> tuple[Cutter, ...]:
    """A whole set as cutters, for a maker who owns none yet; their form is made for the lowest of each range."""
    return tuple(
        Cutter(
            pitch=pitch,
            pressure_angle=pressure_angle,
            number=row.number,
            numbering=numbering,
            made_for=row.least,
            outside=outside,
        )
        for row in cutter_set(numbering, set_of)
    )
