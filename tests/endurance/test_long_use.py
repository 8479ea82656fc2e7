"""Eight hours at the machine in one process: every page visited, presses one after the other, memory flat, the answer no slower."""

from __future__ import annotations

import gc
import os
import time
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from statistics import median

import pytest
from starlette.testclient import TestClient

from evenpitch.store.book import Book
from evenpitch.store.where import book_file
from evenpitch.web.app import make_app
from evenpitch.web.demo import set_up_museum
from evenpitch.web.machine import place_of

FULL = os.environ.get("EVENPITCH_FULL") == "1"
PRESSES = 28_800 if FULL else 200
EVERY_PAGE = 720 if FULL else 50
"""Presses from one look at all pages to the next."""
FLAT = 1.10
HOST = "http://127.0.0.1"
PAGES = (
    "/", "/jobs/A/cut", "/jobs/A/cut/count", "/jobs/A/cut/note", "/jobs/A/cut/start", "/jobs/A/plan", "/jobs/A/gear", "/jobs/B/plan",
    "/jobs/A/cutters", "/jobs/A/inspect", "/jobs/A/inspect?span=49.452", "/jobs/A/inspections/1", "/jobs/A/pick-up", "/jobs/A/record.csv",
    "/book", "/rigs", "/ask/divide?divisions=113", "/api/jobs/A/cut", "/help", "/sources",
)  # fmt: skip

pytestmark = [pytest.mark.long, pytest.mark.skipif(not Path("/proc/self/statm").exists(), reason="reads memory from /proc")]


@pytest.fixture
def machine(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[tuple[TestClient, Book]]:
    monkeypatch.setenv("EVENPITCH_HOME", str(tmp_path))
    at = datetime(2026, 3, 12, 8, 0, tzinfo=UTC)

    def now() -> datetime:
        nonlocal at
        at += timedelta(seconds=1)
        return at

    with Book.open(book_file(tmp_path), now()) as book:
        set_up_museum(book, now)
        with TestClient(make_app(book, now=now), base_url=HOST, headers={"origin": HOST}, follow_redirects=False) as page:
            page.post("/jobs/A/issue")
            page.post("/jobs/A/inspect", data={"span": "49.452", "press": "keep"})
            yield page, book


def _resident() -> float:
    gc.collect()
    return int(Path("/proc/self/statm").read_text().split()[1]) * os.sysconf("SC_PAGE_SIZE") / 1e6


def test_memory_stays_flat_and_answers_stay_quick(machine: tuple[TestClient, Book]) -> None:
    page, book = machine
    resident, seconds = [], []
    for done in range(PRESSES):
        place = place_of(book, "A")
        space, cut = place.next(), place.progress.cut
        back = space is None or len(cut) > 90
        deed = {"kind": "not cut" if back else "cut", "space": cut[-1] if back else space, "pass": place.progress.running}
        if space == 60 and not back and done % 3 == 0:
            deed = {"kind": "note", "text": f"mark read at press {done}"}
        started = time.perf_counter()
        answer = page.post("/jobs/A/cut", data={"plan": 1, "last": place.progress.last, **deed})
        seconds.append(time.perf_counter() - started)
        assert answer.status_code == 303
        if done % EVERY_PAGE == EVERY_PAGE - 1:
            for path in PAGES:
                assert page.get(path).status_code in (200, 303), path
            resident.append(_resident())
    assert place_of(book, "A").progress.last == PRESSES
    assert max(resident[1:]) < FLAT * resident[0], resident
    tenth = PRESSES // 10
    assert median(seconds[-tenth:]) < 3 * median(seconds[:tenth]) + 0.005
