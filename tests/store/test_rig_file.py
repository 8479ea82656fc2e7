"""RIG.toml and rig forms: what is read, what is refused, and how it is said."""

from __future__ import annotations

import json
import math
from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest

from evenpitch.quantity.refusal import Fault, Refusal
from evenpitch.rig.head import IdlerTest
from evenpitch.rig.machine import Dial
from evenpitch.store.files.rig_file import read_rig, rig_from_fields, write_rig
from evenpitch.store.museum import RIGS, museum_text

LEAST = '[head]\nratio = "40"\n[[plate]]\ncircles = [15, 16]\n'


def faults_of(text: str | bytes) -> dict[str, Fault]:
    with pytest.raises(Refusal) as trouble:
        read_rig(text)
    return {fault.field: fault for fault in trouble.value.faults}


def form_faults(fields: dict[str, str]) -> dict[str, Fault]:
    with pytest.raises(Refusal) as trouble:
        rig_from_fields(fields)
    return {fault.field: fault for fault in trouble.value.faults}


def test_the_least_that_is_needed() -> None:
    rig = read_rig(LEAST).rig
    assert rig.head.ratio == 40
    assert [plate.circles for plate in rig.plates] == [(15, 16)]
    assert (rig.link, rig.cutters, rig.table.screw_lead, rig.name) == (None, (), None, "Mill and 40:1 head")


def test_the_museum_mill_is_the_shop_of_the_scenario() -> None:
    rig = read_rig(museum_text("museum-mill")).rig
    assert rig.pulses_per_turn() == 192_000
    assert rig.head.end == "left"
    assert rig.head.backlash == pytest.approx(math.radians(3.2 / 60), rel=1e-12)
    assert rig.table.screw_lead == 6.35
    assert rig.table.knee_dial == Dial(0.0254, 2.54)  # type: ignore[arg-type]
    assert rig.spindle.speeds == (31, 40, 51, 65, 83, 106, 136, 174)
    assert rig.spindle.feeds == pytest.approx((12.7, 19.05, 25.4, 38.1, 50.8, 76.2, 114.3, 165.1), rel=1e-12)
    assert rig.link is not None
    assert rig.link.count == Fraction(1, 1000)
    assert (rig.link.latency, rig.link.rotor_inertia, rig.link.inductance) == (0.005, 6.6e-5, 0.0035)
    assert [cutter.name() for cutter in rig.cutters[:2]] == ["12 DP No. 2", "12 DP No. 1½"]
    assert (rig.cutters[0].made_for, rig.cutters[0].outside) == (None, 69.85)
    found = rig.latest_map()
    assert found is not None
    assert found.date == date(2026, 3, 12)
    assert [round(math.degrees(wave.amplitude) * 3600, 9) for wave in found.harmonics] == [40, 15]
    discs = [tool for tool in rig.instruments if tool.kind == "disc micrometer"]
    assert [(tool.least, tool.most, tool.U) for tool in discs] == [(25, 50, 0.008), (50, 75, 0.008)]


def test_the_same_mill_with_the_head_swung() -> None:
    rig = read_rig(museum_text("museum-mill-head-swing")).rig
    assert rig.table.helix_set_by == "milling head"
    assert rig.link is not None
    assert rig.link.motor_on == "plate drive"
    plain = read_rig(museum_text("museum-mill")).rig
    assert (rig.cutters, rig.maps, rig.head) == (plain.cutters, plain.maps, plain.head)


@pytest.mark.parametrize("name", RIGS)
def test_a_file_is_written_as_it_was_typed(name: str) -> None:
    text = museum_text(name)
    file = read_rig(text)
    assert write_rig(file) == text
    again = rig_from_fields(dict(file.typed), over=text)
    assert again.rig == file.rig
    assert write_rig(again) == text


@pytest.mark.parametrize("name", RIGS)
def test_a_form_writes_a_clean_file_of_the_same_rig(name: str) -> None:
    file = read_rig(museum_text(name))
    clean = write_rig(rig_from_fields(dict(file.typed)))
    assert "#" not in clean
    assert 'pressure_angle = "14½"' in clean
    assert read_rig(clean).rig == file.rig
    assert dict(read_rig(clean).typed) == dict(file.typed)


