"""What every answer of the server carries, and what every request must show: host, same origin, size."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from urllib.parse import urlsplit

from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response

LARGEST_BODY = 2_000_000
"""Bytes of one request; an exported job of many records fits, a photograph does not."""

LARGEST_LOG_BODY = 4_000_000
"""Bytes of the log of a link: some 60 000 rows with every column."""
LOGS = ("/audit",)
"""How the addresses end that take one."""

HEADERS = {
    "content-security-policy": (
        "default-src 'self'; img-src 'self' data:; object-src 'self'; frame-ancestors 'none'; base-uri 'none'; form-action 'self'"
    ),
    "x-content-type-options": "nosniff",
    "x-frame-options": "DENY",
    "referrer-policy": "same-origin",
    "cache-control": "no-store",
    "cross-origin-opener-policy": "same-origin",
}

Next = Callable[[Request], Awaitable[Response]]


def guard(allowed_hosts: frozenset[str]) -> Callable[[Request, Next], Awaitable[Response]]:
    """The middleware: refuses unknown hosts (a name pointed at this machine from outside), foreign origins, bodies over the bound."""

    async def guarded(request: Request, call_next: Next) -> Response:
        refused = _refusal(request, allowed_hosts)
        response = PlainTextResponse(refused[1], status_code=refused[0]) if refused else await call_next(request)
        for name, value in HEADERS.items():
            response.headers.setdefault(name, value)
        return response

    return guarded


def _refusal(request: Request, allowed_hosts: frozenset[str]) -> tuple[int, str] | None:
    host = request.headers.get("host", "")
    if (urlsplit(f"//{host}").hostname or "") not in allowed_hosts:
        return 421, f"This server answers to {', '.join(sorted(allowed_hosts))}, not to {host[:60]!r}."
    if request.method not in ("GET", "HEAD", "OPTIONS"):
        if not _same_origin(request, host):
            return 403, "A form must come from a page of this server: open the page here and send it again. Nothing was written."
        if "transfer-encoding" in request.headers:
            return 411, "The length of the request must be said beforehand: nothing was read."
    length = request.headers.get("content-length", "0")
    if request.url.path.endswith(LOGS):
        if not length.isdigit() or int(length) > LARGEST_LOG_BODY:
            return 413, (
                f"More than {LARGEST_LOG_BODY // 1_000_000} MB: nothing was read. "
                "Keep every tenth row, or one pass; the command line takes up to 400 000 rows."
            )
    elif not length.isdigit() or int(length) > LARGEST_BODY:
        return 413, f"More than {LARGEST_BODY // 1000} kB: nothing was read. A job or a rig file has a few kB."
    return None


def _same_origin(request: Request, host: str) -> bool:
    """A form comes from a page of this server. A script that is no browser names no page, and then must send JSON:

    a browser always says where a request comes from, and sends JSON to a foreign server only after asking it.
    """
    origin = request.headers.get("origin") or request.headers.get("referer") or ""
    if not origin:
        return request.url.path.startswith("/api/") and request.headers.get("content-type", "").startswith("application/json")
    return urlsplit(origin).netloc == host
