"""Proofs of a rig in the book: numbered, never changed, held against their digest; an older book takes the table up."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from evenpitch.quantity.refusal import Refusal
from evenpitch.store import changes
from evenpitch.store.book import Book
from evenpitch.store.where import book_file, copies_folder

NOW = datetime(2026, 3, 12, 9, 30, tzinfo=UTC)
TYPED = {"readings": "run,direction\n1,up\n", "face": "20 mm"}
FACTS = {"gain_ppm": {"value": -180.0, "U": 40.0}}


def opened(folder: Path, minutes: int = 0) -> Book:
    return Book.open(book_file(folder), NOW + timedelta(minutes=minutes))


def with_rig(folder: Path) -> Book:
    book = opened(folder)
    book.add_rig("mill", "as typed", NOW)
    book.add_job("B", "Timing pair", "job as typed", NOW, rig="mill")
    return book


def keep(book: Book, kind: str = "scale", **more):
    return book.add_proof("mill", kind, TYPED, FACTS, "the sheet", NOW, "0.1.0", **more)


def test_a_proof_is_kept_as_typed_and_numbered_within_its_rig(tmp_path: Path) -> None:
    with with_rig(tmp_path) as book:
        assert keep(book).number == 1
        second = keep(book, "link", job="B", gear=1)
        assert (second.number, second.job, second.gear, second.rig_version) == (2, "B", 1, 1)
        assert second.typed == TYPED
        assert second.facts == FACTS
        book.add_rig("lathe", "another", NOW)
        assert book.add_proof("lathe", "scale", {}, {}, "", NOW, "0.1.0").number == 1
        assert [one.kind for one in book.proofs("mill")] == ["scale", "link"]
    with opened(tmp_path, 1) as book:
        assert book.proof("mill", 2) == second


def test_head_and_map_are_kept_together_or_not_at_all(tmp_path: Path) -> None:
    with with_rig(tmp_path) as book:
        made = book.add_head_proof("mill", "with a map", TYPED, FACTS, "sheet", NOW, "0.1.0", rig_version=1)
        assert (made.kind, made.rig_version) == ("head", 1)
        assert (book.rig("mill").text, book.rig("mill").version) == ("with a map", 2)
        with pytest.raises(Refusal) as stale:
            book.add_head_proof("mill", "over the other", TYPED, FACTS, "sheet", NOW, "0.1.0", rig_version=1)
        assert stale.value.faults[0].expected == "version 2"
        assert book.rig("mill").version == 2
        assert len(book.proofs("mill")) == 1


def test_what_cannot_be_kept(tmp_path: Path) -> None:
    with with_rig(tmp_path) as book:
        for bad in ({"job": "Z"}, {"rig_version": 7}):
            with pytest.raises(Refusal):
                keep(book, **bad)
        with pytest.raises(ValueError, match="no kind"):
            keep(book, "guess")
        for number in (0, 1):
            with pytest.raises(Refusal):
                book.proof("mill", number)
        with pytest.raises(Refusal):
            book.proof("nowhere", 1)
        assert book.proofs("mill") == ()


def test_proofs_are_only_added_to_and_a_changed_one_is_seen(tmp_path: Path) -> None:
    with with_rig(tmp_path) as book:
        keep(book)
        for change in ("UPDATE proof SET typed = '{}'", "DELETE FROM proof"):
            with pytest.raises(sqlite3.IntegrityError, match="only added to"):
                book._connection.execute(change)
        book._connection.execute("DROP TRIGGER proof_no_update")
        book._connection.execute("UPDATE proof SET facts = '{}'")
        with pytest.raises(Refusal, match="digest"):
            book.proofs("mill")


def test_a_book_of_the_first_edition_takes_the_table_up(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = book_file(tmp_path)
    path.parent.mkdir(parents=True, exist_ok=True)
    with closing(sqlite3.connect(path, isolation_level=None)) as raw:
        changes.bring_up(raw, changes.CHANGES[:1])
        raw.execute("INSERT INTO rig (name, version, text, created) VALUES ('mill', 1, 'as typed', ?)", (NOW.isoformat(),))
    with opened(tmp_path, 1) as book:
        assert keep(book).number == 1
        assert book.rig("mill").text == "as typed"
    assert list(copies_folder(path).glob("edition-1-*.sqlite"))


def test_a_book_caught_half_way_through_its_changes_opens(tmp_path: Path) -> None:
    """Another process made the first edition a moment ago: nothing is in it, and no folder for copies stands there."""
    path = book_file(tmp_path)
    path.parent.mkdir(parents=True, exist_ok=True)
    with closing(sqlite3.connect(path, isolation_level=None)) as raw:
        changes.bring_up(raw, changes.CHANGES[:1])
    with opened(tmp_path, 1) as book:
        assert book.rigs() == ()


def test_a_new_proof_makes_a_new_copy_at_start(tmp_path: Path) -> None:
    with_rig(tmp_path).close()
    opened(tmp_path, 1).close()
    with opened(tmp_path, 2) as book:
        keep(book)
    opened(tmp_path, 3).close()
    assert len(list(copies_folder(book_file(tmp_path)).glob("book-*.sqlite"))) == 2
