"""The page of the cutters, and the two commands: read, look at another, slip, print, refuse."""

from __future__ import annotations

import html
import json
import re
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from evenpitch.cli import run

EXAMPLES = Path(__file__).parents[2] / "examples"
CASES = json.loads((Path(__file__).parents[1] / "data" / "virtual_cut.json").read_text(encoding="utf-8"))
LIGHTEST = 60_000
"""Bytes of a page with its styles, as they go over the wire."""


def words(text: str) -> str:
    return html.unescape(re.sub(r"\s+", " ", re.sub(r"<[^>]*>", " ", text)))


def test_the_plan_leads_to_the_cutters_and_they_back(museum: TestClient) -> None:
    assert 'href="/jobs/B/cutters?gear=2"' in museum.get("/jobs/B/plan?gear=2").text
    page = museum.get("/jobs/B/cutters?gear=2")
    assert page.status_code == 200
    assert 'href="/jobs/B/plan?gear=2"' in page.text
    assert "56 teeth" in page.text


def test_the_recommended_cutter_stands_first_with_its_reason(museum: TestClient) -> None:
    text = words(museum.get("/jobs/P/cutters").text)
    assert "Take 16 DP No. 1, made for 135 : the best in your drawer" in text
    assert "outside its printed range, 135–rack" in text
    table = museum.get("/jobs/P/cutters").text.split('id="cutters"')[1]
    assert "16 DP No. 1" in words(table.split("<tbody>")[1].split("</tr>")[0])
    assert "+ takes too much, − leaves metal" in text


def test_another_cutter_changes_picture_and_figures(museum: TestClient) -> None:
    first = museum.get("/jobs/A/cutters").text
    keys = re.findall(r'<option value="([^"]*)"', first)
    assert keys[0] == "12-dp-no1.5-80"
    other = museum.get("/jobs/A/cutters", params={"cutter": "12-dp-no2-55"}).text
    assert "Looked at: 12 DP No. 2, made for 55" in other
    one, two = (re.search(r'id="looked-at".*?</svg>', text, re.S).group() for text in (first, other))
    assert one != two
    assert "takes 97 µm" in words(two)


def test_a_slip_changes_trace_and_span(museum: TestClient) -> None:
    text = words(museum.get("/jobs/A/cutters", params={"under": "0.1 mm"}).text)
    assert "the span changes by" in text
    assert re.search(r"the span changes by −2\d\.\d µm", text)
    assert "changed" in text
    plain = words(museum.get("/jobs/A/cutters").text)
    assert "the span changes by" not in plain


@pytest.mark.parametrize(
    ("job", "shown", "hidden"), [("A", ("swing", "off", "under", "worm"), ("lost", "lead")), ("B", ("lost", "lead"), ())]
)
def test_a_spur_gear_is_not_asked_what_only_a_helix_shows(museum: TestClient, job: str, shown: tuple, hidden: tuple) -> None:
    text = museum.get(f"/jobs/{job}/cutters").text
    for name in shown:
        assert f'name="{name}"' in text
    for name in hidden:
        assert f'name="{name}"' not in text


@pytest.mark.parametrize(
    ("slip", "says"),
    [
        ({"swing": "30"}, "at most 5°"),
        ({"worm": "30"}, "A number without a mark is degrees"),
        ({"off": "eleven"}, "Cutter off centre by"),
        ({"lost": "1.5"}, "Pulses lost"),
        ({"lead": "half"}, "Lead off by"),
        ({"under": "9 mm"}, "at most 5 mm"),
    ],
)
def test_a_slip_that_is_none_is_refused_beside_its_field(museum: TestClient, slip: dict, says: str) -> None:
    page = museum.get("/jobs/B/cutters", params=slip)
    assert page.status_code == 422
    assert says in words(page.text)
    assert "Looked at" in page.text
    assert next(iter(slip.values())) in page.text


def test_a_slip_that_leaves_the_work_is_refused_on_the_page(museum: TestClient) -> None:
    page = museum.get("/jobs/A/cutters", params={"off": "4.5 mm"})
    assert page.status_code == 422
    assert "index to the next space" in words(page.text)


def test_unknown_cutters_gears_and_jobs_are_refused(museum: TestClient) -> None:
    assert museum.get("/jobs/A/cutters", params={"cutter": "none"}).status_code == 422
    assert museum.get("/jobs/A/cutters", params={"gear": "2"}).status_code == 422
    assert museum.get("/jobs/Z/cutters").status_code == 404
    assert museum.get("/jobs/A/bit.pdf", params={"gear": "2"}).status_code == 422
    assert museum.get("/jobs/A/bit.dxf", params={"bit-rake": "60"}).status_code == 422


