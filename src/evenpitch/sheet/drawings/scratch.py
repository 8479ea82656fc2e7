"""Picture of the scratch test: how the first scratch must lean, and its mirror image crossed out."""

from __future__ import annotations

import math

from evenpitch.sheet.drawing import Drawing, Item, Line, Path, Point
from evenpitch.sheet.drawings.floor_plan import Hand
from evenpitch.sheet.drawings.framing import framed
from evenpitch.sheet.drawings.lettering import label
from evenpitch.sheet.drawings.points import minus

_HALF = 58.0
_TALL = 66.0
_LEAST_SHOWN = 6.0
_LEFT: Point = (92.0, 128.0)
_RIGHT: Point = (268.0, 128.0)


def scratch_slope(hand: Hand, beta: float) -> float:
    """Degrees anticlockwise of the scratch seen from above, the axis left to right: right-hand comes nearer to the right."""
    return {"right": -beta, "left": beta, "none": 0.0}[hand]


def scratch_test(hand: Hand, beta: float) -> Drawing:
    """The right scratch beside the wrong one, at the true angle in degrees; a small one is drawn at six degrees and said so."""
    shown = max(beta, _LEAST_SHOWN) if hand != "none" else 0.0
    right = scratch_slope(hand, shown)
    wrong = -right if hand != "none" else -20.0
    items: list[Item] = [*_blank(_LEFT, right), *_blank(_RIGHT, wrong), *_cross(_RIGHT, wrong)]
    items.append(label((_LEFT[0], _LEFT[1] + _TALL + 12), "away from you", "middle"))
    reason = "wrong hand: stop" if hand != "none" else "it turns: stop"
    for (x, _), first, second in ((_LEFT, "like this", "go on"), (_RIGHT, "not like this", reason)):
        items += [label((x, 38), first, "middle", bold=True), label((x, 20), second, "middle")]
    return framed("scratch-test", "Scratch test", _says(hand, beta), _LEFT[1] + _TALL + 30, items, _caption(hand, beta))


def _blank(centre: Point, slope: float) -> list[Item]:
    """A piece of the blank, broken off away from and towards the operator, with the scratch and its neighbours."""
    x, y = centre
    far = [(x - _HALF, y + _TALL), (x - _HALF / 3, y + _TALL - 7), (x + _HALF / 3, y + _TALL - 1), (x + _HALF, y + _TALL - 6)]
    near = [(px, 2 * y - py) for px, py in reversed(far)]
    rise = math.tan(math.radians(slope)) * _HALF
    items: list[Item] = [Path((*far, *near), "thick", closed=True), Line((x - _HALF - 14, y), (x + _HALF + 14, y), "centre")]
    for offset in (-36.0, 36.0):
        items += _clipped(centre, offset, rise)
    items.append(Line((x - _HALF, y - rise), (x + _HALF, y + rise), "thick"))
    return items


def _clipped(centre: Point, offset: float, rise: float) -> list[Item]:
    """A neighbouring tooth line, kept inside the piece."""
    x, y = centre
    limit = _TALL - 9
    if abs(rise) < 1e-9:
        return [Line((x - _HALF, y + offset), (x + _HALF, y + offset), "thin")]
    ends = sorted(max(-1.0, min(1.0, (edge - offset) / rise)) for edge in (-limit, limit))
    if ends[1] - ends[0] < 0.05:
        return []
    a, b = ends
    return [Line((x + a * _HALF, y + offset + a * rise), (x + b * _HALF, y + offset + b * rise), "thin")]


def _cross(centre: Point, slope: float) -> list[Item]:
    """Two strokes, steep over a flat scratch and flat over a steep one."""
    x, y = centre
    wide, tall = (52.0, 20.0) if abs(slope) > 33 else (42.0, 52.0)
    return [Line((x - wide, y - tall * s), (x + wide, y + tall * s), "medium") for s in (-1, 1)]


def _says(hand: Hand, beta: float) -> str:
    if hand == "none":
        return "The scratch must run straight along the work; if it leans, the work turns and must not: stop."
    nearer = "nearer to you" if hand == "right" else "away from you"
    return (
        f"Seen from above, followed to the right the scratch must come {nearer} by {minus(beta, 2).rstrip('0').rstrip('.')}°. "
        "The mirror image is the wrong hand: stop."
    ).replace("must come away", "must go away")


def _caption(hand: Hand, beta: float) -> str:
    seen = "Blank seen from above, its axis left to right"
    if hand == "none":
        return f"{seen}."
    if beta < _LEAST_SHOWN:
        return f"{seen}. Drawn at {_LEAST_SHOWN:g}° for clearness; the true angle is {beta:.2f}°."
    return f"{seen}. Angle true."
