"""Two clients record one cut into one book without pause, and are killed at random instants. Run as a program of its own: it forks.

What each client was told is written is noted on a pipe after the press returns; what the pipe holds must stand in the book.
"""

from __future__ import annotations

import os
import signal
import sys
import time
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from random import Random

from evenpitch.job.record import Kind
from evenpitch.quantity.refusal import Refusal
from evenpitch.store.book import Book
from evenpitch.web.machine import Place, place_of, press

CLIENTS = 2


def clock() -> datetime:
    """Now."""
    return datetime.now(UTC)


def deed(random: Random, place: Place) -> tuple[Kind, dict[str, object]]:
    """What a person might press: mostly that the next space is cut."""
    progress, space = place.progress, place.next()
    if space is None or (progress.cut and random.random() < 0.15):
        return "not cut", {"space": random.choice(progress.cut), "pass_name": progress.running}
    drawn = random.random()
    if drawn < 0.06 and progress.waiting is None:
        return "wait", {}
    if drawn < 0.12:
        return "count", {"forward": len(progress.cut), "back": place.cutting.spaces - len(progress.cut)}
    if drawn < 0.16:
        return "note", {"text": f"note {random.random()}"}
    return "cut", {"space": space, "pass_name": progress.running}


def client(path: Path, pipe: int, seed: int) -> None:
    """Press and press again; after each one that was answered, a line: number, kind, space."""
    random = Random(seed)
    with Book.open(path, clock()) as book:
        while True:
            place = place_of(book, "A")
            kind, fields = deed(random, place)
            try:
                written = press(book, place, kind, clock, last_seen=place.progress.last, **fields).written
            except Refusal as refusal:
                if refusal.faults[0].field != "last entry seen":
                    raise
                continue  # the other client was quicker
            os.write(pipe, f"{written.number} {written.kind} {written.space}\n".encode())


def start(path: Path, seed: int) -> tuple[int, int]:
    """A client in a process of its own: its id, and the end of the pipe to read from."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(reading)
        try:
            client(path, writing, seed)
        finally:
            os._exit(1)
    os.close(writing)
    return child, reading


def read_all(pipe: int) -> Iterator[tuple[int, str, str]]:
    """The whole lines of a pipe whose writer is gone."""
    held = b""
    while more := os.read(pipe, 65536):
        held += more
    os.close(pipe)
    for line in held.split(b"\n")[:-1]:
        number, rest = line.decode().split(" ", 1)
        kind, space = rest.rsplit(" ", 1)
        yield int(number), kind, space


def check(path: Path, told: dict[int, tuple[str, str]], after: int) -> int:
    """The book as the kill left it; the number of its last entry."""
    with Book.open(path, clock()) as book:
        assert book._connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        entries = book.entries(book.issued("A")[0].key)
        assert [entry.number for entry in entries] == list(range(1, len(entries) + 1)), "a gap, or one twice"
        for number, (kind, space) in told.items():
            assert number <= len(entries), f"entry {number} was acknowledged and is lost"
            assert (entries[number - 1].kind, str(entries[number - 1].space)) == (kind, space), f"entry {number} is another one"
        place = place_of(book, "A")
        cut: set[int | None] = set()
        for entry in entries:
            cut |= {entry.space} if entry.kind == "cut" else set()
            cut -= {entry.space} if entry.kind == "not cut" else set()
        assert set(place.progress.cut) == cut
        assert place.progress.last == len(entries)
        assert len(entries) - after <= max(told, default=after) - after + CLIENTS, "more than the presses in flight went unheard"
    return len(entries)


def main(path: Path, kills: int, seed: int) -> None:
    """So many kills, the book checked after each."""
    random = Random(seed)
    last = presses = killed = 0
    for turn in range(kills):
        clients = [start(path, random.randrange(2**31)) for _ in range(CLIENTS)]
        time.sleep(random.uniform(0.02, 0.12))
        order = random.sample(clients, CLIENTS)
        for child, _ in order:
            os.kill(child, signal.SIGKILL)
            if random.random() < 0.3:
                time.sleep(random.uniform(0, 0.02))  # the other one goes on a little
        told: dict[int, tuple[str, str]] = {}
        for child, pipe in clients:
            _, status = os.waitpid(child, 0)
            assert os.WIFSIGNALED(status), f"a client ended by itself in turn {turn}"
            killed += 1
            for number, kind, space in read_all(pipe):
                assert told.setdefault(number, (kind, space)) == (kind, space), f"entry {number} was given to both"
        presses += len(told)
        last = check(path, told, last)
    sys.stdout.write(f"{killed} kills, {presses} presses acknowledged, {last} entries in the book\n")


if __name__ == "__main__":
    main(Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3]))
