"""Every page there is, parsed: nothing inline, tags closed, names unique, fields labelled, links alive, light on the wire."""

from __future__ import annotations

import importlib
import pkgutil
import re
from collections.abc import Iterator
from html.parser import HTMLParser

import pytest
from starlette.testclient import TestClient

from evenpitch.store.book import Book
from evenpitch.store.where import places
from evenpitch.web import pages
from evenpitch.web.app import make_app
from evenpitch.web.demo import set_up_museum
from web.conftest import HOST, Ticking

LIGHTEST = 60_000
"""Bytes of a page with its styles and pictures."""
HEAVIER = {"/rigs/Museum%20horizontal%20mill/edit": 105_000, "/jobs/B/plan?gear=2": 85_000, "/jobs/P/plan": 70_000,
           "/jobs/B/cutters?gear=2&swing=0.25&lost=3": 65_000}  # fmt: skip
"""Pages that stay under the bound on the wire only: the form of a rig grows by 3 kB with each cutter and instrument owned; the plans
of long jobs carry six pictures, every way and where each figure comes from, none of which the person should have to look for elsewhere."""
MILL = "/rigs/Museum%20horizontal%20mill"
PROOF = f"{MILL}/proofs/1"
PAGES = (
    "/", "/jobs/new", "/jobs/new?line=97t+12DP+14½+face+3/4", "/jobs/A/gear", "/jobs/B/gear", "/jobs/A/plan", "/jobs/B/plan?gear=2",
    "/jobs/A/cutters", "/jobs/B/cutters?gear=2&swing=0.25&lost=3", "/jobs/P/plan", "/jobs/A/predict",
    "/jobs/B/predict?gear=2&try=1&link.belt=1:3&link.microsteps=8", "/jobs/B/simulate", "/jobs/B/audit?gear=2",
    "/jobs/B/simulate?gear=2&moved=power&feed=60+mm/min&ramp=500+from+20&play=open&vibration=2um+97Hz",
    "/rigs", "/rigs/new", MILL, f"{MILL}/edit",
    f"{MILL}/prove", f"{MILL}/proof", f"{MILL}/prove?job=B", f"{MILL}/scale", f"{MILL}/head", "/reading", "/reading?moved=50mm&shown=200mm",
    "/book", "/ask", "/ask/gear", "/ask/divide", "/ask/lead", "/ask/ratio",
    "/ask/gear?teeth=97&dp=12&pressure-angle=14.5&face=0.75in&tolerance-class=8", "/ask/divide?divisions=113",
    "/ask/lead?helix-of=z%3D28+mn%3D2+beta%3D20&face=20+mm&pair-with=1028.765+mm",
    "/ask/ratio?lead=514.38mm&rig=Museum+horizontal+mill", "/charts/counts?chart=2-130",
    "/charts/leads", "/charts/leads?diameter=60mm&part=3",
    PROOF, "/jobs/A/inspect", "/jobs/B/inspect?gear=2", "/jobs/A/pick-up", "/jobs/B/pick-up?gear=2",
    "/jobs/A/inspections/1",
    "/jobs/A/cut", "/jobs/B/cut?gear=2", "/jobs/A/cut/start", "/jobs/A/cut/count", "/jobs/A/cut/note", "/jobs/A/cut/closing", "/pin",
    "/help", "/help/words", "/help/findings", "/help/findings?weight=look",
    "/help/findings?weight=note", "/help/first-gear", "/help/prove-the-rig", "/help/at-the-machine",
    "/help/inspect", "/help/where-things-are", "/help/pictures", "/help/nomenclature",
    "/help/commands", "/help/trust", "/help/trust?part=2", "/help/changelog", "/help/readme", "/sources", "/sources/ISO 21771:2007",
)  # fmt: skip
REFUSED = (
    "/nowhere",
    "/jobs/Z/plan",
    "/jobs/Z/cutters",
    "/jobs/Z/cut",
    "/jobs/P/cut",
    "/jobs/A/cut/nowhere",
    "/jobs/B/cutters?off=eleven",
    "/jobs/B/predict?try=1&link.belt=3.0&link.latency=soon",
    "/jobs/B/simulate?moved=hand&feed=x&unevenness=2&play=perhaps",
    "/jobs/A/simulate",
    "/jobs/A/audit",
    "/jobs/Z/predict",
    "/ask/gear?teeth=9.5&pitch=12DP&face=9x",
    "/charts/counts?chart=9",
    "/jobs/new?line=97+wrens",
    f"{MILL}/proofs/7",
    "/jobs/A/inspections/7",
    f"{MILL}/prove?job=Z",
    "/reading?moved=50mm&shown=much",
)
NO_PAGES = re.compile(r"/static/|/light$|/openapi|\.pdf$|\.csv$|\.\{kind\}$|\.toml$|\.dxf$|\.jsonl$|/backup$|/pictures/\{")
VOID = {"meta", "link", "input", "br", "wbr", "img", "hr"}


