"""The same searches the plain way: nested loops over everything that can be set, nothing clever. The witness and the yardstick."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import permutations
from math import gcd, lcm

Plates = Sequence[Sequence[int]]


def compound_by_loops(divisions: int, ratio: int, plates: Plates, arcsec: int, pairs: int | None = None) -> set[tuple[int, ...]]:
    """(crank circle, plate circle, skip, |error| x L, L) of every compound move that closes within `arcsec`, in integers.

    Every plate, ordered pair of circles, skip prime to N, crank spaces and plate spaces, both senses; whole turns are free.
    """
    found = set()
    wanted = [(a, b) for circles in plates for a in circles for b in circles if a != b][:pairs]
    for a, b in wanted:
        grid = lcm(a, b)
        one, other, limit = grid // a, grid // b, arcsec * grid * ratio // 1_296_000
        for skip in range(1, divisions):
            if gcd(skip, divisions) > 1:
                continue
            target = skip * ratio * grid
            turn = divisions * grid
            for crank in range(1, a):
                for plate in range(1, b):
                    off = (divisions * (crank * one + plate * other) - target) % turn
                    off = min(off, turn - off)
                    if off <= limit:
                        found.add((a, b, skip, off, grid))
    return found


def simple_by_loops(divisions: int, ratio: int, plates: Plates) -> set[tuple[int, int]]:
    """(circle, holes moved) wherever N moves make the head's ratio."""
    circles = {circle for plate in plates for circle in plate}
    return {
        (circle, holes) for circle in circles for holes in range(1, ratio * circle + 1) if holes * divisions == ratio * circle
    }


def every_train(gears: Sequence[int]) -> list[tuple[tuple[int, ...], tuple[int, ...]]]:
    """(drivers, driven) in every order in which one or two pairs can be picked from the box."""
    one = [((a,), (b,)) for a, b in permutations(gears, 2)]
    two = [((a, c), (b, d)) for a, b, c, d in permutations(gears, 4)]
    return one + two


def clears_by_hand(drivers: tuple[int, ...], driven: tuple[int, ...], stud: int) -> bool:
    """Whether the train clears as it stands: first driver with first driven, second with second."""
    if len(drivers) == 1:
        return True
    (a, c), (b, d) = drivers, driven
    return a + b > c + stud and c + d > b + stud


def differential_by_loops(
    divisions: int, ratio: int, plates: Plates, gears: Sequence[int], stud: int, circles: int | None = None
) -> set[tuple[int, int]]:
    """(circle, holes moved) for which some train that clears as it stands divides exactly, with or against."""
    wanted = sorted({circle for plate in plates for circle in plate}, reverse=True)[:circles]
    trains = [train for train in every_train(gears) if clears_by_hand(*train, stud)]
    found = set()
    for circle in wanted:
        for holes in range(1, (ratio + 15) * circle // divisions + 2):
            turns = ratio * circle - divisions * holes
            if turns == 0:
                continue
            for drivers, driven in trains:
                top, bottom = drivers[0], driven[0]
                if len(drivers) == 2:
                    top, bottom = top * drivers[1], bottom * driven[1]
                if top * circle == abs(turns) * bottom:
                    found.add((circle, holes))
                    break
    return found


def leads_by_loops(target: float, gears: Sequence[int], stud: int, most: int) -> list[tuple[int, int]]:
    """The `most` nearest ratios driven/drivers in lowest terms that some train gives, by a plain loop four deep."""
    found = {}
    for drivers, driven in every_train(gears):
        if not clears_by_hand(drivers, driven, stud):
            continue
        top, bottom = driven[0], drivers[0]
        if len(drivers) == 2:
            top, bottom = top * driven[1], bottom * drivers[1]
        shared = gcd(top, bottom)
        found[(top // shared, bottom // shared)] = abs(top / bottom - target)
    return sorted(found, key=lambda ratio: (found[ratio], ratio))[:most]
