"""One question on a page: what stands in the form, the answer beneath, and what is refused beside its field."""

from __future__ import annotations

import html
import re
from urllib.parse import urlsplit

import pytest
from starlette.testclient import TestClient

from evenpitch.web.divide_answer import divide_question
from evenpitch.web.gear_answer import gear_question
from evenpitch.web.questions import QUESTIONS

MILL = "Museum horizontal mill"


def reads(page: TestClient, where: str) -> str:
    """The page as it can be read, one space between words."""
    return re.sub(r"\s+", " ", html.unescape(re.sub(r"<[^>]+>", " ", page.get(where).text)))


def values(text: str) -> dict[str, str]:
    """What stands in the fields of a form."""
    return {name: html.unescape(value) for name, value in re.findall(r'<input id="[^"]*" name="([^"]*)" value="([^"]*)"', text)}


def test_the_list_leads_to_every_question_and_every_example_is_answered(museum: TestClient) -> None:
    text = museum.get("/ask").text
    links = [html.unescape(href) for href in re.findall(r'href="(/(?:ask|charts)/[^"]*)"', text)]
    assert {urlsplit(link).path for link in links} >= {f"/ask/{name}" for name in QUESTIONS} | {"/charts/counts", "/charts/leads"}
    for link in links:
        answer = museum.get(link)
        assert answer.status_code == 200, link
        if "?" in link:
            assert 'class="keys"' in answer.text, link


def test_the_answer_is_that_of_the_command_line(page: TestClient) -> None:
    text = reads(page, "/ask/gear?teeth=97&dp=12&pressure-angle=14.5&face=0.75in&tolerance-class=8")
    made = gear_question({"teeth": "97", "dp": "12", "pressure-angle": "14.5", "face": "0.75in", "tolerance-class": "8"})
    for key in made.document.keys:
        assert f"{key.label} {key.value} {key.second}" in text
    assert "Limits of class 8" in text
    assert "22 ways, best first" not in text


def test_every_way_of_the_command_line_stands_on_the_page(page: TestClient) -> None:
    text = reads(page, "/ask/divide?divisions=113")
    table = divide_question({"divisions": "113"}).document.sections[0].blocks[0]
    for row in table.rows:  # type: ignore[union-attr]
        assert row.cells[0] in text  # type: ignore[union-attr]
        assert row.cells[1].replace("\n", " ") in text  # type: ignore[union-attr]


def test_module_and_dp_of_an_address_stand_in_the_pitch(page: TestClient) -> None:
    assert values(page.get("/ask/gear?teeth=28&module=2").text)["pitch"] == "module 2"
    assert values(page.get("/ask/gear?teeth=28&dp=12").text)["pitch"] == "12 DP"
    assert "module or dp, not both" in reads(page, "/ask/gear?teeth=28&dp=12&module=2")


def test_fields_left_empty_fall_out_of_the_address(page: TestClient) -> None:
    answer = page.get("/ask/divide?divisions=113&angle=&rig=&worm-ratio=&direct=+")
    assert answer.status_code == 303
    assert answer.headers["location"] == "/ask/divide?divisions=113"
    assert page.get("/ask/lead?lead=&rig=").headers["location"] == "/ask/lead"


def test_everything_wrong_is_told_at_once_and_what_was_typed_stays(page: TestClient) -> None:
    answer = page.get("/ask/gear?teeth=9.5&pitch=12DP&face=9x&hand=up")
    text = answer.text
    assert answer.status_code == 422
    assert values(text)["teeth"] == "9.5"
    assert values(text)["face"] == "9x"
    assert values(text)["pitch"] == "12DP"
    assert re.findall(r'class="message stop" id="flag-(\d)"', text) == ["1", "2", "3"]
    for field in ("teeth", "face", "hand"):
        stopped = re.search(
            rf'<div class="field stopped[^"]*">(?:(?!<div class="field).)*?name="{field}".*?</dl>', text, re.DOTALL
        )
        assert stopped, field
        assert [label for label in ("what", "expected", "why", "do") if f"<dt>{label}</dt>" in stopped.group()] == [
            "what", "expected", "why", "do",
        ]  # fmt: skip
    assert "3 to clear, then ask" in text
    assert '<details class="more" open>' in text, "the message at the hand must be seen"


