"""The head known: joint fit, circle closure, closing test, aliasing, targets."""

import math
from datetime import date
from fractions import Fraction

import numpy as np
import pytest

from checking.made import ARCSEC, RATIO, artefact, bar, case, topic
from evenpitch.checking.aliasing import cumulative_share, hidden_counts, hiding, phases, single_share
from evenpitch.checking.bar import angle_of_height, height_between, taken_straight, turned_by
from evenpitch.checking.circle_closure import all_shifts, all_shifts_factor, one_series, one_series_factor
from evenpitch.checking.closing import Drive, growth, meanings, residue_words
from evenpitch.checking.compensation import gain_finding, map_gain, targets_without_map
from evenpitch.checking.head import know_head
from evenpitch.checking.readings import HeadReading
from evenpitch.quantity.refusal import Refusal
from evenpitch.rig.maps import ErrorMap, Harmonic

WAVES = ((1, 40.0, 20.0), (40, 15.0, 0.0))


def wave(found, per_turn):
    return next(one for one in found.waves if one.per_turn == per_turn)


def codes(found) -> set[str]:
    return {one.code for one in found.findings}


def test_bar_all_round_finds_worm_wheel_play_and_closure():
    at = np.concatenate([np.arange(0, 27, 0.75), np.arange(30, 361, 15)])
    found = know_head(bar(np.random.default_rng(1), WAVES, backlash=192, degrees=at, slope=30), RATIO)
    for per_turn, amplitude, phase in WAVES:
        one = wave(found, per_turn)
        assert abs(one.amplitude.value / ARCSEC - amplitude) <= 1.5 * one.amplitude.U / ARCSEC
        off = math.remainder(math.degrees(one.phase) - phase, 360)
        assert abs(off) <= 3 * math.degrees(one.phase_u)
    assert abs(found.backlash.value / ARCSEC - 192) <= 1.5 * found.backlash.U / ARCSEC
    assert abs(found.closure.value / ARCSEC - 30) <= 1.5 * found.closure.U / ARCSEC
    assert {one.per_turn for one in found.shown()} == {1, 40}


def test_three_turns_of_the_crank_show_the_worm_but_not_the_wheel():
    found = know_head(bar(np.random.default_rng(2), WAVES, degrees=np.arange(0, 27, 0.75)), RATIO)
    assert {one.per_turn for one in found.waves} == {40, 80}
    assert "wheel-not-seen" in codes(found)
    assert abs(wave(found, 40).amplitude.value / ARCSEC - 15) < 1.5


def test_a_square_can_never_show_the_worm():
    found = know_head(artefact(np.random.default_rng(3), (0, 30, -10, -20), WAVES), RATIO)
    assert "worm-not-seen" in codes(found)
    assert abs(wave(found, 1).amplitude.value / ARCSEC - 40) < 2
    assert found.faces == pytest.approx([face * ARCSEC for face in (0, 30, -10, -20)], abs=2 * ARCSEC)


def test_a_hexagon_sees_the_worm_as_another_wave():
    found = know_head(artefact(np.random.default_rng(3), (0, 3, -1, -2, 4, -4), WAVES), RATIO)
    said = next(one for one in found.findings if one.code == "waves-alias")
    assert "40" in said.says
    assert "2" in said.says


def test_bar_and_square_together():
    rng = np.random.default_rng(4)
    both = bar(rng, WAVES, degrees=np.arange(0, 27, 0.75)) + artefact(rng, (0, 30, -10, -20), WAVES)
    found = know_head(both, RATIO)
    assert abs(wave(found, 40).amplitude.value / ARCSEC - 15) < 1.5
    assert abs(wave(found, 1).amplitude.value / ARCSEC - 40) < 3


def test_bad_head_readings_are_refused():
    good = bar(np.random.default_rng(5), WAVES)
    skipped = list(good)
    skipped[10] = HeadReading("bar", 1, "up", good[10].nominal + 4 * math.pi, 0.0, 12)
    missing = artefact(np.random.default_rng(5), (0, 1, 2, 3), WAVES)[:-1]
    for readings, word in ((skipped, "skip a turn"), (missing, "every shift"), (good[:3], "So few")):
        with pytest.raises(Refusal) as caught:
            know_head(readings, RATIO)
        assert word in caught.value.faults[0].likely


def test_directions_the_wrong_way_round():
    assert "directions-turned" in codes(know_head(bar(np.random.default_rng(6), WAVES, backlash=-192), RATIO))


def test_map_keeps_what_is_shown_with_its_uncertainty():
    made = know_head(bar(np.random.default_rng(7), WAVES, degrees=np.arange(0, 360, 4.1)), RATIO).as_map(date(2026, 3, 12))
    assert {one.per_turn for one in made.harmonics} == {1, 40}
    assert all(0 < one.U < one.amplitude for one in made.harmonics)


