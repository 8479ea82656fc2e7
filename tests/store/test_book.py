"""The book on a real disk: versions, releases, the record, two at once, a killed writer, trouble."""

from __future__ import annotations

import json
import os
import signal
import sqlite3
import subprocess
import sys
import threading
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from evenpitch.quantity.refusal import Refusal
from evenpitch.store import changes
from evenpitch.store.book import Book
from evenpitch.store.copies import KEPT, prove
from evenpitch.store.where import book_file, copies_folder, data_folder

NOW = datetime(2026, 3, 12, 9, 30, tzinfo=UTC)
PLAN = {"teeth": 97, "moves": {"1979": 60, "1980": 37}}


def later(minutes: int) -> datetime:
    return NOW + timedelta(minutes=minutes)


def opened(folder: Path, minutes: int = 0) -> Book:
    return Book.open(book_file(folder), later(minutes))


def with_release(folder: Path) -> tuple[Book, int]:
    book = opened(folder)
    book.add_rig("mill", "rig as typed", NOW)
    book.add_job("A", "Loom wheel", "job as typed", NOW, rig="mill")
    return book, book.add_release("A", PLAN, "the sheet", NOW, "0.1.0").key


def said(trouble: pytest.ExceptionInfo[Refusal]) -> str:
    (fault,) = trouble.value.faults
    assert fault.do
    return str(fault)


