"""The questions as JSON: the same object as at the command line, by query and by body; what is refused; what is described."""

from __future__ import annotations

import json
import os

import click
import pytest
from starlette.testclient import TestClient

from evenpitch.cli import cli, run

ASKED: dict[str, tuple[list[str], dict[str, str | int | float]]] = {
    "gear": (
        ["gear", "--teeth", "97", "--dp", "12", "--pressure-angle", "14.5", "--face", "0.75 in", "--tolerance-class", "8"],
        {"teeth": 97, "dp": 12, "pressure-angle": 14.5, "face": "0.75 in", "tolerance-class": 8},
    ),
    "divide": (["divide", "113", "--pulses-per-turn", "192000"], {"divisions": 113, "pulses-per-turn": 192000}),
    "lead": (
        ["lead", "--helix-of", "z=28 mn=2 beta=20", "--face", "20", "--pair-with", "1028.765 mm"],
        {"helix-of": "z=28 mn=2 beta=20", "face": 20, "pair-with": "1028.765 mm"},
    ),
    "ratio": (
        ["ratio", "--lead", "514.38mm", "--pulses-per-turn", "192000", "--count", "1um"],
        {"lead": "514.38mm", "pulses-per-turn": 192000, "count": "1um"},
    ),
    "chart/counts": (["divide", "--chart", "90-99"], {"chart": "90-99"}),
    "chart/leads": (["lead", "--chart", "--change-gears", "24,28,32,40"], {"change-gears": "24,28,32,40"}),
}


@pytest.mark.parametrize("question", ASKED)
def test_three_ways_of_asking_give_one_answer(page: TestClient, capsys: pytest.CaptureFixture[str], question: str) -> None:
    words, fields = ASKED[question]
    assert run([*words, "--json"]) in (0, 2)
    said = json.loads(capsys.readouterr().out)
    assert page.get(f"/api/{question}", params=fields).json() == said
    assert page.post(f"/api/{question}", json=fields).json() == said
    underscored = {name.replace("-", "_"): value for name, value in fields.items()}
    assert page.post(f"/api/{question}", json=underscored).json() == said


def test_a_rig_by_its_name_or_as_text(museum: TestClient) -> None:
    name = "Museum horizontal mill"
    text = museum.get(f"/api/rigs/{name}").json()["rig"]["text"]
    by_name = museum.get("/api/divide", params={"divisions": 97, "rig": name}).json()
    assert museum.post("/api/divide", json={"divisions": 97, "rig": text}).json() == by_name
    assert by_name["methods"][0]["method"] == "pulses"
    refused = museum.get("/api/divide", params={"divisions": 97, "rig": "Nowhere"})
    assert refused.status_code == 404
    assert refused.json()["refusals"][0]["field"] == "rig"


def test_targets_and_all(page: TestClient) -> None:
    fields = {"divisions": 97, "pulses-per-turn": 192000, "targets": True, "all": True}
    answer = page.post("/api/divide", json=fields).json()
    pulses = next(way for way in answer["methods"] if way["method"] == "pulses")
    assert pulses["targets"][0] == 0
    assert pulses["targets"][-1] == 192000
    assert len(pulses["targets"]) == 98
    assert len(answer["methods"]) > len(page.get("/api/divide?divisions=97&pulses-per-turn=192000").json()["methods"])


def test_a_hundred_thousand_divisions(page: TestClient) -> None:
    answer = page.get("/api/divide?divisions=100000&pulses-per-turn=192000&targets=true")
    assert answer.status_code == 200
    assert any(len(way.get("targets", ())) == 100_001 for way in answer.json()["methods"])


@pytest.mark.parametrize(
    ("where", "fields", "field"),
    [
        ("gear", {"teeth": 12.5, "module": 2}, "teeth"),
        ("gear", {"teeth": "20", "module": "2", "dp": "12"}, "dp"),
        ("gear", {"teeth": True, "module": 2}, "body.teeth"),
        ("gear", {"teeth": 20, "module": 2, "colour": "red"}, "body.colour"),
        ("divide", {}, "divisions"),
        ("divide", {"divisions": 1_000_001}, "divisions"),
        ("lead", {"lead": "-3"}, "lead"),
        ("ratio", {"lead": "514.38mm"}, "pulses-per-turn"),
        ("chart/counts", {"chart": "2-3000"}, "chart"),
        ("gear", {"teeth": "9" * 30_000, "module": 2}, "body.teeth"),
    ],
)
def test_refusals_name_the_field(page: TestClient, where: str, fields: dict[str, object], field: str) -> None:
    answer = page.post(f"/api/{where}", json=fields)
    assert answer.status_code == 422
    assert answer.json()["refusals"][0]["field"].startswith(field)
    assert all(refusal["expected"] and refusal["do"] for refusal in answer.json()["refusals"])


def test_a_number_that_is_none_is_refused_by_its_reader(page: TestClient) -> None:
    for value in ("NaN", "Infinity", "-Infinity", "1e400", "9" * 5000):
        answer = page.post(
            "/api/gear", content=f'{{"teeth": {value}, "module": 2}}', headers={"content-type": "application/json"}
        )
        assert 400 <= answer.status_code < 500, value


def test_the_description_names_every_option_of_the_command(page: TestClient) -> None:
    described = page.get("/openapi.json").json()
    for name in ("gear", "divide", "lead", "ratio"):
        options = {
            option.opts[0].removeprefix("--")
            for option in cli.commands[name].params
            if isinstance(option, click.Option)
            and option.opts[0] not in ("--json", "--pdf", "--csv", "--paper", "--chart", "--diameter")
        }
        asked = {parameter["name"] for parameter in described["paths"][f"/api/{name}"]["get"]["parameters"]}
        body = set(described["components"]["schemas"][name.capitalize()]["properties"])
        assert options <= asked, options - asked
        assert asked == body
        assert all(parameter["description"] for parameter in described["paths"][f"/api/{name}"]["get"]["parameters"])


@pytest.mark.skipif(os.environ.get("EVENPITCH_FULL") != "1", reason="takes seconds: EVENPITCH_FULL=1")
def test_the_longest_charts_stay_bounded(page: TestClient) -> None:
    assert len(page.get("/api/chart/counts?chart=1-2000").json()["chart"]) == 2000
    assert page.get("/api/chart/leads?change-gears=" + ",".join(map(str, range(20, 40)))).status_code == 200
