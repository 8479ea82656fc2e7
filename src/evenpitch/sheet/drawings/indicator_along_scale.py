"""Picture of an indicator led along a scale: left, middle, right; a box for each reading, empty on paper."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from evenpitch.sheet.drawing import Arrow, Circle, Drawing, Item, Line, Path
from evenpitch.sheet.drawings.framing import framed
from evenpitch.sheet.drawings.lettering import label, text_width

PLACES = ("left", "middle", "right")
_AT = (44.0, 180.0, 316.0)
_TABLE = (10.0, 350.0, 134.0, 168.0)
_SCALE = (22.0, 338.0, 168.0, 190.0)
_DIAL, _BALL = 17.0, 4.6
_WIDE, _TALL = 64.0, 23.0


def indicator_along_scale(
    on_top: Sequence[float | None] = (), on_front: Sequence[float | None] = (), limit: float = 0.10
) -> Drawing:
    """Six readings in mm, None or too few where there is none yet. Not to scale."""
    top, front = _three(on_top), _three(on_front)
    items: list[Item] = [*_bed(), *(part for x in _AT for part in _dial(x))]
    for x, name in zip(_AT, PLACES, strict=True):
        items.append(label((x, 268), name, "middle", bold=True))
    for start, end in pairwise(_AT):
        items.append(Arrow(((start + _DIAL + 8, 240), (end - _DIAL - 8, 240)), "medium"))
    items += [*_row("on top, mm", top, 112), *_row("on the front, mm", front, 60)]
    items.append(label((10, 10), f"good within {limit:.2f} both ways; stand fixed"))
    says = f"{_said('on top', top)}; {_said('on the front', front)}; good within {limit:.2f} mm both ways."
    return framed(
        "indicator-along-scale", "Indicator along the scale", says, 288, items, "Indicator along the scale. Not to scale."
    )


def _three(values: Sequence[float | None]) -> tuple[float | None, ...]:
    return (*values, None, None, None)[:3]


def _bed() -> list[Item]:
    left, right, low, high = _TABLE
    body = Path(((left, low), (right, low), (right, high), (left, high)), "thick", "hatch", closed=True)
    x0, x1, y0, y1 = _SCALE
    scale = Path(((x0, y0), (x1, y0), (x1, y1), (x0, y1)), "thick", "paper", closed=True)
    marks: list[Item] = [
        Line((x0 + 6 + 8 * k, y0), (x0 + 6 + 8 * k, y0 + (7 if k % 5 == 0 else 4)), "thin")
        for k in range(round((x1 - x0 - 6) / 8))
    ]
    return [
        body,
        scale,
        *marks,
        label((112, y0 + 8.5), "scale", "middle", patch=True),
        label((180, low + 12), "table", "middle", patch=True),
    ]


def _dial(x: float) -> list[Item]:
    foot, centre = _SCALE[3], 240.0
    pointer = (x + 7 * math.sin(math.radians(25)), centre + 7 * math.cos(math.radians(25)))
    return [
        Circle((x, centre), _DIAL, "thick"),
        Line((x, centre), pointer, "medium"),
        Line((x, centre - _DIAL), (x, foot + 2 * _BALL), "medium"),
        Circle((x, foot + _BALL), _BALL, "thick"),
    ]


def _row(name: str, values: Sequence[float | None], y: float) -> list[Item]:
    items: list[Item] = [label((10, y + 4), name)]
    for x, value in zip(_AT, values, strict=True):
        left, low = x - _WIDE / 2, y - _TALL - 2
        corners = ((left, low), (left + _WIDE, low), (left + _WIDE, low + _TALL), (left, low + _TALL))
        items.append(Path(corners, "medium", closed=True))
        if value is not None:
            items.append(label((x, low + 6.5), _signed(value), "middle", bold=text_width(_signed(value), bold=True) < _WIDE - 4))
    return items


def _signed(value: float) -> str:
    """A reading in hundredths with its sign; a plain 0 where the indicator was set."""
    return "0" if abs(value) < 0.005 else f"{value:+.2f}".replace("-", "−")


def _said(plane: str, values: Sequence[float | None]) -> str:
    if all(value is None for value in values):
        return f"{plane}: three boxes to fill in"
    read = ", ".join(f"{place} {_signed(value)}" for place, value in zip(PLACES, values, strict=True) if value is not None)
    return f"{plane}: {read}"
