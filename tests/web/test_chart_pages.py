"""The wall charts on pages and as files."""

from __future__ import annotations

import csv
import html
import io
import re

import pytest
from starlette.testclient import TestClient

MILL = "Museum horizontal mill"


def rows(text: str) -> list[str]:
    """The first cells of the table on a page."""
    return re.findall(r'<tr(?: class="heavy")?><th scope="row" class="r"[^>]*>([^<]*)</th>', text)


def test_every_count_stands_once_over_the_parts(museum: TestClient) -> None:
    first = museum.get(f"/charts/counts?chart=2-130&rig={MILL}&change-gears=24,28,32,48,64")
    assert first.status_code == 200
    parts = [html.unescape(link) for link in re.findall(r'href="(/charts/counts\?[^"]*part=\d+)"', first.text)]
    counts = rows(first.text) + [count for link in parts for count in rows(museum.get(link).text)]
    assert counts == [str(count) for count in range(2, 131)]
    assert len(first.content) < 40_000


def test_the_csv_has_what_the_page_shows(museum: TestClient) -> None:
    answer = museum.get("/charts/counts.csv?chart=90-100")
    table = list(csv.DictReader(io.StringIO(answer.text)))
    assert [row["count"] for row in table] == [str(count) for count in range(90, 101)]
    shown = museum.get("/charts/counts?chart=90-100").text
    assert all(row["crank, each space"] in shown for row in table)
    assert answer.headers["content-type"].startswith("text/csv")


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_pdf_is_on_the_paper_asked_for(museum: TestClient, paper: str) -> None:
    answer = museum.get(f"/charts/counts.pdf?chart=2-40&paper={paper}")
    assert answer.headers["content-type"] == "application/pdf"
    assert answer.content.startswith(b"%PDF")
    text = museum.get(f"/charts/counts?chart=2-40&paper={paper}").text
    link = html.unescape(re.search(r'class="act" href="([^"]*)"', text)[1])  # type: ignore[index]
    assert link == f"/charts/counts.pdf?chart=2-40&paper={paper}"


def test_leads_rise_and_the_diameter_adds_the_helix(museum: TestClient) -> None:
    text = museum.get("/charts/leads?change-gears=24,28,32,40,48&diameter=60mm").text
    leads = [float(lead.replace("\u202f", "")) for lead in rows(text)]
    assert leads == sorted(leads)
    assert len(leads) == 50
    assert "helix on 60.0 mm" in text
    table = list(csv.DictReader(io.StringIO(museum.get("/charts/leads.csv?change-gears=24,28,32,40,48&diameter=60mm").text)))
    assert [float(row["lead_mm"].replace("\u202f", "")) for row in table] == leads


@pytest.mark.parametrize(
    ("where", "says"),
    [
        ("/charts/counts?chart=5-2", "two counts, the smaller first"),
        ("/charts/counts?chart=1-1000000", "two counts, the smaller first"),
        ("/charts/counts?chart=2-400&circles=" + ",".join(map(str, range(15, 200))), "counts on this head"),
        ("/charts/counts?chart=2-400&change-gears=" + ",".join(map(str, range(20, 50))), "counts on this head"),
        ("/charts/counts?paper=foolscap", "a4 or letter"),
        ("/charts/leads?change-gears=none", "at least two change gears"),
        ("/charts/leads?change-gears=" + ",".join(map(str, range(20, 60))), "at most 20 different ones"),
        ("/charts/leads?rig=Nowhere", "a rig in the book"),
    ],
)
def test_what_no_wall_would_hold(museum: TestClient, where: str, says: str) -> None:
    answer = museum.get(where)
    assert answer.status_code == 422
    assert says in html.unescape(answer.text)
    file = museum.get(where.replace("?", ".csv?"))
    assert file.status_code in (404, 422)
    assert says in html.unescape(file.text)


def test_more_gears_than_can_be_tried_are_refused_for_one_question_too(page: TestClient) -> None:
    many = ",".join(map(str, range(20, 80)))
    for where in (f"/api/divide?divisions=113&change-gears={many}", f"/api/lead?lead=20in&change-gears={many}"):
        answer = page.get(where)
        assert answer.status_code == 422
        assert answer.json()["refusals"][0]["field"] == "change-gears"
