"""The page at the machine: presses, stale and repeated ones, what could not be written, coming back, counts, passes, the command line."""

from __future__ import annotations

import re
import sqlite3
from collections.abc import Callable
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from evenpitch.cli import run
from evenpitch.store.book import Book
from evenpitch.store.where import copies_folder
from evenpitch.web.app import make_app
from evenpitch.web.machine import place_of
from web.conftest import HOST, Ticking

LIGHTEST = 60_000


def press(page: TestClient, job: str, kind: str, last: int, /, **fields: object) -> tuple[int, str]:
    """A press as the form sends it: status, and the page."""
    answer = page.post(f"/jobs/{job}/cut", data={"plan": 1, "last": last, "kind": kind, **fields})
    return answer.status_code, answer.text


def words(text: str) -> str:
    """What can be read, without tags."""
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", text.split("<main", 1)[1]))


def begun(page: TestClient, job: str, cut: int, name: str = "full") -> int:
    """A pass begun and so many spaces cut, by presses; the number of the last entry."""
    page.post(f"/jobs/{job}/issue")
    assert press(page, job, "begin", 0, **{"pass": name, "order": "1, 2, 3"})[0] == 303
    for space in range(1, cut + 1):
        assert press(page, job, "cut", space, space=space, **{"pass": name})[0] == 303
    return cut + 1


def test_no_plan_issued_no_cutting(museum: TestClient) -> None:
    assert museum.get("/jobs/A/cut").status_code == 404
    assert "4 cut" not in museum.get("/jobs/A/plan").text
    museum.post("/jobs/A/issue")
    assert "4 cut" in museum.get("/jobs/A/plan").text
    assert museum.get("/jobs/A/cut").headers["location"] == "/jobs/A/cut/start"


def test_the_next_space_is_said_every_way(museum: TestClient) -> None:
    last = begun(museum, "A", 61)
    text = museum.get("/jobs/A/cut").text
    read = words(text)
    assert "cut so far 61 of 97 next space 62" in read
    assert "226° 23′ 30″" in read
    assert "pulse 120 742 from the datum · this move 1979" in read
    assert "by hand 48 : 40, 8 spaces, 20 circle, at 24 + 8/20" in read
    assert "approach up, lock" in read
    assert "depth 4.55 mm" in read
    assert "62 IS CUT" in read
    assert f'name="last" value="{last}"' in text
    targets = len(re.findall(r"<button|<a (?!class=\"skip\")", text)) - 1  # night and day stand in one place
    assert targets <= 6


def test_by_crank_the_figures_are_crank_and_circle(museum: TestClient) -> None:
    begun(museum, "P", 5)
    read = words(museum.get("/jobs/P/cut").text)
    assert "turn the crank, plate geared 48 : 44" in read
    assert "12 spaces, 33 circle" in read
    assert "13 holes in the sector · 1 turns + 27 from the datum" in read  # 5 x 12 = 60 = 33 + 27


def test_a_repeated_press_answers_as_written_and_a_stale_one_is_refused(museum: TestClient, book: Book) -> None:
    last = begun(museum, "A", 3)
    first = press(museum, "A", "cut", last, space=4, **{"pass": "full"})
    again = press(museum, "A", "cut", last, space=4, **{"pass": "full"})
    assert (first[0], again[0]) == (303, 303)
    key = book.issued("A")[0].key
    assert len(book.entries(key)) == last + 1
    status, text = press(museum, "A", "not cut", last, space=3, **{"pass": "full"})
    assert status == 409
    assert "refused:" in text
    assert f"entry {last + 1} was written at" in text
    assert "SHOW WHERE IT STANDS" in text
    assert len(book.entries(key)) == last + 1


def test_two_devices_see_the_same_place(museum: TestClient, book: Book) -> None:
    last = begun(museum, "A", 2)
    with TestClient(make_app(book, now=Ticking()), base_url=HOST, headers={"origin": HOST}, follow_redirects=False) as other:
        assert press(other, "A", "cut", last, space=3, **{"pass": "full"})[0] == 303
        assert press(museum, "A", "cut", last, space=3, **{"pass": "full"})[0] == 303  # the same press from the other device
        assert press(museum, "A", "wait", last)[0] == 409
        assert "next space 4" in words(museum.get("/jobs/A/cut").text)


def test_a_space_out_of_turn_is_refused_with_what_to_do(museum: TestClient) -> None:
    last = begun(museum, "A", 2)
    status, text = press(museum, "A", "cut", last, space=5, **{"pass": "full"})
    assert status == 422
    assert "the record knows of no cut in space 3" in words(text)
    for fields in ({"space": "62a"}, {"space": "-1"}, {"space": "9" * 30}, {}):
        assert press(museum, "A", "cut", last, **fields)[0] == 422
    assert press(museum, "A", "explode", last)[0] == 422
    assert museum.post("/jobs/A/cut", data={"kind": "wait"}).status_code in (422, 303)