def test_a_cutter_that_cannot_is_named_a_stop_when_looked_at(museum: TestClient) -> None:
    text = words(museum.get("/jobs/A/cutters", params={"cutter": "module-2-no6-35"}).text)
    assert "module 2 No. 6 cannot cut this gear" in text
    assert "Looked at:" not in text


def test_choosing_goes_to_the_plan_and_the_cutters_say_so(museum: TestClient) -> None:
    museum.post("/jobs/A/choose", data={"choice.cutter": "12 DP No. 2", "gear": "1"})
    text = words(museum.get("/jobs/A/cutters").text)
    assert "The plan reckons with 12 DP No. 2, made for 55" in text
    assert "You chose the one in the plan" in text


def test_page_with_its_styles_is_light(museum: TestClient) -> None:
    for where in ("/jobs/A/cutters", "/jobs/B/cutters?swing=0.25%C2%B0&off=0.05"):
        styles = re.findall(r'<link rel="stylesheet" href="([^"]*)"', museum.get(where).text)
        total = sum(int(museum.get(part).headers["content-length"]) for part in (where, *styles))
        assert total < LIGHTEST, (where, total)


def test_the_bit_is_printed_and_drawn(museum: TestClient) -> None:
    pdf = museum.get("/jobs/B/bit.pdf", params={"paper": "letter"})
    assert pdf.content.startswith(b"%PDF")
    assert "bit.pdf" in pdf.headers["content-disposition"]
    dxf = museum.get("/jobs/B/bit.dxf", params={"bit-diameter": "80 mm"})
    assert b"SECTION" in dxf.content[:100]


def answered(capsys: pytest.CaptureFixture[str], *arguments: str, code: int = 0) -> dict:
    assert run([*arguments, "--json"]) == code
    return json.loads(capsys.readouterr().out)


