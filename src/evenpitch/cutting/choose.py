"""Which cutter will do: each one owned, with its error at the tip of this gear, best first."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from evenpitch.cutting.flycutter import SpaceForm, flank_point
from evenpitch.cutting.formcutters import (
    CutterNumber,
    Habit,
    NumberingTrap,
    made_for_habits,
    number_for,
    numbering_trap,
    range_of,
    read_cutter_number,
)
from evenpitch.cutting.helicaltip import helical_tip_error
from evenpitch.cutting.tiperror import TIP_HEIGHT, floor_error, substitute_error, tip_error
from evenpitch.gear.gear import Gear
from evenpitch.gear.rack import rack_addendum, rack_dedendum
from evenpitch.gear.virtual import cutter_form_teeth, virtual_teeth
from evenpitch.quantity.units import Millimetre
from evenpitch.rig.tools import Cutter

USUAL_OUTSIDE = Millimetre(63.0)
"""Diameter taken for a cutter whose own is not known; common practice for module 1 to 3."""

SUBSTITUTE_WITHIN = 0.02
"""A cutter whose pitch differs by less than this share may stand in; common practice."""

USUAL_LIMIT = 0.02
"""Tip error allowed, as a share of the module, where no class is named; common practice."""

HEAVY_WEIGHS = 3.0
"""A tip left heavy may foul the mate: its error counts this many times that of a relieved one when cutters are ranked."""


FOULS = 0.1
"""A tip left heavier than this share of the module on a count outside the cutter's range is a wrong number: it is more than twice the
backlash of a usual pair (0.04 of the module), so the tips cannot enter the spaces of the mate. Derived here."""


@dataclass(frozen=True, slots=True)
class HabitError:
    """What the tip error would be if the cutter were made for that count."""

    habit: Habit
    tip: Millimetre


@dataclass(frozen=True, slots=True, kw_only=True)
class CutterChoice:
    """One cutter on this gear. Errors in mm, positive = metal missing; None where the cutter cannot do the work.

    `usable` False: it must not be used, `reasons` say why. `thickness_error`: of the space at the pitch line when the cutter of a
    neighbouring pitch is sunk to the gear's own depth. `diameter_known` False: the usual diameter was taken.
    """

    cutter: Cutter
    form_teeth: float
    virtual_teeth: float
    diameter_known: bool
    range: CutterNumber
    wanted: CutterNumber | None
    in_range: bool
    made_for: int
    usable: bool
    tip: Millimetre | None
    floor: Millimetre | None
    habits: tuple[HabitError, ...]
    trap: NumberingTrap | None
    substitute: bool
    thickness_error: Millimetre | None
    verdict: str
    reasons: tuple[str, ...]

    @property
    def tip_um(self) -> float | None:
        """The error at the tip in micrometres."""
        return None if self.tip is None else self.tip * 1000

    def name(self) -> str:
        """As it is marked, with the count its form is made for."""
        return f"{self.cutter.name()}, made for {self.made_for}"


def form_teeth(gear: Gear, outside: Millimetre | None) -> float:
    """Teeth a cutter for this gear should be made for; the diameter of a disc cutter counts only on a helix."""
    return cutter_form_teeth(gear, outside if outside is not None else USUAL_OUTSIDE)


def cutter_choices(gear: Gear, cutters: tuple[Cutter, ...], tip_limit: Millimetre | None = None) -> tuple[CutterChoice, ...]:
    """Every cutter judged on this gear, best first; those that cannot be used stand last.

    `tip_limit`: the form tolerance of the class wanted, mm, for the words of the verdict; None where no class is named.
    """
    found = [_judge(gear, cutter, tip_limit) for cutter in cutters]
    return tuple(sorted(found, key=_rank))


def _rank(choice: CutterChoice) -> tuple[bool, bool, float]:
    if choice.tip is None:
        return (not choice.usable, choice.substitute, math.inf)
    weighed = choice.tip if choice.tip >= 0 else -HEAVY_WEIGHS * choice.tip
    return (not choice.usable, choice.substitute, weighed)


def _judge(gear: Gear, cutter: Cutter, limit: Millimetre | None) -> CutterChoice:
    wanted_teeth = form_teeth(gear, cutter.outside)
    row = range_of(cutter.number, cutter.numbering)
    whole = read_cutter_number(cutter.number).denominator == 1
    habits = made_for_habits(cutter.number, cutter.numbering)
    made_for = cutter.made_for or habits[0].teeth
    trap = numbering_trap(cutter.number, cutter.numbering, wanted_teeth)
    off = float(cutter.pitch.module()) / gear.module - 1
    substitute = abs(off) > 1e-6
    faults = _faults(gear, cutter, off, trap)
    in_range = row.holds(wanted_teeth)
    tip = None if faults else _tip(gear, cutter, made_for)
    allowed = USUAL_LIMIT * gear.module if limit is None else limit
    wrong_number = tip is not None and not in_range and (tip > allowed or tip < -FOULS * gear.module)
    return CutterChoice(
        cutter=cutter,
        form_teeth=wanted_teeth,
        virtual_teeth=virtual_teeth(gear),
        diameter_known=cutter.outside is not None,
        range=row,
        wanted=number_for(wanted_teeth, cutter.numbering, 8 if whole else 15),
        in_range=in_range,
        made_for=made_for,
        usable=not faults and not wrong_number,
        tip=tip,
        floor=None if faults or substitute or gear.helix else _floor(gear, made_for),
        habits=() if faults else tuple(HabitError(habit, _tip(gear, cutter, habit.teeth)) for habit in habits),
        trap=trap,
        substitute=substitute and not faults,
        thickness_error=Millimetre(math.pi / 2 * gear.module * off) if substitute and not faults else None,
        verdict="wrong number for this count" if wrong_number else _verdict(faults, tip, limit, in_range),
        reasons=faults or _remarks(gear, cutter, row, wanted_teeth, off),
    )


def _faults(gear: Gear, cutter: Cutter, off: float, trap: NumberingTrap | None) -> tuple[str, ...]:
    faults = []
    if abs(cutter.pressure_angle - gear.pressure_angle) > math.radians(0.05):
        own, wanted = math.degrees(cutter.pressure_angle), math.degrees(gear.pressure_angle)
        faults.append(f"its pressure angle is {own:.4g}°, the gear's {wanted:.4g}°")
    if abs(off) > SUBSTITUTE_WITHIN:
        faults.append(f"its pitch is {cutter.pitch.words()}, the gear's {gear.pitch.words()}")
    if trap is not None:
        faults.append(trap.words())
    return tuple(faults)


def _tip(gear: Gear, cutter: Cutter, made_for: int) -> Millimetre:
    addendum = rack_addendum(gear.depth, gear.module)
    if abs(cutter.pitch.module() / gear.module - 1) > 1e-6:
        height = Millimetre(TIP_HEIGHT * addendum)
        teeth = form_teeth(gear, cutter.outside)
        return substitute_error(teeth, gear.module, gear.pressure_angle, made_for, cutter.pitch.module(), height)[0]
    if gear.helix:
        return helical_tip_error(gear, made_for, cutter.outside if cutter.outside is not None else USUAL_OUTSIDE)
    return tip_error(gear.teeth, made_for, gear.module, gear.pressure_angle, addendum)


def _floor(gear: Gear, made_for: int) -> Millimetre:
    return floor_error(gear.teeth, made_for, gear.module, gear.pressure_angle, rack_dedendum(gear.depth, gear.module))


def _verdict(faults: tuple[str, ...], tip: Millimetre | None, limit: Millimetre | None, in_range: bool) -> str:
    if faults or tip is None:
        return "not for this gear"
    within = limit is None or abs(tip) <= limit
    if abs(tip) < 0.0005:
        return "right form"
    if tip > 0:
        words = "tips relieved" if limit is None else "tips relieved, inside the limit"
        return words if within else "above the limit: runs, noisy"
    if limit is not None and within:
        return "tips heavy, inside the limit: check the tip clearance with the mate"
    if limit is None and in_range:
        return "tips heavy: check the tip clearance with the mate"
    return "leaves tips heavy: may foul the mate; avoid"


def _remarks(gear: Gear, cutter: Cutter, row: CutterNumber, wanted_teeth: float, off: float) -> tuple[str, ...]:
    remarks = []
    if off and abs(off) > 1e-6:
        remarks.append(f"pitch {100 * off:+.2f} % off: {cutter.pitch.words()} for {gear.pitch.words()}")
    if not row.holds(wanted_teeth):
        remarks.append(f"{wanted_teeth:.4g} teeth are outside its range, {row.range_words()}")
    if gear.helix and cutter.outside is None:
        remarks.append(f"diameter not known: {USUAL_OUTSIDE:.0f} mm taken")
    if cutter.made_for is None:
        remarks.append(f"taken as made for {row.least}, the lowest of its range")
    tall = rack_addendum(gear.depth, gear.module)
    form = SpaceForm(wanted_teeth, gear.module, gear.pressure_angle, tall, rack_dedendum(gear.depth, gear.module))
    across = 2 * flank_point(form, Millimetre(wanted_teeth * gear.module / 2 + tall)).half_width
    if cutter.width is not None and cutter.width < across:
        remarks.append(f"{cutter.width:.3f} mm wide, the space at the outside {across:.3f}")
    if gear.shift:
        remarks.append("a numbered cutter is made for a gear without profile shift")
    if Fraction(wanted_teeth) < 12:
        remarks.append("fewer than 12 teeth: no number is made for it")
    return tuple(remarks)
