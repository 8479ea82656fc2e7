"""Tables of readings: units in the header, and every slip named with its line."""

import math

import pytest

from evenpitch.quantity.refusal import Refusal
from evenpitch.store.files.readings import read_head, read_inspection, read_log, read_proof, read_scale

SCALE = "run,direction,reference_mm,reading_mm\n"
HEAD = "method,run,direction,nominal_deg,reading_arcsec\n"


def faults(reader, content):
    with pytest.raises(Refusal) as caught:
        reader(content)
    return caught.value.faults


def test_scale_readings_in_any_unit():
    found = read_scale(
        "# taken on Tuesday\nrun,direction,reference_in,reading_um,temperature_c\n1,up,1,25400.5,20.5\n2,down,2,50800,\n"
    )
    assert [one.reference for one in found] == pytest.approx([25.4, 50.8])
    assert found[0].reading == pytest.approx(25.4005)
    assert (found[0].temperature, found[1].temperature) == (20.5, None)
    assert (found[1].direction, found[1].line) == ("down", 4)


def test_semicolons_make_decimal_commas_plain():
    found = read_scale("\ufeffrun;direction;reference_mm;reading_mm\r\n1;up;0,5;0,501\r\n")
    assert (found[0].reference, found[0].reading) == (0.5, 0.501)


@pytest.mark.parametrize(
    ("content", "where", "word"),
    [
        ("", "scale readings", "empty"),
        (SCALE, "scale readings", "no readings"),
        ("1,up,0,0\n", "header", "header line is missing"),
        (SCALE + "1,up,0,nan\n", "line 2", "not a number"),
        (SCALE + "1,up,0,ten\n", "line 2", "not a number"),
        (SCALE + "1,up,0,1,5\n", "line 2", "decimal commas"),
        (SCALE + '1,up,0,"1,5"\n', "line 2", "decimal comma"),
        (SCALE + "1,up,0\n", "line 2", "missing"),
        (SCALE + "1,,0,0\n", "line 2, direction", "missing"),
        (SCALE + "1,sideways,0,0\n", "line 2, direction", "not known"),
        (SCALE + "1.5,up,0,0\n", "line 2, run", "whole"),
        ("run,direction,reference,reading_mm\n1,up,0,0\n", "header", "unit"),
        ("run,direction,reference_furlong,reading_mm\n1,up,0,0\n", "header", "unit"),
        ("run,dirction,reference_mm,reading_mm\n1,up,0,0\n", "header", "not known"),
        ("run,direction,reference_mm\n1,up,0\n", "header", "missing"),
        ("run,run,direction,reference_mm,reading_mm\n1,1,up,0,0\n", "header", "twice"),
        (SCALE + "1,up,0,0\n" * 100_000, "scale readings", "no more"),
        (b"\xff\xfe\x00", "scale readings", "plain text"),
    ],
)
def test_slips_of_a_table(content, where, word):
    found = faults(read_scale, content)
    assert any(where in one.field and word in f"{one.likely} {one.do}" for one in found), found
    assert all(one.do for one in found)


def test_many_faults_are_counted():
    found = faults(read_scale, SCALE + "1,up,0,x\n" * 300)
    assert len(found) == 13
    assert "288 more lines" in found[-1].given


def test_head_readings_as_angle_length_and_height():
    by_angle = read_head(HEAD + "bar,1,up,9,12\n")[0]
    assert by_angle.error == pytest.approx(12 * math.pi / 648_000)
    by_length = read_head("method,run,direction,nominal_deg,reading_um,radius_mm\nbar,1,up,9,29,100\n")[0]
    assert by_length.error == pytest.approx(29e-5)
    height = 100 * math.sin(math.radians(4.51))
    by_height = read_head(f"method,run,direction,nominal_deg,height_mm,radius_mm\nbar,1,down,4.5,{height},100\n")[0]
    assert math.degrees(by_height.error) == pytest.approx(0.01)


@pytest.mark.parametrize(
    ("content", "word"),
    [
        ("method,run,direction,nominal_deg,reading_um\nbar,1,up,9,29\n", "radius"),
        ("method,run,direction,nominal_deg,reading_um,radius_mm\nbar,1,up,9,29,0\n", "radius"),
        (HEAD + "laser,1,up,9,29\n", "not known"),
        (HEAD + "bar,1,up,9,\n", "Nothing"),
        ("method,run,direction,nominal_deg,height_mm,radius_mm\nbar,1,up,9,290,100\n", "length"),
    ],
)
def test_slips_of_head_readings(content, word):
    assert any(word in f"{one.likely} {one.do}" for one in faults(read_head, content))


def test_proof_log_and_inspection():
    proof = read_proof(
        "check,place,approach,moved_mm,reading_mm,work_deg,radius_mm\nlink,middle,down,50,,34.9,100\ndial,,,63.5,63.4,,\n"
    )
    assert math.degrees(proof[0].work) == pytest.approx(34.9)
    assert (proof[0].approach, proof[1].approach) == ("down", "up")
    log = read_log("time_s,count,pulse,work_arcsec\n0.25,100,37,252\n")[0]
    assert (log.time, log.count, log.pulse) == (0.25, 100, 37)
    assert log.work == pytest.approx(252 * math.pi / 648_000)
    found = read_inspection("kind,space,flank,instrument,value_mm,k,u_um\nspan,1,,micrometer,49.303,8,4\n")[0]
    assert (found.kind, found.spanned, found.value, found.u) == ("span", 8, 49.303, 0.004)
    angle = read_inspection("kind,space,flank,instrument,value_arcsec\nhead angle,3,left,collimator,12\n")[0]
    assert angle.angle
    assert angle.value == pytest.approx(12 * math.pi / 648_000)


@pytest.mark.parametrize(
    ("reader", "content"),
    [
        (read_proof, "check,place,approach,moved_mm,reading_mm\nlink,,up,50,\n"),
        (read_inspection, "kind,space,flank,instrument,value_mm\nspun,1,,x,3\n"),
        (read_inspection, "kind,space,flank,instrument,value_mm\nspan,1,top,x,3\n"),
        (read_inspection, "kind,space,flank,instrument,value_mm\nspan,1,,x,\n"),
        (read_log, "time_s,count,pulse\n0.1,2.5,3\n"),
    ],
)
def test_slips_of_the_others(reader, content):
    assert "line 2" in faults(reader, content)[0].field


def test_a_direction_not_known_is_told_beside_the_other_faults_of_the_table():
    with pytest.raises(Refusal) as caught:
        read_scale(SCALE + "1,up,0,0\n1,left,20,20\n1,,40,40\n1,up,60,nan\n1,up,80,8O\n")
    assert [fault.field for fault in caught.value.faults] == [
        "line 3, direction",
        "line 4, direction",
        "line 5, reading",
        "line 6, reading",
    ]
