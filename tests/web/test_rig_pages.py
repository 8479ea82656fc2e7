"""A rig from its form, its page with the cautions, and files in and out."""

from __future__ import annotations

import html
import re

from starlette.testclient import TestClient

from evenpitch.store.book import Book

MILL = "Museum horizontal mill"
NEW = {"name": "My mill", "head.ratio": "40:1", "plate.0.circles": "15, 16, 17, 18, 19, 20"}


def values(text: str) -> dict[str, str]:
    """What the rig form would send again."""
    found = re.findall(r'<input id="[^"]*" name="([^"]*)" value="([^"]*)"', text)
    chosen = re.findall(r'name="([^"]*)" value="([^"]*)" checked', text)
    return {html.unescape(name): html.unescape(value) for name, value in [*found, *chosen]}


def test_ratio_and_one_plate_are_enough(page: TestClient) -> None:
    made = page.post("/rigs/new", data=NEW)
    assert made.headers["location"] == "/rigs/My%20mill"
    shown = page.get("/rigs/My mill").text
    assert "Not known yet" in shown
    assert "Cautions" not in shown


def test_a_rig_without_plates_is_refused_at_the_plate(page: TestClient) -> None:
    answer = page.post("/rigs/new", data={"name": "Bare", "head.ratio": "40"})
    assert answer.status_code == 422
    assert "Hole circles" in answer.text
    assert answer.text.count('class="message stop"') == 1
    assert page.get("/api/rigs").json()["rigs"] == []


def test_the_form_starts_from_a_set_that_is_named(page: TestClient) -> None:
    sent = values(
        page.get("/rigs/new", params={"plates": "one plate, two sides, 24 to 66 holes", "gears": "no change gears"}).text
    )
    assert sent["plate.1.circles"].endswith("66")
    assert sent["change_gears.teeth"] == ""
    assert sent["plate.0.circles"].startswith("24")


def test_add_another_keeps_what_was_typed(page: TestClient) -> None:
    answer = page.post("/rigs/new", data=NEW | {"press": "another:cutter", "cutter.0.pitch": "12 DP", "cutter.0.number": "2"})
    assert answer.status_code == 200
    sent = values(answer.text)
    assert sent["cutter.0.pitch"] == "12 DP"
    assert sent["cutter.1.pitch"] == ""
    assert sent["name"] == "My mill"


def test_faults_in_lists_stand_at_their_rows(page: TestClient) -> None:
    answer = page.post(
        "/rigs/new", data=NEW | {"cutter.3.pitch": "12 DP", "cutter.3.number": "11", "cutter.3.pressure_angle": "14½"}
    )
    assert answer.status_code == 422
    assert "“11”" in answer.text
    assert 'name="cutter.3.number" value="11"' in answer.text


def test_a_rig_with_a_motor_shows_its_cautions_first(museum: TestClient) -> None:
    text = museum.get(f"/rigs/{MILL}").text
    assert text.index("Index crank handle off or covered") < text.index("Electronic link")
    assert "Rapid traverse locked out" in text
    assert "licensed electrician" in text


def test_a_rig_is_changed_under_its_name_and_keeps_its_map(museum: TestClient, book: Book) -> None:
    form = museum.get(f"/rigs/{MILL}/edit").text
    chosen = dict(re.findall(r'<select id="[^"]*" name="([^"]*)"[^>]*>.*?<option value="([^"]*)" selected', form, flags=re.S))
    sent = values(form) | chosen
    assert museum.post(f"/rigs/{MILL}/edit", data=sent | {"head.centre_height": "5.25 in"}).status_code == 303
    kept = book.rig(MILL)
    assert kept.version == 2
    assert 'centre_height = "5.25 in"' in kept.text
    assert "harmonics" in kept.text
    before = book.rig(MILL, 1).text
    assert kept.text == before.replace('centre_height = "5 in"', 'centre_height = "5.25 in"')


def test_a_name_taken_and_the_word_new_are_refused(museum: TestClient) -> None:
    for name in (MILL, "new", "New"):
        answer = museum.post("/rigs/new", data=NEW | {"name": name})
        assert answer.status_code == 422, name


def test_files_are_taken_in_and_given_out(museum: TestClient, book: Book) -> None:
    rig = museum.get(f"/rigs/{MILL}/rig.toml").text.replace(MILL, "Friend's mill")
    taken = museum.post("/book/take-in", files={"file": ("friend.toml", rig.encode())})
    assert taken.headers["location"] == "/rigs/Friend%27s%20mill"
    job = museum.get("/jobs/A/job.toml").content
    assert museum.post("/book/take-in", files={"file": ("wheel.toml", job)}).headers["location"] == "/jobs/wheel/plan"
    assert museum.post("/book/take-in", files={"file": ("wheel.toml", job)}).status_code == 422
    export = museum.get("/jobs/A/job.jsonl").content
    assert museum.post("/book/take-in", files={"file": ("a.jsonl", export)}).status_code == 422  # A is taken
    for bad in (b"", b"\xff\xfe\x00", b"{not json", b"colour = 1", b"[head]\nratio = 'forty'", b"x" * 1_500_000):
        answer = museum.post("/book/take-in", files={"file": ("bad.toml", bad)})
        assert answer.status_code == 422, bad[:20]
    assert len(book.rigs()) == 3


def test_the_book_page_says_where_it_is_and_gives_a_copy(museum: TestClient, home: object) -> None:
    assert str(home) in museum.get("/book").text
    copy = museum.get("/book/backup")
    assert copy.content.startswith(b"SQLite format 3\x00")
    assert "attachment" in copy.headers["content-disposition"]


def test_the_worked_example_is_set_up_once(page: TestClient, book: Book) -> None:
    first = page.post("/example")
    assert first.headers["location"] == "/jobs/A/plan"
    page.post("/example")
    assert len(book.jobs()) == 3
    assert page.get("/").status_code == 200
