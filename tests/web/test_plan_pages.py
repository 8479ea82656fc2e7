"""The plan: choose, issue, print, take along."""

from __future__ import annotations

import re
import tomllib

import pytest
from starlette.testclient import TestClient

from evenpitch.store.book import Book

LIGHTEST = 60_000
"""Bytes of a page with its styles, as they go over the wire."""


def test_plan_with_its_styles_is_light(museum: TestClient) -> None:
    for where in ("/jobs/A/plan", "/jobs/B/plan", "/jobs/P/plan", "/rigs/Museum horizontal mill/edit"):
        total = 0
        styles = re.findall(r'<link rel="stylesheet" href="([^"]*)"', museum.get(where).text)
        for part in (where, *styles):
            total += int(museum.get(part).headers["content-length"])
        assert total < LIGHTEST, (where, total)


def test_another_way_is_chosen_and_the_best_again(museum: TestClient) -> None:
    text = museum.get("/jobs/A/plan").text
    ways = re.findall(r'name="choice.way" value="([^"]*)"', text)
    simple = next(way for way in ways if way.startswith("differential"))
    answer = museum.post("/jobs/A/choose", data={"choice.way": simple.replace("&#34;", '"'), "gear": "1"})
    assert answer.status_code == 303
    assert answer.headers["location"] == "/jobs/A/plan#dividing"
    chosen = tomllib.loads(museum.get("/jobs/A/job.toml").text)["choice"]
    assert chosen["way"].startswith("differential")
    assert "as you chose" in museum.get("/jobs/A/plan").text
    museum.post("/jobs/A/choose", data={"choice.way": "the best"})
    assert "way" not in tomllib.loads(museum.get("/jobs/A/job.toml").text).get("choice", {})


def test_a_way_for_one_gear_of_a_pair_stops_neither(museum: TestClient) -> None:
    museum.post("/jobs/B/choose", data={"choice.lead": "change gears"})
    way = next(
        way
        for way in re.findall(r'name="choice.way" value="([^"]*)"', museum.get("/jobs/B/plan").text)
        if way.startswith("simple")
    )
    museum.post("/jobs/B/choose", data={"choice.way": way, "gear": "1"})
    for gear in (1, 2):
        assert "to clear" not in museum.get("/jobs/B/plan", params={"gear": gear}).text


def test_lead_by_change_gears_and_a_train_of_choice(museum: TestClient) -> None:
    museum.post("/jobs/B/choose", data={"choice.lead": "change gears"})
    assert tomllib.loads(museum.get("/jobs/B/job.toml").text)["choice"]["lead"] == "change gears"
    train = re.findall(r'name="choice.train" value="([^"]*)"', museum.get("/jobs/B/plan").text)[0]
    assert museum.post("/jobs/B/choose", data={"choice.train": train}).status_code == 303
    assert tomllib.loads(museum.get("/jobs/B/job.toml").text)["choice"]["train"] == train
    museum.post("/jobs/B/choose", data={"choice.lead": "the best"})
    assert "train" not in tomllib.loads(museum.get("/jobs/B/job.toml").text)["choice"]


def test_issue_is_once_for_the_same_plan_and_again_for_a_changed_one(museum: TestClient, book: Book) -> None:
    assert "Issue plan 1 and print" in museum.get("/jobs/A/plan").text
    first = museum.post("/jobs/A/issue", data={"version": "1"})
    assert first.headers["location"] == "/jobs/A/sheet.pdf"
    museum.post("/jobs/A/issue", data={"version": "1"})
    assert [kept.number for kept in book.releases("A")] == [1]
    assert "Print plan 1" in museum.get("/jobs/A/plan").text
    museum.post("/jobs/A/choose", data={"choice.dividing": "differential"})
    assert "Issue plan 2 and print" in museum.get("/jobs/A/plan").text
    stale = museum.post("/jobs/A/issue", data={"version": "1"})
    assert stale.status_code == 409
    museum.post("/jobs/A/issue", data={"version": "2"})
    assert [kept.number for kept in book.releases("A")] == [1, 2]
    assert "plan 2 issued" in museum.get("/").text


def test_a_rig_changed_since_makes_a_new_plan(museum: TestClient, book: Book) -> None:
    museum.post("/jobs/A/issue", data={"version": "1"})
    text = book.rig("Museum horizontal mill").text
    assert museum.post("/api/rigs", json={"rig": text + "\n# the head was cleaned\n"}).status_code == 201
    assert "Issue plan 2 and print" in museum.get("/jobs/A/plan").text


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_draft_and_issued_sheets_are_pdf(museum: TestClient, paper: str) -> None:
    draft = museum.get("/jobs/A/sheet.pdf", params={"paper": paper})
    assert draft.content[:5] == b"%PDF-"
    assert "draft" in draft.headers["content-disposition"]
    museum.post("/jobs/A/issue")
    issued = museum.get("/jobs/A/sheet.pdf", params={"paper": paper})
    assert "plan 1" in issued.headers["content-disposition"]
    assert issued.content[:5] == b"%PDF-"
    assert museum.get("/jobs/A/sheet.pdf", params={"plan": 7}).status_code == 404
    assert museum.get("/jobs/A/sheet.pdf", params={"paper": "foolscap"}).status_code == 422


def test_an_issued_sheet_stays_as_it_was(museum: TestClient) -> None:
    museum.post("/jobs/A/issue")
    before = museum.get("/jobs/A/sheet.pdf", params={"plan": 1}).content
    museum.post("/jobs/A/choose", data={"choice.dividing": "differential"})
    assert museum.get("/jobs/A/sheet.pdf", params={"plan": 1}).content == before
    assert museum.get("/jobs/A/sheet.pdf").content != before


def test_trial_piece_outline_and_files(museum: TestClient) -> None:
    assert museum.get("/jobs/A/trial.pdf").content[:5] == b"%PDF-"
    assert b"SECTION" in museum.get("/jobs/A/outline.dxf").content
    assert museum.get("/jobs/A/job.toml").text.lstrip().startswith(("title", "#"))
    export = museum.get("/jobs/A/job.jsonl")
    assert export.status_code == 200
    assert export.headers["content-disposition"] == 'attachment; filename="A.jsonl"'


def test_night_is_kept_and_goes_back_only_here(museum: TestClient) -> None:
    answer = museum.get("/light", params={"to": "night", "back": "/jobs/A/plan?gear=1"})
    assert answer.headers["location"] == "/jobs/A/plan?gear=1"
    assert 'data-night="night"' in museum.get("/").text
    for away in ("//evil.example", "https://evil.example", "/\\evil.example", "/\nx"):
        assert museum.get("/light", params={"to": "day", "back": away}).headers["location"] == "/"
    assert 'data-night="day"' in museum.get("/").text
