"""The blank: what is found on it before a tooth is cut."""

from __future__ import annotations

from collections.abc import Iterator

from evenpitch.cutting.blank import Blank, blank, stack, support_plate, teeth_of_outside
from evenpitch.cutting.materials import MATERIALS, UNKNOWN, Material, material_named
from evenpitch.gear.gear import Gear
from evenpitch.gear.sizes import outside_diameter
from evenpitch.job.findings import finding
from evenpitch.job.order import Work
from evenpitch.quantity.finding import Finding
from evenpitch.quantity.showing import mm

OTHER_COUNT_WITHIN = 0.04
"""A blank whose outside suits another whole count to this share of a tooth was turned for that count; common practice."""

ROUNDING = 1e-6
"""mm: less than this over is a size that was typed in the other system."""


def blanking(work: Work, gear: Gear) -> tuple[Blank, Material | None, tuple[Finding, ...]]:
    """The blank as wanted and found, the material if it is known, and the findings."""
    made = blank(gear, work.outside_found, work.outside_tolerance)
    material = material_named(work.material)
    return made, material, (*_size(made, gear, work), *_face(gear), *_stacked(gear, work), *_stuff(work, material))


def _size(made: Blank, gear: Gear, work: Work) -> Iterator[Finding]:
    if made.found is None or made.beyond <= ROUNDING:
        return
    count = teeth_of_outside(gear, made.found)
    if round(count) != gear.teeth and abs(count - round(count)) < OTHER_COUNT_WITHIN:
        yield finding("blank-other-count", found=float(made.found), count=round(count), teeth=gear.teeth)
    elif made.under > 0:
        upper, lower = work.outside_tolerance
        yield finding(
            "blank-under",
            under=float(made.under),
            nominal=float(made.outside),
            left=float(made.addendum_left),
            whole=float(made.addendum),
            limits=f"{mm(upper, plus=True)} {mm(lower, plus=True)}",
        )
    else:
        yield finding("blank-over", over=float(-made.under), nominal=float(made.outside))


def _face(gear: Gear) -> Iterator[Finding]:
    if gear.face is None:
        yield finding("face-missing")
        return
    plate = support_plate(gear, gear.face)
    if plate is not None:
        yield finding("web-thin", face=float(gear.face), outside=float(outside_diameter(gear)), plate=float(plate))


def _stacked(gear: Gear, work: Work) -> Iterator[Finding]:
    if work.quantity > 1 and gear.face is not None:
        yield finding("stack", quantity=work.quantity, length=float(stack(gear, work.quantity, gear.face).length))


def _stuff(work: Work, material: Material | None) -> Iterator[Finding]:
    if material is None:
        given = f"“{work.material}”" if work.material else "was not named and"
        known = ", ".join(row.words for row in MATERIALS)
        yield finding("material-unknown", given=given, used=UNKNOWN.words, known=known)
        return
    for caution in material.cautions:
        hazard, _, care = caution.partition(": ")
        yield finding("dust", hazard=hazard.rstrip("."), care=care[:1].upper() + care[1:])
