"""An exported job goes out and comes in whole, or not at all."""

from __future__ import annotations

import dataclasses
import json
from datetime import UTC, datetime
from pathlib import Path

import pytest

from evenpitch.quantity.refusal import Refusal
from evenpitch.store.book import Book
from evenpitch.store.canonical import canonical
from evenpitch.store.exported import EDITION, Exported, read_exported, write_exported
from evenpitch.store.where import book_file

NOW = datetime(2026, 3, 12, 9, 30, tzinfo=UTC)
LATER = datetime(2026, 4, 1, 12, 0, tzinfo=UTC)


def filled(folder: Path) -> Book:
    book = Book.open(book_file(folder), NOW)
    book.add_rig("mill", "rig one", NOW)
    book.add_job("A", "Wheel", "first ½", NOW, rig="mill")
    book.add_rig("mill", "rig two", NOW)
    book.replace_job("A", "Wheel", "second", NOW, rig="mill")
    first = book.add_release("A", {"teeth": 97, "x": 0.1}, "sheet", NOW, "0.1.0")
    book.append_entry(first.key, 0, "cut", {"by": "page"}, NOW, space=1)
    book.append_entry(first.key, 1, "note", {"text": "café"}, NOW)
    book.add_release("A", {"teeth": 98}, "", LATER, "0.1.0")
    return book


def inspected(book: Book) -> None:
    """Two inspections of the job, of two days."""
    book.add_inspection("A", 0, {"span": "49.45"}, {"overall": "fail"}, "page", NOW, "0.1.0", plan=1)
    book.add_inspection("A", 0, {"readings": "kind,space\n"}, {"overall": "pass"}, "page", LATER, "0.1.0", plan=2)


@pytest.fixture
def text(tmp_path: Path) -> str:
    with filled(tmp_path) as book:
        inspected(book)
        return write_exported(book.give("A", "0.1.0"))


def signed(lines: list[dict[str, object]]) -> bytes:
    """The lines with a right digest behind, as another program could write them."""
    import hashlib

    body = "".join(canonical(line) + "\n" for line in lines)
    return (body + json.dumps({"digest": hashlib.sha256(body.encode()).hexdigest()})).encode()


def lines_of(text: str) -> list[dict[str, object]]:
    return [json.loads(line) for line in text.splitlines()][:-1]


def test_version_line_first_digest_last(text: str) -> None:
    lines = [json.loads(line) for line in text.splitlines()]
    assert lines[0] == {"evenpitch exported job": EDITION, "program": "0.1.0"}
    assert list(lines[-1]) == ["digest"]
    assert [next(iter(line)) for line in lines[1:-1]] == ["job"] * 2 + ["rig"] * 2 + ["release"] * 2 + ["entry"] * 2 + [
        "inspection"
    ] * 2


def test_read_back_the_same(text: str) -> None:
    found = read_exported(text.encode())
    assert write_exported(found) == text
    assert not found.read_only
    assert [entry.payload for entry in found.entries_of(1)] == [{"by": "page"}, {"text": "café"}]


def test_taken_into_another_book_as_it_was(tmp_path: Path, text: str) -> None:
    found = read_exported(text.encode())
    with Book.open(book_file(tmp_path / "other"), LATER) as other:
        assert other.take(found, LATER).text == "second"
        assert write_exported(other.give("A", "0.1.0")) == text
        with pytest.raises(Refusal, match="not yet used"):
            other.take(found, LATER)
        assert other.take(found, LATER, name="A again").name == "A again"
        assert [release.plan for release in other.releases("A again")] == [{"teeth": 97, "x": 0.1}, {"teeth": 98}]
        assert [(rig.name, rig.version) for rig in other.rigs()] == [("mill", 2)]


def test_a_file_without_inspections_is_of_the_first_edition_and_comes_in(tmp_path: Path) -> None:
    """As every program before this one wrote it."""
    with filled(tmp_path) as book:
        old = write_exported(book.give("A", "0.1.0"))
    assert json.loads(old.splitlines()[0]) == {"evenpitch exported job": 1, "program": "0.1.0"}
    with Book.open(book_file(tmp_path / "other"), LATER) as other:
        other.take(read_exported(old.encode()), LATER)
        assert other.inspections("A") == ()


def test_an_inspection_changed_on_its_way_is_refused(text: str) -> None:
    *lines, last = lines_of(text)
    changed: dict = json.loads(json.dumps(last))
    changed["inspection"]["facts"]["overall"] = "fail"
    with pytest.raises(Refusal, match="changed after it was kept"):
        read_exported(signed([*lines, changed]))


