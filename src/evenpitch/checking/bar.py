"""Angles by a bar on the spindle nose: height of blocks under it, or an indicator's movement."""

from __future__ import annotations

import math

from evenpitch.quantity.refusal import refuse
from evenpitch.quantity.units import Millimetre, Radian
from evenpitch.sources.citations import cites


@cites("derived here", formula="θ = asin(h/R)")
def angle_of_height(height: Millimetre, radius: Millimetre) -> Radian:
    """The angle of a bar above level whose contact stands `height` above its level place. Not h/R: at 4.5° that is 17″ off."""
    if not abs(height) <= radius:
        raise refuse(
            "height",
            f"{height:g} mm",
            f"at most the radius, {radius:g} mm",
            "A bar cannot rise above its own length.",
            "Measure both again.",
        )
    return Radian(math.asin(height / radius))


@cites("derived here", formula="h/R − asin(h/R)")
def taken_straight(height: Millimetre, radius: Millimetre) -> Radian:
    """What taking the height for the arc would have made wrong."""
    return Radian(height / radius - angle_of_height(height, radius))


@cites("derived here", formula="h = 2 R sin(θ/2)")
def height_between(radius: Millimetre, turned: Radian) -> Millimetre:
    """Height between the two contacts of a bar that starts as far below level as it ends above."""
    return Millimetre(2 * radius * math.sin(turned / 2))


@cites("derived here", formula="θ = 2 asin(h/2R)")
def turned_by(height: Millimetre, radius: Millimetre) -> Radian:
    """The angle turned, from the height between the two contacts of such a bar."""
    if not abs(height) <= 2 * radius:
        raise refuse(
            "height",
            f"{height:g} mm",
            f"at most twice the radius, {2 * radius:g} mm",
            "The contacts cannot stand further apart.",
            "Measure both again.",
        )
    return Radian(2 * math.asin(height / (2 * radius)))