def test_a_form_changes_one_value_and_leaves_the_remarks() -> None:
    text = museum_text("museum-mill")
    fields = dict(read_rig(text).typed)
    fields["head.centre_height"] = "5-1/8 in"
    fields["cutter.1.made_for"] = ""
    changed = write_rig(rig_from_fields(fields, over=text))
    lines = [line for line in changed.splitlines() if line not in text.splitlines()]
    assert len(lines) == 1
    assert lines[0].startswith('centre_height = "5-1/8 in"')
    assert lines[0].endswith("# of the spindle above the table: the largest blank is a little under twice this")
    assert changed.count("made_for") == text.count("made_for") - 1
    assert read_rig(changed).rig.head.centre_height == pytest.approx(5.125 * 25.4)


def test_dont_know_is_an_answer_everywhere_but_ratio_and_plate() -> None:
    text = LEAST.replace(
        "[[plate]]", 'backlash = "don\'t know"\ndirect = "unknown"\nend = "?"\nidler_test = "don\'t know"\n[[plate]]'
    )
    rig = read_rig(text + '[table]\nscrew_lead = "don\'t know"\nhelix_set_by = "not known"\n[link]\ncount = "?"\nbelt = "?"').rig
    assert (rig.head.backlash, rig.head.direct, rig.head.end, rig.head.idler_test, rig.table.screw_lead) == (None,) * 5
    assert rig.link is not None
    assert (rig.link.count, rig.link.belt) == (None, None)
    found = faults_of('[head]\nratio = "don\'t know"\n[[plate]]\ncircles = "don\'t know"')
    assert set(found) == {"head.ratio", "plate.0.circles"}


def test_every_fault_at_once_each_at_its_field() -> None:
    text = """
[head]
ratio = "4"
centre_hight = "5 in"
end = "lef"
[[plate]]
circles = [15, 2, 16, 15.5]
[table]
screw_lead = 0.25
knee_dial = { division = "0.001 in" }
[[cutter]]
pitch = "12"
number = "9"
outside = "275 in"
"""
    found = faults_of(text)
    assert list(found) == [
        "head.ratio", "head.end", "head.centre_hight", "plate.0.circles", "table.screw_lead", "table.knee_dial.turn",
        "cutter.0.pitch", "cutter.0.pressure_angle", "cutter.0.number", "cutter.0.outside",
    ]  # fmt: skip
    assert "'centre_height' meant?" in found["head.centre_hight"].do
    assert "left meant?" in found["head.end"].do
    assert found["table.screw_lead"].do.startswith("0.25 in (6.35 mm) meant?")
    assert found["cutter.0.outside"].do.startswith("2.75 in (69.85 mm) meant?")
    assert found["head.ratio"].expected == "a worm ratio from 5 to 360, such as 40 or 40:1"
    assert all(fault.expected and fault.likely and fault.do for fault in found.values())


def test_a_rig_without_plates_is_refused() -> None:
    found = faults_of('[head]\nratio = "40"')
    assert found["plate.0.circles"].likely == "Only head ratio and one plate are needed."
    assert set(form_faults({"head.ratio": "40"})) == {"plate.0.circles"}
    for empty in (faults_of(""), faults_of("head = {}\nplate = []"), form_faults({}), form_faults({"head.ratio": " "})):
        assert set(empty) == {"head.ratio", "plate.0.circles"}


@pytest.mark.parametrize(
    ("line", "field"),
    [
        ("circles = []", "plate.0.circles"),
        ("circles = [2]", "plate.0.circles"),
        ("circles = [301]", "plate.0.circles"),
        ("circles = [-20]", "plate.0.circles"),
        ("circles = [20, 20]", "plate.0.circles"),
        ("circles = [true]", "plate.0.circles"),
        ("circles = [[20]]", "plate.0.circles"),
        ("circles = 0x" + "f" * 8000, "plate.0.circles"),
        ("circles = {a = 1}", "plate.0.circles"),
        ("circles = 'twenty'", "plate.0.circles"),
    ],
)
def test_circles_that_cannot_be(line: str, field: str) -> None:
    assert set(faults_of(f'[head]\nratio = "40"\n[[plate]]\n{line}')) == {field}


