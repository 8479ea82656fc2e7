"""JOB.toml and job forms: what is read, what is refused, and how it is said."""

from __future__ import annotations

import math

import pytest

from evenpitch.job.order import Train
from evenpitch.quantity.refusal import Fault, Refusal
from evenpitch.store.files.job_file import job_from_fields, order_from, read_job, write_job
from evenpitch.store.files.rig_file import read_rig
from evenpitch.store.museum import JOBS, museum_text

LEAST = '[[gear]]\nteeth = 97\npitch = "12 DP"\npressure_angle = "14½"\nface = "0.75 in"\n'


def faults_of(text: str) -> dict[str, Fault]:
    with pytest.raises(Refusal) as trouble:
        read_job(text)
    return {fault.field: fault for fault in trouble.value.faults}


def form_faults(fields: dict[str, str]) -> dict[str, Fault]:
    with pytest.raises(Refusal) as trouble:
        job_from_fields(fields)
    return {fault.field: fault for fault in trouble.value.faults}


def test_the_least_that_is_needed() -> None:
    job = read_job(LEAST)
    (work,) = job.works
    assert (work.gear.teeth, work.gear.hand, work.gear.face, work.gear.depth) == (97, "none", 19.05, "14.5")
    assert work.gear.module == pytest.approx(25.4 / 12, rel=1e-15)
    assert work.gear.pressure_angle == pytest.approx(math.radians(14.5), rel=1e-15)
    assert work.span_tolerance == work.outside_tolerance == (0, -0.05)  # job.md 4.4, common practice
    assert (job.title, job.pair, job.choice.paper, job.choice.paper_thickness) == ("97-tooth gear", None, "a4", 0.08)


def test_what_was_typed_is_kept_beside_what_it_means() -> None:
    order = order_from(museum_text("loom-change-wheel"), read_rig(museum_text("museum-mill")).rig)
    typed = dict(order.typed)
    assert typed["gear.0.pressure_angle"] == "14½"
    assert typed["gear.0.teeth"] == "97"
    assert typed["gear.0.outside_found"] == "209.51 mm"
    assert order.works[0].outside_found == 209.51
    assert order.rig.name == "Museum horizontal mill"
    assert order.choice.paper_thickness == 0.05


def test_the_timing_pair() -> None:
    job = read_job(museum_text("timing-pair"))
    assert [(work.gear.teeth, work.gear.hand, work.gear.module) for work in job.works] == [(28, "right", 2), (56, "left", 2)]
    assert job.pair is not None
    assert job.pair.centre_distance == pytest.approx(89.408, abs=1e-12)  # scenario: 3.520 in
    assert job.pair.backlash is None


@pytest.mark.parametrize("name", JOBS.values())
def test_written_as_typed_and_clean_from_a_form(name: str) -> None:
    text = museum_text(name)
    file = read_job(text)
    assert write_job(file) == text
    clean = job_from_fields(dict(file.typed))
    assert "#" not in write_job(clean)
    assert read_job(write_job(clean)).works == file.works
    assert dict(read_job(write_job(clean)).typed) == dict(file.typed)
    over = job_from_fields(dict(file.typed) | {"gear.0.teeth": "33", "choice.paper": "letter"}, over=text)
    assert over.works[0].gear.teeth == 33
    assert over.choice.paper == "letter"
    remarks = [line.partition("#")[2] for line in text.splitlines() if "#" in line]
    assert [line.partition("#")[2] for line in write_job(over).splitlines() if "#" in line] == remarks
    assert read_job(write_job(over)).works == over.works


def test_a_form_takes_its_second_gear_away_and_brings_it_back() -> None:
    text = museum_text("timing-pair")
    fields = {name: value for name, value in read_job(text).typed if not name.startswith(("gear.1.", "pair."))}
    one = job_from_fields(fields, over=text)
    assert len(read_job(one.text).works) == 1
    assert "[pair]" not in one.text
    two = job_from_fields(dict(read_job(text).typed), over=one.text)
    assert read_job(two.text).works == read_job(text).works


def test_transverse_pitch_becomes_the_normal_module() -> None:
    text = LEAST.replace('"12 DP"', '"12 DP transverse"') + 'helix = "20"\nhand = "right"'
    assert read_job(text).works[0].gear.module == pytest.approx(25.4 / 12 * math.cos(math.radians(20)), rel=1e-15)


@pytest.mark.parametrize(
    ("typed", "depth"),
    [('"14½"', "14.5"), ("14.5", "14.5"), ('"Stub"', "stub"), ('"iso53-B"', "iso53-b"), ('"don\'t know"', "14.5")],
)
def test_depth(typed: str, depth: str) -> None:
    assert read_job(LEAST + f"depth = {typed}").works[0].gear.depth == depth


