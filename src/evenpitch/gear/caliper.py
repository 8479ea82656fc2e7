"""What a caliper reads over the tips: short by a known amount on an odd count, and how short depends on the jaws."""

from __future__ import annotations

import math

from evenpitch.gear.gear import Gear
from evenpitch.gear.sizes import outside_diameter
from evenpitch.quantity.units import Millimetre
from evenpitch.sources.citations import cites


@cites("derived here", formula="1 (even z), cos(90°/z) (odd z)")
def points_factor(teeth: int) -> float:
    """Reading over outside diameter: jaw points on the two tips most nearly opposite. Tip lands are neglected."""
    return math.cos(math.pi / (2 * teeth)) if teeth % 2 else 1.0


@cites("derived here", formula="1 (even z), (1 + cos(180°/z)) / 2 (odd z)")
def jaws_factor(teeth: int) -> float:
    """Reading over outside diameter: flat jaws, one tip against two. Tip lands are neglected."""
    return (1.0 + math.cos(math.pi / teeth)) / 2.0 if teeth % 2 else 1.0


@cites("derived here", formula="d_a cos(90°/z) (odd z), d_a (even z)")
def caliper_points(gear: Gear) -> Millimetre:
    """Caliper reading over the two tips most nearly opposite, point to point, mm."""
    return Millimetre(outside_diameter(gear) * points_factor(gear.teeth))


@cites("derived here", formula="(d_a/2) (1 + cos(180°/z)) (odd z), d_a (even z)")
def caliper_jaws(gear: Gear) -> Millimetre:
    """Caliper reading between flat jaws, mm."""
    return Millimetre(outside_diameter(gear) * jaws_factor(gear.teeth))


def outside_from_points(teeth: int, reading: Millimetre) -> Millimetre:
    """Outside diameter from a reading point to point, mm."""
    return Millimetre(reading / points_factor(teeth))


def outside_from_jaws(teeth: int, reading: Millimetre) -> Millimetre:
    """Outside diameter from a reading between flat jaws, mm."""
    return Millimetre(reading / jaws_factor(teeth))
