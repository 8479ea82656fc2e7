"""What every page needs: the book, the clock, the frame with its top line, day or night."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import cache
from typing import Annotated, Any, Literal
from urllib.parse import quote, urlencode

import jinja2
from fastapi import Depends, Request
from fastapi.responses import HTMLResponse, RedirectResponse
from markupsafe import Markup

from evenpitch.sheet.frame_html import Action, Link, Night, environment, framing
from evenpitch.store.book import Book
from evenpitch.web.opened import Clock

COOKIE = "light"
FORM_FIELDS = 3000
"""Most fields of one form: a rig with hundreds of cutters has some."""


@dataclass(frozen=True, slots=True)
class Desk:
    """What a page works on. `started`: when these pages were first served; what was written before it was written before a stop."""

    book: Book
    now: Clock
    started: datetime


def _desk(request: Request) -> Desk:
    desk = request.app.state.desk
    assert isinstance(desk, Desk)
    return desk


AtDesk = Annotated[Desk, Depends(_desk)]


async def _typed(request: Request) -> dict[str, str]:
    form = await request.form(max_files=1, max_fields=FORM_FIELDS)
    return {name: value for name, value in form.multi_items() if isinstance(value, str)}


TypedForm = Annotated[dict[str, str], Depends(_typed)]
"""The fields of a posted form, as typed."""


def address(*parts: str, **query: object) -> str:
    """A path of this server; empty queries fall away."""
    asked = urlencode({name: str(value) for name, value in query.items() if value not in ("", None)})
    return "/" + "/".join(quote(part, safe="") for part in parts) + (f"?{asked}" if asked else "")


def see(where: str) -> RedirectResponse:
    """Go and look there: the answer to a form that was written."""
    return RedirectResponse(where, status_code=303)


def bench_nav(current: str = "") -> tuple[Link, ...]:
    """The top line outside a job."""
    places = (("bench", "/"), ("ask", "/ask"), ("rigs", "/rigs"), ("book", "/book"), ("help", "/help"))
    return tuple(Link(words, href, words == current) for words, href in places)


def job_nav(name: str, current: str, *, issued: bool = False) -> tuple[Link, ...]:
    """The numbered sheets of a job; it is cut once a plan of it is issued."""
    sheets = [("1 gear", "gear"), ("2 plan", "plan")]
    if issued:
        sheets.append(("4 cut", "cut"))
    sheets.append(("5 inspect", "inspect"))
    return tuple(Link(words, address("jobs", name, sheet), sheet == current) for words, sheet in sheets)


def night_of(request: Request) -> Night:
    """Day or night as kept in the cookie, and the addresses that change it."""
    kept = request.cookies.get(COOKIE, "")
    stands: Literal["", "night", "day"] = "night" if kept == "night" else "day" if kept == "day" else ""
    back = request.url.path + (f"?{request.url.query}" if request.url.query else "")
    to_night, to_day = (address("light", to=to, back=back) for to in ("night", "day"))
    return Night(stands, to_night, to_day)


@cache
def _templates() -> jinja2.Environment:
    return environment(jinja2.PackageLoader("evenpitch.web", "templates"))


def fragment(template: str, **more: Any) -> Markup:
    """A part of a page from a template."""
    return Markup(_templates().get_template(template).render(more))


def sheet(
    request: Request,
    template: str,
    *,
    title: str,
    nav: Sequence[Link],
    cells: Sequence[tuple[str, Markup | str]] = (),
    action: Action | None = None,
    stamp: str = "",
    status: int = 200,
    body_class: str = "",
    mark: str = "evenpitch",
    home: str = "/",
    **more: Any,
) -> HTMLResponse:
    """One page from a template that fills the frame."""
    parts = framing(
        title=title,
        head=Markup(""),
        body=Markup(""),
        cells=cells,
        nav=nav,
        night=night_of(request),
        action=action,
        stamp=stamp,
        body_class=body_class,
        mark=mark,
        home=home,
    )
    return HTMLResponse(_templates().get_template(template).render(parts | more), status_code=status)
