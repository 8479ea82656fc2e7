"""Compound indexing: the crank on one circle, then crank and plate together on another of the same plate, with or without skipping.

A move makes x/L turns, L the least common multiple of the circles. Moving k spaces at a time closes with an error of r/L turns when
N x = k K L + r, so for each pair and each small r the skip k follows from one congruence; nothing is tried in turn.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import groupby
from math import gcd, lcm

from evenpitch.dividing.by_hand import Block, Compound, Simple
from evenpitch.dividing.simple import circles_of
from evenpitch.quantity.units import ARCSEC_PER_TURN
from evenpitch.rig.head import Head, Plate, Sense
from evenpitch.sources.citations import cites

CLOSES_WITHIN_ARCSEC = 60
"""An inexact way is worth showing when it closes within this at the work."""

Grid = tuple[int, ...]
"""One circle, or a crank circle and a plate circle of one plate."""
HandWay = Simple | Block | Compound


@dataclass(frozen=True, slots=True)
class CompoundMove:
    """Whole turns and spaces of the crank, and of the plate."""

    whole_turns: int
    spaces: int
    plate_spaces: int
    plate_sense: Sense


@lru_cache(maxsize=64)
def circle_pairs(plates: tuple[Plate, ...]) -> tuple[tuple[int, int], ...]:
    """Every ordered pair (crank circle, plate circle) of two circles on one plate."""
    pairs = ((a, b) for plate in plates for a in plate.circles for b in plate.circles if a != b)
    return tuple(sorted(set(pairs)))


@lru_cache(maxsize=256)
def _grid_of(first: int, second: int) -> tuple[int, int, int, int]:
    """L, what one space of each circle is in 1/L turn, and the inverse of the first modulo the second."""
    grid = lcm(first, second)
    one, other = grid // first, grid // second
    return grid, one, other, pow(one, -1, other) if other > 1 else 0


@cites("Machinery's Reference Series No. 97, ch. I", formula="w + a/c1 ± b/c2 = x/L, L = lcm(c1, c2)")
def compound_move(holes: int, first: int, second: int) -> CompoundMove | None:
    """The move of x/L turns, crank on `first`, plate on `second`, that takes least turning, then fewest spaces to count.

    None where crank or plate would not move off its hole: that is no compound move.
    """
    grid, one, other, inverse = _grid_of(first, second)
    best: tuple[int, int, CompoundMove] | None = None
    for spaces in range(holes * inverse % other, first, other):
        plate_spaces = (holes - spaces * one) // other % second
        if not spaces or not plate_spaces:
            continue
        turns = (holes - spaces * one - plate_spaces * other) // grid
        move = CompoundMove(turns, spaces, plate_spaces, "with")
        if turns < 0:
            move = CompoundMove(turns + 1, spaces, second - plate_spaces, "against")
        turning = (move.whole_turns * first + spaces) * one + move.plate_spaces * other
        if best is None or (turning, spaces + move.plate_spaces) < best[:2]:
            best = (turning, spaces + move.plate_spaces, move)
    return best[2] if best else None


@cites(
    "Machinery's Reference Series No. 97, ch. I", "derived here", formula="exact iff the denominator of K/N divides lcm(c1, c2)"
)
def exact_compounds(divisions: int, head: Head, plates: tuple[Plate, ...]) -> tuple[Compound, ...]:
    """For each pair of circles the smallest skip that is exact. A skip prime to N never mends a denominator, so that skip is 1."""
    wanted = head.ratio / divisions
    found = (
        compound_way(divisions, head, 1, wanted, pair, wanted.numerator * (grid // wanted.denominator))
        for pair in circle_pairs(plates)
        if (grid := lcm(*pair)) % wanted.denominator == 0
    )
    return tuple(way for way in found if way is not None)


def near_misses(
    divisions: int, head: Head, plates: tuple[Plate, ...], exact: bool, least_error: bool = True
) -> Iterator[HandWay]:
    """Inexact ways that close within 60″, smallest error first: with one circle (simple, block) and with two (compound).

    `least_error`: only those that no other way of this kind betters in both error and skip; `exact`: an exact way with skip 1
    is known, which betters all of larger skip.
    """
    bound = 2 if exact and least_error else divisions
    for level in _levels(circle_pairs(plates), circles_of(plates), head.ratio.numerator):
        smallest = bound
        for grid, residue in level:
            for skip in _skips(divisions, head.ratio, lcm(*grid), residue, bound):
                found = _missing_by(divisions, head, skip, grid, residue)
                yield from found
                smallest = min(smallest, skip + 1) if found else smallest
        bound = smallest if least_error else bound


@lru_cache(maxsize=64)
def _levels(
    pairs: tuple[tuple[int, int], ...], circles: tuple[int, ...], ratio_top: int
) -> tuple[tuple[tuple[Grid, int], ...], ...]:
    """(grid, residue r) that close within the limit, grouped by equal size of the error r/L, smallest first."""
    grids: list[Grid] = [(circle,) for circle in circles] + [pair for pair in pairs if pair[0] < pair[1]]
    found: list[tuple[Fraction, Grid, int]] = []
    for grid in grids:
        holes = lcm(*grid)
        most = CLOSES_WITHIN_ARCSEC * holes * ratio_top // ARCSEC_PER_TURN
        found += [(Fraction(size, holes), grid, sign * size) for size in range(1, most + 1) for sign in (1, -1)]
    found.sort(key=lambda entry: entry[0])
    return tuple(tuple((grid, residue) for _, grid, residue in level) for _, level in groupby(found, lambda entry: entry[0]))


def _skips(divisions: int, ratio: Fraction, holes: int, residue: int, bound: int) -> Iterator[int]:
    """Every skip k below min(bound, N), prime to N, for which N divides k K L + r."""
    factor, modulus = ratio.numerator * holes, divisions * ratio.denominator
    shared = gcd(factor, modulus)
    if residue % shared:
        return
    period = modulus // shared
    first = -residue // shared * pow(factor // shared, -1, period) % period if period > 1 else 0
    for skip in range(first, min(bound, divisions), period):
        if skip and gcd(skip, divisions) == 1:
            yield skip


def _missing_by(divisions: int, head: Head, skip: int, grid: Grid, residue: int) -> list[HandWay]:
    top = skip * head.ratio.numerator * lcm(*grid) + residue
    holes = top // (divisions * head.ratio.denominator)
    if len(grid) == 1:
        return [_on_circle(divisions, head, skip, grid[0], holes)] if holes > 0 else []
    wanted = skip * head.ratio / divisions
    ways = (compound_way(divisions, head, skip, wanted, pair, holes) for pair in ((grid[0], grid[1]), (grid[1], grid[0])))
    return [way for way in ways if way is not None]


def _on_circle(divisions: int, head: Head, skip: int, circle: int, holes: int) -> Simple | Block:
    wanted = skip * head.ratio / divisions
    turns, spaces = divmod(holes, circle)
    error = Fraction(holes, circle) - wanted
    if skip == 1:
        return Simple(
            divisions=divisions,
            head_ratio=head.ratio,
            wanted=wanted,
            move_error=error,
            whole_turns=turns,
            circle=circle,
            spaces=spaces,
        )
    return Block(
        divisions=divisions,
        head_ratio=head.ratio,
        wanted=wanted,
        move_error=error,
        whole_turns=turns,
        circle=circle,
        spaces=spaces,
        spaces_per_index=skip,
    )


def compound_way(
    divisions: int | None, head: Head, skip: int, wanted: Fraction, pair: tuple[int, int], holes: int
) -> Compound | None:
    """The compound way whose move is x/L turns (`holes` = x) where `wanted` turns would be right; None where it is none."""
    move = compound_move(holes, *pair) if holes > 0 else None
    if move is None:
        return None
    return Compound(
        divisions=divisions,
        head_ratio=head.ratio,
        wanted=wanted,
        move_error=Fraction(holes, lcm(*pair)) - wanted,
        whole_turns=move.whole_turns,
        circle=pair[0],
        spaces=move.spaces,
        spaces_per_index=skip,
        plate_circle=pair[1],
        plate_spaces=move.plate_spaces,
        plate_sense=move.plate_sense,
    )
