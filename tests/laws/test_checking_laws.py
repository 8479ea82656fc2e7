"""Laws of checking: what must hold for any readings."""

import math
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from checking.made import ARCSEC, RATIO, bar, scale
from evenpitch.checking.aliasing import hidden_counts
from evenpitch.checking.compensation import error_at, target_angle
from evenpitch.checking.head import know_head
from evenpitch.checking.iso230 import positioning
from evenpitch.checking.link_proof import table_for, wanted_angle
from evenpitch.checking.readings import HeadReading, ScaleReading
from evenpitch.checking.scale import calibrate_scale
from evenpitch.rig.maps import Harmonic


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 10_000), st.floats(-5, 5), st.floats(-200, 200))
def test_shifting_all_scale_readings_changes_nothing(seed, shift, along):
    readings = scale(np.random.default_rng(seed), gain=1e-4, reversal=0.003)
    moved = [ScaleReading(o.run, o.direction, o.reference + along, o.reading + along + shift) for o in readings]
    one, other = calibrate_scale(readings), calibrate_scale(moved)
    assert other.gain.value == pytest.approx(one.gain.value, abs=1e-10)
    assert other.reversal.value == pytest.approx(one.reversal.value, abs=1e-9)
    assert other.s.value == pytest.approx(one.s.value, abs=1e-9)


@settings(max_examples=15, deadline=None)
@given(st.integers(0, 10_000), st.floats(-3000, 3000))
def test_shifting_all_head_readings_changes_nothing(seed, shift):
    readings = bar(np.random.default_rng(seed), ((1, 40, 20), (40, 15, 0)), degrees=np.arange(0, 360, 7.1))
    moved = [HeadReading(o.method, o.run, o.direction, o.nominal, o.error + shift * ARCSEC) for o in readings]
    for one, other in zip(know_head(readings, RATIO).waves, know_head(moved, RATIO).waves, strict=True):
        assert other.amplitude.value == pytest.approx(one.amplitude.value, abs=1e-9 * abs(shift) * ARCSEC + 1e-12)


@settings(max_examples=50, deadline=None)
@given(st.sampled_from(hidden_counts(40, 4, 40)), st.floats(0, 60), st.floats(0, 6.3))
def test_the_worm_is_invisible_where_the_count_divides_the_ratio(count, arcsec, phase):
    worm = [Harmonic(40, arcsec * ARCSEC, phase)]
    errors = [error_at(worm, 2 * math.pi * k / count) for k in range(count)]
    assert max(errors) - min(errors) == pytest.approx(0, abs=1e-12)


@settings(max_examples=50, deadline=None)
@given(st.floats(0, 60), st.floats(0, 30), st.floats(0, 6.3), st.floats(0, 6.3))
def test_a_map_taken_out_leaves_only_what_is_of_second_order(wheel, worm, phase, other):
    waves = [Harmonic(1, wheel * ARCSEC, phase), Harmonic(40, worm * ARCSEC, other)]
    for k in range(97):
        wanted = 2 * math.pi * k / 97
        stands = target_angle(waves, wanted)
        assert abs(stands + error_at(waves, stands) - wanted) < 1.5 * ARCSEC


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 10_000))
def test_a_map_applied_twice_changes_nothing_more(seed):
    """Readings with the map taken out give a map of nothing: applying it again moves no target."""
    rng = np.random.default_rng(seed)
    readings = bar(rng, ((1, 40, 20), (40, 15, 0)), degrees=np.arange(0, 360, 4.1))
    first = know_head(readings, RATIO)
    waves = [Harmonic(one.per_turn, one.amplitude.value, one.phase) for one in first.waves]
    rest = [HeadReading(o.method, o.run, o.direction, o.nominal, o.error - error_at(waves, o.nominal)) for o in readings]
    assert all(one.amplitude.value < 1e-9 for one in know_head(rest, RATIO).waves)


@settings(max_examples=50, deadline=None)
@given(st.integers(0, 10_000), st.floats(-50, 50))
def test_positioning_does_not_see_a_shift(seed, shift):
    rng = np.random.default_rng(seed)
    up, down = rng.normal(0, 1, (5, 5)), rng.normal(1, 1, (5, 5))
    one, other = positioning(up.tolist(), down.tolist()), positioning((up + shift).tolist(), (down + shift).tolist())
    assert pytest.approx(one.A) == other.A
    assert pytest.approx(one.B) == other.B
    assert one.A >= one.E >= one.M / 2


@given(st.floats(1, 400), st.fractions(Fraction(20), Fraction(5000)))
def test_table_and_work_are_each_other_s_inverse(moved, lead):
    assert table_for(wanted_angle(moved, float(lead)), float(lead)) == pytest.approx(moved)
