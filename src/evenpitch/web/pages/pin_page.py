"""The PIN: asked of every device but the machine itself, before anything of the book is shown."""

from __future__ import annotations

from collections.abc import Awaitable, Callable

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, JSONResponse, Response

from evenpitch.quantity.refusal import Fault
from evenpitch.sheet.answers import answer
from evenpitch.sheet.frame_html import Action
from evenpitch.web.lan import A_SHIFT, COOKIE, LOOPBACK, Door
from evenpitch.web.pages.light import kept_here
from evenpitch.web.pages.shown import TypedForm, address, see, sheet

router = APIRouter(include_in_schema=False)

Next = Callable[[Request], Awaitable[Response]]

_OPEN = ("/pin", "/static/")


def gate(door: Door) -> Callable[[Request, Next], Awaitable[Response]]:
    """The middleware of a server that other devices may reach: who has not given the PIN is asked for it."""

    async def guarded(request: Request, call_next: Next) -> Response:
        path = request.url.path
        if is_here(request) or path.startswith(_OPEN) or door.knows(request.cookies.get(COOKIE, "")):
            return await call_next(request)
        if path.startswith("/api/"):
            fault = Fault("PIN", "", "the PIN shown at the terminal", "This device has not given it.", "Open /pin here first.")
            return JSONResponse(answer("", refusals=(fault,)), status_code=401)
        back = path if request.method == "GET" else "/"
        return see(address("pin", back=back + (f"?{request.url.query}" if request.url.query and back != "/" else "")))

    return guarded


def is_here(request: Request) -> bool:
    """Whether it comes from the machine itself."""
    return request.client is not None and request.client.host in LOOPBACK


@router.get("/pin")
def ask(request: Request, back: str = "/") -> HTMLResponse:
    """Ask for it."""
    return _page(request, back)


@router.post("/pin")
def give(request: Request, typed: TypedForm) -> Response:
    """Right: a cookie for a shift, and on to where one wanted to go. Wrong: a wait that grows."""
    door, back = request.app.state.door, kept_here(typed.get("back", "/"))
    if door is None:
        return see(back)
    tried = door.try_pin(typed.get("pin", ""))
    if tried == "right":
        made = see(back)
        made.set_cookie(COOKIE, door.cookie(), max_age=A_SHIFT, httponly=True, samesite="strict")
        return made
    wait = f"wait {door.seconds_left()} s, then try again"
    return _page(
        request, back, f"Not this PIN: {wait}." if tried == "wrong" else f"Too soon: {wait}.", 403 if tried == "wrong" else 429
    )


def _page(request: Request, back: str, message: str = "", status: int = 200) -> HTMLResponse:
    return sheet(
        request,
        "pin.html",
        title="PIN",
        nav=(),
        action=Action("COME IN", form="entry"),
        status=status,
        body_class="beside-machine",
        back=kept_here(back),
        message=message,
    )
