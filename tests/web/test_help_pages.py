"""Help, words, findings, sources: everything that can be read is there, and every link in it leads somewhere."""

from __future__ import annotations

import html
import re
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from evenpitch.job.findings import EVERY_KIND
from evenpitch.quantity.finding import WEIGHTS
from evenpitch.quantity.glossary import GLOSSARY
from evenpitch.sources.library import library
from evenpitch.web import docs
from evenpitch.web.docs import rendered


def links(text: str) -> set[str]:
    """Where the links of a page lead on this server."""
    return {html.unescape(href) for href in re.findall(r'<a [^>]*href="(/(?!light)[^"]*)"', text)}


@pytest.mark.full
def test_every_link_of_help_leads_to_a_page_and_its_place(page: TestClient) -> None:
    seen, todo = set[str](), {"/help", "/sources"}
    while todo:
        where = todo.pop()
        seen.add(where)
        answer = page.get(where.partition("#")[0], follow_redirects=True)
        assert answer.status_code == 200, where
        if "#" in where:
            assert f'id="{where.partition("#")[2]}"' in answer.text, where
        if re.match(r"/(help|sources)", where):
            todo |= links(answer.text) - seen
    assert {"/help/first-gear", "/help/where-things-are", "/help/trust", "/help/commands", "/help/pictures"} <= seen
    assert {f"/sources/{key.replace(' ', '%20')}" for key in ("OD1644", "derived here")} <= seen
    assert len(seen) > 120


def test_every_word_and_every_finding_is_there(page: TestClient) -> None:
    words = html.unescape(page.get("/help/words").text)
    assert all(term.term in words and term.meaning in words for term in GLOSSARY)
    findings = "".join(page.get(f"/help/findings?weight={weight}").text for weight in WEIGHTS)
    assert all(f'id="{code}"' in findings for code in EVERY_KIND)
    assert "{" not in findings
    assert "<i>limit</i>" in findings


def test_every_source_says_how_it_is_held_and_what_stands_on_it(page: TestClient) -> None:
    listed = html.unescape(page.get("/sources").text)
    assert all(source.title in listed for source in library().values())
    one = html.unescape(page.get("/sources/ISO 21771:2007").text)
    assert "Held: from memory." in one
    assert "d = z m_n / cos β" in one
    assert page.get("/sources/no such book").status_code == 404


def test_a_paper_that_is_not_there(page: TestClient) -> None:
    for where in ("/help/nothing", "/help/..%2FREADME", "/help/pictures/..%2Fprint.py", "/help/pictures/print.py"):
        assert page.get(where).status_code == 404, where


def test_a_program_without_its_repository_says_so(page: TestClient, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setattr(docs, "REPOSITORY", tmp_path)
    text = page.get("/help").text
    assert "it was installed without them" in text
    assert "/help/words" in text
    assert page.get("/help/first-gear").status_code == 404
    assert all(page.get(link).status_code == 200 for link in links(text))


def test_a_long_paper_has_all_its_parts(page: TestClient) -> None:
    first = page.get("/help/trust").text
    headings = re.findall(r"^## (.*)$", (docs.REPOSITORY / "docs" / "trust.md").read_text(encoding="utf-8"), re.MULTILINE)
    assert "figures from print" in first
    others = sorted(link for link in links(first) if "part=" in link)
    assert len(others) == len(headings), "the first two stand together, and have an address too"
    shown = html.unescape(first + "".join(page.get(link).text for link in others))
    assert all(f"<h2>{heading}</h2>" in shown for heading in headings)


def test_markdown_becomes_nothing_but_text_and_links_within() -> None:
    links = "[in](trust.md#top) [out](../go.py) [no](javascript:x) ![p](plan.png)"
    text = f"# A `b`\n\n<script>x</script> {links}\n\n## C\n\n| a | b |\n|--:|---|\n| 1 | `d_e` |\n"
    title, parts = rendered(text, ("trust",))
    whole = "".join(part.html for part in parts)
    assert title == "A b"
    assert [part.heading for part in parts] == ["", "C"]
    assert "&lt;script&gt;" in whole
    assert '<a href="/help/trust#top">in</a>' in whole
    assert "<a>out</a>" in whole
    assert "<a" not in whole.split("no")[0].split("out</a>")[1]
    assert '<img src="/help/pictures/plan.png" alt="p"' in whole
    assert "style" not in whole
    assert '<td data-label="b"><code>d_<wbr>e</code></td>' in whole
