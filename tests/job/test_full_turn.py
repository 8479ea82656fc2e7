"""The closing test of a full turn, from the readings of a bar to what it may be: a belt tooth, a slip on start, a wrong ratio."""

from __future__ import annotations

import math
from fractions import Fraction

import numpy as np
import pytest

from evenpitch.checking.readings import HeadReading
from evenpitch.job.commissioning import commission_head
from evenpitch.job.full_turn import drive_of
from evenpitch.quantity.units import RADIAN_PER_ARCSEC, Radian
from job.shop import museum_mill

RATIO = Fraction(40)


def turned(left: tuple[float, float], runs: int = 3, sd: float = 1.0) -> list[HeadReading]:
    """The bar at one place, after one turn and after two: what is left there, seconds."""
    rng, found = np.random.default_rng(3), []
    for run in range(1, runs + 1):
        for turn, off in enumerate((0.0, *left)):
            error = Radian((5 * run + off + rng.normal(0, sd)) * RADIAN_PER_ARCSEC)
            found.append(HeadReading("bar", run, "up", Radian(2 * math.pi * turn), error, len(found) + 2))
    return found


@pytest.mark.parametrize(
    ("left", "cause", "grown"),
    [((540, 1080), "belt tooth", "grows"), ((216, 216), "four full steps", "stays"), ((60, 120), "", "grows")],
)
def test_a_residue_is_told_with_what_it_is_as_large_as(left, cause, grown):
    """A belt tooth of the shop's 60-tooth pulley is 360°/(40 · 60) = 540″ at the work, four full steps of 8 are 32 · 6.75″ = 216″."""
    made = commission_head(turned(left), RATIO, drive_of(museum_mill()))
    assert made.turn is not None
    assert abs(made.turn.residue.value / RADIAN_PER_ARCSEC - left[0]) < 3
    assert made.turn.growth is not None
    assert made.turn.growth.kind == grown
    said = next(one for one in made.findings if one.code == "turn-does-not-close")
    assert cause in said.why


def test_a_turn_that_closes_says_so_and_finds_nothing():
    made = commission_head(turned((0.5, -0.5)), RATIO, drive_of(museum_mill()))
    assert made.turn is not None
    assert "closes" in made.turn.words
    assert not made.turn.meanings
    assert "turn-does-not-close" not in {one.code for one in made.findings}


def test_without_the_pulses_of_a_turn_only_the_growth_is_told():
    made = commission_head(turned((540, 1080)), RATIO)
    assert made.turn is not None
    assert (made.turn.words, made.turn.meanings) == ("", ())
    assert made.turn.growth is not None