def test_full_depth_is_usual_beside_other_pressure_angles() -> None:
    assert read_job(LEAST.replace("14½", "20")).works[0].gear.depth == "full"


def test_choices() -> None:
    text = (
        LEAST
        + '[choice]\ntrain = "48·86/(32·64)"\ndividing = "Pulses"\nlead = "change gears"\nunits = "mm"\npaper_thickness = 0\nway = "x"'
    )
    choice = read_job(text).choice
    assert choice.train == Train((48, 86), (32, 64))
    assert (choice.dividing, choice.lead, choice.units, choice.paper_thickness) == ("pulses", "change gears", "metric", 0)
    assert read_job(text.replace("48·86/(32·64)", "48, 86 : 32, 64")).choice.train == choice.train
    assert "pair" in faults_of(text.replace("48·86/(32·64)", "48 : 32, 64"))["choice.train"].likely
    assert set(faults_of(text.replace("48·86/(32·64)", "48 86"))) == {"choice.train"}


@pytest.mark.parametrize(
    ("line", "field", "said"),
    [
        ("teeth = 12.5", "teeth", "whole number from 5 to 1000"),
        ('teeth = "don\'t know"', "teeth", "cannot be left open"),
        ('pitch = "12"', "pitch", "12"),
        ('pitch = "don\'t know"', "pitch", "cannot be left open"),
        ("pressure_angle = 145", "pressure_angle", "14.5° meant?"),
        ('helix = "-20"', "helix", "Write 20, and the hand beside it"),
        ('helix = "20"', "hand", "left or right"),
        ('hand = "right"', "helix", "no helix angle"),
        ('helix = "20"\nhand = "none"', "hand", "Write the hand"),
        ('face = "1,234"', "face", "1.234"),
        ('face = "2 hundredths"', "face", "0.02 in"),
        ('face = ""', "face", 'or "don\'t know"'),
        ('thinning = "-0.06 mm"', "thinning", "below zero"),
        ('thinning = "60"', "thinning", "0.6 mm meant?"),
        ("tolerance_class = 13", "tolerance_class", "from 1 to 11"),
        ('drive = "left"', "drive", "clockwise, anticlockwise or both"),
        ('drive = "clokwise"', "drive", "clockwise meant?"),
        ("quantity = 0", "quantity", "from 1 to 1000"),
        ('span_tolerance = "0.05 mm"', "span_tolerance", "+0/-0.05 mm"),
        ('span_tolerance = "+0/-0.05 in in"', "span_tolerance", "two limits"),
        ('span_tolerance = "+0/-5 mm"', "span_tolerance", "5 mm off"),
        ('material = "a\\nb"', "material", "line end"),
        ('presure_angle = "20"', "presure_angle", "'pressure_angle' meant?"),
        ("shift = 30", "shift", "from -3 to 3"),
    ],
)
def test_one_slip(line: str, field: str, said: str) -> None:
    name = line.split(" = ")[0]
    lines = [old for old in LEAST.splitlines() if not old.startswith(f"{name} = ")]
    found = faults_of("\n".join([*lines, line]))
    assert set(found) == {f"gear.0.{field}"}
    assert said in str(found[f"gear.0.{field}"])


def test_all_faults_of_two_gears_at_once() -> None:
    assert set(faults_of(LEAST + "[[gear]]\nteeth = 3\n[choice]\npaper = 'a5'\n[extra]\n")) == {
        "gear.1.teeth", "gear.1.pitch", "gear.1.pressure_angle", "gear.1.face", "choice.paper", "extra",
    }  # fmt: skip


def test_counts_of_gears() -> None:
    assert set(faults_of(LEAST * 3)) == {"gear"}
    assert set(faults_of(LEAST + '[pair]\nbacklash = "4 thou"')) == {"pair"}
    assert "two brackets" in faults_of(LEAST.replace("[[gear]]", "[gear]"))["gear"].do
    for nothing in ("", "gear = []"):
        assert set(faults_of(nothing)) == {"gear.0.teeth", "gear.0.pitch", "gear.0.pressure_angle", "gear.0.face"}
    assert set(faults_of("gear = [1]")) == {"gear.0"}


def test_an_empty_form_is_told_what_a_gear_needs() -> None:
    assert set(form_faults({"title": "x", "gear.0.teeth": ""})) == {
        "gear.0.teeth", "gear.0.pitch", "gear.0.pressure_angle", "gear.0.face",
    }  # fmt: skip


def test_face_may_be_unknown_if_it_is_said() -> None:
    assert read_job(LEAST.replace("0.75 in", "don't know")).works[0].gear.face is None