def _full(connection: sqlite3.Connection) -> None:
    """As SQLite says it of a full disk: the file may have no page more."""
    connection.execute(f"PRAGMA max_page_count = {connection.execute('PRAGMA page_count').fetchone()[0]}")


def _read_only(connection: sqlite3.Connection) -> None:
    connection.execute("PRAGMA query_only = ON")


def _writable(connection: sqlite3.Connection) -> None:
    connection.execute("PRAGMA query_only = OFF")
    connection.execute("PRAGMA max_page_count = 1073741823")


@pytest.mark.parametrize(("spoil", "reason"), [(_full, "the disk is full"), (_read_only, "can only be read")])
def test_what_could_not_be_written_stays_on_the_screen(
    museum: TestClient, book: Book, spoil: Callable[[sqlite3.Connection], None], reason: str
) -> None:
    last, key = begun(museum, "A", 2), book.issued("A")[0].key
    spoil(book._connection)
    status = 303
    while status == 303:  # the last page of the file takes a few more
        space = place_of(book, "A").next()
        status, text = press(museum, "A", "cut", last, space=space, **{"pass": "full"})
        last += status == 303
    assert status == 503
    read = words(text)
    for said in (
        "not written:",
        reason,
        f"still {len(place_of(book, 'A').progress.cut)}",
        f"in the cutter {space}",
        "WRITE AGAIN",
    ):
        assert said in read
    assert len(book.entries(key)) == last
    form = dict(re.findall(r'<input type="hidden" name="([^"]*)" value="([^"]*)"', text))
    assert museum.post("/jobs/A/cut", data=form).status_code == 503
    _writable(book._connection)
    assert museum.post("/jobs/A/cut", data=form).status_code == 303
    assert [entry.space for entry in book.entries(key)][-1] == space
    assert len(book.entries(key)) == last + 1


def test_coming_back_says_what_is_known_and_what_to_do(museum: TestClient, book: Book) -> None:
    last = begun(museum, "A", 10)
    later = Ticking()
    later.at = museum.app.state.desk.now().replace(year=2027)  # type: ignore[attr-defined]
    with TestClient(make_app(book, now=later), base_url=HOST, headers={"origin": HOST}, follow_redirects=False) as back:
        read = words(back.get("/jobs/A/cut").text)
        for said in (
            "come back after a stop",
            "10 of 97 cut, the last is 10",
            f"entry {last} is on the disk",
            "whether 11 was cut",
        ):
            assert said in read
        assert "CARRY ON AT 11" in read
        assert press(back, "A", "carry on", last)[0] == 303
        assert "11 IS CUT" in words(back.get("/jobs/A/cut").text)


def test_counts(museum: TestClient) -> None:
    last = begun(museum, "A", 61)
    status, text = press(museum, "A", "count", last, forward=61, back=35, page="count")
    assert status == 422
    assert "61 + 35 = 96" in text
    assert "together 97" in text
    assert 'value="61"' in text  # what was typed stays
    assert press(museum, "A", "count", last, forward="sixty", back="", page="count")[0] == 422
    assert press(museum, "A", "count", last, forward=62, back=35)[0] == 303
    read = words(museum.get("/jobs/A/cut").text)
    assert "counted 62 cut, the record holds 61" in read
    assert "62 IS CUT" in read
    assert press(museum, "A", "count", last + 1, forward=60, back=37)[0] == 303
    assert "61 WAS NOT CUT" in museum.get("/jobs/A/cut").text
    assert "counts differ" in museum.get("/").text


def test_a_round_from_scratch_to_the_closing_cut(museum: TestClient, book: Book) -> None:
    museum.post("/jobs/B/issue")
    key = book.issued("B")[0].key

    def go(kind: str, **fields: object) -> None:
        assert press(museum, "B", kind, len(book.entries(key)), **fields)[0] == 303

    def round_of(name: str) -> None:
        for space in range(1, 29):
            go("cut", space=space, **{"pass": name})

    go("begin", **{"pass": "scratch", "order": "1, 2, 3"})
    round_of("scratch")
    assert "THEY MEET" in museum.get("/jobs/B/cut").text
    go("closing", gap="0.4 mm")
    assert "SCRATCH AGAIN" in museum.get("/jobs/B/cut").text
    assert "384 pulses" in museum.get("/jobs/B/cut").text  # 0.4/(π 63.594) of 192 000
    go("closing", gap="2 thou")
    assert "BEGIN THE CUT" in museum.get("/jobs/B/cut").text
    go("begin", **{"pass": "rough", "order": "spread"})
    assert "next space 1" in words(museum.get("/jobs/B/cut").text)
    go("order", order="1, 2, 3", start=1)
    round_of("rough")
    assert "measure over 4 teeth" in museum.get("/jobs/B/cut").text
    go("note", depth="4.1", span="21.7", text="warm")
    go("begin", **{"pass": "full", "order": "1, 2, 3"})
    assert "depth 4.10 mm" in museum.get("/jobs/B/cut").text
    round_of("full")
    go("closing", gap="0")
    read = words(museum.get("/jobs/B/cut").text)
    assert "finished" in read
    assert "Gear 2" in read
    assert "Carry on cutting" in museum.get("/").text  # gear 2 of the pair is still to cut
    assert museum.get("/jobs/B/cut", params={"gear": 2}).headers["location"] == "/jobs/B/cut/start?gear=2"


