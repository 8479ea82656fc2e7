"""The cutters to be weighed on one gear: those owned, each in the habits its maker may have had, and the standard sets."""

from __future__ import annotations

from dataclasses import dataclass

from evenpitch.cutting.choose import USUAL_OUTSIDE, CutterChoice, cutter_choices
from evenpitch.cutting.formcutters import SetOf, made_for_habits, standard_cutters
from evenpitch.gear.gear import Gear
from evenpitch.quantity.units import Millimetre
from evenpitch.rig.tools import Cutter, Numbering

USUAL_CORNER = 0.25
"""Radius of a tip corner whose own is not known, in modules; common practice."""

STANDARD_SETS: dict[str, tuple[Numbering, SetOf]] = {
    "dp8": ("dp", 8), "dp15": ("dp", 15), "m8": ("module", 8), "m15": ("module", 15),
}  # fmt: skip
"""The standard sets by the words that ask for them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """One cutter taken as made for one count. `key`: its address; `habit`: the habit that count comes from, "" where it is known.

    `choice`: the quick judgement of the plan, with printed range, traps and what keeps it from this gear at all.
    `usual`: that count is known, or is the usual one; `outside`: its diameter, the usual one where its own is not known.
    """

    key: str
    choice: CutterChoice
    made_for: int
    habit: str
    usual: bool
    owned: bool
    outside: Millimetre

    @property
    def cutter(self) -> Cutter:
        """The cutter itself."""
        return self.choice.cutter

    @property
    def unfit(self) -> tuple[str, ...]:
        """Why it can have no part in this gear; empty where it can be tried."""
        return self.choice.reasons if self.choice.tip is None else ()

    def name(self) -> str:
        """As it is marked."""
        return self.cutter.name()

    def words(self) -> str:
        """As it is marked, with the count it is taken as made for."""
        return f"{self.name()}, made for {self.made_for}"


def usual_outside(gear: Gear, cutters: tuple[Cutter, ...]) -> Millimetre:
    """Diameter for cutters whose own is not known: that of the first known one of this pitch, of any pitch, else the usual."""
    known = [cutter for cutter in cutters if cutter.outside is not None]
    alike = [cutter for cutter in known if abs(float(cutter.pitch.module()) / gear.module - 1) < 1e-6]
    return next((cutter.outside for cutter in (*alike, *known) if cutter.outside is not None), USUAL_OUTSIDE)


def standard_set(gear: Gear, words: str, owned: tuple[Cutter, ...]) -> tuple[Cutter, ...]:
    """A whole standard set of the gear's own pitch, as large as the cutters owned."""
    numbering, of = STANDARD_SETS[words]
    return standard_cutters(gear.pitch, gear.pressure_angle, numbering, of, usual_outside(gear, owned))


def held(
    gear: Gear, cutters: tuple[Cutter, ...], limit: Millimetre, *, owned: bool, taken: tuple[Held, ...] = ()
) -> tuple[Held, ...]:
    """Each cutter once for each habit. `taken`: those already there; one of the same form is not listed again."""
    outside = usual_outside(gear, cutters)
    found = list(taken)
    for choice in cutter_choices(gear, cutters, limit):
        for place, (teeth, habit) in enumerate(_habits(choice)):
            size = choice.cutter.outside if choice.cutter.outside is not None else outside
            one = Held(
                key=_key(choice, teeth, found),
                choice=choice,
                made_for=teeth,
                habit=habit,
                usual=place == 0,
                owned=owned,
                outside=size,
            )
            if owned or not any(_same_form(one, other) for other in taken):
                found.append(one)
    return tuple(found[len(taken) :])


def _habits(choice: CutterChoice) -> tuple[tuple[int, str], ...]:
    """The counts a cutter may be made for, each with where it comes from."""
    if choice.cutter.made_for is not None or choice.tip is None:
        return ((choice.made_for, ""),)
    found = made_for_habits(choice.cutter.number, choice.cutter.numbering)
    return tuple((habit.teeth, habit.words) for habit in found)


def _same_form(one: Held, other: Held) -> bool:
    alike = one.made_for == other.made_for and one.cutter.pitch.module() == other.cutter.pitch.module()
    return alike and one.outside == other.outside


def _key(choice: CutterChoice, teeth: int, found: list[Held]) -> str:
    """A word for an address, told apart from those before it."""
    name = f"{choice.cutter.name()} {teeth}".casefold().replace("½", ".5").replace("no. ", "no")
    plain = "-".join("".join(letter if letter.isalnum() or letter == "." else " " for letter in name).split())
    same = sum(one.key == plain or one.key.startswith(f"{plain}_") for one in found)
    return f"{plain}_{same + 1}" if same else plain


def corner_of(cutter: Cutter) -> Millimetre:
    """Radius of its tip corner, the usual one where it is not known."""
    if cutter.tip_corner is not None:
        return cutter.tip_corner
    return Millimetre(USUAL_CORNER * float(cutter.pitch.module()))
