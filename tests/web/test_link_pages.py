"""The pages before and after the cut: predict, simulate, audit; the files for a controller; the same by request as by command."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from evenpitch.cli import run
from evenpitch.store.museum import museum_folder
from job.inspection_cases import scattered, spans, steps, table
from job.link_logs import as_csv, made_log

JOB, RIG = museum_folder() / "timing-pair.toml", museum_folder() / "museum-mill.toml"


def test_the_prediction_answers_everything_at_once(museum: TestClient) -> None:
    shown = museum.get("/jobs/B/predict").text
    for words in (
        "Expect class 7", "with probability", "What spoils it, on this tooth", "map the head and correct each space by it",
        "What is not known", "indicator on the blank: five minutes", "fastest feed", "torque needed", "shortest lead",
        "start without a ramp", "torque of one pulse", "worm kept seated", "rapid", "24364 pulses for every 65273 counts",
        "with the head&#39;s map",
    ):  # fmt: skip
        assert words in shown, words
    for href in (
        "/jobs/B/simulate",
        "/jobs/B/audit",
        "/jobs/B/controller.csv",
        "/jobs/B/controller.json",
        "/jobs/B/controller.pdf",
    ):
        assert f'href="{href}"' in shown, href


def test_the_plan_and_the_inspection_lead_here(museum: TestClient) -> None:
    plan, inspect = museum.get("/jobs/B/plan").text, museum.get("/jobs/B/inspect").text
    assert {'href="/jobs/B/predict"', 'href="/jobs/B/simulate"', 'href="/jobs/B/audit"'} <= set(_hrefs(plan))
    assert {'href="/jobs/B/predict"', 'href="/jobs/B/audit"'} <= set(_hrefs(inspect))
    assert 'href="/jobs/A/simulate"' not in museum.get("/jobs/A/plan").text


def _hrefs(text: str) -> list[str]:
    return [part.split(">")[0].split(" ")[0] for part in text.split("<a ")]


def test_another_drive_is_tried_and_nothing_kept(museum: TestClient) -> None:
    asked = {"try": "1", "link.count": "5 um", "link.belt": "1:1", "link.microsteps": "8", "link.latency": "don't know"}
    shown = museum.get("/jobs/B/predict", params=asked).text
    assert "64\u202f000" in shown
    assert "nothing of it is kept" in shown
    assert "a log of one pass cranked unevenly" in shown
    assert "192\u202f000" in museum.get("/jobs/B/predict").text
    emptied = museum.get("/jobs/B/predict", params={"try": "1", "link.belt": "20:60"}).text
    assert "the drive&#39;s switches: a minute" in emptied


@pytest.mark.parametrize(
    ("field", "typed", "words"),
    [
        ("link.belt", "3.0", "count the teeth of both"),
        ("link.belt", "2.75:1", "belt teeth are whole numbers"),
        ("link.microsteps", "many", "number"),
        ("link.largest_speed", "-5 rpm", "below 0"),
        ("link.count", "nan", "length"),
    ],
)
def test_a_wrong_drive_is_told_beside_its_field(museum: TestClient, field: str, typed: str, words: str) -> None:
    shown = museum.get("/jobs/B/predict", params={"try": "1", field: typed})
    assert shown.status_code == 422
    assert words in shown.text.casefold()
    assert "1 to clear" in shown.text
    assert f'value="{typed}"' in shown.text


def test_numbers_for_a_controller_as_csv_json_and_sheet(museum: TestClient) -> None:
    rows = list(csv.DictReader(io.StringIO(museum.get("/jobs/B/controller.csv").text)))
    targets = [int(row["value"]) for row in rows if row["what"] == "target"]
    assert targets[0] == 0
    assert targets[-1] == 192_000
    assert len(targets) == 29
    told = museum.get("/jobs/B/controller.json").json()["controller"]
    assert told["targets"] == targets
    assert told["ratio"]["pulses"] == 24_364
    assert len(told["targets_with_map"]) == 29
    assert museum.get("/jobs/B/controller.pdf?paper=letter").content.startswith(b"%PDF")
    assert museum.get("/jobs/A/controller.csv").status_code == 200  # a spur gear is still indexed by pulses
    assert museum.get("/jobs/B/prediction.pdf").content.startswith(b"%PDF")


def test_a_tried_drive_goes_on_to_pass_and_numbers(museum: TestClient) -> None:
    tried = {
        "try": "1",
        "link.belt": "1:1",
        "link.count": "5 um",
        "link.microsteps": "8",
        "largest-pulses": "99",
        "largest-counts": "99",
    }
    shown = museum.get("/jobs/B/predict", params=tried).text
    assert "Within 99 pulses and 99 counts the nearest ratio is" in shown or "pulses for every" in shown
    assert museum.get("/jobs/B/controller.json", params=tried).json()["controller"]["targets"][-1] == 64_000
    assert "With the drive that was tried" in museum.get("/jobs/B/simulate", params=tried).text
    small = museum.get("/jobs/B/predict", params={"largest-pulses": "3", "largest-counts": "3"}).text
    assert "Within 3 pulses and 3 counts the nearest ratio is" in small
    assert "where both fields take 999" in small
    assert museum.get("/jobs/B/predict", params={"largest-pulses": "none at all"}).status_code == 422
    assert museum.get("/jobs/B/controller.csv", params={"largest-pulses": "0"}).status_code == 422
    asked = museum.post(
        "/api/ratio", json={"lead": "441 mm", "pulses-per-turn": 64000, "count": "5 um", "largest-pulses": 3}
    ).json()
    assert "ratio-fields-small" in {one["code"] for one in asked["findings"]}


def test_a_pass_is_simulated_as_the_rig_feeds_it_and_as_typed(museum: TestClient) -> None:
    shown = museum.get("/jobs/B/simulate").text
    assert "by crank" in shown
    assert "Error along the table" in shown
    fast = museum.get("/jobs/B/simulate", params={"moved": "power", "feed": "3200 mm/min"}).text
    assert "holds pulses back" in fast
    assert "counts a second" in fast
    wrong = museum.get("/jobs/B/simulate", params={"moved": "hand", "feed": "60", "unevenness": "1.2"})
    assert wrong.status_code == 422
    assert "1 to clear" in wrong.text
    assert museum.get("/jobs/A/simulate").status_code == 422
    assert museum.get("/jobs/B/pass.pdf?play=open").content.startswith(b"%PDF")


def test_a_log_is_taken_in_as_a_file_or_typed(museum: TestClient) -> None:
    log = as_csv(made_log(slip=32))
    sent = museum.post("/jobs/B/audit", files={"file": ("pass.csv", log, "text/csv")}, data={"space": "5", "press": "audit"})
    assert sent.status_code == 200
    assert "Lost on space 5" in sent.text
    assert "rotor slip" in sent.text
    typed = museum.post("/jobs/B/audit", data={"readings": as_csv(made_log()[:300]), "press": "audit"})
    assert "no pulse was lost" in typed.text
    printed = museum.post("/jobs/B/audit", data={"readings": as_csv(made_log()[:300]), "press": "print"})
    assert printed.content.startswith(b"%PDF")
    nothing = museum.post("/jobs/B/audit", data={"space": "5"})
    assert nothing.status_code == 422
    assert museum.post("/jobs/B/audit", data={"space": "99", "readings": log}).status_code == 422
    empty = museum.post("/jobs/B/audit", files={"file": ("pass.csv", b"", "text/csv")})
    assert "It is empty." in empty.text


def _rows(change: dict[int, str]) -> str:
    lines = as_csv(made_log()[:60]).splitlines()
    return "\n".join(change.get(number, line) for number, line in enumerate(lines))


@pytest.mark.parametrize(
    ("log", "words"),
    [
        (_rows({0: "time,counts,pulse,work_arcsec"}), "time_s"),
        (_rows({0: "time_s,count,pulse,work_furlong"}), "work_deg"),
        (_rows({9: "0.6,nan,3,1.0"}), "line 10"),
        (_rows({9: "0.1,3,3,1.0"}), "times that rise"),
        (_rows({9: "0.490,3,3,1.0"}), "each time once"),
        (_rows({9: "0.6,3.5,3,1.0"}), "whole number"),
        (_rows({9: "0.6,3"}), "4 cells"),
        ("PK\x03\x04", "count"),
    ],
)
def test_a_wrong_log_is_named_with_its_remedy(museum: TestClient, log: str, words: str) -> None:
    answer = museum.post("/jobs/B/audit", files={"file": ("pass.csv", log, "text/csv")})
    assert answer.status_code == 422
    assert words in answer.text
    assert "to clear, then audit" in answer.text


def test_a_log_beyond_the_bound_is_not_read(museum: TestClient) -> None:
    sent = museum.post("/jobs/B/audit", files={"file": ("pass.csv", b"0" * 4_000_001, "text/csv")})
    assert sent.status_code == 413
    assert "400 000 rows" in sent.text
    rows = "time_s,count,pulse\n" + "\n".join(f"{row / 100:.2f},{row},{row}" for row in range(60_001))
    sent = museum.post("/jobs/B/audit", files={"file": ("pass.csv", rows, "text/csv")})
    assert sent.status_code == 422
    assert "at most 60000 lines" in sent.text
    assert museum.post("/jobs/B/inspect", files={"file": ("pass.csv", b"0" * 2_000_001, "text/csv")}).status_code == 413


def test_by_request_as_by_command(museum: TestClient, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    log = tmp_path / "pass.csv"
    log.write_text(as_csv(made_log(lost=4)), encoding="utf-8")
    words = {
        "predict": ["predict", str(JOB), "--rig", str(RIG), "--draws", "500", "--gear", "2"],
        "simulate": ["simulate", str(JOB), "--rig", str(RIG), "--crank", "1 mm/s 0.6 1 Hz", "--play", "open"],
        "audit": ["audit", str(log), "--job", str(JOB), "--rig", str(RIG), "--space", "3"],
    }
    asked = {
        "predict": {"job": "B", "draws": 500, "gear": 2},
        "simulate": {"job": "B", "crank": "1 mm/s 0.6 1 Hz", "play": "open"},
        "audit": {"job": JOB.read_text(encoding="utf-8"), "rig": "Museum horizontal mill", "log": log.read_text(), "space": "3"},
    }
    for command, arguments in words.items():
        run([*arguments, "--json"])
        by_command = json.loads(capsys.readouterr().out)
        assert museum.post(f"/api/{command}", json=asked[command]).json() == by_command, command


def test_a_job_in_the_book_will_do_at_the_command_line(museum: TestClient, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["simulate", "B", "--feed", "60 mm/min", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["pulses"] == 15_806
    assert run(["predict", "Z", "--json"]) == 1
    assert json.loads(capsys.readouterr().out)["refusals"]


def test_requests_are_bounded(museum: TestClient) -> None:
    for path, body in (
        ("predict", {"job": "B", "draws": 10**6}),
        ("predict", {"job": "Z"}),
        ("simulate", {"job": "B"}),
        ("simulate", {"job": "B", "feed": "60 mm/min", "colour": "red"}),
        ("audit", {"job": "B", "log": ""}),
        ("audit", {"job": "B"}),
    ):
        answer = museum.post(f"/api/{path}", json=body)
        assert answer.status_code in (404, 422), (path, body)
        assert answer.json()["refusals"]
    paths = museum.get("/openapi.json").json()["paths"]
    assert {"/api/predict", "/api/simulate", "/api/audit"} <= set(paths)


def test_what_was_expected_stands_beside_what_was_found(museum: TestClient) -> None:
    for times, odd in ((1, False), (12, True)):
        rows = [*spans(49.303), *steps(lambda space, times=times: times * scattered(space), 2)]  # type: ignore[misc]
        told = museum.post("/api/jobs/A/inspect", json={"readings": table(rows)}).json()["expected_and_found"]
        assert any(line["odd"] for line in told) == odd, told
    assert "Expected and found" not in museum.post("/jobs/A/inspect", data={"span": "49.30 49.30"}).text
