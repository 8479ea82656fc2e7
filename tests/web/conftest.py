"""One server over a book of its own, in a folder of its own, with a clock that ticks when it is read."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from evenpitch.store.book import Book
from evenpitch.store.where import places
from evenpitch.web.app import make_app
from evenpitch.web.demo import set_up_museum

HOST = "http://127.0.0.1"


class Ticking:
    """A clock that goes on by a minute each time it is read."""

    def __init__(self) -> None:
        self.at = datetime(2026, 3, 12, 8, 0, tzinfo=UTC)

    def __call__(self) -> datetime:
        self.at += timedelta(minutes=1)
        return self.at


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = tmp_path / "home"
    monkeypatch.setenv("EVENPITCH_HOME", str(folder))
    return folder


@pytest.fixture
def book(home: Path) -> Iterator[Book]:
    clock = Ticking()
    with Book.open(places().book, clock()) as opened:
        yield opened


@pytest.fixture
def page(book: Book) -> Iterator[TestClient]:
    """A browser that follows no redirect, so that a test sees them; its forms come from a page of this server."""
    app = make_app(book, now=Ticking())
    with TestClient(
        app, base_url=HOST, headers={"origin": HOST}, follow_redirects=False, raise_server_exceptions=False
    ) as client:
        yield client


@pytest.fixture
def museum(book: Book, page: TestClient) -> TestClient:
    """The same with the museum workshop in its book."""
    set_up_museum(book, Ticking())
    return page