def test_height_is_not_the_arc():
    """At 4.5° taking the height for the arc is 0.1 % or 17″ off (third order term θ³/6)."""
    height = 100 * math.sin(math.radians(4.5))
    assert math.degrees(angle_of_height(height, 100)) == pytest.approx(4.5)
    assert -taken_straight(height, 100) / ARCSEC == pytest.approx(16.6, abs=0.1)
    assert math.degrees(turned_by(height_between(100, math.radians(34.9934)), 100)) == pytest.approx(34.9934)
    for bad in (angle_of_height, turned_by):
        with pytest.raises(Refusal):
            bad(201, 100)


def test_circle_closure_of_a_square():
    given = case("closure-4")
    closed = all_shifts(given["inputs"]["readings"])
    assert closed.head == pytest.approx(given["outputs"]["head"], abs=1e-6)
    assert closed.artefact == pytest.approx(given["outputs"]["artefact"], abs=1e-6)
    assert all_shifts_factor(4) == pytest.approx(given["outputs"]["u_factor"])


@pytest.mark.parametrize("name", ["closure-6", "closure-8-pitch"])
def test_one_series(name):
    given = case(name)
    readings = given["inputs"].get("readings_arcsec") or given["inputs"]["caliper_pitch_readings_um"]
    reference, parts = one_series(readings)
    assert parts == pytest.approx(given["outputs"].get("segment_dev_arcsec") or given["outputs"]["pitch_deviation"])
    assert sum(parts) == pytest.approx(0)
    if name == "closure-6":
        assert reference == pytest.approx(-1.0)
        assert one_series_factor(6) == pytest.approx(given["outputs"]["std_factor"])


@pytest.mark.parametrize("given", topic("cyclic_pitch"), ids=lambda one: one["id"])
def test_what_a_wave_does_to_the_pitch(given):
    of, out = given["inputs"], given["outputs"]
    um = of["A_arcsec"] * ARCSEC * of["d"] / 2 * 1e3
    assert phases(of["z"], of["h"]) == out["distinct_phases"]
    assert cumulative_share(of["z"], of["h"]) * um == pytest.approx(out["Fp_um"], rel=1e-4, abs=1e-6)
    assert single_share(of["z"], of["h"]) * um == pytest.approx(out["fp_um"], rel=1e-4, abs=1e-6)


def test_counts_that_hide_the_worm():
    assert hidden_counts(40, 4, 60) == (4, 5, 8, 10, 20, 40)
    assert hiding(20, 40).hides
    assert hiding(127, 40).shows_all
    assert phases(4, Fraction(85, 2)) == 8


def test_targets_with_the_map_taken_out():
    given = case("comp-24")
    of = given["inputs"]
    waves = [Harmonic(h, amplitude * ARCSEC, phase) for h, amplitude, phase in of["harmonics"]]
    assert list(targets_without_map(Fraction(of["steps_per_rev"]), of["z"], waves)) == given["outputs"]["steps"]


def test_map_pays_where_the_waves_lead():
    waves = ErrorMap(date(2026, 3, 12), (Harmonic(1, 40 * ARCSEC, 0.0, 2 * ARCSEC), Harmonic(40, 15 * ARCSEC, 0.0, 2 * ARCSEC)))
    good = map_gain(waves, 6.75 * ARCSEC, 3 * ARCSEC)
    assert good.pays
    assert gain_finding(good) is None
    poor = map_gain(waves, 6.75 * ARCSEC, 40 * ARCSEC)
    assert not poor.pays
    assert gain_finding(poor).code == "map-does-not-pay"


DRIVE = Drive(pulses_per_turn=Fraction(192_000), microsteps=8, belt_teeth=60, backlash=192 * ARCSEC)


def test_residue_of_the_workshop_is_no_belt_tooth():
    """+0.031 mm at 100 mm radius: 63.9″, 9.5 pulses; a belt tooth is 540″ at the work."""
    residue = 0.031 / 100
    words = residue_words(residue, 20 * ARCSEC, DRIVE)
    assert words.startswith("63.9″, 9.5 pulses")
    assert "540″" in words
    assert not any(one.fits for one in meanings(residue, 20 * ARCSEC, DRIVE))


@pytest.mark.parametrize(("arcsec", "cause"), [(545, "belt tooth"), (-431, "cycle"), (190, "play"), (6.5, "pulse")])
def test_residue_that_fits(arcsec, cause):
    best = meanings(arcsec * ARCSEC, (2 if arcsec < 10 else 10) * ARCSEC, DRIVE)[0]
    assert best.fits
    assert cause in best.cause


def test_residue_within_doubt_and_growth():
    assert "closes" in residue_words(5 * ARCSEC, 20 * ARCSEC, DRIVE)
    assert growth(60, 121, 5).kind == "grows"
    assert growth(60, 59, 5).kind == "stays"
    assert growth(60, 90, 5).kind == growth(1, 2, 5).kind == "not shown"


def test_one_bad_reading_of_few_within_a_crank_turn_is_named():
    good = bar(np.random.default_rng(8), WAVES, degrees=np.arange(0, 9, 0.75), runs=1)
    bad = good[5]
    good[5] = HeadReading("bar", 1, "up", bad.nominal, bad.error + 300 * ARCSEC, bad.line)
    said = [one for one in know_head(good, RATIO).findings if one.code == "reading-stands-out"]
    assert [f"line {bad.line} " in one.says for one in said] == [True]
