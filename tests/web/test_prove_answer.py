"""The commands scale, head, prove and reading: what the workshop typed, and what it is told."""

import json
import math
from datetime import date
from pathlib import Path

import numpy as np
import pytest

from checking.made import bar, scale
from evenpitch.quantity.refusal import Refusal
from evenpitch.web.prove_answer import head_answer, prove_answer, reading_answer, scale_answer, sheet_answer

RIG = (Path(__file__).parents[2] / "examples" / "museum-mill.toml").read_bytes()
JOB = b"""title = "Timing gear"
[[gear]]
teeth = 28
pitch = "mn 2"
pressure_angle = "20"
helix = "20"
hand = "right"
face = "20 mm"
"""
PROOF = """check,place,approach,moved_mm,reading_mm,work_deg,radius_mm
dial,,up,63.5,63.493,,
block,left,up,100,99.984,,
block,middle,up,100,99.982,,
block,right,up,100,99.979,,
near cutter,middle,up,100,99.983,,
link,middle,up,50,50.000,34.9911,100
link,middle,down,50,50.000,34.9378,100
pen line,,up,100,30.6,,25
"""


def on(day=date(2026, 6, 1)):
    return lambda: day


def told(content: str, **more):
    return prove_answer(RIG, content.encode(), JOB, today=on(), **more)


def codes(made) -> set[str]:
    return {one["code"] for one in made.json["findings"]}


def test_the_sentence_of_the_workshop():
    made = told(PROOF)
    good = made.json["link_good_to_um"]
    assert good["value"] == pytest.approx(2.5, abs=0.05)
    assert good["limited_by"] == "worm"
    assert "your link is good to ±2.5 µm" in " ".join(made.text().split())
    verdicts = {check["check"]: check["verdict"] for check in made.json["checks"]}
    assert verdicts == {
        "dial": "pass",
        "block": "pass",
        "near the cutter": "not proven",
        "link": "pass",
        "other side": "pass",
        "pen line": "pass",
    }
    assert made.json["link"]["error_arcsec"] == pytest.approx(-8, abs=0.5)
    assert made.json["link"]["U_arcsec"] == pytest.approx(18, abs=0.5)
    assert not made.stopped()
    json.loads(made.json_text())


@pytest.mark.parametrize(
    ("angle", "words"),
    [("17.4967", "exactly half"), ("69.9868", "exactly twice"), ("34.443", "25 stands for 25.4"), ("-34.99", "other hand")],
)
def test_gross_errors_stop(angle, words):
    made = told(PROOF.replace("34.9911", angle).replace("34.9378", angle))
    assert made.stopped()
    assert any(words in f"{one['says']} {one['why']}" for one in made.json["findings"])


def test_both_sides_equal_and_arm_unknown():
    made = told(PROOF.replace("34.9378", "34.9911"), typed={"arm": "0.2 mm"})
    assert {"both-sides-equal", "arm-not-measured"} <= codes(made)
    arm = next(one for one in made.json["findings"] if one["code"] == "arm-not-measured")
    assert "±4.3′" in arm["says"]


def test_a_line_of_the_wrong_hand_and_a_dial_of_a_fifth():
    assert "hand-wrong" in codes(told(PROOF.replace("100,30.6", "100,-30.6")))
    fifth = told(PROOF.replace("63.5,63.493", "63.5,12.7"))
    said = next(one for one in fifth.json["findings"] if one["code"] == "count-entered-wrong")
    assert "5 µm" in said["why"]


def test_by_height_of_the_bar_and_old_or_missing_map():
    rows = "check,place,approach,moved_mm,reading_mm,radius_mm\nlink,,up,50,60.130,100\nlink,,down,50,60.130,100\n"
    made = prove_answer(RIG, rows.encode(), JOB, today=on(date(2028, 1, 1)))
    assert made.json["link"]["found_deg"] == pytest.approx(34.9934, abs=2e-4)
    assert "calibration-old" in codes(made)
    bare = RIG.decode().partition("[[map]]")[0].encode()
    assert "calibration-missing" in codes(prove_answer(bare, rows.encode(), JOB, today=on()))


