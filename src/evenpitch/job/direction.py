"""Which way everything goes, as seen by the operator facing the column. Derived by vectors; the table swing also in print.

Axes of the derivation (tests/job/test_direction.py repeats it): x to the operator's right, y to the column, z up; work axis along the
table; cutter above the work; conventional milling, so the cutter's lower teeth move against the feed.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from evenpitch.gear.gear import Hand
from evenpitch.quantity.units import Radian
from evenpitch.rig.machine import HelixSetBy
from evenpitch.sources.citations import cites

Way = Literal["left", "right"]


@dataclass(frozen=True, slots=True)
class Direction:
    """The setting in words. `swing`: what to swing and which way; `work`: what its near side does; `cutter`: as seen facing the column."""

    swing: str
    swing_degrees: float
    push: str
    feed: Way
    work: str
    cutter: str
    hand: Hand
    set_by: HelixSetBy | None

    def brief(self) -> str:
        """The swing in the width of a sheet's column."""
        if self.hand == "none":
            return self.swing
        angle = _degrees(self.swing_degrees)
        return f"{angle}, {self.push}" if self.set_by == "milling head" else f"{angle}, {self.hand} end away"


@cites("Machinery Repairman, ch. 14", "derived here")
def direction(hand: Hand, helix: Radian, set_by: HelixSetBy | None, feed: Way = "left") -> Direction:
    """The direction table for one hand of helix (radians) and one way of setting the angle; a spur gear has no swing.

    On the top of a right-hand work the groove, followed to the right, comes towards the operator. Table or milling head must bring
    that direction into the plane of the cutter. Limits: work on a horizontal axis, cutter above it, conventional milling.
    """
    cutter = "anticlockwise, its lower teeth moving right" if feed == "left" else "clockwise, its lower teeth moving left"
    if hand == "none":
        return Direction("table square, 0°", 0.0, "", feed, "stands still in the cut", cutter, hand, set_by)
    rises = (hand == "right") == (feed == "left")
    angle = math.degrees(helix)
    if set_by == "milling head":
        nose = "left" if hand == "right" else "right"
        turn = "clockwise" if hand == "right" else "anticlockwise"
        swing = f"milling head {_degrees(angle)}, nose to the operator's {nose} ({turn} seen from above); table stays square"
        push = f"nose of the head to your {nose}"
    else:
        swing = f"table {_degrees(angle)}, {hand}-hand end away from the operator"
        push = f"push the {hand}-hand end away with the {hand} hand"
    work = "near side rises" if rises else "near side falls"
    return Direction(swing, angle, push, feed, work, cutter, hand, set_by)


def _degrees(value: float) -> str:
    return f"{value:.4f}".rstrip("0").rstrip(".") + "°"
