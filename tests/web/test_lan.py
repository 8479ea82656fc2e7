"""Other devices in the shop: the PIN, the growing wait, the cookie, hosts; the mark of an address; what the terminal says."""

from __future__ import annotations

import re
import socket
from collections.abc import Iterator

import pytest
import segno
import uvicorn
from starlette.testclient import TestClient

from evenpitch.store.book import Book
from evenpitch.web import lan, serve
from evenpitch.web.app import THIS_MACHINE, make_app
from evenpitch.web.demo import set_up_museum
from evenpitch.web.lan import A_SHIFT, COOKIE, LONGEST_WAIT, Door, own_addresses
from evenpitch.web.pages.address_mark import QUIET, mark_svg
from web.conftest import Ticking

SHOP = "192.168.7.20"
AT = f"http://{SHOP}:8127"


class Watch:
    """A clock that a test turns."""

    def __init__(self) -> None:
        self.at = 1000.0

    def __call__(self) -> float:
        return self.at


@pytest.fixture
def watch() -> Watch:
    return Watch()


@pytest.fixture
def door(watch: Watch) -> Door:
    return Door(pin="481516", clock=watch)


@pytest.fixture
def tablet(book: Book, door: Door) -> Iterator[TestClient]:
    """A device on the network: it calls the machine by its address, and is not the machine."""
    set_up_museum(book, Ticking())
    app = make_app(book, now=Ticking(), allowed_hosts=THIS_MACHINE | {SHOP}, door=door, lan_address=AT)
    with TestClient(
        app,
        base_url=AT,
        headers={"origin": AT},
        follow_redirects=False,
        client=("192.168.7.31", 50_000),
        raise_server_exceptions=False,
    ) as client:
        yield client


def test_nothing_is_shown_without_the_pin(tablet: TestClient) -> None:
    for where in (
        "/",
        "/jobs/A/plan",
        "/jobs/A/cut",
        "/book",
        "/book/backup",
        "/jobs/A/sheet.pdf",
        "/openapi.json",
        "/jobs/A/job.jsonl",
    ):
        answer = tablet.get(where)
        assert answer.status_code == 303, where
        assert answer.headers["location"].startswith("/pin?back=%2F")
    assert tablet.get("/api/jobs").status_code == 401
    assert tablet.post("/jobs/A/issue").status_code == 303
    assert tablet.post("/api/jobs/A/releases", json={}).status_code == 401
    page = tablet.get("/pin")
    assert page.status_code == 200
    assert "plain HTTP" in page.text
    assert "481516" not in page.text
    assert tablet.get("/static/cut.css").status_code == 200


def test_the_right_pin_opens_what_was_asked_for(tablet: TestClient, watch: Watch) -> None:
    answer = tablet.post("/pin", data={"pin": " 481 516 ", "back": "/jobs/A/plan"})
    assert answer.headers["location"] == "/jobs/A/plan"
    kept = answer.headers["set-cookie"]
    assert "HttpOnly" in kept
    assert "SameSite=strict" in kept
    assert tablet.get("/jobs/A/plan").status_code == 200
    assert tablet.post("/jobs/A/issue").headers["location"] == "/jobs/A/sheet.pdf"
    watch.at += A_SHIFT + 1
    assert tablet.get("/jobs/A/plan").status_code == 303
    for away in ("//evil.example", "https://evil.example", "/\\evil.example"):
        assert tablet.post("/pin", data={"pin": "481516", "back": away}).headers["location"] == "/"


def test_wrong_tries_wait_longer_and_longer(door: Door, watch: Watch) -> None:
    waits = []
    for _ in range(12):
        assert door.try_pin("000000") == "wrong"
        waits.append(door.seconds_left())
        assert door.try_pin("481516") == "wait"  # the right one, but too soon
        watch.at += waits[-1]
    assert waits[:5] == [1, 2, 4, 8, 16]
    assert waits[-1] == LONGEST_WAIT
    assert door.try_pin("481516") == "right"
    assert door.try_pin("") == "wrong"
    assert door.seconds_left() == 1  # a right one begins anew


def test_all_pins_would_take_years(door: Door) -> None:
    assert 10**6 / 2 * LONGEST_WAIT / (365 * 24 * 3600) > 4


def test_the_pages_tell_the_wait(tablet: TestClient) -> None:
    wrong = tablet.post("/pin", data={"pin": "1"})
    assert wrong.status_code == 403
    assert "wait 1 s" in wrong.text
    assert tablet.post("/pin", data={"pin": "481516"}).status_code == 429
    assert COOKIE not in wrong.cookies


@pytest.mark.parametrize("cookie", ["", ".", "9999999999.", "9999999999.00", "x.y", "９.a", "-1.a"])
def test_a_made_up_cookie_opens_nothing(tablet: TestClient, door: Door, cookie: str) -> None:
    assert not door.knows(cookie)
    until, _, signature = door.cookie().partition(".")
    assert door.knows(f"{until}.{signature}")
    assert not door.knows(f"{int(until) + 1}.{signature}")
    assert not Door(pin=door.pin, clock=door.clock).knows(f"{until}.{signature}")  # another start, another secret
    tablet.cookies.set(COOKIE, cookie.encode("ascii", "ignore").decode())
    assert tablet.get("/").status_code == 303


