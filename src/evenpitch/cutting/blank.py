"""The blank: its outside as turned, its runout, its bore and mandrel, a stack of several, a thin web."""

from __future__ import annotations

from dataclasses import dataclass

from evenpitch.gear.gear import Gear
from evenpitch.gear.sizes import addendum, outside_diameter, root_diameter, whole_depth
from evenpitch.quantity.units import Millimetre
from evenpitch.sources.citations import cites

USUAL_UNDER = Millimetre(0.05)
"""A blank may be turned this much under, and nothing over; common practice."""

MANDRELS_INCH = (0.5, 0.625, 0.75, 0.875, 1.0, 1.25, 1.5)
"""Usual mandrels, in; common practice."""

THIN_WEB = 1 / 25
"""Face by outside diameter below which a wheel rings and springs in the cut; common practice."""

SUPPORT_BELOW_ROOT = Millimetre(4.0)
"""A support plate is this much smaller in diameter than the roots; common practice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Blank:
    """A blank as wanted and, if it has been turned, as found. `under`: nominal less found, negative = oversize.

    `beyond`: how far the found size is outside its limits, mm, 0 if inside; `addendum_left` of `addendum`.
    """

    outside: Millimetre
    least_outside: Millimetre
    most_outside: Millimetre
    found: Millimetre | None
    under: Millimetre
    beyond: Millimetre
    addendum: Millimetre
    addendum_left: Millimetre
    whole_depth: Millimetre
    depth_from_touch: Millimetre


@cites("derived here", formula="depth from touch = h − (d_a − d_found) / 2")
def depth_from_touch(depth: Millimetre, nominal: Millimetre, found: Millimetre) -> Millimetre:
    """Depth to sink from metal, mm, so that the floor comes to its place: less half of what the blank is under."""
    return Millimetre(depth - (nominal - found) / 2)


def blank(
    gear: Gear,
    found: Millimetre | None = None,
    limits: tuple[Millimetre, Millimetre] = (Millimetre(0.0), Millimetre(-USUAL_UNDER)),
) -> Blank:
    """The blank of a gear. `limits`: upper and lower, each a signed distance from nominal; `found`: outside as measured."""
    nominal, depth = outside_diameter(gear), whole_depth(gear)
    size = nominal if found is None else found
    upper, lower = nominal + limits[0], nominal + limits[1]
    return Blank(
        outside=nominal,
        least_outside=Millimetre(lower),
        most_outside=Millimetre(upper),
        found=found,
        under=Millimetre(nominal - size),
        beyond=Millimetre(0.0 if found is None else max(0.0, lower - size, size - upper)),
        addendum=addendum(gear),
        addendum_left=Millimetre(addendum(gear) - (nominal - size) / 2),
        whole_depth=depth,
        depth_from_touch=depth_from_touch(depth, nominal, size),
    )


@cites("ISO 1328-1:2013", "common practice", formula="runout of bore and mandrel together ≤ F_rT / 4")
def runout_limit(runout_tolerance: Millimetre) -> Millimetre:
    """Runout allowed to bore and mandrel together, mm, from the runout tolerance F_rT of the class wanted for the teeth, mm."""
    return Millimetre(runout_tolerance / 4)


@cites("ISO 21771:2007", formula="z = d_a cos β / m_n − 2 h_a* cos β")
def teeth_of_outside(gear: Gear, outside: Millimetre) -> float:
    """The count of teeth whose outside diameter that would be, the rest of the gear unchanged; tells a slip in typing."""
    per_tooth = (outside_diameter(gear) - 2 * addendum(gear)) / gear.teeth
    return float((outside - 2 * addendum(gear)) / per_tooth)


def mandrel_for(bore: Millimetre) -> Millimetre | None:
    """The usual inch mandrel that this bore is made for, mm, within 0.1 mm; None where none is."""
    return next((Millimetre(size * 25.4) for size in MANDRELS_INCH if abs(size * 25.4 - bore) < 0.1), None)


@dataclass(frozen=True, slots=True)
class Stack:
    """Several equal gears cut as one: length over all; the least diameter of the faces that clamp it."""

    quantity: int
    length: Millimetre
    clamp: Millimetre


@cites("common practice", formula="length = n b;  clamped on more than half the root diameter")
def stack(gear: Gear, quantity: int, face: Millimetre) -> Stack:
    """The stack of `quantity` gears of `face` mm; measure its first and its last gear."""
    return Stack(quantity, Millimetre(quantity * face), Millimetre(root_diameter(gear) / 2))


def support_plate(gear: Gear, face: Millimetre) -> Millimetre | None:
    """Diameter of a plate to stand behind a wheel too thin to cut unsupported, mm; None where the face is stout enough."""
    if face >= THIN_WEB * outside_diameter(gear):
        return None
    return Millimetre(root_diameter(gear) - SUPPORT_BELOW_ROOT)
