"""The book of this machine, opened; the one place that reads the clock."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime

from evenpitch.store.book import Book
from evenpitch.store.where import places

Clock = Callable[[], datetime]


def clock() -> datetime:
    """Now, in UTC."""
    return datetime.now(UTC)


@contextmanager
def open_book(now: Clock = clock) -> Iterator[Book]:
    """The book in the folder that EVENPITCH_HOME names, closed at the end."""
    with Book.open(places().book, now()) as book:
        yield book


def day(at: datetime) -> str:
    """The day of a stored time, as the wall calendar here has it."""
    here = at.astimezone()
    return f"{here.day} {here:%b %Y}"
