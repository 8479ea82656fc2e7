"""Drawing: lines, arcs and text styled by class, never by colour, so that day, night, paper and DXF need one drawing only.

Units are those of the picture (360 wide for a page picture; millimetres of the work for an outline). y grows upwards.
The line classes and fillings mean the same thing in every picture; see docs/pictures.md.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

LineClass = Literal["thick", "medium", "thin", "dashed", "other", "centre", "movement", "none"]
"""thick: what is wanted; medium: what was measured, scales; thin: leaders, dimensions; dashed: the cutter, a prediction, a second way;
other: the other part, a third way; centre: centre and pitch lines; movement: outline arrows; none: no edge."""

Filling = Literal["none", "hatch", "close", "upright", "ink", "wash", "paper"]
Anchor = Literal["start", "middle", "end"]
Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line."""

    start: Point
    end: Point
    cls: LineClass = "medium"


@dataclass(frozen=True, slots=True)
class Arc:
    """Part of a circle, anticlockwise from angle `start` to `end`, degrees from +x."""

    centre: Point
    radius: float
    start: float
    end: float
    cls: LineClass = "medium"


@dataclass(frozen=True, slots=True)
class Circle:
    """A whole circle."""

    centre: Point
    radius: float
    cls: LineClass = "medium"
    fill: Filling = "none"


@dataclass(frozen=True, slots=True)
class Path:
    """Straight pieces through points."""

    points: tuple[Point, ...]
    cls: LineClass = "medium"
    fill: Filling = "none"
    closed: bool = False


@dataclass(frozen=True, slots=True)
class Arrow:
    """A thin line or arc of points with a slim head at its last point (and at its first, if `both`)."""

    points: tuple[Point, ...]
    cls: LineClass = "thin"
    both: bool = False


@dataclass(frozen=True, slots=True)
class Block:
    """The outline arrow of movement: something moves or someone pushes, from `start` towards `end`."""

    start: Point
    end: Point
    width: float = 12


@dataclass(frozen=True, slots=True)
class Label:
    """Text, `at` its base line. `patch`: on a paper-coloured ground where it crosses a line. `turn`: degrees anticlockwise."""

    at: Point
    text: str
    anchor: Anchor = "start"
    bold: bool = False
    size: float = 14.5
    turn: float = 0
    patch: bool = False


Item = Line | Arc | Circle | Path | Arrow | Block | Label


@dataclass(frozen=True, slots=True)
class Drawing:
    """A picture. `says`: the finding in words, for a reader who cannot see it. `caption`: what is to scale.

    `corner`: the point at its lower left. `pen`: picture units to one unit of the pen, by which line widths, dashes, hatching,
    arrowheads and label sizes are multiplied: 1 for a page picture 360 wide, width / 360 for an outline in millimetres.
    `true`: width on paper in mm where its scale is to be kept there, 0 where it takes the width of its column.
    """

    key: str
    title: str
    says: str
    width: float
    height: float
    items: tuple[Item, ...]
    caption: str = ""
    corner: Point = (0, 0)
    pen: float = 1
    true: float = 0
