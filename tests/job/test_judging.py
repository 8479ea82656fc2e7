"""Judge an inspection: the workshop's worked figures, what may not be judged, what is refused, and what can still be saved."""

from __future__ import annotations

import math
import time

import numpy as np
import pytest

from evenpitch.checking.warmth import EXPANSION
from evenpitch.job.findings import KINDS
from evenpitch.job.inspection import inspection
from evenpitch.job.judging import judge
from evenpitch.job.spacing_judged import worst_of
from evenpitch.quantity.refusal import Refusal
from evenpitch.store.files.readings import read_inspection
from job.inspection_cases import CASES, judged, scattered, spans, steps, table, the_wheel, told
from job.shop import WHEEL, museum_mill, order, pair, pinion, wheel


@pytest.mark.parametrize("code", CASES)
def test_every_finding_of_an_inspection_is_produced(code: str) -> None:
    found = [one for one in told(code) if one.code == code]
    assert found, sorted(one.code for one in told(code))
    assert found[0].weight == KINDS[code].weight
    assert "{" not in found[0].says + found[0].why + found[0].do


def test_the_wheel_is_thick_and_goes_0_291_deeper() -> None:
    """W8 49.452 ± 0.008 against 49.278 to 49.328: 0.2908 ± 0.016 deeper, 0.20 first (own figures of the job, brute-force checked)."""
    found = judged(spans())
    (size,) = found.sizes
    deeper = found.rescue.deeper
    assert size.says == "fail"
    assert size.side == "thick"
    assert (size.least, size.most) == (49.278, 49.328)
    assert pytest.approx(0.0082, abs=0.0001) == size.U
    assert deeper is not None
    assert deeper.deeper.value == pytest.approx(0.2908, abs=0.0001)
    assert pytest.approx(0.016, abs=0.0005) == deeper.deeper.U
    assert deeper.first == pytest.approx(0.20)
    assert deeper.dial is not None
    assert (deeper.dial.turns, deeper.dial.divisions) == (0, pytest.approx(11.4, abs=0.1))


def test_the_usual_budget_of_a_span() -> None:
    """2.3 2.0 2.0 1.5 1.0 1.0 µm: u 4.2, U 8.4 (own figures of the job, JCGM 100 style)."""
    found = judged([f"span,{space},,,49.452,8" for space in (1, 25, 50, 74)])
    budget = found.sizes[0].budget
    assert [round(part.u * 1000, 1) for part, _ in budget.shares()] == [2.3, 2.0, 2.0, 1.5, 1.0, 1.0]
    assert pytest.approx(8.4, abs=0.05) == found.sizes[0].U * 1000
    changed = judge(the_wheel(), read_inspection(table([f"span,{s},,,49.452,8" for s in (1, 25, 50, 74)])), 0, (("burr", 0.0),))
    assert changed.sizes[0].U < found.sizes[0].U


def test_below_the_lowest_target_it_says_what_backlash_there_is() -> None:
    """W8 49.20: 0.08 below the lowest target; 0.19 mm normal circular, j_bn 0.186 (own figures of the job)."""
    found = judged(spans(49.20))
    said = next(one for one in found.findings if one.code == "span-thin")
    assert "0.078 below" in said.says
    assert "0.19 mm normal circular backlash (j_bn 0.186)" in said.why
    codes = [one.code for one in found.rescue.options]
    assert codes == ["accept", "mate", "smaller", "scrap"]
    assert found.rescue.deeper is None


def test_form_cut_pairs_agree() -> None:
    """Span 49.328 and 49.278 go with 210.376 and 210.181 over 0.144 in pins (own figures of the job)."""
    found = judged(["over pins,1,,,210.28,,3.6576"])
    (size,) = found.sizes
    # the limits stand at 49.2783 and 49.3283; the pairs are those of the rounded spans
    assert (size.least, size.most) == (pytest.approx(210.181, abs=0.0015), pytest.approx(210.376, abs=0.0015))
    assert size.says == "pass"


def test_pins_that_sink_are_a_stop_and_not_judged() -> None:
    found = judged(["over pins,1,,,207.385,,3.0"])
    assert found.sizes[0].says == "not proven"
    assert not found.sizes[0].usable
    said = next(one for one in found.findings if one.code == "pins-below-tips")
    assert said.weight == "stop"
    assert "209.52" in said.says


