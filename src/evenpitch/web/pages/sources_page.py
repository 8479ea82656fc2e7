"""The bibliography: every source, how it is held, and which formulas stand on it."""

from __future__ import annotations

import importlib
import inspect
import pkgutil
import re
from functools import cache
from itertools import groupby
from typing import Any

from fastapi import APIRouter, HTTPException, Request
from fastapi.responses import HTMLResponse
from markupsafe import Markup, escape

import evenpitch
from evenpitch.job.findings import EVERY_KIND
from evenpitch.quantity.glossary import GLOSSARY
from evenpitch.sheet.frame_html import Action
from evenpitch.sheet.print_html import SOURCES
from evenpitch.sources.citations import citation_of
from evenpitch.sources.library import Source, library, source_named
from evenpitch.web.pages.shown import address, bench_nav, sheet

router = APIRouter(include_in_schema=False)

ROOMS = ("quantity", "gear", "rig", "dividing", "cutting", "job")
"""Where formulas stand."""
HELD = {
    "text read": "the text was at hand",
    "quoted second-hand": "seen only as another work quotes it",
    "from memory": "recalled; confirm it before you print it elsewhere",
    "common practice": "a habit of the trade without one source",
    "derived here": "our own, with a second method beside it",
}


def anchor(key: str) -> str:
    """The place of a source on the page of all."""
    return re.sub(r"[^a-z0-9]+", "-", key.casefold()).strip("-")


def source_link(citation: str) -> Markup:
    """A citation that leads to the page of its source."""
    try:
        key = source_named(citation).key
    except KeyError:
        return escape(citation)
    return Markup('<a href="{}">{}</a>').format(address(SOURCES.strip("/"), key), citation)


@cache
def formulas() -> dict[str, tuple[tuple[str, str], ...]]:
    """By the key of its source: each formula with the clause or page in it, where one is known."""
    found: dict[str, set[tuple[str, str]]] = {}
    for room in ROOMS:
        for file in pkgutil.iter_modules([f"{evenpitch.__path__[0]}/{room}"], f"evenpitch.{room}."):
            for _, function in inspect.getmembers(importlib.import_module(file.name), inspect.isfunction):
                citation = citation_of(function)
                for source in citation.sources:
                    if citation.formula:
                        key = source_named(source).key
                        found.setdefault(key, set()).add((citation.formula, source.removeprefix(key).removeprefix(", ")))
    return {key: tuple(sorted(several)) for key, several in found.items()}


@router.get("/sources")
def sources(request: Request) -> HTMLResponse:
    """All of them, by how they are held."""
    order = list(HELD)
    by_held = sorted(library().values(), key=lambda source: order.index(source.held))
    groups = [
        (held, HELD[held], [(anchor(one.key), one) for one in several])
        for held, several in groupby(by_held, lambda one: one.held)
    ]
    return _sheet(request, "sources.html", "Sources", groups=groups, address=address)


@router.get("/sources/{key:path}")
def one_source(request: Request, key: str) -> HTMLResponse:
    """One source: what it is, how far to lean on it, and what stands on it."""
    if key not in library():
        raise HTTPException(404)
    source: Source = library()[key]
    terms = [term for term in GLOSSARY if source_named(term.source).key == key]
    findings = [
        (code, f"/help/findings?weight={kind.weight}#{code}")
        for code, kind in EVERY_KIND.items()
        if any(source_named(one).key == key for one in kind.sources)
    ]
    return _sheet(
        request,
        "source.html",
        key,
        source=source,
        held_words=HELD[source.held],
        formulas=formulas().get(key, ()),
        terms=terms,
        findings=findings,
        back=f"/sources#{anchor(key)}",
    )


def _sheet(request: Request, template: str, heading: str, **more: Any) -> HTMLResponse:
    return sheet(
        request,
        template,
        title=heading,
        nav=bench_nav("help"),
        cells=(("sheet", "sources"), ("source", heading if heading != "Sources" else f"{len(library())} of them")),
        action=Action("To the bench", "/"),
        heading=heading,
        **more,
    )