class Parsed(HTMLParser):
    """A page taken apart; stops at a tag that does not close the one last opened."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.ids: list[str] = []
        self.links: list[str] = []
        self.fields: list[dict[str, str | None]] = []
        self.labels: list[str] = []
        self.tags: list[str] = []
        self.bare: list[str] = []
        self.feed(text)
        assert not self.open

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        names = dict(attrs)
        assert len(names) == len(attrs), f"<{tag}> names an attribute twice"
        self.tags.append(tag)
        self.bare += [name for name in names if name == "style" or name.startswith("on")]
        if names.get("id") is not None:
            self.ids.append(names["id"] or "")
        if tag == "a" and names.get("href"):
            self.links.append(names["href"] or "")
        if tag == "label" and names.get("for"):
            self.labels.append(names["for"] or "")
        if tag in ("input", "select") and names.get("type") not in ("hidden", "radio"):
            self.fields.append(names)
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in VOID:
            self.open.pop()

    def handle_endtag(self, tag: str) -> None:
        assert self.open, f"</{tag}> closes nothing"
        assert self.open.pop() == tag


@pytest.fixture(scope="module")
def used(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    """One server for all pages, over a museum workshop that is at work: plans issued, a few spaces of each cut, the scale proved."""
    now = Ticking()
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("EVENPITCH_HOME", str(tmp_path_factory.mktemp("home")))
        with Book.open(places().book, now()) as book:
            set_up_museum(book, now)
            with TestClient(
                make_app(book, now=now),
                base_url=HOST,
                headers={"origin": HOST},
                follow_redirects=False,
                raise_server_exceptions=False,
            ) as page:
                at_the_machine(page)
                page.post(f"{MILL}/prove", data={"block.left": "99.984", "block.right": "99.979"})
                page.post("/jobs/A/inspect", data={"span": "49.452 49.451 49.453", "press": "keep"})
                yield page


def at_the_machine(museum: TestClient) -> None:
    """Plans issued, and of each gear a few spaces cut."""
    for job, gear, last in (("A", 1, 0), ("B", 2, 0)):
        museum.post(f"/jobs/{job}/issue")
        for number in range(3):
            assert museum.post(
                f"/api/jobs/{job}/cut", json={"gear": gear, "last_entry": last + number, "cut": number + 1}
            ).is_success


@pytest.mark.parametrize("where", [*PAGES, *REFUSED])
def test_a_page_taken_apart(used: TestClient, where: str) -> None:
    answer = used.get(where)
    assert answer.status_code == (200 if where in PAGES else answer.status_code)
    assert answer.status_code in (200, 404, 422)
    page = Parsed(answer.text)
    assert not page.bare, page.bare
    assert not {"script", "style", "iframe", "object", "embed", "base"} & set(page.tags)
    assert page.tags.count("h1") == 1
    assert page.tags.count("main") == 1
    assert len(page.ids) == len(set(page.ids)), sorted(name for name in page.ids if page.ids.count(name) > 1)
    assert all(field.get("id") in page.labels or field.get("aria-label") for field in page.fields)
    assert all(link.startswith(("/", "#", "https://", "http://127.0.0.1")) for link in page.links), page.links
    assert all(link[1:] in page.ids for link in page.links if link.startswith("#") and link != "#")
    styles = re.findall(r'<link rel="stylesheet" href="([^"]*)"', answer.text)
    weight = sum(int(used.get(part).headers["content-length"]) for part in styles) + int(answer.headers["content-length"])
    assert weight < LIGHTEST / 2, "on the wire"
    assert sum(len(used.get(part).content) for part in styles) + len(answer.content) < HEAVIER.get(where, LIGHTEST), "unpacked"


def test_no_page_is_left_out() -> None:
    routes = [
        route
        for file in pkgutil.iter_modules(pages.__path__, f"{pages.__name__}.")
        for route in getattr(getattr(importlib.import_module(file.name), "router", None), "routes", ())
    ]
    served = {route.path for route in routes if "GET" in route.methods and not NO_PAGES.search(route.path)}
    assert len(served) > 15
    for path in served:
        pattern = re.compile(re.sub(r"\\\{[^}]*\\\}", "[^?]+", re.escape(path)) + r"(\?.*)?")
        assert any(pattern.fullmatch(page) for page in PAGES), path
