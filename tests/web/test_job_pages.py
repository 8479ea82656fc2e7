"""A gear from its form or from one line to its plan, with script off; and everything that may be mistyped on the way."""

from __future__ import annotations

import html
import re

import pytest
from starlette.testclient import TestClient

GEAR = {
    "gears": "one",
    "rig": "",
    "gear.0.teeth": "97",
    "gear.0.pitch": "12 DP",
    "gear.0.pressure_angle": "14½",
    "gear.0.face": "3/4 in",
}


def values(text: str) -> dict[str, str]:
    """What the form would send again."""
    found = re.findall(r'<input id="[^"]*" name="([^"]*)" value="([^"]*)"', text)
    chosen = re.findall(r'name="([^"]*)" value="([^"]*)" checked', text)
    return {html.unescape(name): html.unescape(value) for name, value in [*found, *chosen]}


def test_four_fields_make_a_plan_on_the_usual_head(page: TestClient) -> None:
    made = page.post("/jobs/new", data=GEAR)
    assert made.status_code == 303
    assert made.headers["location"] == "/jobs/A/plan"
    plan = page.get("/jobs/A/plan")
    assert plan.status_code == 200
    assert "209.55" in plan.text  # 99/12 in, the outside diameter of 97 teeth of 12 DP
    assert "Usual 40:1 head" in plan.text


def test_one_line_fills_the_form_and_is_read_back(page: TestClient) -> None:
    form = page.get("/jobs/new", params={"line": "97t 12DP 14½ face 3/4"})
    assert form.status_code == 200
    sent = values(form.text)
    assert (sent["gear.0.teeth"], sent["gear.0.pitch"], sent["gear.0.pressure_angle"]) == ("97", "12 DP", "14½")
    assert sent["gear.0.face"] == "3/4 in"
    assert "= 0.750 in = 19.050 mm" in form.text
    assert "= 12 DP = module 2.1167" in form.text
    assert "209.550" in form.text
    assert page.post("/jobs/new", data=sent | {"rig": ""}).status_code == 303


def test_a_line_that_cannot_be_read_is_asked_about(page: TestClient) -> None:
    form = page.get("/jobs/new", params={"line": "28 teeth mn 2 20-degree helical"})
    assert form.status_code == 422
    assert "28 teeth mn 2 20-degree helical" in form.text
    assert "helix" in form.text


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        ("gear.0.face", "20 mmm", "20 mmm"),
        ("gear.0.face", "1,234", "1.234"),
        ("gear.0.face", "2 hundredths", "hundredth"),
        ("gear.0.teeth", "12.5", "whole number"),
        ("gear.0.teeth", "-97", "whole number"),
        ("gear.0.teeth", "NaN", "whole number"),
        ("gear.0.teeth", "9" * 5000, "whole number"),
        ("gear.0.pitch", "12", "12"),
        ("gear.0.pressure_angle", "200", "20"),
        ("gear.0.pressure_angle", "", "nothing typed"),
        ("gear.0.hand", "right", "helix"),
        ("gear.0.bore", "<script>alert(1)</script>", "&lt;script&gt;"),
        ("gear.0.material", "鋳鉄", "outside"),
        ("gear.0.colour", "red", "no name known"),
        ("gear.0.outside_found", "209.51 in", "209.51 mm meant"),
    ],
)
def test_what_is_mistyped_is_told_beside_it_and_nothing_is_lost(page: TestClient, field: str, typed: str, said: str) -> None:
    sent = GEAR | {field: typed}
    answer = page.post("/jobs/new", data=sent)
    if field == "gear.0.material":
        assert answer.status_code == 303
        return
    assert answer.status_code == 422
    assert said in answer.text
    assert "<script>alert" not in answer.text
    for label in ("what", "expected", "do"):
        assert f"<dt>{label}</dt>" in answer.text
    again = values(answer.text)
    for name, value in sent.items():
        if name not in ("rig", "gears", "gear.0.colour", "gear.0.hand"):
            assert again[name] == value
    assert page.get("/api/jobs").json()["jobs"] == []


def test_all_faults_are_told_at_once(page: TestClient) -> None:
    answer = page.post("/jobs/new", data=GEAR | {"gear.0.teeth": "none", "gear.0.pitch": "big", "gear.0.face": "wide"})
    assert answer.text.count('class="message stop"') == 3
    assert "3 to clear" in answer.text


