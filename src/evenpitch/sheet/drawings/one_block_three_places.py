"""Picture of one block read at three places: µm more or less than the block, near the scale and near the cutter."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from evenpitch.sheet.drawing import Drawing, Filling, Item, Line, Path
from evenpitch.sheet.drawings.framing import framed
from evenpitch.sheet.drawings.lettering import label
from evenpitch.sheet.drawings.points import minus, nice

PLACES = ("left", "middle", "right")
LEFT, RIGHT, LOW, HIGH = 62.0, 352.0, 58.0, 190.0
IN_MM = 1000.0
"""From so many µm off the picture is in mm: the block was not what was typed."""
BESIDE = 28.0
"""How far the reading near the cutter stands beside that near the scale."""


@dataclass(frozen=True, slots=True)
class BlockShown:
    """One place: reading less block and U, µm; near the scale, or near the cutter."""

    place: str
    um: float
    U: float
    cutter: bool = False


def one_block_three_places(places: Sequence[BlockShown], gain: str, block: float) -> Drawing:
    """Diamonds with their bars: solid near the scale, open and dashed near the cutter; the mean thick, its U hatched.

    `gain`: in words, e.g. "−180 ± 40 µm in a metre".
    """
    near = [one for one in places if not one.cutter] or list(places)
    mean = sum(one.um for one in near) / len(near)
    doubt = max(one.U for one in near)
    reach = [0.0, mean - doubt, mean + doubt, *(one.um - one.U for one in places), *(one.um + one.U for one in places)]
    grid = _grid(min(reach), max(reach))
    unit = "mm" if max(map(abs, reach)) >= IN_MM else "µm"

    def y(um: float) -> float:
        return LOW + (um - grid[0]) / (grid[-1] - grid[0]) * (HIGH - LOW)

    band = ((LEFT, y(mean - doubt)), (RIGHT, y(mean - doubt)), (RIGHT, y(mean + doubt)), (LEFT, y(mean + doubt)))
    items: list[Item] = [
        Path(band, "none", "hatch", closed=True),
        Line((LEFT, LOW), (LEFT, HIGH), "medium"),
        Line((LEFT, LOW), (RIGHT, LOW), "medium"),
        Line((LEFT, y(0)), (RIGHT, y(0)), "thin"),
        Line((LEFT, y(mean)), (RIGHT, y(mean)), "thick"),
    ]
    for value in grid:
        items += [
            Line((LEFT - 5, y(value)), (LEFT, y(value)), "thin"),
            label((LEFT - 8, y(value) - 5), _figure(value, unit), "end"),
        ]
    items += _marks(places, y, unit)
    items += [label((_x(place), LOW - 20), place, "middle") for place in PLACES]
    items += [
        label((8, HIGH + 50), f"{unit} more or less than the block"),
        label((8, HIGH + 30), gain, bold=True),
        label((8, 8), "bars: U of a place; hatched: mean ± U"),
    ]
    said = "; ".join(
        f"{one.place}{' near the cutter' if one.cutter else ''} {minus(one.um, 0)} ± {one.U:.0f} µm" for one in places
    )
    says = f"{said}; gain {gain}."
    return framed("one-block", "The block at three places", says, HIGH + 72, items, f"The {block:g} mm block; {unit} to scale.")


def _grid(least: float, most: float) -> tuple[float, ...]:
    """Round values over the whole reach, no more than can be read."""
    pitch = nice((most - least) / 5 or 1.0)
    while -(-most // pitch) - least // pitch > 6:
        pitch = nice(pitch * 1.01)
    return tuple(pitch * k for k in range(int(least // pitch), int(-(-most // pitch)) + 1))


def _figure(um: float, unit: str) -> str:
    if unit == "mm":
        return f"{um / 1000:.3g}".replace("-", "−")
    return minus(um, 0 if abs(um) >= 1 or abs(um - round(um)) < 1e-9 else 1)


def _x(place: str) -> float:
    return LEFT + (RIGHT - LEFT) * (0.17, 0.465, 0.76)[PLACES.index(place)]


def _marks(places: Sequence[BlockShown], y: Callable[[float], float], unit: str) -> list[Item]:
    items: list[Item] = []
    for one in places:
        x = _x(one.place) + (BESIDE if one.cutter else 0)
        low, high, at = y(one.um - one.U), y(one.um + one.U), y(one.um)
        ends = [Line((x - 5, end), (x + 5, end), "medium") for end in (low, high)]
        diamond = ((x - 6, at), (x, at - 6), (x + 6, at), (x, at + 6))
        fill: Filling = "paper" if one.cutter else "ink"
        items += [Line((x, low), (x, high), "dashed" if one.cutter else "medium"), *ends]
        items.append(Path(diamond, "medium", fill, closed=True))
        if one.cutter:
            items += [Line((x, HIGH), (x, high), "thin"), label((x, HIGH + 5), f"cutter {_figure(one.um, unit)}", "middle")]
        else:
            items.append(label((x - 9, at + 5), _figure(one.um, unit), "end", bold=True, patch=True))
    return items
