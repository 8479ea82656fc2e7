"""Choose the cutter: the drawer judged on this gear, the standard sets beside it, and what the person must know."""

from __future__ import annotations

import math
from dataclasses import dataclass

from evenpitch.cutting.choose import USUAL_OUTSIDE, CutterChoice, cutter_choices, form_teeth
from evenpitch.cutting.formcutters import number_for, standard_cutters
from evenpitch.cutting.speeds import USUAL_TEETH
from evenpitch.gear.gear import Gear
from evenpitch.gear.virtual import virtual_teeth
from evenpitch.job.findings import finding
from evenpitch.job.order import Order
from evenpitch.quantity.finding import Finding
from evenpitch.quantity.units import Millimetre
from evenpitch.rig.tools import Numbering

SMALLEST_NUMBERED = 12
"""No numbered cutter is made for fewer teeth; common practice."""


@dataclass(frozen=True, slots=True)
class Tooling:
    """`owned`: the drawer, best first; `standard`: what the drawer lacks of the usual set of this pitch.

    `chosen`: the one the plan reckons with. `outside` (mm) and `teeth` are those reckoned with, `assumed` where the cutter's own are
    not known.
    """

    owned: tuple[CutterChoice, ...]
    standard: tuple[CutterChoice, ...]
    chosen: CutterChoice | None
    outside: Millimetre
    teeth: int
    assumed: bool

    def all(self) -> tuple[CutterChoice, ...]:
        """The drawer first, then the standard set."""
        return self.owned + self.standard


def tooling(order: Order, gear: Gear, tip_limit: Millimetre, cls: int) -> tuple[Tooling, tuple[Finding, ...]]:
    """The cutters for one gear of the order. `tip_limit`: the form tolerance of the class, mm."""
    owned = cutter_choices(gear, order.rig.cutters, tip_limit)
    numbering: Numbering = "module" if gear.pitch.kind == "module" else "dp"
    outside = next((cutter.outside for cutter in order.rig.cutters if cutter.outside is not None), None)
    standard = cutter_choices(gear, standard_cutters(gear.pitch, gear.pressure_angle, numbering, 8, outside), tip_limit)
    standard = tuple(choice for choice in standard if not any(_alike(choice, one) for one in owned))
    chosen, findings = _chosen(order, gear, owned, standard)
    cutter = chosen.cutter if chosen else None
    size = cutter.outside if cutter and cutter.outside else USUAL_OUTSIDE
    teeth = cutter.teeth if cutter and cutter.teeth else USUAL_TEETH
    assumed = not (cutter and cutter.outside and cutter.teeth)
    made = Tooling(owned, standard, chosen, size, teeth, assumed)
    return made, (*findings, *_about(made, gear, tip_limit, cls))


def _chosen(
    order: Order, gear: Gear, owned: tuple[CutterChoice, ...], standard: tuple[CutterChoice, ...]
) -> tuple[CutterChoice | None, list[Finding]]:
    wanted = order.choice.cutter
    if wanted is not None:
        named = [choice for choice in owned if _bare(wanted) in (_bare(choice.cutter.name()), _bare(choice.name()))]
        if named:
            return named[0], _faults(named[0], gear)
        drawer = ", ".join(choice.cutter.name() for choice in owned) or "an empty drawer"
        return _best(owned, standard), [finding("cutter-unknown", cutter=wanted, drawer=drawer)]
    usable = [choice for choice in owned if choice.usable and not choice.substitute]
    if usable:
        return usable[0], []
    best = _best(owned, standard)
    return best, [_none_owned(gear, owned, best)]


def _alike(one: CutterChoice, other: CutterChoice) -> bool:
    """Whether two cutters bear the same mark in the same set: one that lies in the drawer is not offered to be borrowed as well."""
    return (one.cutter.name(), one.cutter.numbering) == (other.cutter.name(), other.cutter.numbering)


def _best(owned: tuple[CutterChoice, ...], standard: tuple[CutterChoice, ...]) -> CutterChoice | None:
    return next((choice for choice in (*owned, *standard) if choice.usable), None)


def _bare(name: str) -> str:
    return "".join(name.casefold().replace("no.", "").replace("number", "").split())


