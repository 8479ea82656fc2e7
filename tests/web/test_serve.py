"""Serving: which ports are taken, and what is said before a page can be read."""

from __future__ import annotations

import socket
import sqlite3
from pathlib import Path

import pytest

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