@pytest.mark.parametrize(
    ("table", "line", "said"),
    [
        ("head", 'backlash = "3.2"', "3.2 arcmin meant?"),
        ("head", 'centre_height = "-5 in"', "Measure it again"),
        ("head", 'centre_height = ""', None),
        ("head", "centre_height = nan", "14.5"),
        ("head", "centre_height = inf", "14.5"),
        ("head", 'idler_test = "with"', "Fit one pair"),
        ("head", "centre_height = [1]", "Write 30 to"),
        ("head", "centre_height = { a = 1 }", "Write 30 to"),
        ("table", 'helix_set_by = "knee"', "Write table, milling head or neither"),
        ("table", 'swing = "450"', "45° meant?"),
        ("table", 'screw_lead = "2.5 mm"', None),
        ("link", 'count = "1"', None),
        ("link", 'belt = "3.0"', "20:60"),
        ("link", 'latency = "5 V"', "5 ms"),
        ("link", 'supply = "48000"', "Check the digits"),
        ("link", 'further = "x"', "Take it out"),
        ("spindle", 'speeds = ["83 rpm", "fast", "0.1"]', None),
        ("setup", 'blank_eccentricity = "1 in"', "Check the digits"),
        ("setup", 'blank_excentricity = "1 um"', "'blank_eccentricity_um' meant?"),
    ],
)
def test_one_slip(table: str, line: str, said: str | None) -> None:
    text = f"{LEAST}\n[{table}]\n{line}" if table != "head" else LEAST.replace("[[plate]]", f"{line}\n[[plate]]")
    accepted = ('centre_height = ""', 'screw_lead = "2.5 mm"', 'count = "1"')
    if line in accepted:
        read_rig(text)
        return
    found = faults_of(text)
    if said is not None:
        assert said in " ".join(fault.do for fault in found.values())
    else:
        assert [fault.given for fault in found.values()]


def test_both_wrong_speeds_are_told() -> None:
    with pytest.raises(Refusal) as trouble:
        read_rig(LEAST + '[spindle]\nspeeds = ["83 rpm", "fast", "0.1"]')
    assert [(fault.field, fault.given) for fault in trouble.value.faults] == [
        ("spindle.speeds", "fast"),
        ("spindle.speeds", "0.1"),
    ]


def test_tables_where_values_should_be_and_the_other_way_round() -> None:
    assert faults_of("head = 3")["head"].expected == "a table"
    assert "two brackets" in faults_of("[head]\nratio = 40\n[plate]\ncircles = [20]")["plate"].do
    assert faults_of(LEAST + "[[link]]\ncount = 1")["link"].expected == "a table"


def test_broken_toml_names_the_line() -> None:
    (fault,) = faults_of(LEAST + "[table]\nscrew_lead = 0.25 in\n").values()
    assert fault.field == "RIG.toml"
    assert fault.given == "screw_lead = 0.25 in"
    assert "line 6" in fault.likely
    assert "in quotes" in fault.do


@pytest.mark.parametrize(
    "text",
    [
        b"\xff\xfe\x00", b"\x80abc", "\ud800", b"a = " + b"9" * 5000, b"x = " + b"[" * 5000, b" " * 5_000_000, b"= 1", b"\x00",
    ],
)  # fmt: skip
def test_what_is_no_file_of_ours(text: str | bytes) -> None:
    found = faults_of(text)
    assert all(fault.do for fault in found.values())


def test_byte_order_mark_and_other_line_ends() -> None:
    assert read_rig(b"\xef\xbb\xbf" + LEAST.replace("\n", "\r\n").encode()).rig.head.ratio == 40


def test_count_from_period_and_from_the_screw() -> None:
    def count(lines: str) -> Fraction | None:
        link = read_rig(LEAST + lines).rig.link
        assert link is not None
        return link.count

    assert count('[link]\nperiod = "20 um"\nedges = 4') == Fraction(5, 1000)
    screw = '[table]\nscrew_lead = "0.25 in"\n[link]\ninput = "screw encoder"\nencoder_counts = 4000\n'
    assert count(screw) == Fraction(15875, 10_000_000)  # 1.5875 um, scenario.json, screw_encoder
    assert count(screw + 'count = "1.5875 um"\n') == Fraction(15875, 10_000_000)
    assert "do not agree" in faults_of(LEAST + screw + 'count = "1 um"\n')["link.count"].likely
    assert set(faults_of(LEAST + '[link]\nperiod = "20 um"')) == {"link.edges"}
    assert set(faults_of(LEAST + "[link]\nencoder_counts = 4000")) == {"table.screw_lead"}