def test_cutters_of_a_job_file(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    job, rig = str(EXAMPLES / "loom-change-wheel.toml"), str(EXAMPLES / "museum-mill.toml")
    found = answered(
        capsys, "cutters", job, "--rig", rig, "--bit-pdf", str(tmp_path / "b.pdf"), "--bit-dxf", str(tmp_path / "b.dxf")
    )
    first = found["cutters"][0]
    assert (first["name"], first["form_teeth"], first["numbering"]) == ("12 DP No. 1½", 80, "dp")
    assert {"tip_um", "F_alpha_um", "swing_deg", "sink_mm", "verdict"} <= set(first)
    assert first["recommended"]
    assert first["tip_um"] > 0
    assert "takes too much" in found["signs"]
    assert (tmp_path / "b.pdf").read_bytes().startswith(b"%PDF")
    assert (tmp_path / "b.dxf").stat().st_size > 5000
    assert found["fly_cutter"]["arc"]["worst_um"] < 10


RIG = """[head]
ratio = "40"
[[plate]]
circles = [15, 16, 17, 18, 19, 20]
[[cutter]]
pitch = "module 2"
pressure_angle = "20"
number = "4"
numbering = "module"
outside = "60 mm"
"""


@pytest.mark.parametrize(
    ("words", "helix", "best", "total", "off"),
    [("dp8", 30, 55, 25.5, -0.54), ("m8", 30, 55, 25.5, -0.54), ("dp15", 15, 30, 13.4, -0.46), ("m15", 15, 30, 13.4, -0.46)],
)
def test_cutters_of_a_standard_set(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, words: str, helix: int, best: int, total: float, off: float
) -> None:
    """24 teeth, module 2, cutters of 60 mm: own search by another program."""
    job, rig = tmp_path / "job.toml", tmp_path / "rig.toml"
    job.write_text(
        f'[[gear]]\nteeth = 24\npitch = "mn 2"\npressure_angle = "20"\nhelix = "{helix}"\nhand = "right"\nface = "20 mm"\n'
    )
    rig.write_text(RIG)
    found = answered(capsys, "cutters", str(job), "--rig", str(rig), "--set", words)
    assert len(found["cutters"]) == int(words.strip("dpm"))
    first = found["cutters"][0]
    assert first["form_teeth"] == best
    assert first["numbering"] == ("module" if words[0] == "m" else "dp")
    assert first["F_alpha_um"] == pytest.approx(total, abs=0.15)
    assert first["swing_deg"] == pytest.approx(helix + off, abs=0.05)


def test_cutters_of_a_file(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    job = str(EXAMPLES / "timing-pair.toml")
    cutters = tmp_path / "drawer.toml"
    text = '[[cutter]]\npitch = "module 2"\npressure_angle = "20"\nnumber = "6"\nnumbering = "module"\noutside = "60 mm"\nmade_for = 35\n'
    cutters.write_text(text)
    found = answered(capsys, "cutters", job, "--set", str(cutters), "--gear", "2")
    assert [one["form_teeth"] for one in found["cutters"]] == [35]
    assert found["gear"] == 2
    cutters.write_text(text.replace("made_for", "made_four"))
    assert "made_for" in json.dumps(answered(capsys, "cutters", job, "--set", str(cutters), code=1)["refusals"])
    cutters.write_text("")
    assert answered(capsys, "cutters", job, "--set", str(cutters), code=1)["refusals"][0]["field"] == "cutter"


@pytest.mark.parametrize(
    "more", [("--set", "dp9"), ("--gear", "2"), ("--bit-rake", "50"), ("--bit-diameter", "4 mm"), ("--bit-relief", "x")]
)
def test_cutters_refuse(capsys: pytest.CaptureFixture[str], more: tuple[str, ...]) -> None:
    found = answered(capsys, "cutters", str(EXAMPLES / "loom-change-wheel.toml"), *more, code=1)
    assert found["refusals"]
    assert found["refusals"][0]["expected"]


@pytest.mark.parametrize("place", [0, 8, 17])
def test_flank_answers_a_case(capsys: pytest.CaptureFixture[str], tmp_path: Path, place: int) -> None:
    case = CASES["cases"][place]
    file = tmp_path / "case.json"
    file.write_text(json.dumps(case))
    found = answered(capsys, "flank", str(file))["flank"]
    for sign in ("+", "-"):
        for word in ("F_alpha", "f_f_alpha", "f_H_alpha", "F_beta", "f_f_beta", "f_H_beta"):
            assert found[sign][word] == pytest.approx(case["expect"][sign][word], abs=0.05)
    assert set(case["expect"]) <= set(found)
    assert run(["flank", str(file)]) == 0
    text = capsys.readouterr().out
    assert case["name"] in text
    assert "+ metal left on" in text


@pytest.mark.parametrize(
    ("content", "says"),
    [
        ("[1, 2]", "one JSON object"), ("{", "JSON"), ('{"gear": {"teeth": NaN}}', "numbers"), ("\xff", "UTF-8"),
        ('{"cases": [1, 2]}', "a case"), ("[" * 100_000, "case"), ('{"gear": {"teeth": 24, "module": 2, "teath": 1}}', ""),
        (json.dumps({"gear": {"teeth": 24, "module": 2}, "cutter": {"kind": "numbered", "teeth": 24, "module": 2, "outside_dia_mm": 60},
                     "setup": {"swivel_deg": 60}}), "50"),
    ],
)  # fmt: skip
def test_flank_refuses_what_is_no_case(capsys: pytest.CaptureFixture[str], tmp_path: Path, content: str, says: str) -> None:
    file = tmp_path / "case.json"
    file.write_bytes(content.encode("latin-1"))
    found = answered(capsys, "flank", str(file), code=1)["refusals"]
    assert found
    assert says in found[0]["expected"]


def test_flank_refuses_a_file_that_is_not_there_or_too_large(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    assert answered(capsys, "flank", str(tmp_path / "none.json"), code=1)["refusals"][0]["field"] == "file"
    (tmp_path / "large.json").write_bytes(b" " * 1_100_000)
    assert "kB" in answered(capsys, "flank", str(tmp_path / "large.json"), code=1)["refusals"][0]["expected"]


def test_the_bit_is_ground_as_asked_and_goes_on_to_its_sheet(museum: TestClient) -> None:
    asked = {"bit-rake": "8", "bit-diameter": "80 mm", "swing": "0.25°"}
    page = museum.get("/jobs/B/cutters", params=asked)
    assert page.status_code == 200
    assert "80.00 mm" in page.text
    assert "8.0°" in page.text
    assert 'name="swing" value="0.25°"' in page.text
    links = re.findall(r'href="([^"]*bit\.pdf[^"]*)"', page.text)
    assert links
    assert "bit-rake=8" in links[0]
    assert museum.get(html.unescape(links[0])).content.startswith(b"%PDF")


def test_a_bit_that_cannot_be_is_refused_at_its_field_and_the_usual_one_stands(museum: TestClient) -> None:
    page = museum.get("/jobs/B/cutters", params={"bit-rake": "60", "bit-relief": "x"})
    assert page.status_code == 422
    page = museum.get("/jobs/B/cutters", params={"bit-rake": "60"})
    assert page.status_code == 422
    assert "from -30 to 30 degrees" in page.text
    assert "none: the edge is the form itself" in page.text
