"""What the command line asks of the book."""

from __future__ import annotations

from pathlib import Path

import pytest

from evenpitch.quantity.refusal import Refusal
from evenpitch.store.museum import museum_folder
from evenpitch.web import desk
from evenpitch.web.answer import write_files

WHEEL = museum_folder() / "loom-change-wheel.toml"
MILL = museum_folder() / "museum-mill.toml"


def test_the_demo_sets_up_once_and_writes_the_sheet(home: Path) -> None:
    said: list[str] = []
    for _ in range(2):
        with desk.open_book() as book:
            desk.show_demo(book, said.append)
            assert [kept.name for kept in book.jobs()] == ["A", "B", "P"]
    assert "97 teeth" in said[0]
    sheets = list((home / "sheets").glob("*.pdf"))
    assert len(sheets) == 1
    assert str(sheets[0]) in said[1]


def test_a_file_without_a_rig_is_planned_on_the_usual_head() -> None:
    answer = desk.ask_plan(WHEEL, None, trial=False)
    assert "Usual 40:1 head" in answer.text()
    assert not answer.stopped()


def test_a_plan_is_written_as_each_kind_of_file(tmp_path: Path) -> None:
    answer = desk.ask_plan(museum_folder() / "timing-pair.toml", MILL.read_bytes(), trial=False)
    outs = {kind: tmp_path / f"plan.{kind}" for kind in ("pdf", "dxf", "html")}
    write_files(answer, outs)
    assert outs["pdf"].read_bytes()[:5] == b"%PDF-"
    assert b"SECTION" in outs["dxf"].read_bytes()
    page = outs["html"].read_text(encoding="utf-8")
    assert "28 teeth" in page
    assert "56 teeth" in page


def test_import_release_export_and_import_again(tmp_path: Path) -> None:
    assert desk.import_file(MILL).json["rig"] == "Museum horizontal mill"
    assert desk.import_file(WHEEL).json["job"] == "loom-change-wheel"
    assert desk.issue_plan("loom-change-wheel").json["number"] == 1
    out = tmp_path / "wheel.jsonl"
    desk.export_job("loom-change-wheel", out)
    with pytest.raises(Refusal):
        desk.export_job("loom-change-wheel", out)
    with pytest.raises(Refusal, match="--name"):
        desk.import_file(out)
    assert desk.import_file(out, "wheel again").json["job"] == "wheel again"
    assert desk.import_file(WHEEL, "a third").json["job"] == "a third"


def test_an_exported_job_opens_in_another_book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    desk.import_file(MILL)
    desk.import_file(WHEEL)
    desk.issue_plan("loom-change-wheel")
    out = tmp_path / "wheel.jsonl"
    desk.export_job("loom-change-wheel", out)
    monkeypatch.setenv("EVENPITCH_HOME", str(tmp_path / "elsewhere"))
    assert desk.import_file(out).json["job"] == "loom-change-wheel"
    with desk.open_book() as book:
        assert [kept.number for kept in book.releases("loom-change-wheel")] == [1]


def test_a_plan_with_a_stop_is_not_issued(tmp_path: Path) -> None:
    pair = (museum_folder() / "timing-pair.toml").read_text(encoding="utf-8").replace('hand = "left"', 'hand = "right"')
    file = tmp_path / "pair.toml"
    file.write_text(pair, encoding="utf-8")
    desk.import_file(MILL)
    desk.import_file(file)
    assert desk.ask_plan("pair", None, trial=False).stopped()
    with pytest.raises(Refusal, match="stop"):
        desk.issue_plan("pair")


def test_backup_and_restore(tmp_path: Path) -> None:
    desk.import_file(MILL)
    desk.back_up(tmp_path / "copy.sqlite")
    desk.import_file(WHEEL)
    desk.put_back(tmp_path / "copy.sqlite")
    with desk.open_book() as book:
        assert book.jobs() == ()
        assert len(book.rigs()) == 1


def test_a_damaged_copy_is_not_answered_with_itself(tmp_path: Path) -> None:
    desk.import_file(MILL)
    desk.back_up(tmp_path / "copy.sqlite")
    half = tmp_path / "half.sqlite"
    half.write_bytes((tmp_path / "copy.sqlite").read_bytes()[:5000])
    (tmp_path / "letter.txt").write_text("Dear all, " * 200, encoding="utf-8")
    for file in (half, tmp_path / "letter.txt"):
        with pytest.raises(Refusal) as trouble:
            desk.put_back(file)
        fault = trouble.value.faults[0]
        assert (fault.field, "damaged" in fault.likely, "restore FILE" in fault.do) == ("copy", True, False)
        assert "another copy" in fault.do


def test_a_damaged_book_is_put_aside_for_a_copy(home: Path, tmp_path: Path) -> None:
    desk.import_file(MILL)
    desk.back_up(tmp_path / "copy.sqlite")
    (home / "book.sqlite").write_bytes(b"spoiled " * 900)
    with pytest.raises(Refusal, match="restore FILE"):
        desk.import_file(WHEEL)
    answer = desk.put_back(tmp_path / "copy.sqlite")
    assert Path(answer.json["before"]).read_bytes().startswith(b"spoiled")
    with desk.open_book() as book:
        assert len(book.rigs()) == 1


@pytest.mark.parametrize(
    ("content", "word"), [(b"colour = 1", "neither"), (b"", "neither"), (b"= 3", "TOML"), (b"[head]\n", "ratio")]
)
def test_a_file_that_is_neither_is_refused(tmp_path: Path, content: bytes, word: str) -> None:
    file = tmp_path / "odd.toml"
    file.write_bytes(content)
    with pytest.raises(Refusal, match=word):
        desk.import_file(file)


def test_places_are_told(home: Path) -> None:
    assert desk.places().json["book"] == str(home / "book.sqlite")


def test_a_name_that_is_not_there_names_those_that_are() -> None:
    desk.import_file(MILL)
    desk.import_file(WHEEL)
    with pytest.raises(Refusal, match="loom-change-wheel"):
        desk.ask_plan("loom-change-weel", None, trial=False)
