"""Trains of change gears: every one- and two-pair train of the gears owned, and the mountings in which they clear the stud."""

from __future__ import annotations

from bisect import bisect_left
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import combinations
from math import gcd, prod

from evenpitch.rig.head import ChangeGears
from evenpitch.sources.citations import cites

MeshingPair = tuple[int, int]
"""A driver and the driven gear it meshes with."""
Mounting = tuple[MeshingPair, ...]
"""The meshing pairs from the driving shaft on; with two pairs the first's driven gear and the second's driver share the stud."""
Reduced = tuple[int, int]
"""A ratio in lowest terms, drivers over driven."""


@dataclass(frozen=True, slots=True, order=True)
class Train:
    """A change-gear train. Drivers: the gear on the driving shaft and, with two pairs, one on the stud; driven: the others.

    Two drivers may change places, so may two driven gears; a driver never with a driven. Each tuple is sorted.
    """

    drivers: tuple[int, ...]
    driven: tuple[int, ...]

    def ratio(self) -> Fraction:
        """Drivers over driven: turns of the driven shaft per turn of the driving one, without sense."""
        return Fraction(prod(self.drivers), prod(self.driven))

    def gears(self) -> int:
        """How many gears to fit, idlers not counted."""
        return len(self.drivers) + len(self.driven)


@cites("common practice", formula="a + b > c + q and c + d > b + q")
def clears(first: MeshingPair, second: MeshingPair, stud_clearance: int) -> bool:
    """Whether two meshing pairs a-b and c-d, with b and c side by side on the stud, clear each other's shafts.

    All in teeth of one pitch; q is what the shaft, its nut and key need. Limits: the reach of the quadrant is not judged.
    Reproduces the trial printed for the lead of 3.60 in (Practical Treatise on Milling and Milling Machines, p. 62) for q from 8 to 55.
    """
    (a, b), (c, d) = first, second
    return a + b > c + stud_clearance and c + d > b + stud_clearance


@lru_cache(maxsize=20_000)
def mountings(train: Train, stud_clearance: int) -> tuple[Mounting, ...]:
    """Every distinct way of putting the train up that clears; a single pair always does, its distance being made up by idlers."""
    if len(train.drivers) == 1:
        return (((train.drivers[0], train.driven[0]),),)
    (a, c), (b, d) = train.drivers, train.driven
    orders = (((a, b), (c, d)), ((c, b), (a, d)), ((a, d), (c, b)), ((c, d), (a, b)))
    return tuple(dict.fromkeys(order for order in orders if clears(*order, stud_clearance)))


def mounted(train: Train, stud_clearance: int) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Drivers and driven in the order of the first mounting that clears: the driving shaft, then the stud; the stud, then the driven."""
    found = mountings(train, stud_clearance)
    if not found:
        return train.drivers, train.driven
    return tuple(a for a, _ in found[0]), tuple(b for _, b in found[0])


def train_words(train: Train, stud_clearance: int) -> str:
    """Drivers : driven as on a chart, mounted so that they clear: "48 : 40", "44·24 : 32·86"."""
    return " : ".join("·".join(map(str, side)) for side in mounted(train, stud_clearance))


@lru_cache(maxsize=32)
def trains_by_ratio(gears: ChangeGears) -> Mapping[Reduced, tuple[Train, ...]]:
    """All trains that have a mounting that clears, by their ratio in lowest terms; one pair before two, then small gears first."""
    found: dict[Reduced, list[Train]] = {}
    for train in _one_pair(gears) + _two_pairs(gears):
        top, bottom = prod(train.drivers), prod(train.driven)
        shared = gcd(top, bottom)
        found.setdefault((top // shared, bottom // shared), []).append(train)
    return {ratio: tuple(trains) for ratio, trains in found.items()}


def trains_of(ratio: Fraction, gears: ChangeGears) -> tuple[Train, ...]:
    """Every train of exactly that ratio (its sense does not matter) that can be put up, simplest first."""
    return trains_by_ratio(gears).get((abs(ratio.numerator), ratio.denominator), ())


@lru_cache(maxsize=32)
def _ratios_rising(gears: ChangeGears) -> tuple[tuple[float, Reduced], ...]:
    return tuple(sorted((top / bottom, (top, bottom)) for top, bottom in trains_by_ratio(gears)))


def ratios_between(least: float, most: float, gears: ChangeGears) -> tuple[Fraction, ...]:
    """Every ratio one's gears give from `least` to `most`, rising."""
    rising = _ratios_rising(gears)
    first, last = bisect_left(rising, (least, (0, 0))), bisect_left(rising, (most, (1 << 62, 0)))
    return tuple(Fraction(*ratio) for _, ratio in rising[first:last])


def ratios_near(target: float | Fraction, gears: ChangeGears, most: int) -> tuple[Fraction, ...]:
    """The `most` ratios nearest to `target`, nearest first; compared exactly."""
    rising, wanted = _ratios_rising(gears), Fraction(target)
    high = bisect_left(rising, (float(wanted), (0, 0)))
    around = rising[max(0, high - most - 1) : high + most + 1]
    return tuple(sorted((Fraction(*ratio) for _, ratio in around), key=lambda ratio: abs(ratio - wanted))[:most])


def every_ratio(gears: ChangeGears) -> tuple[Fraction, ...]:
    """Every ratio one's gears give, rising."""
    return tuple(Fraction(*ratio) for _, ratio in _ratios_rising(gears))


def _one_pair(gears: ChangeGears) -> list[Train]:
    owned = Counter(gears.teeth)
    return [Train((a,), (b,)) for a in sorted(owned) for b in sorted(owned) if a != b or owned[a] > 1]


def _two_pairs(gears: ChangeGears) -> list[Train]:
    owned = Counter(gears.teeth)
    pairs = sorted(set(combinations(sorted(gears.teeth), 2)))
    return [
        Train(drivers, driven)
        for drivers in pairs
        for driven in pairs
        if _owned(drivers + driven, owned) and _clears_somehow(drivers, driven, gears.stud_clearance)
    ]


def _clears_somehow(drivers: tuple[int, ...], driven: tuple[int, ...], stud_clearance: int) -> bool:
    (a, c), (b, d) = drivers, driven
    return any(clears((a, e), (c, f), stud_clearance) or clears((c, e), (a, f), stud_clearance) for e, f in ((b, d), (d, b)))


def _owned(wanted: tuple[int, ...], owned: Counter[int]) -> bool:
    return len(set(wanted)) == len(wanted) or all(wanted.count(gear) <= owned[gear] for gear in wanted)
