"""The pages to inspect and to pick up, and the commands inspect and repeat."""

from __future__ import annotations

import csv
import json
import re
import sqlite3
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from evenpitch.cli import run
from evenpitch.sheet.kept_document import kept_pages
from evenpitch.store.book import Book
from evenpitch.store.exported import read_exported
from job.inspection_cases import scattered, spans, steps, table
from web.conftest import Ticking

EXAMPLES = Path(__file__).parents[2] / "examples"
JOB, RIG, OTHER = (str(EXAMPLES / f"{name}.toml") for name in ("loom-change-wheel", "museum-mill", "museum-mill-head-swing"))


def _file(folder: Path, rows: list[str]) -> str:
    path = folder / "readings.csv"
    path.write_text(table(rows), encoding="utf-8")
    return str(path)


def _json(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> tuple[int, dict]:
    code = run([*arguments, "--json"])
    return code, json.loads(capsys.readouterr().out)


def test_inspect_answers_as_the_contract_says(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = _file(tmp_path, [*spans(), *steps(lambda space: 4 * scattered(space) / 3, 4)])
    code, told = _json(["inspect", JOB, path, "--rig", RIG], capsys)
    assert code == 2
    assert told["command"] == "inspect"
    assert set(told["verdict"]) == {"span", "single_pitch", "cumulative_pitch"}
    for one in told["verdict"].values():
        assert {"limit", "value", "U", "says"} <= set(one)
        assert one["says"] in ("pass", "not proven", "fail")
    assert told["verdict"]["span"]["says"] == "fail"
    assert told["rework"]["deeper_mm"] == pytest.approx(0.2908, abs=0.0002)
    for one in told["causes"]:
        assert {"cause", "evidence", "test", "remedy"} <= set(one)
    assert "pick-up-first" in {one["code"] for one in told["findings"]}


def test_a_good_wheel_is_answered_with_0(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    code, told = _json(["inspect", JOB, _file(tmp_path, spans(49.303)), "--rig", RIG], capsys)
    assert code == 0
    assert told["overall"] == "pass"
    assert told["rework"] == {"needed": False, "options": []}
    assert told["causes"] == []


def test_bad_readings_are_refused_with_1(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    code, told = _json(["inspect", JOB, _file(tmp_path, ["span,1,,,1.947,8"]), "--rig", RIG], capsys)
    assert code == 1
    assert told["refusals"][0]["field"] == "line 2, value"


def test_own_figures_change_the_budget(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = _file(tmp_path, ["span,1,,,49.303,8"])
    before = _json(["inspect", JOB, path, "--rig", RIG], capsys)[1]["verdict"]["span"]["U"]
    after = _json(["inspect", JOB, path, "--rig", RIG, "--budget", "repeat = 1 um; burr = 0.5 um"], capsys)[1]["verdict"]["span"][
        "U"
    ]
    assert after < before
    assert run(["inspect", JOB, path, "--budget", "burr 2 um"]) == 1


def test_the_record_sheet_is_written(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "record.pdf"
    assert run(["inspect", JOB, _file(tmp_path, spans()), "--rig", RIG, "--pdf", str(out)]) == 2
    assert out.read_bytes().startswith(b"%PDF")
    capsys.readouterr()


def test_repeat_lists_what_differs(capsys: pytest.CaptureFixture[str]) -> None:
    code, told = _json(["repeat", JOB, "--rig", OTHER, "--was", RIG], capsys)
    assert code == 0
    assert told["command"] == "repeat"
    assert told["rig"]["was"] != told["rig"]["now"]
    assert {"what", "was", "now", "gear"} == set(told["differences"][0])
    assert "methods" in told
    assert run(["repeat", JOB]) == 1


def test_the_page_asks_and_judges(museum: TestClient) -> None:
    asked = museum.get("/jobs/A/inspect")
    assert asked.status_code == 200
    assert "Judge the readings" in asked.text
    assert len(asked.text) < 60_000
    judged = museum.post("/jobs/A/inspect", data={"span": "49.452 49.451 49.453 49.452", "press": "judge"})
    assert judged.status_code == 200
    assert "mm deeper" in judged.text
    assert "fail: thick" in judged.text
    assert "plan the recut" in judged.text
    assert "Keep this inspection" in judged.text
    assert 'value="49.452 49.451 49.453 49.452"' in judged.text


def test_the_page_takes_a_file(museum: TestClient) -> None:
    rows = [*spans(49.303), *steps(scattered, 2)]
    sent = museum.post("/jobs/A/inspect", files={"file": ("readings.csv", table(rows), "text/csv")}, data={"press": "judge"})
    assert sent.status_code == 200
    assert "total pitch, class 8" in sent.text
    assert "waves in one turn" in sent.text


def test_a_wrong_field_is_told_beside_it(museum: TestClient) -> None:
    wrong = museum.post("/jobs/A/inspect", data={"span": "49.4x", "steps_right": "1 2 3"})
    assert wrong.status_code == 422
    assert "2 to clear" in wrong.text
    assert "3 of 97 stand in round 1" in wrong.text
    assert museum.post("/jobs/A/inspect", data={}).status_code == 422


def test_lists_in_micrometres_become_rounds(museum: TestClient) -> None:
    text = " ".join(f"{scattered(space):.1f}" for space in range(1, 98))
    made = museum.post("/jobs/A/inspect", data={"steps_right": f"{text}\n{text}", "runout": text, "budget": "burr = 1 um"})
    assert made.status_code == 200
    assert "2 rounds" in made.text
    assert "runout, class 8" in made.text


def test_the_record_prints_from_the_page(museum: TestClient) -> None:
    printed = museum.post("/jobs/A/inspect", data={"span": "49.303", "press": "record"})
    assert printed.headers["content-type"] == "application/pdf"


def test_the_mate_of_a_pair(museum: TestClient) -> None:
    assert museum.get("/jobs/B/inspect?gear=2").status_code == 200
    assert museum.get("/jobs/A/inspect?gear=2").status_code == 422


def touches(off_deg: float) -> dict[str, str]:
    """Three spaces touched on both sides, all ahead by so much."""
    typed: dict[str, str] = {}
    for at, space in enumerate((1, 33, 65)):
        middle = 360 * (space - 1) / 97 + off_deg
        typed |= {f"space.{at}": str(space), f"left.{at}": f"{middle - 0.5:.5f}", f"right.{at}": f"{middle + 0.5:.5f}"}
    return typed


def hidden(text: str) -> dict[str, str]:
    """What the press in the title block sends."""
    return dict(re.findall(r'<input type="hidden" name="([^"]*)" value="([^"]*)"', text))


def test_a_tooth_picked_up_is_written_by_one_press_after_it_was_shown(museum: TestClient, book: Book) -> None:
    """540″ are 80 of 192 000 pulses: space 4 stands at 5938 + 80, at 11° 8′ 3″ + 9′."""
    unissued = museum.post("/jobs/A/pick-up", data=touches(0.15))
    assert "Write it" not in unissued.text
    museum.post("/jobs/A/issue")
    for number in range(3):
        museum.post("/api/jobs/A/cut", json={"last_entry": number, "cut": number + 1})
    shown = museum.post("/jobs/A/pick-up", data=touches(0.15))
    assert "Write it: targets go by it" in shown.text
    key = book.issued("A")[0].key
    assert len(book.entries(key)) == 3  # nothing is written by showing it
    sent = hidden(shown.text)
    other = museum.post("/jobs/A/pick-up", data={**sent, **touches(0.25)})
    assert (other.status_code, len(book.entries(key))) == (200, 3)  # touches changed since it was shown: shown again
    written = museum.post("/jobs/A/pick-up", data=sent)
    assert written.headers["location"] == "/jobs/A/cut"
    assert museum.post("/jobs/A/pick-up", data=sent).status_code == 303  # the same press again answers as written
    assert [(one.kind, one.payload["offset_arcsec"]) for one in book.entries(key)[3:]] == [("picked up", 540.0)]
    stale = museum.post("/jobs/A/pick-up", data={**hidden(museum.post("/jobs/A/pick-up", data=touches(0.25)).text), "last": "3"})
    assert stale.status_code == 409
    assert "entry 4 was written at" in stale.text
    told = museum.get("/api/jobs/A/cut").json()
    assert (told["target"]["pulse"], told["target"]["dms"]) == (6018, "11° 17′ 2″")
    assert told["picked_up"] == {"offset_arcsec": 540.0, "u_arcsec": sent_u(book, key), "cut_since": False}
    page = museum.get("/jobs/A/cut").text
    assert "6018" in page
    assert "picked up +540″" in page
    assert "this move" not in page  # where the work stands before the first cut after it, nobody knows


def sent_u(book: Book, key: int) -> float:
    """The doubt as it was written."""
    return float(book.entries(key)[3].payload["u_arcsec"])


def test_a_finished_gear_is_picked_up_for_its_recut(museum: TestClient) -> None:
    museum.post("/jobs/A/issue")
    for number in range(97):
        museum.post("/api/jobs/A/cut", json={"last_entry": number, "cut": number + 1})
    museum.post("/api/jobs/A/cut", json={"last_entry": 97, "closing": "0"})
    sent = hidden(museum.post("/jobs/A/pick-up", data=touches(0.15)).text)
    assert museum.post("/jobs/A/pick-up", data=sent).headers["location"] == "/jobs/A/cut/start"
    assert "All 97 once more, deeper" in museum.get("/jobs/A/cut/start").text
    assert museum.post("/api/jobs/A/cut", json={"last_entry": 99, "begin": "full"}).json()["target"]["pulse"] == 80


def test_pick_up(museum: TestClient) -> None:
    asked = museum.get("/jobs/A/pick-up")
    assert asked.status_code == 200
    typed = touches(0.15)
    found = museum.post("/jobs/A/pick-up", data=typed)
    assert found.status_code == 200
    assert "540″ ahead of its old place" in found.text
    assert museum.post("/jobs/A/pick-up", data={"space.0": "x", "left.0": "1", "right.0": "2"}).status_code == 422
    assert museum.post("/jobs/A/pick-up", data={}).status_code == 422


def test_an_inspection_is_kept_listed_printed_and_never_changed(museum: TestClient, book: Book) -> None:
    museum.post("/jobs/A/issue")
    typed = {"span": "49.452 49.451 49.453 49.452", "budget": "burr = 1 um", "press": "keep"}
    kept = museum.post("/jobs/A/inspect", data=typed)
    assert kept.headers["location"] == "/jobs/A/inspections/1"
    assert museum.post("/jobs/A/inspect", data=typed).headers["location"] == "/jobs/A/inspections/1"  # the same press again
    one = book.inspection("A", 1)
    assert (one.plan, one.typed["span"], one.facts["overall"]) == (1, typed["span"], "fail")
    shown = museum.get("/jobs/A/inspections/1").text
    for words in ("mm deeper", "inspection 1; it is never changed", "49.452 49.451 49.453 49.452", "burr = 1 um"):
        assert words in shown
    museum.post("/jobs/A/inspect", data={"span": "49.303", "press": "keep"})
    for page in ("/jobs/A/inspect", "/jobs/A/plan"):
        listed = museum.get(page).text
        assert re.search(r"inspection 1, [^<]*: fail", listed)
        assert re.search(r"inspection 2, [^<]*: pass", listed)
    assert 'value="49.452 49.451 49.453 49.452"' in museum.get("/jobs/A/inspect?from=1").text
    record = kept_pages(book.inspection("A", 2).document)[1]
    (listed_there,) = (section for section in record.sections if section.key == "inspections")
    assert [row.cells[2] for row in listed_there.blocks[0].rows] == ["fail", "pass"]
    assert museum.get("/jobs/A/inspections/2/record.pdf").content.startswith(b"%PDF")
    assert museum.get("/jobs/A/inspections/1/readings.csv").text == (
        "# budget: burr = 1 um\n# span: 49.452 49.451 49.453 49.452\n"
    )
    for none in (3, 0, 10**30):
        assert museum.get(f"/jobs/A/inspections/{none}").status_code == 404
        assert museum.get(f"/api/jobs/A/inspections/{none}").status_code == 404
    assert museum.get(f"/rigs/Museum%20horizontal%20mill/proofs/{10**30}").status_code == 404
    with pytest.raises(sqlite3.IntegrityError, match="only added to"):
        book._connection.execute("UPDATE inspection SET facts = '{}'")


def test_an_inspection_goes_out_and_comes_in_with_its_job(museum: TestClient, book: Book, tmp_path: Path) -> None:
    museum.post("/jobs/A/inspect", data={"span": "49.452", "press": "keep"})
    text = museum.get("/jobs/A/job.jsonl").text
    assert any("49.452" in line for line in text.splitlines() if line.startswith('{"inspection"'))  # read without the program
    with Book.open(tmp_path / "other.sqlite", Ticking()()) as other:
        other.take(read_exported(text.encode()), Ticking()())
        assert other.inspection("A", 1) == book.inspection("A", 1)


def test_a_span_measured_at_the_machine_is_judged_at_once(museum: TestClient) -> None:
    shown = museum.get("/jobs/A/inspect?span=49.452")
    assert "mm deeper" in shown.text
    assert museum.get("/jobs/A/inspect?span=wren").status_code == 422


def test_tables_have_their_units_in_every_column_name(museum: TestClient) -> None:
    museum.post("/jobs/A/issue")
    museum.post("/api/jobs/A/cut", json={"last_entry": 0, "cut": 1})
    museum.post("/api/jobs/A/cut", json={"last_entry": 1, "depth": "4.1 mm", "span": "49.625 mm"})
    record = list(csv.DictReader(museum.get("/jobs/A/record.csv").text.splitlines()))
    assert [(row["kind"], row["space"], row["depth_mm"], row["span_mm"]) for row in record] == [
        ("cut", "1", "", ""),
        ("depth", "", "4.1", "49.625"),
    ]
    targets = list(csv.DictReader(museum.get("/jobs/A/targets.csv").text.splitlines()))
    assert (targets[61]["space"], targets[61]["pulse"], targets[61]["angle_dms"]) == ("62", "120742", "226° 23′ 30″")
    rounds = " ".join(f"{scattered(space):.1f}" for space in range(1, 98))
    museum.post("/jobs/A/inspect", data={"steps_right": rounds, "press": "keep"})
    spacing = list(csv.DictReader(museum.get("/jobs/A/inspections/1/spacing.csv").text.splitlines()))
    assert len(spacing) == 97
    assert list(spacing[0]) == ["space", "cumulative_right_um"]


def test_keep_at_the_command_line(museum: TestClient, book: Book, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = _file(tmp_path, spans(49.303))
    code, told = _json(["inspect", "A", path, "--keep"], capsys)
    assert (code, told["inspection"]["number"], told["inspection"]["overall"]) == (0, 1, "pass")
    assert "49.303" in book.inspection("A", 1).typed["readings"]
    code, told = _json(["inspect", JOB, path, "--keep"], capsys)
    assert (code, told["refusals"][0]["field"]) == (1, "keep")


def test_the_json_interface_answers_as_the_commands(museum: TestClient, book: Book) -> None:
    text = table(spans())
    told = museum.post("/api/jobs/A/inspect", json={"readings": text, "keep": True}).json()
    assert told["verdict"]["span"]["says"] == "fail"
    assert told["inspection"]["number"] == 1
    whole = museum.get("/api/jobs/A/inspections/1").json()["inspection"]
    assert whole["typed"]["readings"] == text.strip() or whole["typed"]["readings"] == text
    assert whole["answer"]["verdict"] == told["verdict"]
    assert len(museum.get("/api/jobs/A/inspections").json()["inspections"]) == 1
    job = (EXAMPLES / "loom-change-wheel.toml").read_text(encoding="utf-8")
    loose = museum.post("/api/inspect", json={"job": job, "rig": "Museum horizontal mill", "readings": text}).json()
    assert loose["verdict"] == told["verdict"]
    other = Path(OTHER).read_text(encoding="utf-8")
    assert museum.post("/api/jobs/A/repeat", json={"rig": other}).json()["differences"]
    assert museum.post("/api/jobs/A/inspect", json={"readings": "x" * 1_000_001}).status_code == 422
    assert (
        museum.post("/api/jobs/A/inspect", content=b"x" * 2_100_000, headers={"content-type": "application/json"}).status_code
        == 413
    )
    assert museum.get("/api/jobs/A/inspections/9").status_code == 404


def test_a_tooth_is_picked_up_by_json_too(museum: TestClient, book: Book) -> None:
    museum.post("/jobs/A/issue")
    three = [
        {"space": space, "left": f"{360 * (space - 1) / 97 - 0.35:.5f}", "right": 360 * (space - 1) / 97 + 0.65}
        for space in (1, 33, 65)
    ]
    told = museum.post("/api/jobs/A/pick-up", json={"touches": three}).json()
    assert told["offset_arcsec"]["value"] == pytest.approx(540, abs=0.1)
    assert museum.post("/api/jobs/A/pick-up", json={"touches": three, "write": True}).status_code == 422
    written = museum.post("/api/jobs/A/pick-up", json={"touches": three, "write": True, "last_entry": 0}).json()
    assert written["cut"]["target"]["pulse"] == 80
    assert museum.post("/api/jobs/A/pick-up", json={"touches": three, "write": True, "last_entry": 7}).status_code == 409
    assert museum.post("/api/jobs/A/pick-up", json={"touches": []}).status_code == 422


LOG = "time_s,count,pulse\n" + "\n".join(f"{row / 100:.2f},{50 * row},{round(50 * row * 215 / 576)}" for row in range(400))


def test_what_is_known_beside_the_readings_is_asked_and_used(
    museum: TestClient, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    shown = museum.post("/jobs/A/inspect", data={"span": "49.303", "seen": "marks = 0.92 mm; contact = one end"})
    assert "arbor bent" in shown.text
    assert "the axes are not parallel" in shown.text
    rounds = " ".join(f"{scattered(space):.1f}" for space in range(1, 98))
    spaced = museum.post("/jobs/A/inspect", data={"steps_right": rounds}).text
    assert "Expected and found" in spaced  # the museum's rig has a link
    assert "in 95 of 100" in spaced
    for wrong in ("marks = 0.92 wrens", "contact = somewhere", "marks = 900 mm", "smell"):
        assert museum.post("/jobs/A/inspect", data={"span": "49.303", "seen": wrong}).status_code == 422
    assert "Log of the link" not in museum.get("/jobs/A/inspect").text
    assert "Log of the link" in museum.get("/jobs/B/inspect").text
    rows = table([f"pitch step,{space},right,comparator,{scattered(space) / 1000:.5f}" for space in range(1, 29)])
    told = museum.post("/api/jobs/B/inspect", json={"readings": rows, "log": LOG}).json()
    assert [line["what"] for line in told["expected_and_found"]][-1] == "log of the link"
    assert museum.post("/api/jobs/A/inspect", json={"readings": rows, "log": LOG}).json()["refusals"][0]["field"] == "log"
    log, readings = tmp_path / "log.csv", tmp_path / "readings.csv"
    log.write_text(LOG, encoding="utf-8")
    readings.write_text(rows, encoding="utf-8")
    code, by_command = _json(["inspect", "B", str(readings), "--log", str(log), "--seen", "contact = tips"], capsys)
    assert code in (0, 2)
    assert by_command["expected_and_found"] == told["expected_and_found"]
    assert by_command["causes"][-1]["code"] == "form"