def test_two_faults_of_one_field_stand_both_at_it(page: TestClient) -> None:
    text = reads(page, "/ask/divide?divisions=113&circles=15,x;3.5")
    assert "Hole circles: “x”." in text
    assert "Hole circles: “3.5”." in text
    assert "2 to clear" in text


@pytest.mark.parametrize(
    ("where", "says"),
    [
        ("/ask/divide?divisions=113&angle=20", "One of the two is asked."),
        ("/ask/ratio?lead=514mm", "nothing typed"),
        ("/ask/lead?helix-of=zz", "is no word of a gear that is known here"),
        ("/ask/lead?lead=0", "A lead of 0 is no helix."),
        ("/ask/gear?teeth=28", "a pitch such as 12 DP"),
        ("/ask/divide?divisions=113&rig=Nowhere", "a rig in the book"),
        ("/ask/divide?divisions=1e999&rig=", "1e999"),
        ("/ask/gear?teeth=97&pitch=%00%F0%9F%A7%BF<b>", "Pitch"),
    ],
)
def test_what_cannot_be_asked(museum: TestClient, where: str, says: str) -> None:
    answer = museum.get(where, follow_redirects=True)
    assert answer.status_code == 422
    assert says in html.unescape(answer.text)
    assert "<b>&lt;b&gt;" not in answer.text
    assert "Work it out" not in answer.text


def test_a_rig_of_the_book_is_taken_and_said(museum: TestClient) -> None:
    plain, on_mill = reads(museum, "/ask/divide?divisions=97"), reads(museum, f"/ask/divide?divisions=97&rig={MILL}")
    assert "Link" not in plain.split("ways, best first")[1]
    assert "the motor on the worm shaft" in on_mill
    assert "On this rig: 192" in on_mill
    assert "On this rig: 15, 16, 17, 18, 19, 20; 21," in on_mill
    assert "3200 pulses for every 8573 counts" in reads(museum, f"/ask/ratio?lead=514.38+mm&rig={MILL}")


def test_the_first_rig_is_offered_before_anything_is_asked(museum: TestClient) -> None:
    chosen = re.search(r'<option value="([^"]*)" selected>', museum.get("/ask/divide").text)
    assert chosen is not None
    assert chosen[1] in [kept["name"] for kept in museum.get("/api/rigs").json()["rigs"]]
    assert '<option value="" selected>' in museum.get("/ask/divide?divisions=113").text


def test_an_answer_leads_on(museum: TestClient) -> None:
    text = museum.get("/ask/gear?teeth=28&pitch=module+2&helix=20&hand=right&face=20+mm").text
    job = html.unescape(re.search(r'href="(/jobs/new\?[^"]*)"', text)[1])  # type: ignore[index]
    form = museum.get(job).text
    assert values(form)["gear.0.teeth"] == "28"
    assert values(form)["gear.0.helix"] == "20"
    on_mill = f"&rig={MILL}"
    plain = ("/ask/gear?teeth=97&pitch=12+DP", "/ask/divide?angle=20d5m12s")
    for where in (*plain, f"/ask/ratio?lead=514.38mm{on_mill}", f"/ask/lead?lead=20in{on_mill}"):
        link = html.unescape(re.search(r'href="(/api/[^"]*)"', museum.get(where).text)[1])  # type: ignore[index]
        assert museum.get(link).status_code == 200, link
    assert museum.get("/ask/gear?teeth=97&pitch=12+DP").text.count("/sources/") > 3


def test_there_is_no_such_question(page: TestClient) -> None:
    for where in ("/ask/life", "/charts/life", "/charts/life.csv", "/charts/counts.exe"):
        assert page.get(where).status_code in (404, 422), where
    assert page.get("/ask/life").status_code == 404