def test_a_rig_of_ones_own_is_left_alone(tmp_path: Path, text: str) -> None:
    with Book.open(book_file(tmp_path / "other"), LATER) as other:
        other.add_rig("mill", "my own mill", LATER)
        other.take(read_exported(text.encode()), LATER)
        assert other.rig("mill").text == "my own mill"
        assert other.rig(str(other.job("A").rig)).text == "rig two"
        assert other.job("A").rig == "mill (taken in 2026-04-01)"


def test_line_ends_and_spacing_do_not_matter(text: str) -> None:
    spaced = "\r\n".join(json.dumps(json.loads(line), indent=None) for line in text.splitlines())
    assert read_exported(b"\xef\xbb\xbf" + spaced.encode()) == read_exported(text.encode())


def test_every_changed_character_is_found(text: str) -> None:
    data = text.encode()
    for place in range(0, len(data), 7):
        changed = data[:place] + bytes([data[place] ^ 1]) + data[place + 1 :]
        with pytest.raises(Refusal):
            read_exported(changed)
    for length in range(0, len(data) - 1, 50):
        with pytest.raises(Refusal):
            read_exported(data[:length])


def test_a_later_edition_opens_read_only(tmp_path: Path, text: str) -> None:
    lines = lines_of(text)
    lines[0]["evenpitch exported job"] = EDITION + 1
    lines.append({"photograph": "…"})
    found = read_exported(signed(lines))
    assert found.read_only
    assert found.later == ("photograph",)
    assert found.jobs[-1].text == "second"
    with Book.open(book_file(tmp_path / "other"), LATER) as other:
        with pytest.raises(Refusal, match="read-only"):
            other.take(found, LATER)
        assert other.jobs() == ()


@pytest.mark.parametrize(
    "line",
    [
        {"photograph": 1}, {"job": 3}, {"job": {}}, {"job": {"name": "B"}}, {"rig": None}, {"release": []}, {"entry": {"release": 1}},
        {"entry": {"release": 1.5, "number": 1, "at": "x", "kind": 1, "space": None, "payload": {}}},
        {"entry": {"release": 1, "number": 3, "at": "2026-01-01", "kind": "cut", "space": 1, "payload": {}}},
        {"release": {"job_version": 1, "number": 3, "date": "", "program": "", "digest": "", "plan": {}, "document": ""}},
    ],
)  # fmt: skip
def test_lines_of_another_shape(text: str, line: dict[str, object]) -> None:
    with pytest.raises(Refusal):
        read_exported(signed([*lines_of(text), line]))


@pytest.mark.parametrize(
    "data",
    [b"", b"{}", b"[1]", b"\xff", b"{" * 100_000, b"[" * 100_000, b'{"a":' * 5000, b"NaN", b'{"evenpitch exported job":1e999}\n{}',
     b'{"evenpitch exported job":true}', b'{"evenpitch exported job":1}\n{"digest":"x"}', b"9" * 6000, b'{"a":"\\ud800"}'],
)  # fmt: skip
def test_what_is_no_exported_job(data: bytes) -> None:
    with pytest.raises(Refusal):
        read_exported(data)


@pytest.mark.parametrize(
    "askew",
    [
        "entry without plan",
        "gap",
        "plan without version",
        "plan twice",
        "rig missing",
        "twice the version",
        "inspection missing",
        "inspection of no plan",
    ],
)
def test_parts_that_do_not_fit_together_leave_the_book_untouched(tmp_path: Path, text: str, askew: str) -> None:
    found = read_exported(text.encode())
    changed: dict[str, Exported] = {
        "entry without plan": dataclasses.replace(found, entries=((9, found.entries[0][1]),)),
        "gap": dataclasses.replace(found, entries=found.entries[1:]),
        "plan without version": dataclasses.replace(found, releases=(dataclasses.replace(found.releases[0], job_version=7),)),
        "plan twice": dataclasses.replace(found, releases=found.releases * 2),
        "rig missing": dataclasses.replace(found, rigs=()),
        "inspection missing": dataclasses.replace(found, inspections=found.inspections[1:]),
        "inspection of no plan": dataclasses.replace(found, inspections=(dataclasses.replace(found.inspections[0], plan=9),)),
        "twice the version": dataclasses.replace(found, jobs=found.jobs * 2),
    }
    with Book.open(book_file(tmp_path / "other"), LATER) as other:
        with pytest.raises(Refusal):
            other.take(changed[askew], LATER)
        assert (other.jobs(), other.rigs()) == ((), ())
