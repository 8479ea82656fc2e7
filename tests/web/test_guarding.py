"""Host, origin, size, headers: what every request must show and every answer carries."""

from __future__ import annotations

import pytest
from starlette.testclient import TestClient

from evenpitch.web.security import LARGEST_BODY

PAGES = ("/", "/jobs/new", "/jobs/A/gear", "/jobs/A/plan", "/rigs", "/rigs/new", "/rigs/Museum horizontal mill", "/book")


@pytest.mark.parametrize("where", PAGES)
def test_every_page_carries_the_policy_and_nothing_inline(museum: TestClient, where: str) -> None:
    answer = museum.get(where)
    assert answer.status_code == 200
    assert "default-src 'self'" in answer.headers["content-security-policy"]
    assert "unsafe" not in answer.headers["content-security-policy"]
    assert answer.headers["x-content-type-options"] == "nosniff"
    assert answer.headers["x-frame-options"] == "DENY"
    assert " style=" not in answer.text
    assert "<style" not in answer.text
    assert "<script" not in answer.text
    assert " onclick" not in answer.text


@pytest.mark.parametrize("host", ["evil.example", "127.0.0.1.evil.example", "", "[::1]:80", "0.0.0.0"])
def test_a_foreign_host_is_turned_away(page: TestClient, host: str) -> None:
    answer = page.get("/", headers={"host": host})
    assert answer.status_code == 421
    assert "127.0.0.1" in answer.text


def test_localhost_is_this_machine_on_any_port(page: TestClient) -> None:
    assert page.get("/", headers={"host": "localhost:8127"}).status_code == 200


@pytest.mark.parametrize("origin", ["http://evil.example", "null", "http://127.0.0.1:9", "https://127.0.0.1.evil.example"])
def test_a_form_from_elsewhere_writes_nothing(museum: TestClient, origin: str) -> None:
    answer = museum.post("/jobs/A/issue", headers={"origin": origin})
    assert answer.status_code == 403
    assert museum.get("/api/jobs/A/releases").json()["releases"] == []
    assert "default-src" in answer.headers["content-security-policy"]


def test_a_form_that_names_no_page_writes_nothing(museum: TestClient) -> None:
    del museum.headers["origin"]
    assert museum.post("/jobs/A/issue").status_code == 403
    assert museum.post("/api/jobs/A/releases", data={"a": "b"}).status_code == 403


def test_a_script_sends_json_without_a_page(museum: TestClient) -> None:
    del museum.headers["origin"]
    answer = museum.post("/api/jobs/A/releases", json={})
    assert answer.status_code == 201


def test_too_large_a_body_is_not_read(page: TestClient) -> None:
    answer = page.post("/jobs/new", data={"gear.0.teeth": "9" * (LARGEST_BODY + 1)})
    assert answer.status_code == 413


def test_a_body_of_unsaid_length_is_not_read(page: TestClient) -> None:
    answer = page.post("/jobs/new", content=iter([b"gear.0.teeth=97"]))
    assert answer.status_code == 411


def test_unknown_addresses_say_so(page: TestClient) -> None:
    assert page.get("/nowhere").status_code == 404
    assert "Not in the book" in page.get("/jobs/Z/plan").text
    assert page.get("/jobs/Z/plan").status_code == 404
    assert page.get("/rigs/None such").status_code == 404
    assert page.get("/docs").status_code == 404
    assert page.get("/static/../app.py").status_code == 404
    assert page.get("/api/nowhere").json()["refusals"][0]["field"] == "address"


def test_our_own_fault_is_logged_and_told(page: TestClient, monkeypatch: pytest.MonkeyPatch, home: object) -> None:
    from evenpitch.web.pages import bench

    def broken(*_: object) -> str:
        raise ZeroDivisionError("a fault made for this test")

    monkeypatch.setattr(bench, "bench_nav", broken)
    answer = page.get("/")
    assert answer.status_code == 500
    assert "our own fault" in answer.text
    assert "ZeroDivisionError" not in answer.text
    assert "default-src" in answer.headers["content-security-policy"]
    from evenpitch.store.where import places

    assert "a fault made for this test" in (places().log / "faults.log").read_text(encoding="utf-8")
