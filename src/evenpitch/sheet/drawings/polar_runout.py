"""Picture of the runout: radial readings round the gear, hundreds of times larger than the gear, the fitted circle, the high tooth."""

from __future__ import annotations

import math
from collections.abc import Sequence

from evenpitch.sheet.drawing import Arrow, Circle, Drawing, Item, Line, Path, Point
from evenpitch.sheet.drawings.framing import framed
from evenpitch.sheet.drawings.lettering import label
from evenpitch.sheet.drawings.points import nice, polar

CENTRE: Point = (150.0, 152.0)
RADIUS = 84.0
REACH = 40.0


def polar_runout(
    readings: Sequence[tuple[float, float]], off: float, uncertainty: float, high: float, space: int, total: float
) -> Drawing:
    """`readings`: (degrees from space 1, µm, + outwards); `off`: of the fitted circle, µm, towards `high` degrees; `total`: F_r, µm.

    Space 1 stands at the top, the angle grows clockwise as the gear is seen from the tailstock.
    """
    mean = sum(um for _, um in readings) / len(readings)
    unit = REACH / max(*(abs(um - mean) for _, um in readings), off, 1.0)

    def at(degrees: float, um: float) -> Point:
        return polar(CENTRE, RADIUS + um * unit, 90 - degrees)

    ordered = sorted(readings)
    circle = polar(CENTRE, off * unit, 90 - high)
    tip = at(high, off)
    items: list[Item] = [
        Circle(CENTRE, RADIUS, "centre"),
        Path(tuple(at(degrees, um - mean) for degrees, um in ordered), "medium", closed=len(ordered) > 2),
        Circle(circle, RADIUS, "dashed"),
        Line((CENTRE[0] - 6, CENTRE[1]), (CENTRE[0] + 6, CENTRE[1]), "thin"),
        Line((CENTRE[0], CENTRE[1] - 6), (CENTRE[0], CENTRE[1] + 6), "thin"),
        Arrow((CENTRE, tip), "medium"),
        Line(polar(CENTRE, RADIUS + REACH + 2, 90), polar(CENTRE, RADIUS + REACH + 10, 90), "medium"),
        label((CENTRE[0], CENTRE[1] + RADIUS + REACH + 14), "space 1", "middle"),
    ]
    side = polar(CENTRE, RADIUS / 2, 90 - high + (28 if math.cos(math.radians(90 - high)) >= 0 else -28))
    items.append(label(side, "1 wave", "middle", patch=True))
    scale = nice(max(total, 1.0) / 3)
    x = 300.0
    items += [
        Line((x, 60), (x, 60 + scale * unit), "medium"),
        Line((x - 5, 60), (x + 5, 60), "medium"),
        Line((x - 5, 60 + scale * unit), (x + 5, 60 + scale * unit), "medium"),
        label((x, 42), f"{scale:g} µm", "middle"),
        label((8, 6), f"off the axis {off:.0f} ± {uncertainty:.0f} µm, high at space {space}"),
    ]
    says = f"Runout {total:.0f} µm; the fitted circle is {off:.0f} ± {uncertainty:.0f} µm off the axis, high at space {space}."
    caption = "Dashed: the fitted circle. Runout far larger than the gear, to its own scale at the right."
    return framed("runout", "Runout round the gear", says, CENTRE[1] + RADIUS + REACH + 34, items, caption)
