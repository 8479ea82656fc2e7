"""Mounting the scale: the workshop's figures (worked for this project; common practice where U is meant)."""

import math
from fractions import Fraction

import pytest

from checking.made import ARCSEC
from evenpitch.checking.mounting import (
    COMPARATORS,
    abbe_error,
    abbe_over,
    block_budget,
    cosine_error,
    display_words,
    figures_that_agree,
    judge_alignment,
    judge_block,
    judge_dial,
    judge_noise,
    judge_push,
    judge_range,
    judge_stops,
    judge_strokes,
    made_of_blocks,
)
from evenpitch.rig.tools import Instrument


def test_misalignment_protects_the_reader_not_the_lead():
    assert cosine_error(1, 500) * 1e6 == pytest.approx(2.0)
    assert judge_alignment([0, 0.02, 0.03], 600) is None
    assert judge_alignment([0, 0.2, 0.3], 600).code == "misaligned"


def test_abbe():
    assert abbe_error(150, 20 * ARCSEC) * 1e3 == pytest.approx(14.5, abs=0.05)
    assert abbe_over(150, 20 * ARCSEC, 559, 20) * 1e3 == pytest.approx(0.5, abs=0.03)


def test_budget_of_the_block_and_comparators():
    assert block_budget().u * 1e3 == pytest.approx(2.0, abs=0.05)
    assert COMPARATORS[2].of_length * 1e6 == pytest.approx(40)
    assert COMPARATORS[1].of_length * 1e6 == pytest.approx(4000)


def test_last_figure_of_a_display():
    tenth = Fraction(254, 100_000)
    assert figures_that_agree(Fraction(5, 1000), tenth) == 2
    assert figures_that_agree(Fraction(1, 1000), tenth) == 1
    assert "0.000197 in" in display_words(Fraction(5, 1000), tenth)
    assert "0.0001 in can be shown" in display_words(Fraction(1, 1000), tenth)
    assert "0.005 mm" in display_words(Fraction(1, 1000), Fraction(5, 1000))


def test_strokes():
    walking = judge_strokes([0, 0.003, 0.006, 0.009, 0.013], 0.001)
    assert walking.finding.code == "walks"
    assert "3 µm" in walking.finding.says
    assert judge_strokes([0, 0.001, -0.001, 0.001, 0, 0.001, 0, -0.001, 0, 0], 0.001).finding is None
    assert judge_strokes([0, 0.009, -0.009, 0.001, 0, 0.008], 0.001).finding.code == "strokes-scatter"


def test_stops_noise_push_dial():
    assert "59 mm" in judge_stops(500, 559).says
    assert judge_stops(600, 559) is None
    assert judge_noise(0) is None
    assert judge_noise(3).code == "noise-counts"
    assert judge_push(1) is None
    assert judge_push(-4).code == "bracket-gives"
    assert judge_dial(10, 6.35) is None
    assert judge_dial(10.4, 6.35).code == "part-turns"


def test_range_of_an_instrument_and_blocks_of_a_set():
    micrometer = Instrument(kind="disc micrometer", least=25, most=50)
    assert judge_range(49.3, micrometer) is None
    assert judge_range(210.4, micrometer).code == "outside-range"
    assert judge_range(210.4, Instrument(kind="caliper")) is None
    blocks = Instrument(kind="gauge blocks", sizes=(1.005, 1.5, 10.0, 50.0, 100.0))
    assert made_of_blocks(52.505, blocks.sizes)
    assert judge_block(100, [blocks]) is None
    assert judge_block(75, [blocks]).code == "block-not-in-set"
    assert judge_block(75, []) is None
    assert not math.isnan(made_of_blocks(0.3, blocks.sizes))
