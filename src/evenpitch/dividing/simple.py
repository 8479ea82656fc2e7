"""Direct, simple and block indexing: one plate, one circle."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from functools import lru_cache
from itertools import count
from math import gcd

from evenpitch.dividing.by_hand import Block, Direct, Simple
from evenpitch.rig.head import Head, Plate
from evenpitch.sources.citations import cites


@lru_cache(maxsize=64)
def circles_of(plates: tuple[Plate, ...]) -> tuple[int, ...]:
    """Every hole circle of the plates once, the largest first: the more holes, the less arc between two of them."""
    return tuple(sorted({circle for plate in plates for circle in plate.circles}, reverse=True))


@cites("OD1644, lesson 1, task 1", "common practice", formula="spaces = D/N, only if N divides D")
def direct_ways(divisions: int, head: Head) -> tuple[Direct, ...]:
    """The direct way, where N divides the D holes of the plate on the spindle nose."""
    if head.direct is None or head.direct % divisions:
        return ()
    wanted = head.ratio / divisions
    way = Direct(
        divisions=divisions, head_ratio=head.ratio, wanted=wanted, plate_holes=head.direct, spaces=head.direct // divisions
    )
    return (way,)


@cites("OD1644, lesson 1, task 1", "Practical Treatise on Milling and Milling Machines, p. 52", formula="turns = K/N")
def simple_ways(divisions: int, head: Head, plates: Sequence[Plate]) -> tuple[Simple, ...]:
    """Every circle on which K/N turns of the crank fall on a hole, the largest first.

    Where K/N is whole the pin comes back to its own hole and every circle serves; each is listed.
    """
    wanted = head.ratio / divisions
    top, bottom = wanted.numerator, wanted.denominator
    moves = ((circle, top * circle // bottom) for circle in circles_of(tuple(plates)) if circle % bottom == 0)
    return tuple(
        Simple(
            divisions=divisions,
            head_ratio=head.ratio,
            wanted=wanted,
            whole_turns=holes // circle,
            circle=circle,
            spaces=holes % circle,
        )
        for circle, holes in moves
    )


@cites("Machinery's Handbook, block or multiple indexing", formula="turns = k K/N, gcd(k, N) = 1")
def block_ways(divisions: int, head: Head, plates: Sequence[Plate]) -> Iterator[Block]:
    """Every exact block way, by rising skip k up to half the divisions; endless lists are the caller's to cut short.

    It is exact on the circles on which the simple way is: k prime to N leaves the denominator as it is. It spreads the heat.
    """
    simple = simple_ways(divisions, head, plates)
    for skip in count(2):
        if not simple or skip > divisions // 2:
            return
        if gcd(skip, divisions) == 1:
            yield from (_block(way, skip) for way in simple)


def _block(way: Simple, skip: int) -> Block:
    holes = skip * (way.whole_turns * way.circle + way.spaces)
    return Block(
        divisions=way.divisions,
        head_ratio=way.head_ratio,
        wanted=skip * way.wanted,
        whole_turns=holes // way.circle,
        circle=way.circle,
        spaces=holes % way.circle,
        spaces_per_index=skip,
    )


def spaces_reached(divisions: int, skip: int) -> int:
    """How many spaces come before the first is met again, moving `skip` at a time: all only if skip is prime to divisions."""
    return divisions // gcd(divisions, skip)


def nearest_on_circle(turns: Fraction, circle: int) -> tuple[int, Fraction]:
    """The nearest whole count of spaces on a circle for so many turns, and made minus wanted in turns."""
    spaces = round(turns * circle)
    return spaces, Fraction(spaces, circle) - turns
