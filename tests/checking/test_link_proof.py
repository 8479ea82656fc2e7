"""The link proof and the sentence, against the workshop's figures of gear B (worked in 30 digits for this project)."""

import math
from fractions import Fraction

import pytest

from checking.made import ARCSEC, case
from evenpitch.checking.budget import Budget, Part
from evenpitch.checking.drag import drag_at_motor, worm_drag
from evenpitch.checking.encoder import what_the_scale_buys
from evenpitch.checking.good_to import OnGear, good_to, sentence, wave_over
from evenpitch.checking.link_proof import ProofMeans, pen_line, pen_rise, proof_budget, table_for, take_up, wanted_angle
from evenpitch.quantity.refusal import Refusal
from evenpitch.rig.maps import Harmonic

LEAD = 514.3825
GEAR = OnGear(pitch_diameter=59.594, helix=math.radians(20), base_helix=math.radians(18.747237), face=20.0, lead=LEAD)
MAP = (Harmonic(1, 40 * ARCSEC, math.radians(20)), Harmonic(40, 15 * ARCSEC, 0.0))
PARTS = (0.55, 0.54, 0.66, 0.72, 0.28, 0.16)
"""µm at the pitch line: table, arm, indicator, repeat, pulse, blocks."""


def test_angle_of_a_block_and_the_square():
    assert math.degrees(wanted_angle(50, LEAD)) == pytest.approx(34.9934, abs=5e-5)
    assert math.degrees(wanted_angle(50, 2 * LEAD)) == pytest.approx(17.4967, abs=5e-5)
    assert table_for(math.pi / 2, LEAD) == pytest.approx(128.596, abs=5e-4)


def test_budget_of_the_proof():
    budget = proof_budget(wanted_angle(50, LEAD), LEAD, ProofMeans())
    assert [part.u * 29.797e3 for part in budget.parts] == pytest.approx(PARTS, abs=0.005)
    assert pytest.approx(18, abs=0.5) == budget.U / ARCSEC
    assert budget.U / wanted_angle(50, LEAD) * 1e6 == pytest.approx(141, abs=1)
    assert budget.largest().name == "repeat of the approach"
    assert sum(share for _, share in budget.shares()) == pytest.approx(1)


def test_budget_can_be_changed():
    budget = proof_budget(wanted_angle(50, LEAD), LEAD, ProofMeans()).changed("length of the arm", 0.02)
    assert budget.parts[1].u * 29.797e3 == pytest.approx(2.2, abs=0.05)
    for name, limit in (("no such part", 1.0), ("length of the arm", -1.0)):
        with pytest.raises(Refusal):
            budget.changed(name, limit)


def test_sentence_of_gear_b():
    proven = proof_budget(wanted_angle(50, LEAD), LEAD, ProofMeans()).U / wanted_angle(50, LEAD)
    found = good_to(GEAR, pulses_per_turn=Fraction(192_000), count=0.001, harmonics=MAP, ratio=Fraction(40), proven=proven)
    assert found.size * 1e3 == pytest.approx(2.5, abs=0.05)
    assert [(one.name, round(one.size * 1e3, 1)) for one in found.shares] == [
        ("worm", 2.2),
        ("proof", 1.0),
        ("worm wheel", 0.7),
        ("one pulse", 0.5),
        ("one count", 0.4),
    ]
    assert "±2.5 µm along the face, limited by the worm's own wave (±15″) = 2.2 µm" in sentence("B-28", GEAR, found)


def test_without_a_map_the_head_limits_and_a_shown_error_counts():
    found = good_to(GEAR, pulses_per_turn=Fraction(192_000), count=0.001, harmonics=None, ratio=Fraction(40), proven=None)
    assert found.limited_by.name == "head, not measured"
    assert found.u > 0
    off = good_to(GEAR, pulses_per_turn=Fraction(192_000), count=0.001, harmonics=MAP, ratio=Fraction(40), proven=1e-4, off=0.016)
    assert off.limited_by.name == "error of the link"
    assert off.limited_by.size * 1e3 == pytest.approx(20e3 * math.tan(math.radians(18.747237)) * 0.016)


def test_wave_over_a_face_against_a_scan():
    for per_turn, turned in ((1, 0.244), (40, 0.244), (3, 0.5), (2, 3.0)):
        starts = [k * math.pi / 4000 for k in range(8000)]
        reach = [k * turned / 200 for k in range(201)]
        scan = max(
            max(abs(math.sin(per_turn * (s + x)) - math.sin(per_turn * s)) for x in reach[-1:] + reach) for s in starts[::16]
        )
        assert wave_over(1.0, per_turn, turned) == pytest.approx(scan / 2, abs=0.002)


def test_take_up():
    assert take_up(3.2 * 60 * ARCSEC, LEAD) == pytest.approx(0.0762, abs=5e-5)
    assert take_up(3.2 * 60 * ARCSEC, 2 * LEAD) == pytest.approx(0.1524, abs=5e-5)
    for name in ("backlash-20", "backlash-360"):
        given = case(name)
        found = take_up(given["inputs"]["B_arcsec"] * ARCSEC, given["inputs"]["lead"])
        assert found == pytest.approx(given["outputs"]["takeup_mm"], rel=1e-6, abs=2e-5)


def test_pen_line():
    assert pen_rise(50, 100, LEAD) == pytest.approx(30.54, abs=0.005)
    assert pen_rise(50, 100, LEAD, 0.1) == pytest.approx(30.66, abs=0.005)
    line = pen_line(30.6, 50, 100, LEAD, "right")
    assert line.off == pytest.approx(0.002, abs=2e-4)
    assert not line.shown()
    assert pen_line(31.03, 50, 100, LEAD).shown()


def test_what_the_scale_buys_and_drag():
    buys = what_the_scale_buys(math.radians(18.747237))
    assert buys.lash_um == pytest.approx(85, abs=0.5)
    assert buys.pitch_um == pytest.approx(1.7, abs=0.05)
    assert "1.7 µm" in buys.words()
    drag = drag_at_motor(worm_drag(4, 100), 3, 3, 8)
    assert (drag.torque, drag.one_pulse, drag.lag) == pytest.approx((0.133, 0.585, 0.228), abs=5e-4)
    assert not drag.sticks
    assert drag_at_motor(2.0, 3, 3, 8).sticks


def test_gum_case():
    """Combined standard uncertainty after JCGM 100; the same formula in a second program."""
    shapes = {"rect": "rectangular", "arcsine": "sine", "normal": "normal"}
    given = case("gum-fhb-weak")
    parts = tuple(Part(t["name"], t["a"], shapes[t["dist"]], t["c"]) for t in given["inputs"]["terms"])
    budget = Budget(parts, "µm")
    assert budget.u == pytest.approx(given["outputs"]["u"], rel=1e-9)
    assert pytest.approx(given["outputs"]["U95"], rel=1e-9) == budget.U
    assert budget.largest() is parts[given["outputs"]["largest"]]