@pytest.mark.parametrize(
    ("typed", "found"),
    [
        ("with the crank, 1 idler", IdlerTest("with", 1)),
        ("against, no idler", IdlerTest("against", 0)),
        ("against the crank with two idlers", IdlerTest("against", 2)),
    ],
)
def test_idler_test(typed: str, found: IdlerTest) -> None:
    assert read_rig(LEAST.replace("[[plate]]", f'idler_test = "{typed}"\n[[plate]]')).rig.head.idler_test == found


def test_lists_in_a_form() -> None:
    fields = {"head.ratio": "40:1", "plate.3.circles": "15 16,17", "plate.7.circles": "21", "spindle.feeds": "½, ¾, 1½ in/min"}
    fields |= {"change_gears.teeth": "24,24,28", "instrument.0.kind": "pins", "instrument.0.sizes": "0,144; 0.108 in"}
    file = rig_from_fields(fields)
    assert [plate.circles for plate in file.rig.plates] == [(15, 16, 17), (21,)]
    assert file.rig.spindle.feeds == pytest.approx((12.7, 19.05, 38.1))
    assert file.rig.change_gears.teeth == (24, 24, 28)
    assert file.rig.instruments[0].sizes == pytest.approx((0.144 * 25.4, 0.108 * 25.4))
    assert read_rig(file.text).rig == file.rig


def test_a_form_says_each_fault_at_the_field_it_came_from() -> None:
    found = form_faults({"head.ratio": "40", "plate.3.circles": "15", "plate.7.circles": "1", "map.5.harmonics.2.per_turn": "x"})
    assert {"plate.7.circles", "map.5.harmonics.2.per_turn", "map.5.harmonics.2.amplitude", "map.5.date"} == set(found)
    assert form_faults({"head": "x", "head.ratio": "40"})
    assert form_faults({"a.b.c.d.e.f.g.h.i": "x"})


def rigs_of_the_link() -> list[dict[str, object]]:
    """The four invented rigs of tests/data/link_rigs.json, units in the names."""
    data = json.loads((Path(__file__).parents[1] / "data" / "link_rigs.json").read_text(encoding="utf-8"))
    return list(data["rigs"])


HEAD_NAMES = ("worm_ratio", "backlash_arcsec")
OWN_PLACE = ("id", "name", "belt_head_teeth", "belt_motor_teeth", "pulses_per_work_turn", *HEAD_NAMES)


@pytest.mark.parametrize("rig", rigs_of_the_link(), ids=lambda rig: str(rig["id"]))
@pytest.mark.parametrize("setup", [False, True])
def test_the_four_rigs_of_the_link_can_be_typed(rig: dict[str, object], setup: bool) -> None:
    values = {name: value for name, value in rig.items() if name not in OWN_PLACE}
    further = {name for name in values if "amplitude" in name or "half_width" in name or "friction" in name or "inertia" in name}
    elsewhere = further if setup else set()

    def lines(names: set[str]) -> str:
        return "".join(f"{name} = {json.dumps(values[name])}\n" for name in values if name in names)

    text = (
        f'name = "{rig["name"]}"\n[head]\nworm_ratio = {rig["worm_ratio"]}\nbacklash_arcsec = {rig["backlash_arcsec"]}\n'
        f'[[plate]]\ncircles = [20]\n[link]\nbelt = "{rig["belt_motor_teeth"]}:{rig["belt_head_teeth"]}"\n'
        + lines(set(values) - elsewhere)
        + "[setup]\n"
        + lines(elsewhere)
    )
    found = read_rig(text).rig
    assert found.pulses_per_turn() == rig["pulses_per_work_turn"]
    assert found.link is not None
    assert found.head.backlash == pytest.approx(math.radians(float(str(rig["backlash_arcsec"])) / 3600))
    assert found.link.count == Fraction(str(rig["scale_count_mm"]))
    assert (found.link.supply, found.link.current, found.link.inductance) == (
        rig["supply_V"], rig["rated_current_A"], rig["winding_inductance_H"],
    )  # fmt: skip
    assert (found.link.crank_unevenness, found.link.latency) == (rig["crank_ripple_fraction"], rig["latency_s"])
    assert f"{found.link.feed} " in f"{rig['feed_kind']} "
    kept = dict(found.link.further)
    for name in ("load_inertia_at_work_kgm2", "scale_sine_amplitude_um", "axis_tilt_half_width_rad", "flank_seated"):
        assert kept[name] == pytest.approx(float(rig[name]))  # type: ignore[arg-type]
    named = {"count", "full_steps", "microsteps", "supply", "holding_torque", "current", "peak_current", "inductance"}
    assert len(kept) == len(values) - len(named) - 5  # resistance, pulse rate, latency, feed, unevenness