@pytest.mark.parametrize(("values", "code"), [((55.63, 49.19), "span-swapped"), ((49.19, 49.25), "span-step")])
def test_spans_that_do_not_fit_each_other_are_not_judged(values: tuple[float, float], code: str) -> None:
    found = judged([*spans(values[0], 8), *spans(values[1], 9)])
    assert code in {one.code for one in found.findings}
    assert {one.says for one in found.sizes} == {"not proven"}


def test_a_warm_part_is_brought_to_20_degrees() -> None:
    """10 K on 210 mm of grey iron: 10.4 µm/m·K (published tables)."""
    found = judged(["over pins,1,,,210.300,,3.6576,,,30"])
    assert found.sizes[0].warmth == pytest.approx(210.3 * EXPANSION["cast iron"] * 10)
    assert found.sizes[0].value == pytest.approx(210.3 - found.sizes[0].warmth)


@pytest.mark.parametrize(
    ("rows", "said"),
    [
        (["span,1,,,1.9470,8"], "Inches"),
        (["span,1,,,49452,8"], "Micrometres"),
        (["span,1,,,4.945,8"], "decimal point"),
        (["span,1,,,30,8"], "Another number of teeth"),
        (["runout,1,,,12"], "micrometres typed under mm"),
        (["span,98,,,49.3,8"], "Another gear"),
        (["pitch step,0,right,,0.002"], "Another gear"),
        (["span,1,,,49.3,8,,,,,-2"], "no sign"),
    ],
)
def test_readings_that_cannot_be_are_refused(rows: list[str], said: str) -> None:
    with pytest.raises(Refusal, match=said):
        judged(rows)


def test_96_of_97_are_refused_with_the_one_that_is_missing() -> None:
    rows = [row for row in steps(scattered) if not row.startswith("pitch step,61,")]
    with pytest.raises(Refusal, match="96 of 97") as refused:
        judged(rows)
    assert "space 61" in str(refused.value)


def test_a_space_marked_twice_is_refused() -> None:
    rows = steps(scattered)
    with pytest.raises(Refusal, match="Space 40 comes twice"):
        judged([*rows[:40], rows[39], *rows[40:]])
    numbered = [f"{row},,,,1" for row in (*rows, rows[39])]
    with pytest.raises(Refusal, match="line 41 too, in the same round"):
        judged(numbered)


def test_an_empty_table_is_refused() -> None:
    with pytest.raises(Refusal, match="header only"):
        inspection(97, ())


def test_a_reading_far_from_the_others_of_its_space_is_said() -> None:
    rows = steps(scattered, 3)
    rows[97 + 9] = "pitch step,10,right,comparator,0.310"
    said = next(one for one in judged(rows).findings if one.code == "reading-odd")
    assert "space 10, round 2" in said.says
    assert said.weight == "look"


def _read(rounds: int, waves: float, seed: int = 3) -> list[str]:
    rng = np.random.default_rng(seed)
    angle = 2 * np.pi * np.arange(97) / 97
    curve = waves * np.sin(angle + 0.35)
    step = np.roll(curve, -1) - curve
    return [f"pitch step,{i + 1},right,,{(step[i] + rng.normal(0, 3)) / 1000:.5f}" for _ in range(rounds) for i in range(97)]


def test_doubt_of_the_total_pitch_by_rounds() -> None:
    """3 µm a reading: U 30 µm for one round, 15 for four (own figures of the job)."""
    for rounds, U in ((1, 29.6), (4, 14.8)):
        one = worst_of(judged(_read(rounds, 10)).around.judged, "cumulative_pitch")
        assert one is not None
        assert pytest.approx(U, rel=0.1) == one.U
        assert (one.limit, one.cls) == (62, 8)


def test_more_rounds_are_asked_for_where_they_would_settle_it() -> None:
    found = judged(_read(1, 12))
    one = worst_of(found.around.judged, "cumulative_pitch")
    assert one is not None
    if one.says == "not proven" and one.wanted:
        assert f"{one.wanted} rounds" in found.next_reading
    assert found.next_reading


def test_a_near_perfect_gear_is_not_failed_by_its_scatter() -> None:
    """One round of coarse readings: what is read as F_p is scatter, and proves nothing against the gear."""
    rng = np.random.default_rng(2)
    rows = [f"pitch step,{i + 1},right,,{rng.normal(0, 9) / 1000:.5f},,,,,,9" for i in range(97)]
    one = worst_of(judged(rows).around.judged, "cumulative_pitch")
    assert one is not None
    assert one.says == "not proven"
    assert one.unbiased is not None
    assert one.unbiased.corrected < 0.6 * one.value


