"""Pitches that stand out of the rest: one odd space, all spaces from one on, or two levels that the spaces change between."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

import numpy as np

from evenpitch.checking.least_squares import Array
from evenpitch.checking.spacing import Spacing
from evenpitch.sources.citations import cites

STANDS_OUT = 5.5
"""A pitch so many standard deviations of the others off is none of them."""
OF_MAD = 1.4826
"""Standard deviation over the median of absolute deviations, for scatter that is normal."""
ALIKE = 0.35
"""Two jumps whose sizes differ by no more than this part of them, or by what is read, are one and back."""
BLURRED = 6.0
"""The gap between two levels must be so many times what the spaces of one level spread."""

Shape = Literal["one space", "from here on", "some spaces", "closing", "one pitch", "two levels"]


@dataclass(frozen=True, slots=True)
class Jump:
    """Spaces `first` to `last` stand `size` mm off the rest, + ahead; `U` of the size. `places`: where the level changes.

    "closing": the pitch from the last space to space 1 alone; "one pitch": one pitch elsewhere, with nothing that takes it back.
    """

    shape: Shape
    first: int
    last: int
    size: float
    U: float
    places: tuple[int, ...] = ()

    def level(self, count: int) -> Array:
        """What the jump does to every space's place, mm."""
        curve = np.zeros(count)
        if self.shape == "closing" or self.shape == "one pitch":
            ramp = np.arange(count) / count
            return np.asarray(np.where(np.arange(count) >= self.first % count, 1.0, 0.0) * self.size - self.size * ramp)
        if self.shape == "two levels":
            curve[[place - 1 for place in self.places]] = self.size
        else:
            curve[self.first - 1 : self.last] = self.size
        return curve


@cites("derived here", formula="|d_i − median| > 5.5 · 1.4826 MAD")
def jumps(found: Spacing) -> tuple[Jump, ...]:
    """All jumps, the largest first. Where most spaces change between two levels that is one jump of its own kind."""
    middle = float(np.median(found.single))
    off = found.single - middle
    scale = max(OF_MAD * float(np.median(np.abs(off))), found.u_single)
    if scale <= 0:
        return ()
    odd = [int(place) for place in np.flatnonzero(np.abs(off) > STANDS_OUT * scale)]
    if len(odd) > 3 or not odd:
        levels = _two_levels(found)
        if levels is not None:
            return (levels,)
    U = 2 * scale if len(odd) > 2 else 2 * max(found.u_single, 0.5 * scale)
    return tuple(sorted(_paired(found.count, off, odd, U), key=lambda jump: -abs(jump.size)))


def _paired(count: int, off: Array, odd: list[int], U: float) -> Iterator[Jump]:
    """Jumps there and back; what is left over are single pitches."""
    waiting = list(odd)
    while waiting:
        place = waiting.pop(0)
        size = float(off[place])
        back = next((other for other in waiting if _takes_back(size, float(off[other]), U)), None)
        if back is not None:
            waiting.remove(back)
            yield _block(count, place, back, (size - float(off[back])) / 2, U)
        elif waiting and waiting[-1] == count - 1:
            yield Jump("from here on", place + 2, count, size, U)
        elif place == count - 1 and len(odd) > 1:
            continue  # the closing pitch takes back all that went before
        else:
            yield Jump("closing" if place == count - 1 else "one pitch", place + 1, place + 1, size, U)


def _takes_back(size: float, other: float, U: float) -> bool:
    return size * other < 0 and abs(size + other) <= max(ALIKE * min(abs(size), abs(other)), 2 * U)


def _block(count: int, there: int, back: int, size: float, U: float) -> Jump:
    """`there`, `back`: pitches from 0; pitch i lies between spaces i + 1 and i + 2."""
    first, last = there + 2, back + 1
    if last - first + 1 > count // 2 and last < count:
        # the shorter part is the one that is off: it goes round through space 1
        return Jump("some spaces", 1, there + 1, -size, U) if back == count - 1 else Jump("some spaces", first, last, size, U)
    shape: Shape = "from here on" if last == count and first < count else "one space" if first == last else "some spaces"
    return Jump(shape, first, last, size, U)


def _two_levels(found: Spacing) -> Jump | None:
    """Spaces that stand on two levels, changing between them more than twice."""
    curve = found.cumulative
    angle = 2 * np.pi * np.arange(found.count) / found.count
    base = np.column_stack([np.ones(found.count), np.cos(angle), np.sin(angle)])
    left = curve - base @ np.linalg.lstsq(base, curve, rcond=None)[0]
    order = np.sort(left)
    gaps = np.diff(order)
    cut = int(np.argmax(gaps))
    upper = left > (order[cut] + order[cut + 1]) / 2
    few = upper if upper.sum() <= found.count / 2 else ~upper
    changes = int((few != np.roll(few, 1)).sum())
    if few.sum() < 2 or changes < 4:
        return None
    size = float(left[few].mean() - left[~few].mean())
    spread = float(np.sqrt((np.var(left[few]) * few.sum() + np.var(left[~few]) * (~few).sum()) / found.count))
    if abs(size) < BLURRED * max(spread, found.u_single):
        return None
    places = tuple(int(place) + 1 for place in np.flatnonzero(few))
    return Jump("two levels", places[0], places[-1], size, 2 * max(spread, found.u_single), places)


def without(found: Spacing, several: tuple[Jump, ...]) -> Spacing:
    """The spacing with the jumps taken out."""
    curve = found.cumulative - sum((jump.level(found.count) for jump in several), np.zeros(found.count))
    return Spacing(
        found.count, np.roll(curve, -1) - curve, curve - curve[0], found.noise, found.s, found.rounds, found.from_rounds
    )
