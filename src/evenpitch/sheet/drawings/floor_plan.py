"""The machine seen from above as vectors: what stands where, which way it is swung, which way it moves.

x to the operator's right, y towards the column, z up to the reader; the operator faces the column, the cutter stands above the work.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from evenpitch.sheet.drawing import Point
from evenpitch.sheet.drawings.points import polar, turned

Hand = Literal["left", "right", "none"]
Side = Literal["left", "right"]
Swings = Literal["table", "milling head"]

CENTRE: Point = (180.0, 196.0)
"""Where the cutter's axis crosses the axis of the work, units of the picture."""
TOP = 392.0
COLUMN = 34.0
HALF_TABLE = 46.0


@dataclass(frozen=True, slots=True)
class View:
    """What the picture is of. `beta`: degrees; `face`, `outside`, `cutter_outside` and `cutter_width` in millimetres."""

    beta: float
    hand: Hand
    head_end: Side
    feed: Side
    face: float
    outside: float
    cutter_outside: float
    motor: bool
    swings: Swings

    @property
    def sign(self) -> float:
        """+1 for a right-hand helix, −1 for a left-hand one, 0 for teeth along the axis."""
        return {"right": 1.0, "left": -1.0, "none": 0.0}[self.hand]

    @property
    def table_turn(self) -> float:
        """Degrees anticlockwise from above that the table stands at: right-hand, the right-hand end goes away."""
        return self.sign * self.beta if self.swings == "table" else 0.0

    @property
    def arbor_turn(self) -> float:
        """Degrees anticlockwise from above of the arbor: right-hand, the nose goes to the operator's left, clockwise."""
        return -self.sign * self.beta if self.swings == "milling head" else 0.0

    @property
    def scale(self) -> float:
        """Units a millimetre, the same for blank and cutter."""
        return min(84 / self.outside, 40 / self.face, 84 / self.cutter_outside)

    @property
    def side(self) -> float:
        """+1 where the right-hand end goes away (or would), −1 where the left: the picture's words stand accordingly."""
        return -1.0 if self.hand == "left" else 1.0

    @property
    def near_side_rises(self) -> bool:
        """Whether the near side of the work rises in the cut; its top then turns away from the operator."""
        return (self.hand == "right") == (self.feed == "left")


def tooth_line(view: View) -> Point:
    """Direction, seen from above, of the tooth line at the top of the work: followed to the right, a right-hand one comes nearer."""
    return polar((0.0, 0.0), 1.0, view.table_turn - view.sign * view.beta)


def cutter_plane(view: View) -> Point:
    """Direction, seen from above, of the plane the cutter turns in: square to its arbor."""
    return polar((0.0, 0.0), 1.0, view.arbor_turn)


def nose_direction(view: View) -> Point:
    """From the column out along the arbor, seen from above; straight to the operator when nothing is swung."""
    return polar((0.0, 0.0), 1.0, -90.0 + view.arbor_turn)


def top_of_work_moves(view: View) -> Point:
    """Which way the top of the work moves in the cut, square to its axis; nothing moves on a spur gear."""
    if view.hand == "none":
        return (0.0, 0.0)
    return polar((0.0, 0.0), 1.0, (90.0 if view.near_side_rises else -90.0) + view.table_turn)


def on_table(view: View, along: float, across: float) -> Point:
    """A point of the table: along its length to the right, across it towards the column."""
    return turned((CENTRE[0] + along, CENTRE[1] + across), view.table_turn, CENTRE)


def box_on_table(view: View, left: float, right: float, low: float, high: float) -> tuple[Point, ...]:
    """The corners of a rectangle lying square on the table."""
    corners = ((left, low), (right, low), (right, high), (left, high))
    return tuple(on_table(view, x, y) for x, y in corners)


def half_table(view: View) -> float:
    """Half of the table's drawn length: as much as the sheet holds at this angle."""
    turn = math.radians(abs(view.table_turn))
    by_width = (172 - HALF_TABLE * math.sin(turn)) / math.cos(turn)
    by_height = (114 - HALF_TABLE * math.cos(turn)) / math.sin(turn) if turn > 0.02 else 172.0
    return min(by_width, max(by_height, 84.0), 172.0)
