"""Motion errors: laws that must hold, and jumps."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from evenpitch.flank.envelope import Cut, deviations
from evenpitch.flank.inspection import helix_trace, pitch_figures, profile_rolls, readings, trace_figures
from evenpitch.flank.motion import AngleTable, Motion, Sine, WormError
from evenpitch.flank.slices import Knife, outline, slices
from flank.shop import SECOND, cut, gear, made_for, numbered


def around(made: Cut, sense: int) -> np.ndarray:
    """Deviation of all spaces on the pitch cylinder."""
    teeth = np.arange(made.wanted.teeth)
    return deviations(made, np.full(len(teeth), made.wanted.u_helix), np.zeros(len(teeth)), teeth, sense)


def test_an_index_error_moves_both_flanks_and_leaves_span_and_thickness() -> None:
    wanted = gear(30, helix=15)
    index = tuple(40 * SECOND * math.sin(2.3 * i) for i in range(30))
    made = cut(wanted, numbered(35), Motion(30, wanted.q, index))
    plus, minus = around(made, 1), around(made, -1)
    still = around(cut(wanted, numbered(35)), 1)[0]
    assert np.allclose(plus - still, -wanted.lever * np.array(index), atol=2e-6)
    assert np.allclose(minus - still, wanted.lever * np.array(index), atol=2e-6)
    found, true = readings(made, (3,)), readings(cut(wanted, numbered(35)), (3,))
    assert found.thickness_mean == pytest.approx(true.thickness_mean, abs=1e-6)
    assert found.span_mean == pytest.approx(true.span_mean, abs=1e-6)


def test_pitch_figures_of_index_errors_alone_are_arithmetic_on_the_list() -> None:
    wanted = gear(24, helix=0)
    index = np.random.default_rng(7).normal(0, 15 * SECOND, 24)
    made = cut(wanted, numbered(24), Motion(24, wanted.q, tuple(index)))
    place = wanted.pitch_radius * index
    for sense in (1, -1):
        found = pitch_figures(made, sense, around(made, sense))
        assert found.single == pytest.approx(np.abs(np.diff(place, append=place[0])).max(), abs=1e-5)
        assert found.cumulative == pytest.approx(np.ptp(place), abs=1e-5)


def test_a_worm_error_does_not_show_in_the_pitch_when_the_teeth_equal_the_ratio() -> None:
    for teeth, shows in ((40, False), (24, True)):
        wanted = gear(teeth)
        made = cut(wanted, made_for(wanted), Motion(teeth, wanted.q, worms=(WormError(30 * SECOND, 40.0, 0.3),)))
        single = 1e3 * pitch_figures(made, 1, around(made, 1)).single
        assert (single > 1.0) is shows
        assert 1e3 * trace_figures(np.linspace(-1, 1, 51), helix_trace(made, 1)).total > 5.0


def test_short_ripple_only_sinks_the_flank() -> None:
    """20 arcsec at 0.2 mm: waviness 0.090 um, mean -2.16 um (independent method, 24 teeth, module 2, 20 degrees, 60 mm)."""
    wanted = gear()
    made = cut(wanted, made_for(wanted), Motion(24, wanted.q, sines=(Sine(20 * SECOND, 0.2),)))
    z = np.linspace(-0.13, 0.13, 641)
    found = 1e3 * deviations(made, np.full(641, wanted.u_helix), z, np.zeros(641, dtype=np.int64), 1)
    assert np.ptp(found) == pytest.approx(0.090, abs=0.003)
    assert found.mean() == pytest.approx(-2.16, abs=0.01)


@pytest.mark.parametrize("angles", [(0.0, 0.0, 60.0, 60.0), (60.0, 60.0, 0.0, 0.0)])
def test_a_jump_agrees_with_very_many_slices(angles: tuple[float, ...]) -> None:
    wanted = gear()
    table = AngleTable((-30.0, 0.0, 0.0, 30.0), tuple(angle * SECOND for angle in angles))
    made = cut(wanted, made_for(wanted), Motion(24, wanted.q, tables=(table,)))
    u = profile_rolls(wanted, 9)
    for sense in (1, -1):
        found = deviations(made, u, np.zeros(9), np.zeros(9, dtype=np.int64), sense)
        assert 1e3 * np.abs(found - _plainly(made, u, found, sense)).max() < 0.01


def _plainly(made: Cut, u0: np.ndarray, delta: np.ndarray, sense: int) -> np.ndarray:
    """Least of 4 000 slices without any refinement, at the radii found."""
    seen = made.setting if sense > 0 else made.setting.mirrored()
    zeta = np.arange(-4, 4, 0.002)
    knife = Knife(outline(made.form.side(sense)), made.wanted, made.motion.q, seen)
    G = slices(knife, zeta, u0 + delta / math.cos(made.wanted.base_helix)).G
    turns = [made.turned(sense, np.zeros(1, dtype=np.int64), -zeta + aside) for aside in (-1e-9, 1e-9)]
    return (G - made.wanted.lever * np.maximum(*turns)[:, None]).min(axis=0)


def test_a_lead_error_tilts_the_helix_by_lever_times_q_times_ppm() -> None:
    """100, 500, 2000 ppm over 18 mm: 0.58, 2.89, 11.55 um (independent method)."""
    wanted = gear()
    for ppm, printed in ((100, 0.58), (500, 2.89), (2000, 11.55)):
        made = cut(wanted, made_for(wanted), Motion(24, wanted.q / (1 + ppm * 1e-6)))
        assert 1e3 * trace_figures(np.linspace(-9, 9, 51), helix_trace(made, 1)).total == pytest.approx(printed, abs=0.01)


def test_the_other_hand_is_the_mirror_image() -> None:
    right, left = gear(24, helix=20), gear(24, helix=-20)
    wave = (Sine(12 * SECOND, 7.0, 0.4),)
    one = cut(right, numbered(26), Motion(24, right.q, sines=wave), swing=0.3, offset=0.04)
    two = cut(left, numbered(26), Motion(24, left.q, sines=wave), swing=-0.3, offset=0.04)
    first = np.zeros(21, dtype=np.int64)
    u, z = np.linspace(right.u_start, right.u_end, 21), np.linspace(-5, 5, 21)
    turned = replace(two, motion=replace(two.motion, sines=(Sine(12 * SECOND, 7.0, math.pi - 0.4),)))
    assert 1e3 * np.abs(deviations(one, u, z, first, 1) - deviations(turned, u, -z, first, 1)).max() < 0.02