def test_further_quantities_with_their_units() -> None:
    text = LEAST + (
        '[link]\nscale_sine_amplitude = "0.003 mm"\naxis_tilt_half_width = "20 arcsec"\nflank_seated = false\n'
        'scale_factor_half_width = "20 ppm"\nmean_feed = "60 mm/min"\nstart_stop_pulse_rate = "5.65 kHz"\nrotor_teeth = 50\n'
        'worm_once_per_worm_turn_amplitude = "0.5 arcmin"\nload_inertia_at_work = "200 kg cm2"\nworm_friction = "don\'t know"\n'
    )
    link = read_rig(text).rig.link
    assert link is not None
    assert dict(link.further) == pytest.approx(
        {
            "scale_sine_amplitude_um": 3,
            "axis_tilt_half_width_rad": math.radians(20 / 3600),
            "flank_seated": 0,
            "scale_factor_half_width": 2e-5,
            "mean_feed_mm_per_s": 1,
            "start_stop_pulse_rate_per_s": 5650,
            "rotor_teeth": 50,
            "worm_once_per_worm_turn_amplitude_arcsec": 30,
            "load_inertia_at_work_kgm2": 0.02,
        }
    )


@pytest.mark.parametrize("kind", ["magic wand", "micromter", "?", "the good one"])
def test_an_instrument_that_is_none_is_refused_with_the_kinds_known(kind: str) -> None:
    with pytest.raises(Refusal) as trouble:
        read_rig(f'{LEAST}[[instrument]]\nkind = "{kind}"\n')
    fault = trouble.value.faults[0]
    assert (fault.field, fault.given) == ("instrument.0.kind", kind)
    assert "disc micrometer" in fault.expected
    assert "'micrometer' meant?" in fault.do or kind != "micromter"


@pytest.mark.parametrize("kind", ["Flange micrometer", "dial test indicator", "bore gauge", "measuring wires", "vernier caliper"])
def test_the_trade_may_call_an_instrument_as_it_does(kind: str) -> None:
    assert read_rig(f'{LEAST}[[instrument]]\nkind = "{kind}"\n').rig.instruments[0].kind == kind


@pytest.mark.parametrize(
    ("lines", "number"),
    [
        ('pitch = "12 DP"\nnumber = "don\'t know"\nmade_for = 55', "2"),
        ('pitch = "module 2"\nmade_for = "55 teeth"', "7"),
        ('pitch = "module 2"\nnumbering = "dp"\nmade_for = 30', "3½"),
        ('pitch = "12 DP"\nnumber = "3"\nmade_for = 55', "3"),
    ],
)
def test_a_cutter_whose_mark_is_worn_off_has_the_number_of_its_count(lines: str, number: str) -> None:
    """Ranges of the sets, common practice: 55 to 134 is No. 2 of a DP set and No. 7 of a module set, 30 to 34 No. 3½."""
    text = f"[head]\nratio = 40\n[[plate]]\ncircles = [15]\n[[cutter]]\npressure_angle = 20\n{lines}\n"
    (cutter,) = read_rig(text).rig.cutters
    assert cutter.number == number


def test_a_cutter_with_neither_mark_nor_count_is_asked_for_either() -> None:
    text = '[head]\nratio = 40\n[[plate]]\ncircles = [15]\n[[cutter]]\npitch = "12 DP"\npressure_angle = 20\nnumber = "don\'t know"\n'
    with pytest.raises(Refusal) as caught:
        read_rig(text)
    (fault,) = caught.value.faults
    assert fault.field == "cutter.0.number"
    assert "worn" in fault.likely
    assert "made_for" in fault.do