def test_what_was_not_read_is_not_claimed() -> None:
    found = judged(spans(49.30))
    assert "within its limits" in found.claim
    for word in ("single pitch", "total pitch", "runout", "tooth form", "helix"):
        assert word in found.claim.split("Not read:")[1]
    whole = judged([*spans(49.30), *_read(4, 5)])
    assert "proven for single pitch and total pitch" in whole.claim
    assert "single pitch" not in whole.claim.split("Not read:")[1]


def test_under_the_head_its_own_map_is_taken_off() -> None:
    """A gear cut on this head and read under it shows nothing; its true error is the head's."""
    rows = [f"head angle,{space},right,indicator,0" for space in range(1, 98)]
    found = judged(rows, None, "kind,space,flank,instrument,value_arcsec")
    one = worst_of(found.around.judged, "cumulative_pitch")
    assert one is not None
    expected = found.expected.curve
    assert one.value == pytest.approx(max(expected) - min(expected), rel=1e-6)


def test_a_bore_off_the_axis_can_be_bushed() -> None:
    at = 2 * np.pi * np.arange(97) / 97
    e = 0.09
    curve = e / math.cos(math.radians(14.5)) * np.sin(at) * 1000
    step = np.roll(curve, -1) - curve
    rows = [f"pitch step,{i + 1},right,,{step[i] / 1000:.5f}" for i in range(97)]
    rows += [f"runout,{i + 1},,,{e * math.cos(at[i]):.5f}" for i in range(97)]
    found = judged([*rows, *spans(49.30)])
    assert found.causes[0].code == "eccentricity"
    bush = next(one for one in found.rescue.options if one.code == "bush")
    assert "90 ±" in bush.says
    assert dict(bush.figures)["off_mm"] == pytest.approx(e, rel=0.02)


def test_taper_and_lean_are_named() -> None:
    taper = judged([f"span,{s},,,{49.30 + 0.03 * (h > 5):.3f},8,,{h}" for s in (1, 30, 60) for h in (2, 17)])
    assert "taper" in [one.code for one in taper.causes]
    rows = [
        f"head angle,{space},{flank},,{height},{base + (60 if height > 2 else 0) + (side * 40 if height > 2 else 0)}"
        for space in (1, 30, 60)
        for flank, side, base in (("left", -1, 0), ("right", 1, 10))
        for height in (1, 3)
    ]
    lean = judged([*rows], None, "kind,space,flank,instrument,height_mm,value_arcsec")
    assert [one.code for one in lean.causes] == ["lean"]


def test_the_pinion_of_a_pair_names_its_mate() -> None:
    made = pair()
    (check,) = [check for check in made.gears[0].checks if check.name == "span"]
    found = judge(made, read_inspection(table([f"span,1,,,{check.least - 0.05:.3f},{made.gears[0].form_cut.spanned}"])))
    mate = next(one for one in found.rescue.options if one.code == "mate")
    assert "56 teeth" in mate.says
    with pytest.raises(Refusal, match="no second gear"):
        judge(wheel(), inspection(97, read_inspection(table(spans()))), 1)


def test_a_helical_recut_is_by_the_virtual_cut_from_a_span_and_says_where_it_is_to_first_order() -> None:
    made = pinion()
    (check,) = [check for check in made.gears[0].checks if check.name == "span"]
    found = judge(made, read_inspection(table([f"span,1,,,{check.most + 0.1:.3f},{made.gears[0].form_cut.spanned}"])))
    assert found.rescue.deeper is not None
    assert not found.rescue.deeper.approximate
    assert found.facts()["rework"]["rule"] == "virtual cut"
    assert "recut-approximate" not in {one.code for one in found.findings}
    balls = judge(made, read_inspection(table([f"over balls,1,,,{made.gears[0].form_cut.over_balls + 0.3:.3f}"])))
    assert balls.rescue.deeper is not None
    assert balls.rescue.deeper.approximate
    assert balls.facts()["rework"]["rule"] == "form-cut, first order"


def test_400_teeth_both_flanks_are_quick() -> None:
    """Under half a second on the workshop's machine; the best of three here, for others share it."""
    rows = [f"pitch step,{i},{flank},,{scattered(i) / 1000:.5f}" for flank in ("left", "right") for i in range(1, 401)]
    readings = read_inspection(table(rows))
    made = wheel(teeth=400, pitch="24 DP")
    judge(made, readings)
    taken = []
    for _ in range(3):
        start = time.perf_counter()
        judge(made, readings)
        taken.append(time.perf_counter() - start)
    assert min(taken) < 0.5


def test_the_order_is_the_workshops() -> None:
    assert order([WHEEL]).rig is museum_mill()
