"""The searches of the dividing room against plain nested loops."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from math import lcm

import pytest

from evenpitch.dividing.compound import near_misses
from evenpitch.dividing.differential import differential_ways
from evenpitch.dividing.methods import Compound
from evenpitch.dividing.pulses import pulse_way
from evenpitch.dividing.simple import simple_ways
from evenpitch.dividing.trains import Train, every_ratio, mountings, ratios_near, trains_by_ratio, trains_of
from evenpitch.dividing.ways import ways
from evenpitch.rig.generic import GEAR_SETS, PLATE_SETS
from evenpitch.rig.head import ChangeGears, Head, Plate
from witnesses.plain_dividing import (
    clears_by_hand,
    compound_by_loops,
    differential_by_loops,
    every_train,
    leads_by_loops,
    simple_by_loops,
)

HEAD = Head(ratio=Fraction(40), direct=24)
PLATES = PLATE_SETS["three plates, 15 to 49 holes"]
TWELVE = GEAR_SETS["twelve gears, 24 to 100"]
FEW = ChangeGears((24, 24, 28, 40, 48, 86, 100))


def compounds(divisions: int, head: Head, plates: tuple[Plate, ...]) -> set[tuple[int, ...]]:
    found = set()
    for way in near_misses(divisions, head, plates, exact=False, least_error=False):
        if isinstance(way, Compound):
            grid = lcm(way.circle, way.plate_circle)
            over = abs(way.move_error) * divisions * grid
            found.add((way.circle, way.plate_circle, way.skip, over.numerator, grid))
            assert over.denominator == 1
    return found


@pytest.mark.parametrize("divisions", [7, 12, 13, 19])
@pytest.mark.parametrize("circles", [(39, 47, 49), (21, 27, 33)])
def test_near_compounds_are_those_of_the_loops(divisions: int, circles: tuple[int, ...]) -> None:
    plain = {found for found in compound_by_loops(divisions, 40, [circles], 60) if found[3]}
    assert compounds(divisions, HEAD, (Plate(circles),)) == plain


@pytest.mark.parametrize(("divisions", "ratio"), [(11, 60), (17, 90), (23, 5)])
def test_near_compounds_on_other_heads(divisions: int, ratio: int) -> None:
    circles = (37, 49) if ratio < 50 else (19, 20)
    plain = {found for found in compound_by_loops(divisions, ratio, [circles], 60) if found[3]}
    assert compounds(divisions, Head(ratio=Fraction(ratio)), (Plate(circles),)) == plain


@pytest.mark.parametrize("divisions", [33, 51, 57, 62, 87])
def test_listed_compounds_are_the_smallest_exact_skips_and_the_unbettered(divisions: int) -> None:
    circles = (23, 29, 33)
    plain = compound_by_loops(divisions, 40, [circles], 60)
    errors = {(found, Fraction(found[3], found[4]), found[2]) for found in plain}
    if simple_by_loops(divisions, 40, [circles]):
        errors.add(((), Fraction(0), 1))
    known = [entry for entry in errors if entry[0]]
    wanted = {f for f, error, skip in known if error and not any(e < error and k < skip for _, e, k in errors)}
    wanted |= {f for f, error, skip in known if not error and not any(g[:2] == f[:2] and not e and k < skip for g, e, k in known)}
    listed = set()
    for way in ways(divisions, HEAD, (Plate(circles),)):
        if isinstance(way, Compound):
            grid = lcm(way.circle, way.plate_circle)
            listed.add((way.circle, way.plate_circle, way.skip, int(abs(way.move_error) * divisions * grid), grid))
    assert listed == wanted


@pytest.mark.parametrize("divisions", [*range(1, 51), 96, 97, 100, 392, 400, 401])
def test_simple_ways_are_those_of_the_loops(divisions: int) -> None:
    found = {(way.circle, way.whole_turns * way.circle + way.spaces) for way in simple_ways(divisions, HEAD, PLATES)}
    assert found == simple_by_loops(divisions, 40, [plate.circles for plate in PLATES])


@pytest.mark.parametrize("divisions", [43, 97, 127, 271, 382])
def test_differential_moves_are_those_of_the_loops(divisions: int) -> None:
    plates = (Plate((16, 20, 21, 27, 33, 39)),)
    found = {(way.circle, way.whole_turns * way.circle + way.spaces) for way in differential_ways(divisions, HEAD, plates, FEW)}
    assert found == differential_by_loops(divisions, 40, [plates[0].circles], FEW.teeth, 15)


def test_trains_and_mountings_are_those_of_the_loops() -> None:
    plain: dict[Train, set[object]] = {}
    for drivers, driven in every_train(TWELVE.teeth):
        if clears_by_hand(drivers, driven, 15):
            train = Train(tuple(sorted(drivers)), tuple(sorted(driven)))
            plain.setdefault(train, set()).add(tuple(zip(drivers, driven, strict=True)))
    ours = {train: set(mountings(train, 15)) for trains in trains_by_ratio(TWELVE).values() for train in trains}
    assert ours == plain


@pytest.mark.parametrize("target", [0.067, 0.5, 1.0, 2.0251, 4.0503, 14.0])
def test_nearest_ratios_are_those_of_the_loops(target: float) -> None:
    plain = leads_by_loops(target, TWELVE.teeth, 15, 5)
    ours = [(ratio.numerator, ratio.denominator) for ratio in ratios_near(target, TWELVE, 5)]
    assert [abs(n / d - target) for n, d in ours] == pytest.approx([abs(n / d - target) for n, d in plain], abs=1e-12)


def test_every_ratio_has_its_train_and_its_mirror() -> None:
    ratios = every_ratio(TWELVE)
    assert {1 / ratio for ratio in ratios} == set(ratios)
    assert all(trains_of(ratio, TWELVE)[0].ratio() == ratio for ratio in ratios)


@pytest.mark.parametrize("total", [Fraction(192_000), Fraction(16_000), Fraction(576_000, 7), Fraction(1001, 3)])
@pytest.mark.parametrize("divisions", [1, 2, 6, 97, 113, 125, 128, 331])
def test_pulses_counted_one_by_one(total: Fraction, divisions: int) -> None:
    way = pulse_way(divisions, HEAD, total)
    targets = way.targets()
    moves = [after - before for before, after in pairwise(targets)]
    assert {size: moves.count(size) for size in moves} == dict(way.counts)
    assert max(abs(target - k * total / divisions) for k, target in enumerate(targets[:-1])) == way.worst_space
    assert targets[-1] - total == way.closing
    off = [(size - total / divisions) * 40 / total for size in moves]
    assert abs(way.move_error) == max(map(abs, off))
    assert way.move_error in off
