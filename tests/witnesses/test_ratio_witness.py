"""The best fraction within bounds, and pi and sines, against second methods that share nothing with the first."""

import math
import os
import random
from fractions import Fraction

import pytest

from evenpitch.quantity.irrational import pi, sine
from evenpitch.quantity.ratios import absolute_targets, best_bounded

FULL = os.environ.get("EVENPITCH_FULL") == "1"


def _by_enumeration(value, largest_num, largest_den):
    """Every fraction within the bounds, looked at one by one."""
    fractions = {Fraction(p, q) for p in range(1, largest_num + 1) for q in range(1, largest_den + 1)}
    return min(fractions, key=lambda one: (abs(one - value), one.denominator, one.numerator))


@pytest.mark.long
def test_best_bounded_is_the_best_of_all():
    chance = random.Random(1)
    for _ in range(300 if FULL else 30):
        num, den = chance.randint(1, 40), chance.randint(1, 40)
        value = Fraction(chance.randint(1, 10**12), chance.randint(1, 10**12)) * Fraction(10) ** chance.randint(-2, 2)
        assert best_bounded(value, num, den) == _by_enumeration(value, num, den)


def test_best_bounded_at_small_bounds_and_every_small_fraction():
    """Ties, exact hits and the corners of the bounds."""
    for num in range(1, 6):
        for den in range(1, 6):
            for over in range(1, 15):
                for under in range(1, 15):
                    value = Fraction(over, under)
                    assert best_bounded(value, num, den) == _by_enumeration(value, num, den)


@pytest.mark.long
def test_best_bounded_against_a_walk_over_all_denominators():
    """For each denominator the two numerators about the value: a sixteen-bit field, where enumeration of pairs is out of reach."""
    chance = random.Random(2)
    for _ in range(10 if FULL else 2):
        value = Fraction(chance.random() * 10 ** chance.uniform(-3, 3))
        bound = 32767
        a, b = value.numerator, value.denominator
        best = None
        for q in range(1, bound + 1):
            for p in (a * q // b, a * q // b + 1):
                clamped = min(max(p, 1), bound)
                gap = abs(clamped * b - a * q)
                if best is None or gap * best[1] < best[0] * q:
                    best = (gap, q, clamped)
        assert best is not None
        assert best_bounded(value, bound, bound) == Fraction(best[2], best[1])


def test_absolute_targets_are_the_counter_that_adds_and_never_loses():
    """A counter that takes 2T for each division and gives a pulse for each 2N (the same whole-number function, run rather than solved)."""
    for total, divisions in ((192_000, 97), (64_000, 127), (7, 3), (3, 7), (100, 100), (1, 2)):
        places, pulses, held = [0], 0, divisions
        for _ in range(divisions):
            held += 2 * total
            while held >= 2 * divisions:
                held -= 2 * divisions
                pulses += 1
            places.append(pulses)
        assert absolute_targets(total, divisions) == tuple(places)


def test_pi_by_a_second_series():
    """pi = 48 arctan(1/18) + 32 arctan(1/57) - 20 arctan(1/239) (Gauss; from memory), in plain fractions."""

    def arctan(n, terms):
        return sum(Fraction((-1) ** k, (2 * k + 1) * n ** (2 * k + 1)) for k in range(terms))

    second = 48 * arctan(18, 30) + 32 * arctan(57, 22) - 20 * arctan(239, 16)
    assert abs(pi(60).value - second) < Fraction(2, 10**60)


def test_sines_by_adding_angles():
    """sin² + cos² = 1, and sin 3x = 3 sin x - 4 sin³ x, to all the digits kept; and the machine's own sine to its last bit but one."""
    for hundredths in range(1, 9000, 173):
        angle = Fraction(hundredths, 100)
        found, turned = sine(angle, 40), sine(90 - angle, 40)
        assert abs(found.value**2 + turned.value**2 - 1) <= 4 * Fraction(1, 10**40)
        assert abs(3 * found.value - 4 * found.value**3 - sine(3 * angle, 40).value) <= 20 * Fraction(1, 10**40)
        assert float(found.value) == pytest.approx(math.sin(math.radians(float(angle))), rel=4e-16)