def test_what_the_mate_takes_over_is_told_once(page: TestClient) -> None:
    answer = page.post("/jobs/new", data=GEAR | {"gears": "two", "gear.0.pitch": "2", "gear.1.teeth": "56"})
    assert answer.text.count('class="message stop"') == 1


def test_a_length_without_a_unit_is_read_back_before_it_is_used(page: TestClient) -> None:
    first = page.post("/jobs/new", data=GEAR | {"gear.0.face": "3/4"})
    assert first.status_code == 200
    assert "No unit was typed for 3/4 in" in first.text
    assert page.get("/api/jobs").json()["jobs"] == []
    assert page.post("/jobs/new", data=values(first.text) | {"rig": ""}).status_code == 303


def test_the_unit_chosen_holds_for_bare_lengths(page: TestClient) -> None:
    page.post("/jobs/new", data=GEAR | {"gear.0.face": "19.05", "choice.units": "metric"})
    text = page.get("/api/jobs/A").json()["job"]["text"]
    assert 'face = "19.05 mm"' in text


def test_a_pair_shares_what_is_left_empty_and_takes_the_other_hand(page: TestClient) -> None:
    sent = {
        "gears": "two",
        "rig": "",
        "gear.0.teeth": "28",
        "gear.0.pitch": "mn 2",
        "gear.0.pressure_angle": "20",
        "gear.0.helix": "20",
        "gear.0.hand": "right",
        "gear.0.face": "20 mm",
        "gear.1.teeth": "56",
        "pair.centre_distance": '3.520"',
    }
    assert page.post("/jobs/new", data=sent).status_code == 303
    text = page.get("/api/jobs/A").json()["job"]["text"]
    assert 'hand = "left"' in text
    second = page.get("/jobs/A/plan", params={"gear": 2})
    assert second.status_code == 200
    assert "56 teeth" in second.text
    assert page.get("/jobs/A/plan", params={"gear": 3}).status_code == 422
    form = page.get("/jobs/A/gear")
    assert "= 3.520 in = 89.408 mm" in form.text
    assert "Yours are 0.017 mm wider" in form.text  # 89.408 less 89.391: job.md, worked from the centres


def test_two_right_hands_are_a_stop_that_is_not_issued(page: TestClient) -> None:
    sent = {
        "gears": "two", "rig": "", "gear.0.teeth": "28", "gear.0.pitch": "mn 2", "gear.0.pressure_angle": "20", "gear.0.helix": "20",
        "gear.0.hand": "right", "gear.0.face": "20 mm", "gear.1.teeth": "56", "gear.1.hand": "right",
    }  # fmt: skip
    assert page.post("/jobs/new", data=sent).status_code == 303
    plan = page.get("/jobs/A/plan").text
    assert "to clear" in plan
    assert 'action="/jobs/A/issue"' not in plan
    refused = page.post("/jobs/A/issue", data={"version": "1"})
    assert refused.status_code == 422
    assert page.get("/api/jobs/A/releases").json()["releases"] == []


def test_a_changed_job_is_its_next_version_and_keeps_remarks(museum: TestClient) -> None:
    before = museum.get("/api/jobs/A").json()["job"]
    form = values(museum.get("/jobs/A/gear").text)
    assert form["gear.0.teeth"] == "97"
    sent = form | {"gear.0.teeth": "96", "rig": "Museum horizontal mill", "gears": "one"}
    assert museum.post("/jobs/A/gear", data=sent).status_code == 303
    after = museum.get("/api/jobs/A").json()["job"]
    assert after["version"] == before["version"] + 1
    assert "96 teeth" in museum.get("/jobs/A/plan").text


def test_the_same_form_again_changes_nothing(museum: TestClient) -> None:
    before = museum.get("/api/jobs/B").json()["job"]
    page = museum.get("/jobs/B/gear").text
    chosen = dict(re.findall(r'<select id="[^"]*" name="([^"]*)"[^>]*>.*?<option value="([^"]*)" selected', page, flags=re.S))
    assert museum.post("/jobs/B/gear", data=values(page) | chosen).status_code == 303
    after = museum.get("/api/jobs/B").json()["job"]
    assert after["text"] == before["text"]
    assert after["version"] == before["version"]