def test_proof_on_a_spur_gear_or_without_a_link_is_refused():
    spur = JOB.replace(b'"20"\nhand = "right"', b'"0"\nhand = "none"')
    with pytest.raises(Refusal):
        prove_answer(RIG, PROOF.encode(), spur, today=on())
    with pytest.raises(Refusal):
        told(PROOF, typed={"gear": "2"})
    with pytest.raises(Refusal):
        told(PROOF.replace("down,50,", "down,60,"))


def csv_of_scale(readings) -> bytes:
    rows = [f"{one.run},{one.direction},{one.reference:.4f},{one.reading:.6f}" for one in readings]
    return "\n".join(["run,direction,reference_mm,reading_mm", *rows]).encode()


def test_scale_command():
    made = scale_answer(csv_of_scale(scale(np.random.default_rng(1), gain=-180e-6, reversal=0.003)), {}, rig=RIG, job=JOB)
    gain = made.json["gain_ppm"]
    assert abs(gain["value"] + 180) <= gain["U"]
    assert set(made.json["iso230"]) == {"A", "E", "R", "B", "M"}
    assert not made.json["correct"]
    assert "µm in a metre" in made.text()
    assert scale_answer(csv_of_scale(scale(np.random.default_rng(1), gain=-180e-6)), {"face": "400 mm"}).json["correct"]


def test_head_command():
    readings = bar(np.random.default_rng(2), ((1, 40, 20), (40, 15, 0)), backlash=192, degrees=np.arange(0, 361, 4.1))
    rows = [
        f"bar,{one.run},{one.direction},{math.degrees(one.nominal):.4f},{one.error * 648000 / math.pi:.3f}" for one in readings
    ]
    content = "\n".join(["method,run,direction,nominal_deg,reading_arcsec", *rows]).encode()
    made = head_answer(content, {"targets": "97"}, rig=RIG)
    found = {one["per_turn"]: one for one in made.json["harmonics"]}
    assert abs(found[1]["amplitude_arcsec"] - 40) <= 1.5 * found[1]["U"]
    assert abs(found[40]["amplitude_arcsec"] - 15) <= 1.5 * found[40]["U"]
    assert abs(made.json["backlash_arcsec"] - 192) < 3
    assert len(made.json["targets"]) == 97
    assert made.json["map_gain"]["pays"]
    assert "worm" in made.text()
    with pytest.raises(Refusal):
        head_answer(content, {"targets": "97"})


def test_reading_command():
    made = reading_answer({"moved": "50mm", "shown": "200mm"})
    assert made.json["causes"][0]["kinds"] == ["edges"]
    assert made.json["causes"][0]["test"]
    assert reading_answer({"moved": "2.5 in", "shown": "12.7 mm"}, rig=RIG).json["causes"][0]["kinds"] == ["count"]
    assert reading_answer({"moved": "360 deg", "shown": "180 deg"}).json["causes"][0]["kinds"] == ["microsteps"]
    assert "Nothing known" in reading_answer({"moved": "50mm", "shown": "68.21mm"}).text()
    for typed in ({"moved": "50mm"}, {"moved": "50mm", "shown": "20 deg"}):
        with pytest.raises(Refusal):
            reading_answer(typed)


def test_the_sheet_has_every_check_and_blanks_to_write_in():
    made = sheet_answer(RIG, JOB)
    words = repr(made.document)
    for expected in (
        "ten turns of the dial, 63.500 mm",
        "34.9934°",
        "31″",
        "3.2′",
        "rise 30.5 mm",
        "6.75″ at the work",
        "559 mm",
    ):
        assert expected in words
    assert "'pass', 'not proven', 'fail'" in words
    assert "'[ ]', '[ ]', '[ ]'" in words
    assert "________" in words
    assert "34.99" not in sheet_answer(RIG).text()
    assert made.files["pdf"]()[:4] == b"%PDF"


