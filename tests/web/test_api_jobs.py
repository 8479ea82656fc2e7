"""The JSON interface to jobs and rigs says what the command line says."""

from __future__ import annotations

import json
from pathlib import Path

from starlette.testclient import TestClient

from evenpitch.store.museum import museum_folder
from evenpitch.web.desk import ask_plan

FIELDS = {"gear.0.teeth": "97", "gear.0.pitch": "12 DP", "gear.0.pressure_angle": "14½", "gear.0.face": "0.75 in"}


def test_a_plan_by_request_is_the_plan_of_the_command(museum: TestClient) -> None:
    job, rig = museum_folder() / "loom-change-wheel.toml", museum_folder() / "museum-mill.toml"
    asked = museum.post("/api/plan", json={"job": job.read_text(encoding="utf-8"), "rig": rig.read_text(encoding="utf-8")})
    assert asked.json() == json.loads(ask_plan(Path(job), rig.read_bytes(), trial=False).json_text())
    assert museum.get("/api/jobs/A/plan").json() == asked.json()


def test_fields_do_as_well_as_text(page: TestClient) -> None:
    answer = page.post("/api/plan", json={"job": FIELDS}).json()
    assert answer["figures"]["outside_diameter"]["value"] == 209.55
    assert answer["command"] == "plan"


def test_a_refusal_has_the_shape_of_the_command(page: TestClient) -> None:
    answer = page.post("/api/plan", json={"job": FIELDS | {"gear.0.teeth": "12.5", "gear.0.face": "wide"}})
    assert answer.status_code == 422
    assert [fault["field"] for fault in answer.json()["refusals"]] == ["gear.0.teeth", "gear.0.face"]
    assert set(answer.json()["refusals"][0]) == {"field", "given", "expected", "likely", "do"}


def test_a_request_of_another_shape_is_refused_in_the_same_words(page: TestClient) -> None:
    for body in ({}, {"job": 3}, {"job": FIELDS, "colour": "red"}, [1], None):
        answer = page.post("/api/plan", json=body)
        assert answer.status_code == 422
        assert answer.json()["refusals"]
    assert page.post("/api/plan", content=b"{", headers={"content-type": "application/json"}).status_code == 422


def test_jobs_and_rigs_are_kept_changed_and_issued(page: TestClient) -> None:
    rig = {"name": "Mill", "head.ratio": "40", "plate.0.circles": "15,16,17,18,19,20"}
    assert page.post("/api/rigs", json={"rig": rig}).status_code == 201
    made = page.post("/api/jobs", json={"job": FIELDS, "rig": "Mill", "name": "wheel"})
    assert made.status_code == 201
    assert made.json()["job"]["rig"] == "Mill"
    assert page.post("/api/jobs", json={"job": FIELDS, "rig": "Mill", "name": "wheel"}).status_code == 422
    assert page.post("/api/jobs", json={"job": FIELDS, "rig": "Lathe"}).status_code == 404
    changed = page.put("/api/jobs/wheel", json={"job": FIELDS | {"gear.0.teeth": "96"}})
    assert changed.json()["job"]["version"] == 2
    issued = page.post("/api/jobs/wheel/releases", json={})
    assert issued.json()["release"]["number"] == 1
    whole = page.get("/api/jobs/wheel/releases/1").json()["release"]
    assert whole["plan"]["command"] == "plan"
    assert page.get("/api/jobs/wheel/releases/2").status_code == 404


def test_the_description_names_every_route(page: TestClient) -> None:
    paths = page.get("/openapi.json").json()["paths"]
    for path in (
        "/api/plan",
        "/api/jobs",
        "/api/jobs/{name}",
        "/api/jobs/{name}/plan",
        "/api/jobs/{name}/releases",
        "/api/rigs",
        "/api/rigs/{name}",
    ):
        assert path in paths
    assert all(path.startswith("/api/") for path in paths)