def test_a_copy_of_the_book_after_the_last_space(museum: TestClient, book: Book) -> None:
    last = begun(museum, "A", 96)
    folder = copies_folder(book.path)
    before = len(list(folder.glob("*.sqlite")))
    assert press(museum, "A", "cut", last, space=97, **{"pass": "full"})[0] == 303
    copies = list(folder.glob("*.sqlite"))
    assert len(copies) == before + 1
    with sqlite3.connect(copies[-1]) as copy:
        assert copy.execute("SELECT count(*) FROM entry").fetchone() == (last + 1,)
    copy.close()
    assert "IT TAKES NOTHING" in museum.get("/jobs/A/cut").text


def test_a_book_put_back_from_a_copy_is_read_anew(museum: TestClient, book: Book, tmp_path: Path) -> None:
    last = begun(museum, "A", 5)
    copy = book.backup(tmp_path / "copy.sqlite")
    press(museum, "A", "cut", last, space=6, **{"pass": "full"})
    assert place_of(book, "A").next() == 7
    book.restore(copy, Ticking()())
    assert place_of(book, "A").next() == 6
    assert press(museum, "A", "cut", last + 1, space=7, **{"pass": "full"})[0] == 409


@pytest.mark.parametrize(
    "where", ["/jobs/A/cut", "/jobs/A/cut/start", "/jobs/A/cut/count", "/jobs/A/cut/note", "/jobs/A/cut/closing"]
)
def test_it_is_light(museum: TestClient, where: str) -> None:
    begun(museum, "A", 61)
    answer = museum.get(where)
    styles = re.findall(r'<link rel="stylesheet" href="([^"]*)"', answer.text)
    total = sum(int(museum.get(part).headers["content-length"]) for part in (where, *styles))
    assert total < LIGHTEST
    assert museum.get("/jobs/A/cut/nothing").status_code in (404, 422)


def test_the_bench_leads_back_to_the_machine(museum: TestClient) -> None:
    begun(museum, "A", 61)
    text = museum.get("/").text
    assert 'aria-label="61 of 97 spaces cut"' in text
    assert "cut 61 of 97" in text
    assert 'href="/jobs/A/cut"' in text


def test_json_is_the_same_record(museum: TestClient, book: Book) -> None:
    museum.post("/jobs/A/issue")
    where = "/api/jobs/A/cut"
    assert museum.get(where).json()["place"] == {
        "cut": 0, "next": 1, "of": 97, "pass": "full", "then": None, "order": "1, 2, 3", "finished": False,
    }  # fmt: skip
    assert museum.post(where, json={"last_entry": 0, "cut": 1}).json()["entries"] == 1
    assert museum.post(where, json={"last_entry": 0, "cut": 1}).json()["entries"] == 1
    stale = museum.post(where, json={"last_entry": 0, "not_cut": 1})
    assert stale.status_code == 409
    assert museum.post(where, json={"last_entry": 1}).status_code == 422
    assert museum.post(where, json={"last_entry": 1, "wait": True, "cut": 2}).status_code == 422
    target = museum.get(where).json()["target"]
    assert (target["pulse"], target["dms"], target["crank"]["spaces"]) == (1979, "3° 42′ 41″", 8)


def test_the_last_press_of_a_round_can_be_repeated(museum: TestClient) -> None:
    museum.post("/jobs/B/issue")
    where = "/api/jobs/B/cut"
    for space in range(1, 29):
        assert museum.post(where, json={"last_entry": space - 1, "cut": space}).status_code == 200
    assert museum.post(where, json={"last_entry": 27, "cut": 28}).json()["entries"] == 28
    assert museum.get(where).json()["place"]["then"] == "full"


def test_the_command_line(museum: TestClient, book: Book, capsys: pytest.CaptureFixture[str]) -> None:
    museum.post("/jobs/A/issue")
    assert run(["cut", "A", "--cut", "1"]) == 0
    assert run(["cut", "A", "--cut", "2", "--last-entry", "1", "--json"]) == 0
    assert run(["cut", "A", "--cut", "2"]) == 1
    assert run(["cut", "A", "--cut", "3", "--last-entry", "1"]) == 1
    assert run(["cut", "A", "--wait", "--cut", "3"]) == 1
    assert run(["cut", "A", "--note", "visitor"]) == 0
    assert run(["cut", "A", "--count", "3", "94", "--json"]) == 2
    assert run(["cut", "A", "--count", "3", "95"]) == 1
    assert run(["cut", "A", "--cut", "3"]) == 0
    assert run(["cut", "A", "--not-cut", "3"]) == 0
    assert run(["cut", "P"]) == 1
    told = capsys.readouterr().out
    assert "cut so far" in told
    assert place_of(book, "A").progress.cut == (1, 2)