def _none_owned(gear: Gear, owned: tuple[CutterChoice, ...], best: CutterChoice | None) -> Finding:
    outside = next((choice.cutter.outside for choice in owned if choice.cutter.outside), None)
    teeth = form_teeth(gear, outside)
    numbering: Numbering = "module" if gear.pitch.kind == "module" else "dp"
    number = number_for(max(teeth, SMALLEST_NUMBERED), numbering)
    return finding(
        "cutter-none",
        pitch=gear.pitch.words(),
        angle=f"{math.degrees(gear.pressure_angle):.6g}°",
        teeth=f"{teeth:.1f}".removesuffix(".0"),
        borrow=_borrowed(number.number if number else "8", numbering, best),
    )


def _borrowed(number: str, numbering: Numbering, best: CutterChoice | None) -> str:
    """The cutter that was taken, and the number of the tables where that is another."""
    if best is None:
        return f"No. {number} of a {_set(numbering)} set"
    if best.cutter.number == number and best.cutter.numbering == numbering:
        return best.cutter.name()
    return f"{best.cutter.name()}, of the least error here (the tables say No. {number})"


def _set(numbering: Numbering) -> str:
    return "module" if numbering == "module" else "DP"


def _faults(choice: CutterChoice, gear: Gear) -> list[Finding]:
    """Why a cutter that was asked for must not be used."""
    found = []
    cutter = choice.cutter
    if abs(cutter.pressure_angle - gear.pressure_angle) > math.radians(0.05):
        own, wanted = (f"{math.degrees(angle):.6g}°" for angle in (cutter.pressure_angle, gear.pressure_angle))
        found.append(finding("cutter-other-angle", cutter=cutter.name(), angle=own, wanted=wanted))
    if not choice.usable and not choice.substitute and abs(cutter.pitch.module() / gear.module - 1) > 1e-6:
        found.append(
            finding(
                "cutter-other-pitch",
                cutter=cutter.name(),
                module=float(cutter.pitch.module()),
                wanted=float(gear.module),
                pitch=gear.pitch.words(),
            )
        )
    if choice.trap is not None or (not choice.usable and not found):
        found.append(
            finding(
                "cutter-wrong-number",
                set=_set(cutter.numbering),
                number=cutter.number,
                range=choice.range.range_words(),
                teeth=f"{choice.form_teeth:.1f}".removesuffix(".0"),
                wanted=choice.wanted.number if choice.wanted else "none",
            )
        )
    return found


def _about(made: Tooling, gear: Gear, tip_limit: Millimetre, cls: int) -> list[Finding]:
    found: list[Finding] = []
    choice = made.chosen
    if made.assumed:
        found.append(finding("cutter-size-assumed", outside=float(made.outside), teeth=made.teeth))
    if choice is None:
        return found
    if gear.helix:
        found.append(finding("helical-count", seen=choice.form_teeth, teeth=gear.teeth, alone=virtual_teeth(gear)))
    if choice.tip_um is not None and choice.usable:
        found += _tip(made, choice, choice.tip_um, tip_limit, cls)
        if choice.cutter.made_for is None and len(choice.habits) > 1:
            first, second = choice.habits[:2]
            found.append(
                finding(
                    "cutter-form-unknown",
                    cutter=choice.cutter.name(),
                    lowest=first.habit.teeth,
                    period=second.habit.teeth,
                    first=first.tip * 1000,
                    second=second.tip * 1000,
                )
            )
    if abs(math.degrees(gear.pressure_angle) - 14.5) < 0.05:
        found.append(finding("limits-of-form"))
    return found


def _tip(made: Tooling, choice: CutterChoice, um: float, tip_limit: Millimetre, cls: int) -> list[Finding]:
    limit = tip_limit * 1000
    if um < -0.5:
        return [finding("cutter-heavy", cutter=choice.name(), um=-um)]
    if um <= limit:
        return []
    better = [other for other in made.all() if other.usable and other.tip_um is not None and 0 <= other.tip_um <= limit]
    instead = (
        f"{better[0].name()} would take {better[0].tip_um:.0f} µm."
        if better
        else "A fly cutter for this count has the right form."
    )
    return [finding("cutter-tip", cutter=choice.name(), um=um, cls=cls, limit=limit, instead=instead)]
