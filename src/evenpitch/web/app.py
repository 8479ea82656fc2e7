"""The application: pages and JSON interface over one book, and what happens when something is refused or goes wrong."""

from __future__ import annotations

from collections.abc import AsyncIterator, Awaitable, Callable
from contextlib import asynccontextmanager
from importlib import resources

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.middleware.gzip import GZipMiddleware
from fastapi.responses import JSONResponse, PlainTextResponse, Response
from starlette.exceptions import HTTPException

from evenpitch import __version__
from evenpitch.quantity.refusal import Fault, Refusal, refuse
from evenpitch.sheet.answers import answer
from evenpitch.sheet.frame_html import lean, page_styles
from evenpitch.store.book import Book
from evenpitch.store.faults import log_fault
from evenpitch.store.where import places
from evenpitch.web.all_pages import Pages
from evenpitch.web.lan import Door
from evenpitch.web.opened import Clock, clock
from evenpitch.web.pages.shown import Desk
from evenpitch.web.security import guard

THIS_MACHINE = frozenset({"127.0.0.1", "localhost"})

DESCRIPTION = (
    "Plans, sizes and records of gear cutting on this machine's own book. Every answer has the shape of the command line's."
)


def make_app(
    book: Book | None = None,
    *,
    now: Clock = clock,
    allowed_hosts: frozenset[str] = THIS_MACHINE,
    door: Door | None = None,
    lan_address: str = "",
) -> FastAPI:
    """The application over `book`, or over the book of this machine, which is then opened here and closed at the end.

    `door`: asks other devices for the PIN; `lan_address`: where they find these pages, for the mark that a camera reads.
    """
    own = book is None
    held = Book.open(places().book, now()) if book is None else book

    @asynccontextmanager
    async def lifespan(_: FastAPI) -> AsyncIterator[None]:
        yield
        if own:
            held.close()

    app = Pages(title="evenpitch", version=__version__, description=DESCRIPTION, docs_url=None, redoc_url=None, lifespan=lifespan)
    app.state.desk = Desk(held, now, now())
    app.add_middleware(GZipMiddleware, minimum_size=1000)
    app.middleware("http")(_told_when_ours)
    app.state.door, app.state.lan_address = door, lan_address
    if door is not None:
        from evenpitch.web.pages.pin_page import gate

        app.middleware("http")(gate(door))
    app.middleware("http")(guard(allowed_hosts))
    app.add_exception_handler(Refusal, _refused)
    app.add_exception_handler(RequestValidationError, _misshapen)
    app.add_exception_handler(HTTPException, _not_here)
    app.add_api_route("/static/{name}", _static, include_in_schema=False)
    return app


def _static(name: str) -> Response:
    """The stylesheets; nothing else is served from a file."""
    if name == "page.css":
        return Response(page_styles(), media_type="text/css")
    if name in ("forms.css", "cut.css"):
        return Response(
            lean(resources.files("evenpitch.web").joinpath("static", name).read_text(encoding="utf-8")), media_type="text/css"
        )
    raise HTTPException(404)


def _is_api(request: Request) -> bool:
    return request.url.path.startswith("/api/")


async def _refused(request: Request, trouble: Exception) -> Response:
    assert isinstance(trouble, Refusal)
    status = status_of(trouble)
    if _is_api(request):
        return JSONResponse(answer(request.url.path.split("/")[2], refusals=trouble.faults), status_code=status)
    return refused_page(request, trouble, status)


def status_of(trouble: Refusal) -> int:
    """404 for a name that the book does not hold, 409 for what was overtaken, 503 for a book that cannot be written, 422 else."""
    expected = trouble.faults[0].expected if trouble.faults else ""
    if expected in (
        "a job in the book",
        "a rig in the book",
        "a plan that was issued",
        "a proof that was kept",
        "an inspection that was kept",
    ):
        return 404
    if expected.startswith("version ") or trouble.faults[0].field == "last entry seen":
        return 409
    return 503 if trouble.faults[0].field == "book" else 422


def refused_page(request: Request, trouble: Refusal, status: int) -> Response:
    """The page of a refusal; what draws it is loaded when there is one."""
    from evenpitch.web.pages import trouble as pages

    return pages.refused_page(request, trouble, status)


async def _misshapen(request: Request, trouble: Exception) -> Response:
    assert isinstance(trouble, RequestValidationError)
    faults = [
        Fault(
            ".".join(map(str, found["loc"])),
            str(found.get("input", ""))[:80],
            str(found["msg"]),
            "The request has another shape.",
            "Read /openapi.json.",
        )
        for found in trouble.errors()
    ]
    return await _refused(request, Refusal(*faults))


async def _not_here(request: Request, trouble: Exception) -> Response:
    assert isinstance(trouble, HTTPException)
    if trouble.status_code != 404:
        return PlainTextResponse(str(trouble.detail), status_code=trouble.status_code, headers=trouble.headers)
    if _is_api(request):
        return JSONResponse(answer("", refusals=(_nowhere(request),)), status_code=404)
    return refused_page(request, Refusal(_nowhere(request)), 404)


def _nowhere(request: Request) -> Fault:
    return refuse(
        "address", request.url.path, "an address of these pages", "Nothing is there.", "Go to the bench and look from there."
    ).faults[0]


async def _told_when_ours(request: Request, call_next: Callable[[Request], Awaitable[Response]]) -> Response:
    """A fault of ours is logged and said as such; nothing is swallowed."""
    try:
        return await call_next(request)
    except Exception:
        where = str(log_fault())
    if _is_api(request):
        fault = Fault("evenpitch", "", "an answer", "This is our own fault, not yours.", f"It is written in {where}.")
        return JSONResponse(answer("", refusals=(fault,)), status_code=500)
    from evenpitch.web.pages.trouble import trouble_page

    return trouble_page(request, where)