def test_folder_is_named_by_the_environment(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("EVENPITCH_HOME", str(tmp_path))
    assert data_folder() == tmp_path
    monkeypatch.setenv("EVENPITCH_HOME", "")
    assert data_folder().name == "evenpitch"


def test_settings_of_the_file(tmp_path: Path) -> None:
    with opened(tmp_path) as book:
        pragmas = {name: book._connection.execute(f"PRAGMA {name}").fetchone()[0] for name in ("journal_mode", "synchronous")}
        assert pragmas == {"journal_mode": "wal", "synchronous": 2}
        assert book._connection.execute("PRAGMA foreign_keys").fetchone()[0] == 1
        strict = {row[1]: row[5] for row in book._connection.execute("PRAGMA table_list") if not row[1].startswith("sqlite_")}
        assert strict == {"rig": 1, "job": 1, "release": 1, "entry": 1, "proof": 1, "inspection": 1}


def test_a_changed_rig_and_job_leave_the_old_ones(tmp_path: Path) -> None:
    with opened(tmp_path) as book:
        assert book.add_rig("mill", "one", NOW).version == 1
        assert book.add_rig("mill", "one", later(1)).version == 1
        assert book.add_rig("mill", "two", later(2)).version == 2
        assert book.rig("mill").text == "two"
        assert book.rig("mill", 1).text == "one"
        job = book.add_job("A", "Wheel", "first", NOW, rig="mill")
        assert (job.rig, job.rig_version, job.created) == ("mill", 2, NOW)
        assert book.replace_job("A", "Wheel", "first", later(1), rig="mill") == job
        assert book.replace_job("A", "Wheel", "second", later(1)).version == 2
        assert [kept.text for kept in book.job_versions("A")] == ["first", "second"]
        assert [kept.version for kept in book.jobs()] == [2]
    with opened(tmp_path) as book:
        assert book.job("A").text == "second"
        assert [rig.name for rig in book.rigs()] == ["mill"]


def test_names(tmp_path: Path) -> None:
    with opened(tmp_path) as book:
        book.add_job("loom wheel", "", "", NOW)
        with pytest.raises(Refusal) as trouble:
            book.add_job("loom  wheel", "", "", NOW)
        assert "not yet used" in said(trouble)
        for wrong in ("", " ", "x" * 81, "a\x00b"):
            with pytest.raises(Refusal):
                book.add_job(wrong, "", "", NOW)
        with pytest.raises(Refusal) as trouble:
            book.job("lom wheel")
        assert "loom wheel" in said(trouble)
        with pytest.raises(Refusal):
            book.add_job("B", "", "", NOW, rig="none such")
        assert [job.name for job in book.jobs()] == ["loom wheel"]


def test_release_is_numbered_and_whole(tmp_path: Path) -> None:
    book, _ = with_release(tmp_path)
    with book:
        first = book.release("A")
        assert (first.number, first.plan, first.document, first.date, first.program) == (1, PLAN, "the sheet", NOW, "0.1.0")
        book.replace_job("A", "Wheel", "changed", later(1))
        with pytest.raises(Refusal) as trouble:
            book.add_release("A", PLAN, "", later(2), "0.1.0", job_version=1)
        assert "was changed on 2026-03-12 09:31" in said(trouble)
        second = book.add_release("A", {"teeth": 98}, "", later(2), "0.1.0", job_version=2)
        assert (second.number, second.job_version) == (2, 2)
        assert second.digest != first.digest
        assert book.release("A", 1) == first
        with pytest.raises(Refusal):
            book.release("A", 3)
        with pytest.raises(Refusal):
            book.release("B")


@pytest.mark.parametrize("table", ["rig", "job", "release", "entry"])
@pytest.mark.parametrize("verb", ["UPDATE {} SET {} = {}", "DELETE FROM {}"])
def test_nothing_is_changed_or_taken_away(tmp_path: Path, table: str, verb: str) -> None:
    book, key = with_release(tmp_path)
    with book:
        book.append_entry(key, 0, "cut", {}, NOW, space=1)
        column = "number" if table in ("release", "entry") else "version"
        with pytest.raises(sqlite3.IntegrityError, match="only added to"):
            book._connection.execute(verb.format(table, column, column))


def test_a_plan_changed_outside_is_found(tmp_path: Path) -> None:
    book, _ = with_release(tmp_path)
    with book:
        book._connection.execute("DROP TRIGGER release_no_update")
        book._connection.execute("UPDATE release SET plan = replace(plan, '97', '96')")
        with pytest.raises(Refusal) as trouble:
            book.releases("A")
        assert "changed outside" in said(trouble)


def test_press_again_answers_as_written_and_a_differing_one_is_stale(tmp_path: Path) -> None:
    book, key = with_release(tmp_path)
    with book:
        one = book.append_entry(key, 0, "cut", {"by": "page"}, NOW, space=1)
        assert (one.number, one.at, one.space, one.payload) == (1, NOW, 1, {"by": "page"})
        assert book.append_entry(key, 0, "cut", {"by": "page"}, later(1), space=1) == one
        two = book.append_entry(key, 1, "cut", {}, later(2), space=2)
        assert book.append_entry(key, 0, "cut", {"by": "page"}, later(3), space=1) == one
        with pytest.raises(Refusal) as trouble:
            book.append_entry(key, 1, "not cut", {}, later(4), space=2)
        assert "entry 2 was written at 09:32:00 UTC: cut, space 2" in said(trouble)
        for wrong in (7, -1):
            with pytest.raises(Refusal) as trouble:
                book.append_entry(key, wrong, "cut", {}, later(4), space=3)
            assert "older copy" in said(trouble)
        assert book.entries(key) == (one, two)


def test_two_books_open_at_once(tmp_path: Path) -> None:
    book, key = with_release(tmp_path)
    with book, opened(tmp_path) as other:
        book.append_entry(key, 0, "cut", {}, NOW, space=1)
        with pytest.raises(Refusal):
            other.append_entry(key, 0, "cut", {}, NOW, space=2)
        other.append_entry(key, 1, "cut", {}, NOW, space=2)
        assert [entry.space for entry in book.entries(key)] == [1, 2]


def test_many_threads_write_each_entry_once(tmp_path: Path) -> None:
    book, key = with_release(tmp_path)

    def press_all(own: Book) -> None:
        for space in range(1, 21):
            own.append_entry(key, space - 1, "cut", {}, NOW, space=space)

    with book, opened(tmp_path) as other:
        threads = [threading.Thread(target=press_all, args=(each,)) for each in (book, book, other)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        assert [(entry.number, entry.space) for entry in book.entries(key)] == [(n, n) for n in range(1, 21)]


def test_an_inspection_is_written_once_numbered_and_held_against_its_digest(tmp_path: Path) -> None:
    book, _ = with_release(tmp_path)
    with book:
        job = book.jobs()[0]
        first = book.add_inspection(job.name, 0, {"span": "49.303"}, {"overall": "pass"}, "[]", NOW, "0.1.0", plan=1)
        again = book.add_inspection(job.name, 0, {"span": "49.303"}, {"overall": "pass"}, "[]", later(1), "0.1.0", plan=1)
        assert (first.number, again) == (1, first)
        copied = book.copy_now(later(2))
        other = book.add_inspection(job.name, 0, {"span": "49.31"}, {"overall": "pass"}, "[]", later(3), "0.1.0")
        assert (other.number, other.plan, book.inspections(job.name)) == (2, None, (first, other))
        assert book.copy_now(later(4)) != copied  # a copy is due where only an inspection is new
        for statement in ("UPDATE inspection SET facts = '{}'", "DELETE FROM inspection"):
            with pytest.raises(sqlite3.IntegrityError, match="only added to"):
                book._connection.execute(statement)
        with pytest.raises(Refusal, match="after this page was loaded"):
            book.add_inspection(job.name, 0, {}, {}, "[]", NOW, "0.1.0", job_version=7)
        with pytest.raises(Refusal, match="none of that number"):
            book.inspection(job.name, 3)
        book._connection.execute("DROP TRIGGER inspection_no_update")
        book._connection.execute('UPDATE inspection SET facts = \'{"overall":"fail"}\' WHERE number = 2')
        with pytest.raises(Refusal, match="changed outside evenpitch"):
            book.inspections(job.name)


def test_two_processes_begin_the_same_book(tmp_path: Path) -> None:
    program = (
        "import sys; from pathlib import Path; from datetime import datetime, UTC; from evenpitch.store.book import Book\n"
        "with Book.open(Path(sys.argv[1]), datetime.now(UTC)) as book: book.add_rig(sys.argv[2], 'x', datetime.now(UTC))"
    )
    running = [subprocess.Popen([sys.executable, "-c", program, str(book_file(tmp_path)), name]) for name in "abc"]
    assert [each.wait(30) for each in running] == [0, 0, 0]
    with opened(tmp_path) as book:
        assert [rig.name for rig in book.rigs()] == ["a", "b", "c"]


def test_killed_in_the_middle_loses_nothing_that_was_answered(tmp_path: Path) -> None:
    book, key = with_release(tmp_path)
    book.close()
    program = (
        "import sys; from pathlib import Path; from datetime import datetime, UTC; from evenpitch.store.book import Book\n"
        "book = Book.open(Path(sys.argv[1]), datetime.now(UTC))\n"
        "for n in range(100000):\n"
        "    print(book.append_entry(int(sys.argv[2]), n, 'cut', {'n': n}, datetime.now(UTC), space=n).number, flush=True)"
    )
    command = [sys.executable, "-c", program, str(book_file(tmp_path)), str(key)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as running:
        assert running.stdout is not None
        answered = [int(running.stdout.readline()) for _ in range(25)]
        os.kill(running.pid, signal.SIGKILL)
        answered += [int(line) for line in running.stdout.read().split("\n")[:-1]]
    with opened(tmp_path, 1) as book:
        found = [entry.number for entry in book.entries(key)]
        assert found[: len(answered)] == answered == list(range(1, len(answered) + 1))
        assert len(found) - len(answered) <= 1
        book.append_entry(key, found[-1], "cut", {}, NOW)


def test_backup_is_proved_and_never_written_over(tmp_path: Path) -> None:
    book, key = with_release(tmp_path)
    with book:
        book.append_entry(key, 0, "cut", {}, NOW, space=1)
        out = book.backup(tmp_path / "safe.sqlite")
        prove(out)
        with pytest.raises(Refusal) as trouble:
            book.backup(out)
        assert "Nothing is written over" in said(trouble)
        with pytest.raises(Refusal):
            book.backup(tmp_path / "no such folder" / "x.sqlite")
        book.append_entry(key, 1, "cut", {}, NOW, space=2)
        saved = book.restore(out, later(5))
        assert saved is not None
        assert [entry.space for entry in book.entries(key)] == [1]
        book.append_entry(key, 1, "cut", {}, later(6), space=9)
        assert book._connection.execute("PRAGMA journal_mode").fetchone()[0] == "wal"
        book.restore(saved, later(7))
        assert [entry.space for entry in book.entries(key)] == [1, 2]


def test_restore_refuses_what_is_no_whole_book(tmp_path: Path) -> None:
    book, _ = with_release(tmp_path)
    with book:
        good = book.backup(tmp_path / "good.sqlite").read_bytes()
        torn = tmp_path / "torn.sqlite"
        torn.write_bytes(good[: len(good) // 2])
        text = tmp_path / "text.sqlite"
        text.write_text("not a book at all " * 100)
        foreign = tmp_path / "foreign.sqlite"
        with closing(sqlite3.connect(foreign)) as other:
            other.execute("CREATE TABLE x (y)")
        empty = tmp_path / "empty.sqlite"
        empty.touch()
        for wrong in (torn, text, foreign, empty, tmp_path / "absent", book.path):
            with pytest.raises(Refusal):
                book.restore(wrong, NOW)
        assert book.job("A").title == "Loom wheel"


def test_copies_at_start_rotate(tmp_path: Path) -> None:
    for minute in range(KEPT + 4):
        with opened(tmp_path, minute) as book:
            book.add_rig("mill", f"version {minute}", later(minute))
    copies = sorted(copies_folder(book_file(tmp_path)).glob("book-*.sqlite"))
    assert len(copies) == KEPT
    with opened(tmp_path, 99), opened(tmp_path, 100):
        assert len(sorted(copies_folder(book_file(tmp_path)).iterdir())) == KEPT
    newest = sorted(copies_folder(book_file(tmp_path)).glob("book-*.sqlite"))[-1]
    with opened(tmp_path, 101) as book:
        oldest = sorted(copies_folder(book_file(tmp_path)).glob("book-*.sqlite"))[0]
        book.restore(oldest, later(102))
        assert book.rig("mill").version < KEPT + 4
        book.restore(newest, later(103))
        assert book.rig("mill").version == KEPT + 4


def test_a_newer_book_is_refused_untouched(tmp_path: Path) -> None:
    with_release(tmp_path)[0].close()
    with closing(sqlite3.connect(book_file(tmp_path))) as raw:
        raw.execute(f"PRAGMA user_version = {len(changes.CHANGES) + 1}")
    with pytest.raises(Refusal) as trouble:
        opened(tmp_path)
    assert "later evenpitch" in said(trouble)


def test_a_change_that_breaks_off_leaves_the_book_as_it_was(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with_release(tmp_path)[0].close()

    def half(book: sqlite3.Connection) -> None:
        book.execute("CREATE TABLE more (x TEXT) STRICT")
        raise KeyError("broke off")

    monkeypatch.setattr(changes, "CHANGES", (*changes.CHANGES, half))
    monkeypatch.setattr("evenpitch.store.book.CHANGES", changes.CHANGES)
    with closing(sqlite3.connect(book_file(tmp_path), isolation_level=None)) as raw:
        with pytest.raises(KeyError):
            changes.bring_up(raw, changes.CHANGES)
        assert changes.edition(raw) == len(changes.CHANGES) - 1
        assert raw.execute("SELECT count(*) FROM sqlite_schema WHERE name = 'more'").fetchone()[0] == 0


def test_the_book_is_copied_before_a_change(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with_release(tmp_path)[0].close()

    def more(book: sqlite3.Connection) -> None:
        book.execute("CREATE TABLE more (x TEXT) STRICT")

    longer = (*changes.CHANGES, more)
    monkeypatch.setattr(changes, "CHANGES", longer)
    monkeypatch.setattr("evenpitch.store.book.CHANGES", longer)
    monkeypatch.setattr("evenpitch.store.book.bring_up", lambda book: changes.bring_up(book, longer))
    with opened(tmp_path, 3) as book:
        assert changes.edition(book._connection) == len(longer)
        assert book.job("A").title == "Loom wheel"
    (copy,) = copies_folder(book_file(tmp_path)).glob(f"edition-{len(longer) - 1}-*.sqlite")
    with closing(sqlite3.connect(copy)) as old:
        assert changes.edition(old) == len(longer) - 1


def test_full_and_readonly_disks_are_told_and_nothing_is_lost(tmp_path: Path) -> None:
    book, key = with_release(tmp_path)
    with book:
        book.append_entry(key, 0, "cut", {}, NOW, space=1)
        pages = book._connection.execute("PRAGMA page_count").fetchone()[0]
        book._connection.execute(f"PRAGMA max_page_count = {pages}")
        with pytest.raises(Refusal) as trouble:
            book.append_entry(key, 1, "note", {"text": "x" * 100_000}, NOW)
        assert "disk is full" in said(trouble)
        book._connection.execute("PRAGMA max_page_count = 1000000")
        book._connection.execute("PRAGMA query_only = ON")
        with pytest.raises(Refusal) as trouble:
            book.append_entry(key, 1, "cut", {}, NOW)
        assert "only be read" in said(trouble)
        book._connection.execute("PRAGMA query_only = OFF")
        assert book.append_entry(key, 1, "cut", {}, NOW, space=2).number == 2


def test_folder_that_cannot_be_and_file_that_is_no_book(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    with pytest.raises(Refusal):
        Book.open(tmp_path / "file" / "book.sqlite", NOW)
    (tmp_path / "book.sqlite").write_text("plain text, long enough to be no header of a database " * 20)
    with pytest.raises(Refusal) as trouble:
        opened(tmp_path)
    assert "damaged" in said(trouble)
    (tmp_path / "dir").mkdir()
    with pytest.raises(Refusal):
        Book.open(tmp_path / "dir", NOW)


def test_a_time_without_zone_is_our_own_mistake(tmp_path: Path) -> None:
    with opened(tmp_path) as book, pytest.raises(ValueError, match="zone"):
        book.add_rig("x", "y", datetime(2026, 1, 1))


def test_plan_is_stored_in_canonical_form(tmp_path: Path) -> None:
    book, _ = with_release(tmp_path)
    with book:
        stored = book._connection.execute("SELECT plan FROM release").fetchone()[0]
        assert stored == '{"moves":{"1979":60,"1980":37},"teeth":97}'
        assert json.loads(stored) == PLAN
