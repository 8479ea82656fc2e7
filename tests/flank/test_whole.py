"""The whole gear at once, and many rigs at once, against one flank at a time."""

from __future__ import annotations

import math
import tracemalloc

import numpy as np
import pytest

from evenpitch.flank.curve import Form
from evenpitch.flank.draws import Rigs, Wave, drawn_figures
from evenpitch.flank.envelope import Cut, deviations
from evenpitch.flank.inspection import (
    helix_heights,
    helix_trace,
    pitch_figures,
    profile_rolls,
    profile_trace,
    readings,
    trace_figures,
)
from evenpitch.flank.motion import Motion, Sine, WormError
from evenpitch.flank.setting import Setting
from evenpitch.flank.whole import whole_gear
from flank.shop import SECOND, cut, gear, made_for, numbered


def worst_apart(made: Cut) -> tuple[float, float]:
    """Median and worst difference (um) at points drawn at random, both flanks."""
    found, draw = whole_gear(made, 100, 40), np.random.default_rng(11)
    tooth, height, roll = (draw.integers(0, n, 60) for n in (made.wanted.teeth, 40, 100))
    apart = [
        1e3 * np.abs(deviations(made, found.u[roll], found.z[height], tooth, sense) - flank[tooth, height, roll])
        for sense, flank in ((1, found.plus), (-1, found.minus))
    ]
    return float(np.median(apart)), float(np.max(apart))


@pytest.mark.parametrize("form", ["made for it", "numbered"])
def test_the_grid_is_the_points(form: str) -> None:
    wanted = gear(40)
    made: Form = made_for(wanted) if form == "made for it" else numbered(42)
    worm = (WormError(30 * SECOND, 40, 0.3),)
    index = tuple(10 * SECOND * math.sin(i) for i in range(40))
    median, worst = worst_apart(cut(wanted, made, Motion(40, wanted.q / 1.0002, index, worms=worm), swing=0.2, offset=0.03))
    assert median < 0.002
    assert worst < 0.03
    median, worst = worst_apart(cut(wanted, made, Motion(40, wanted.q, sines=(Sine(20 * SECOND, 2.0),))))
    assert median < 0.01
    assert worst < 0.25
    median, worst = worst_apart(cut(wanted, made, Motion(40, wanted.q / 1.0002, index)))
    assert worst < 0.001


def test_the_whole_gear_needs_little_room() -> None:
    wanted = gear(40)
    made = cut(wanted, made_for(wanted), Motion(40, wanted.q, worms=(WormError(30 * SECOND, 40, 0.3),)))
    tracemalloc.start()
    found = whole_gear(made)
    most = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert most < 10 * (found.plus.nbytes + found.minus.nbytes)


def test_many_rigs_are_single_rigs() -> None:
    wanted, draw, n = gear(24), np.random.default_rng(5), 6
    form = numbered(26)
    number, advance = 40 * wanted.q, 40 * 2 * math.pi / 24
    rigs = Rigs(
        swing=wanted.helix + math.radians(0.1) * draw.normal(size=n),
        offset=0.03 * draw.normal(size=n),
        centre=wanted.root_radius + 30 + 0.02 * draw.normal(size=n),
        q=wanted.q / (1 + 1e-4 * draw.normal(size=n)),
        waves=(Wave(25 * SECOND * draw.random(n), 6 * draw.random(n), number, advance),),
        index=8 * SECOND * draw.normal(size=(n, 24)),
    )
    assert rigs.index is not None
    found = drawn_figures(form, wanted, rigs, n_profile=101, n_lead=31)
    for rig in range(n):
        wave = Sine(float(rigs.waves[0].amplitude[rig]), 2 * math.pi / number, float(rigs.waves[0].phase[rig]), advance)
        setting = Setting(float(rigs.swing[rig]), float(rigs.offset[rig]), float(rigs.centre[rig]))
        made = Cut(form, setting, wanted, Motion(24, float(rigs.q[rig]), tuple(rigs.index[rig]), (wave,)))
        profile = trace_figures(profile_rolls(wanted, 101), profile_trace(made, 1, 0, 101))
        helix = trace_figures(helix_heights(wanted, 31), helix_trace(made, -1, 0, 31))
        teeth = np.arange(24)
        pitch = pitch_figures(made, 1, deviations(made, np.full(24, wanted.u_helix), np.zeros(24), teeth, 1))
        pairs = (
            (profile.total, found.F_alpha[rig, 0]), (profile.form, found.f_f_alpha[rig, 0]), (profile.slope, found.f_H_alpha[rig, 0]),
            (helix.total, found.F_beta[rig, 1]), (helix.form, found.f_f_beta[rig, 1]), (helix.slope, found.f_H_beta[rig, 1]),
            (pitch.single, found.f_p[rig, 0]), (pitch.cumulative, found.F_p[rig, 0]),
            (readings(made, tuple(range(24))).thickness_mean, found.thickness[rig]),
        )  # fmt: skip
        assert max(1e3 * abs(one - other) for one, other in pairs) < 0.2