def test_a_rig_without_a_link_is_refused_with_all_that_is_missing():
    bare = b'name = "bare"\n[head]\nratio = "40"\n[[plate]]\ncircles = [15, 16, 17, 18, 19, 20]\n'
    with pytest.raises(Refusal) as caught:
        prove_answer(bare, PROOF.encode(), JOB, today=on())
    assert len(caught.value.faults) == 2


def test_repeated_approaches_speak_for_themselves():
    more = "".join(f"link,middle,up,50,50.000,{34.9911 + k / 10_000:.4f},100\n" for k in (-3, 2, 4, -1, 1))
    made = told(PROOF + more)
    assert made.json["link"]["budget_arcsec"]["repeat of the approach"] < 1
    off = told(PROOF.replace("34.9911", "35.0061"))
    assert "proof-off" in codes(off)
    assert off.json["link_good_to_um"]["limited_by"] in ("worm", "error of the link")


def test_strokes_that_walk_and_a_pen_line_far_off():
    strokes = "".join(f"stroke,,up,0,{um / 1000},,\n" for um in (0, 3, 6, 9, 13))
    made = told(PROOF.replace("100,30.6", "100,15.3") + strokes)
    assert {"walks", "pen-off"} <= codes(made)
    assert made.stopped()


def test_what_the_map_alone_promises():
    from evenpitch.job.proving import expected
    from evenpitch.store.files.job_file import read_job
    from evenpitch.store.files.rig_file import read_rig

    good, words = expected(read_rig(RIG).rig, read_job(JOB).works[0].gear)
    assert good.size * 1e3 == pytest.approx(math.sqrt(2.546**2 - 0.960**2), abs=0.01)
    assert "Not yet proven" in words


def test_scale_with_a_wave_and_a_set_of_blocks():
    readings = scale(np.random.default_rng(9), wave=(7.3, 0.004), places=61, runs=2)
    made = scale_answer(csv_of_scale(readings), {"travel": "500 mm"})
    assert made.json["wave"]["period_mm"] == pytest.approx(7.3, rel=0.01)
    assert "not-covered" in codes(made)
    with pytest.raises(Refusal):
        scale_answer(csv_of_scale(readings), {"face": "0"})


def test_a_display_in_inches():
    assert "display-in-inches" in codes(told(PROOF.replace("63.5,63.493", "63.5,2.500")))


def test_a_line_that_leans_the_other_way_fails_in_the_table_too():
    made = told(PROOF.replace("pen line,,up,100,30.6", "pen line,,up,100,-30.6"))
    assert "hand-wrong" in codes(made)
    assert {check["check"]: check["verdict"] for check in made.json["checks"]}["pen line"] == "fail"


def test_a_fifth_is_called_a_fifth():
    said = next(one for one in told(PROOF.replace("63.493", "12.7")).json["findings"] if one["code"] == "count-entered-wrong")
    assert "12.7 is one fifth of it" in said["says"]


def test_the_sentence_has_a_doubt_where_the_map_names_none():
    assert 0.1 < told(PROOF).json["link_good_to_um"]["u"] < 1


@pytest.mark.parametrize(
    ("line", "field"),
    [
        ("push,,up,0,1,,", "line 2, check"),
        ("link,,up,0,,27.99,100", "line 2, moved"),
        ("link,,,40,,27.99,100", "line 2, approach"),
        ("link,,sideways,40,,x,100", "line 2, approach"),
    ],
)
def test_a_line_of_the_proof_that_says_too_little_is_refused(line, field):
    with pytest.raises(Refusal) as caught:
        told(PROOF.splitlines()[0] + "\n" + line + "\n")
    assert caught.value.faults[0].field == field
