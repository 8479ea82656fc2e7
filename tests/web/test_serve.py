"""Serving: which ports are taken, and what is said before a page can be read."""

from __future__ import annotations

import json
import socket
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from evenpitch.quantity.refusal import Refusal
from evenpitch.web.serve import serve


@pytest.mark.parametrize("port", [-1, 0, 80, 65_536])
def test_a_port_that_is_none_is_refused_by_its_number(port: int) -> None:
    said: list[str] = []
    with pytest.raises(Refusal, match="a port from 1024 to 65535"):
        serve(port=port, lan=False, say=said.append)
    assert not said


def test_a_port_in_use_is_refused(home: Path) -> None:
    with socket.create_server(("127.0.0.1", 0)) as other:
        said: list[str] = []
        with pytest.raises(Refusal, match="already listens there"):
            serve(port=other.getsockname()[1], lan=False, say=said.append)
        assert not said


def test_no_address_is_said_where_the_book_is_of_a_later_edition(home: Path) -> None:
    home.mkdir(exist_ok=True)
    with sqlite3.connect(home / "book.sqlite") as book:
        book.execute("PRAGMA user_version = 99")
    said: list[str] = []
    with pytest.raises(Refusal, match="later evenpitch"):
        serve(port=None, lan=False, say=said.append)
    assert not said


HEAVY = ("numpy", "scipy", "typst", "ezdxf", "markdown_it", "segno", "rich", "tomlkit")
"""What no word of the first page needs: each would make the person wait for it at every start."""

FIRST_PAGE = """
import asyncio, json, sys
from evenpitch.store.book import Book
from evenpitch.store.where import places
from evenpitch.web.app import make_app
from evenpitch.web.opened import clock

async def first_page():
    app, parts = make_app(Book.open(places().book, clock())), []
    app.load_rest = lambda: None  # what the server does once the page is sent
    async def send(message): parts.append(message)
    async def receive(): return {"type": "http.request", "body": b"", "more_body": False}
    asked = {"type": "http", "http_version": "1.1", "method": "GET", "scheme": "http", "path": "/", "raw_path": b"/", "root_path": "",
             "query_string": b"", "headers": [(b"host", b"127.0.0.1")], "client": ("127.0.0.1", 1), "server": ("127.0.0.1", 8127)}
    await app(asked, receive, send)
    return parts[0]["status"], b"".join(part.get("body", b"") for part in parts).decode()

status, page = asyncio.run(first_page())
print(json.dumps([status, page, sorted(name.partition(".")[0] for name in sys.modules)]))
"""


def test_the_first_page_comes_without_what_only_other_pages_need(museum: TestClient) -> None:
    told = subprocess.run([sys.executable, "-c", FIRST_PAGE], check=True, capture_output=True, text=True)
    status, page, loaded = json.loads(told.stdout)
    assert status == 200
    assert "97 t" in page
    assert not set(HEAVY) & set(loaded)


def test_the_pages_beyond_the_first_are_loaded_when_one_is_asked_for(museum: TestClient) -> None:
    assert museum.get("/book").status_code == 200
    assert museum.get("/nowhere").status_code == 404
    assert museum.post("/rigs").status_code == 405
    assert "/api/gear" in museum.get("/openapi.json").json()["paths"]