def test_hosts_are_the_machines_own(tablet: TestClient) -> None:
    for host in ("evil.example", "192.168.7.21", f"{SHOP}.evil.example"):
        assert tablet.get("/pin", headers={"host": host}).status_code == 421
    # the name of this machine alone, sent from another device, is no way in
    assert tablet.get("/", headers={"host": "127.0.0.1"}).status_code == 303
    assert tablet.post("/pin", data={"pin": "481516"}, headers={"origin": "http://evil.example"}).status_code == 403


def test_the_machine_itself_is_not_asked(book: Book, door: Door) -> None:
    app = make_app(book, now=Ticking(), door=door)
    with TestClient(app, base_url="http://127.0.0.1", client=("127.0.0.1", 50_000), follow_redirects=False) as here:
        assert here.get("/").status_code == 200


def test_pins_are_drawn_anew() -> None:
    pins = {Door().pin for _ in range(50)}
    assert all(re.fullmatch(r"\d{6}", pin) for pin in pins)
    assert len(pins) > 40


def test_the_mark_of_an_address_is_the_one_the_standard_draws() -> None:
    """Module by module the same as the matrix of ISO/IEC 18004 that the encoder gives, with four modules of white around."""
    text = f"{AT}/jobs/A/cut"
    matrix = [list(row) for row in segno.make(text, error="m", micro=False).matrix]
    drawn = {(int(x) - QUIET, int(y) - QUIET) for x, y in re.findall(r"M(\d+) (\d+)h1v1h-1z", mark_svg(text))}
    assert drawn == {(x, y) for y, row in enumerate(matrix) for x, dark in enumerate(row) if dark}
    assert f'viewBox="0 0 {len(matrix) + 8} {len(matrix) + 8}"' in mark_svg(text)


def test_the_mark_stands_where_one_begins_and_only_on_the_network(tablet: TestClient, museum: TestClient) -> None:
    tablet.post("/pin", data={"pin": "481516"})
    tablet.post("/jobs/A/issue")
    assert f"<b>{AT}/jobs/A/cut</b>" in tablet.get("/jobs/A/cut/start").text
    museum.post("/jobs/A/issue")
    assert "mark-of" not in museum.get("/jobs/A/cut/start").text


def test_the_terminal_says_pin_addresses_and_plain_http(monkeypatch: pytest.MonkeyPatch, home: object) -> None:
    served: list[object] = []

    def no_run(server: uvicorn.Server, sockets: list[socket.socket]) -> None:
        served.append((server.config.app, sockets[0].getsockname()))
        sockets[0].close()

    monkeypatch.setattr(uvicorn.Server, "run", no_run)
    monkeypatch.setattr(lan, "own_addresses", lambda: (SHOP,))
    said: list[str] = []
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    serve.serve(port=port, lan=True, say=said.append)
    app, where = served[0]  # type: ignore[misc]
    assert where == ("0.0.0.0", port)
    told = "\n".join(said)
    assert f"http://{SHOP}:{port}/" in told
    assert f"PIN {app.state.door.pin}" in told
    assert "plain HTTP" in told
    assert app.state.lan_address == f"http://{SHOP}:{port}"
    app.state.desk.book.close()
    said.clear()
    serve.serve(port=port, lan=False, say=said.append)
    app, where = served[1]  # type: ignore[misc]
    assert where == ("127.0.0.1", port)
    assert app.state.door is None
    assert "PIN" not in "\n".join(said)
    app.state.desk.book.close()


def test_on_no_network_the_door_is_shut_all_the_same(monkeypatch: pytest.MonkeyPatch, home: object) -> None:
    monkeypatch.setattr(lan, "own_addresses", lambda: ())
    said: list[str] = []
    app = serve._app(8127, True, said.append)
    assert app.state.door is not None
    assert "on no network" in said[0]
    app.state.desk.book.close()


def test_own_addresses_are_addresses() -> None:
    for one in own_addresses():
        socket.inet_aton(one)
        assert not one.startswith("127.")


def test_the_plan_carries_the_mark_for_the_tablet_and_only_on_the_network(tablet: TestClient, museum: TestClient) -> None:
    """Of the plan before it is issued, of the cut after."""
    tablet.post("/pin", data={"pin": "481516"})
    assert f"<b>{AT}/jobs/A/plan</b>" in tablet.get("/jobs/A/plan").text
    tablet.post("/jobs/A/issue")
    shown = tablet.get("/jobs/A/plan")
    assert f"<b>{AT}/jobs/A/cut</b>" in shown.text
    assert 'href="#tablet"' in shown.text
    assert int(shown.headers["content-length"]) < 60_000
    assert "tablet" not in museum.get("/jobs/A/plan").text
