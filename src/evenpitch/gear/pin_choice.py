"""Which pin suits a gear: the one that touches in the middle of the flank, the least that stands above the tips, and how one sits."""

from __future__ import annotations

import math
from dataclasses import dataclass

from evenpitch.gear.best_pin import best_pin as best_pin
from evenpitch.gear.caliper import caliper_points
from evenpitch.gear.gear import Gear
from evenpitch.gear.halving import bisect
from evenpitch.gear.pins import (
    nominal_over_balls,
    nominal_over_pins,
    pin_centre_diameter,
    pin_involute,
    pin_pressure_angle,
    smallest_touching_pin,
)
from evenpitch.gear.sizes import (
    base_diameter,
    base_helix,
    diameter_at_roll,
    outside_diameter,
    root_diameter,
)
from evenpitch.gear.undercut import form_diameter
from evenpitch.quantity.units import Millimetre
from evenpitch.sources.citations import cites


@dataclass(frozen=True, slots=True)
class PinSeat:
    """How a pin sits in a space of the gear, before thinning; lengths in mm.

    `above_tips` is half of what the size over pins exceeds a caliper reading over the tips; negative: sunk below them.
    """

    pin: Millimetre
    centre_diameter: Millimetre
    contact_diameter: Millimetre
    above_root: Millimetre
    above_tips: Millimetre
    on_root: bool
    on_flank: bool

    @property
    def usable(self) -> bool:
        """True where the pin touches both flanks, clears the root and stands above the tips."""
        return self.on_flank and not self.on_root and self.above_tips > 0.0


def touches_both_flanks(gear: Gear, pin: Millimetre) -> bool:
    """False where the pin is so small that it falls between the flanks."""
    return pin_involute(gear, pin) > 0.0


@cites("ISO 21771:2007", formula="tan α_c = tan φ − D_M cos β_b / d_b")
def pin_contact_diameter(gear: Gear, pin: Millimetre) -> Millimetre:
    """Diameter on which the pin touches the flanks, mm; the base circle where the sum would fall inside it."""
    base = base_diameter(gear)
    roll = (base * math.tan(pin_pressure_angle(gear, pin)) - pin * math.cos(base_helix(gear))) / 2.0
    return diameter_at_roll(gear, Millimetre(max(0.0, roll)))


def pin_seat(gear: Gear, pin: Millimetre) -> PinSeat:
    """How a pin of `pin` mm sits; it must touch both flanks (see touches_both_flanks)."""
    centre = pin_centre_diameter(gear, pin)
    contact = pin_contact_diameter(gear, pin)
    above_root = (centre - pin - root_diameter(gear)) / 2.0
    return PinSeat(
        pin=pin,
        centre_diameter=centre,
        contact_diameter=contact,
        above_root=Millimetre(above_root),
        above_tips=Millimetre((nominal_over_pins(gear, pin) - caliper_points(gear)) / 2.0),
        on_root=above_root < 0.0,
        on_flank=form_diameter(gear) <= contact <= outside_diameter(gear),
    )


@cites("derived here", formula="M(D_M) = reading over the tips")
def least_pin(gear: Gear, *, balls: bool = False) -> Millimetre:
    """The smallest usable pin, mm: below it the caliper rests on the tips instead, or the pin lies on the root."""
    over = nominal_over_balls if balls else nominal_over_pins

    def above_tips(pin: float) -> float:
        return float(over(gear, Millimetre(pin)) - caliper_points(gear))

    def above_root(pin: float) -> float:
        return float(pin_centre_diameter(gear, Millimetre(pin)) - pin - root_diameter(gear))

    low = smallest_touching_pin(gear) * (1.0 + 1e-12) + 1e-9
    high = 6.0 * gear.module
    over_tips = low if above_tips(low) >= 0.0 else bisect(above_tips, low, high)
    over_root = low if above_root(low) >= 0.0 else bisect(above_root, low, high)
    return Millimetre(max(over_tips, over_root))
