"""Day or night, kept in a cookie; a link, so that it works with script off."""

from __future__ import annotations

from fastapi import APIRouter
from fastapi.responses import RedirectResponse

from evenpitch.web.pages.shown import COOKIE, see

router = APIRouter(include_in_schema=False)

A_YEAR = 365 * 24 * 3600


def kept_here(back: str) -> str:
    """An address to go back to, where it is one of this server; else the bench."""
    here = back.startswith("/") and not back.startswith(("//", "/\\")) and back.isprintable()
    return back if here else "/"


@router.get("/light")
def light(to: str = "day", back: str = "/") -> RedirectResponse:
    """Keep the choice, and go back to where one was; only to a page of this server."""
    answer = see(kept_here(back))
    if to in ("day", "night"):
        answer.set_cookie(COOKIE, to, max_age=A_YEAR, httponly=True, samesite="lax")
    return answer
