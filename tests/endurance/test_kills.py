"""SIGKILL at random instants while two clients record: nothing acknowledged is lost, nothing stands twice, the place is right.

Loss of power at the same instants is left to SQLite (WAL, synchronous=FULL) and the disk; it cannot be made to happen here.
"""

from __future__ import annotations

import http.client
import json
import os
import re
import signal
import socket
import subprocess
import sys
import threading
import time
import urllib.error
import urllib.request
from datetime import UTC, datetime
from pathlib import Path
from random import Random
from typing import Any

import pytest

from evenpitch.store.book import Book
from evenpitch.store.where import book_file
from evenpitch.web.demo import set_up_museum
from evenpitch.web.machine import place_of
from evenpitch.web.plan_answer import issue

FULL = os.environ.get("EVENPITCH_FULL") == "1"
KILLS = 500 if FULL else 50
SERVER_KILLS = 20 if FULL else 2

pytestmark = [pytest.mark.long, pytest.mark.skipif(not hasattr(os, "fork"), reason="needs fork and SIGKILL")]


def clock() -> datetime:
    return datetime.now(UTC)


@pytest.fixture
def home(tmp_path: Path) -> Path:
    """A folder with a book in which the plan of job A is issued."""
    with Book.open(book_file(tmp_path), clock()) as book:
        set_up_museum(book, clock)
        issue(book, "A", clock)
    return tmp_path


def test_two_clients_are_killed_again_and_again(home: Path) -> None:
    recorder = Path(__file__).with_name("recorder.py")
    rounds = KILLS // 2  # both clients are killed in each
    done = subprocess.run(
        [sys.executable, str(recorder), str(book_file(home)), str(rounds), "20260312"],
        capture_output=True,
        text=True,
        timeout=600,
    )
    assert done.returncode == 0, done.stderr[-3000:]
    said = re.match(r"(\d+) kills, (\d+) presses acknowledged, (\d+) entries", done.stdout)
    assert said is not None, done.stdout
    assert int(said[1]) == KILLS
    assert int(said[2]) > KILLS / 2  # they were killed while recording, not before it


class Server:
    """The program as a person starts it, on a book of its own."""

    def __init__(self, home: Path) -> None:
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            self.port = free.getsockname()[1]
        words = f"from evenpitch.cli import run; run(['serve', '--port', '{self.port}'])"
        environment = {**os.environ, "EVENPITCH_HOME": str(home)}
        quiet = subprocess.DEVNULL
        self.process = subprocess.Popen([sys.executable, "-c", words], stdout=quiet, stderr=quiet, env=environment)
        deadline = time.monotonic() + 30
        while time.monotonic() < deadline:
            try:
                self.ask("/api/jobs/A/cut")
                return
            except OSError:
                time.sleep(0.05)
        self.kill()
        raise AssertionError("the server did not start")

    def ask(self, path: str, body: dict[str, Any] | None = None) -> dict[str, Any]:
        """A question, or a press; the answer."""
        request = urllib.request.Request(
            f"http://127.0.0.1:{self.port}{path}",
            data=None if body is None else json.dumps(body).encode(),
            headers={"content-type": "application/json"},
        )
        with urllib.request.urlopen(request, timeout=10) as answer:
            found: dict[str, Any] = json.loads(answer.read())
            return found

    def kill(self) -> None:
        """At once, as a power switch does it."""
        self.process.send_signal(signal.SIGKILL)
        self.process.wait(10)


def _record(server: Server, told: list[tuple[int, int]]) -> None:
    """Cut one space after the other until the server is gone; what was answered: entry number, space."""
    while True:
        try:
            here = server.ask("/api/jobs/A/cut")
            space = here["place"]["next"]
            if space is None:
                return
            made = server.ask("/api/jobs/A/cut", {"last_entry": here["entries"], "cut": space})
            told.append((here["entries"] + 1, space))
            assert made["entries"] > here["entries"]
        except urllib.error.HTTPError as refused:
            refused.close()
            if refused.code != 409:  # else the other one was quicker
                raise
        except (OSError, ValueError, http.client.HTTPException):
            return  # gone, perhaps in the middle of an answer, which then was none


def test_the_server_is_killed_under_two_devices(home: Path) -> None:
    random = Random(97)
    told: list[tuple[int, int]] = []
    for _ in range(SERVER_KILLS):
        server = Server(home)
        devices = [threading.Thread(target=_record, args=(server, told), daemon=True) for _ in range(2)]
        for device in devices:
            device.start()
        time.sleep(random.uniform(0.02, 0.3))
        server.kill()  # nothing before this can fail and leave it running
        for device in devices:
            device.join(30)
            assert not device.is_alive()
        with Book.open(book_file(home), clock()) as book:
            entries = book.entries(book.issued("A")[0].key)
            assert [entry.number for entry in entries] == list(range(1, len(entries) + 1))
            assert all(entries[number - 1].space == space for number, space in told)
            assert place_of(book, "A").progress.cut == tuple(range(1, len(entries) + 1))
            assert book._connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
    assert told
    # the same press from both devices is answered as the one entry it is
    assert len(set(told)) == len({number for number, _ in told}) == len({space for _, space in told})
