"""A press at the machine against its bounds, and against the plain way: the whole record read and folded at every press.

A press is answered when its entry is on the disk; then the page is shown. Run: .venv/bin/python benchmarks/bench_press.py
"""

from __future__ import annotations

import os
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from statistics import median

ROOT = Path(__file__).resolve().parent.parent
PRESS_SECONDS, PAGE_KB = 0.050, 60.0
SPACES = 97
LONG_RECORD = 3000
"""Entries of a record on which folding anew at each press would be felt."""


def clock() -> datetime:
    """Now."""
    return datetime.now(UTC)


def timed(run: Callable[[], object]) -> float:
    """Seconds of one run."""
    start = time.perf_counter()
    run()
    return time.perf_counter() - start


def show(what: str, bound: float, found: float, unit: str) -> bool:
    """One line; True where the bound is kept."""
    print(f"{what:52} {found:9.4f} {unit:3} bound {bound:8.3f}   {bound / found:6.2f} x within")
    return found <= bound


def main() -> int:
    """All bounds; 0 where each is kept."""
    from starlette.testclient import TestClient

    from evenpitch.job.following import follow
    from evenpitch.job.record import entry_of
    from evenpitch.store.book import Book
    from evenpitch.store.where import book_file
    from evenpitch.web.app import make_app
    from evenpitch.web.demo import set_up_museum
    from evenpitch.web.machine import place_of, press
    from evenpitch.web.plan_answer import issue

    with tempfile.TemporaryDirectory() as home, Book.open(book_file(Path(home)), clock()) as book:
        os.environ["EVENPITCH_HOME"] = home
        set_up_museum(book, clock)
        issue(book, "A", clock)
        here = "http://127.0.0.1"
        page = TestClient(make_app(book), base_url=here, headers={"origin": here}, follow_redirects=False)
        presses, pages = [], []
        for space in range(1, SPACES + 1):
            data = {"plan": 1, "last": space - 1, "kind": "cut", "space": space, "pass": "full"}
            presses.append(timed(lambda data=data: page.post("/jobs/A/cut", data=data)))
            pages.append(timed(lambda: page.get("/jobs/A/cut")))
        kept = show("a press, until it is on the disk, median", PRESS_SECONDS, median(presses), "s")
        kept &= show("a press, the slowest of the round", PRESS_SECONDS, sorted(presses)[-2], "s")
        kept &= show(
            "a press and the page after it, median", PRESS_SECONDS, median(map(sum, zip(presses, pages, strict=True))), "s"
        )
        parts = ("/jobs/A/cut", "/static/page.css", "/static/cut.css")
        weight = sum(int(page.get(part).headers["content-length"]) for part in parts) / 1000
        kept &= show("the page with its styles", PAGE_KB, weight, "kB")

        for number in range(LONG_RECORD):
            press(book, place_of(book, "A"), "note", clock, text=f"note {number}")
        place = place_of(book, "A")
        key, cutting = place.issued.key, place.cutting

        def plain() -> object:
            held = (entry_of(one.number, one.at, one.kind, one.space, one.payload) for one in book.entries(key))
            return follow(cutting, held)

        folded = median(timed(lambda: place_of(book, "A")) for _ in range(20))
        anew = median(timed(plain) for _ in range(5))
        print(f"place on a record of {place.progress.last} entries: {folded * 1000:.2f} ms", end="; ")
        print(f"folded anew {anew * 1000:.1f} ms; ratio {anew / folded:.0f}")
    return 0 if kept else 1


if __name__ == "__main__":
    sys.exit(main())
