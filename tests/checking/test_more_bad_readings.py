"""What readings cannot give is refused or said, never guessed."""

import math

import numpy as np
import pytest

from checking.made import ARCSEC, RATIO, artefact, bar, scale
from evenpitch.checking.circle_closure import all_shifts
from evenpitch.checking.head import know_head
from evenpitch.checking.least_squares import fit
from evenpitch.checking.measured import Measured, coverage_factor
from evenpitch.checking.paying import paying
from evenpitch.checking.periodic import wave_at
from evenpitch.checking.readings import HeadReading
from evenpitch.checking.scale import calibrate_scale
from evenpitch.checking.standing_out import stands_out
from evenpitch.quantity.refusal import Refusal

WAVES = ((1, 40.0, 20.0), (40, 15.0, 0.0))


def refused(readings):
    with pytest.raises(Refusal) as caught:
        know_head(readings, RATIO)
    return caught.value.faults[0]


def test_head_readings_that_are_no_numbers():
    readings = bar(np.random.default_rng(1), WAVES)
    readings[3] = HeadReading("bar", 1, "up", math.nan, 0.0, 5)
    assert refused(readings).field == "line 5"


def test_an_artefact_at_odd_places_or_of_two_faces():
    readings = artefact(np.random.default_rng(1), (0, 1, 2, 3), WAVES)
    odd = [HeadReading(o.method, o.run, o.direction, o.nominal + 0.01 * (o.nominal > 1), o.error, o.line) for o in readings]
    assert "n places" in refused(odd).likely
    two = artefact(np.random.default_rng(1), (0, 1), WAVES) * 2
    assert "n at least 3" in refused(two).expected


def test_fewer_readings_than_unknowns():
    readings = [HeadReading("bar", run, "up", 0.1 * run, 0.0, run) for run in range(1, 7)]
    assert "Fewer readings" in refused(readings).likely


def test_each_run_from_one_side_only_is_said():
    readings = bar(np.random.default_rng(2), WAVES, backlash=192, degrees=np.arange(0, 27, 0.75))
    nested = [
        HeadReading(o.method, 1 if o.direction == "up" else 2, o.direction, o.nominal, o.error - 13 * o.run * ARCSEC, o.line)
        for o in readings
    ]
    found = know_head(nested, RATIO)
    assert "runs-not-both-ways" in {one.code for one in found.findings}
    assert found.backlash.value / ARCSEC == pytest.approx(192, abs=3)


def test_a_head_reading_far_off_is_named():
    readings = bar(np.random.default_rng(3), WAVES)
    bad = readings[7]
    readings[7] = HeadReading(bad.method, bad.run, bad.direction, bad.nominal, bad.error + 3000 * ARCSEC, bad.line)
    said = next(one for one in know_head(readings, RATIO).findings if one.code == "reading-stands-out")
    assert f"line {bad.line}" in said.says


def test_a_ratio_that_is_not_whole_has_no_worm_wave_in_a_turn():
    from fractions import Fraction

    found = know_head(bar(np.random.default_rng(4), WAVES), Fraction(81, 2))
    assert "worm-not-seen" in {one.code for one in found.findings}
    assert 40 not in {one.per_turn for one in found.waves}


def test_few_places_and_few_readings_of_a_scale():
    readings = scale(np.random.default_rng(5), places=4, runs=1)
    assert "too-few-places" in {one.code for one in calibrate_scale(readings).findings}
    with pytest.raises(Refusal):
        wave_at(readings[:6], 7.0)


def test_a_correcting_that_pays_says_the_factor():
    found = paying(Measured(180e-6, 20e-6), 400.0)
    assert "1.000180" in found.finding.do
    assert "long" in found.finding.says


def test_terms_that_cannot_be_told_apart():
    x = np.arange(6.0)
    for columns in ({"a": x, "b": 2 * x}, {"a": x, "b": 0 * x}, {f"t{k}": x**k for k in range(7)}):
        with pytest.raises(ValueError, match="term"):
            fit(columns, x)


def test_closure_needs_every_shift():
    with pytest.raises(Refusal):
        all_shifts([[1, 2, 3], [1, 2, 3]])


def test_coverage_factor():
    """t for 95 %: 12.71, 2.262, 2.00 for 1, 9, 60 degrees of freedom (JCGM 100:2008, table G.2; from memory)."""
    assert [coverage_factor(n) for n in (1, 9, 60)] == pytest.approx([12.706, 2.262, 2.000], abs=1e-3)
    assert coverage_factor(0) == math.inf
    assert coverage_factor() == 2.0
    assert stands_out(np.array([0.0, 5.0, 0.0])) == ()
