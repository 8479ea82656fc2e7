"""The application with its pages: those of the start at once, the rest once the first page stands or as soon as one is asked for.

Loading them all takes longer than the first page may take to come; nothing else tells the two apart.
"""

from __future__ import annotations

from importlib import import_module
from threading import Lock
from typing import Any

from fastapi import FastAPI
from starlette.concurrency import run_in_threadpool
from starlette.types import Receive, Scope, Send

AT_START = ("pages.bench", "pages.light")
LATER = (
    "pages.pin_page", "pages.book_page",
    "pages.job_form", "pages.cutters_page", "pages.predict_page", "pages.simulate_page", "pages.audit_page", "pages.cut_page",
    "pages.kept_inspection", "pages.inspect_page", "pages.pick_up_page",
    "pages.plan_page", "pages.rig_form", "pages.prove_page", "pages.readings_page", "pages.kept_proof", "pages.reading_page",
    "pages.rig_page", "pages.ask_page", "pages.charts_page", "pages.help_page", "pages.sources_page",
    "api", "api_cut", "api_inspect", "api_jobs", "api_link",
)  # fmt: skip
"""In the order in which addresses are tried: what takes any name stands after what takes one word of it."""


class Pages(FastAPI):
    """FastAPI whose pages are loaded in two parts; its own description is of the whole."""

    def __init__(self, **settings: Any) -> None:
        super().__init__(**settings)
        self._loading, self._whole = Lock(), False
        self._nowhere = self.router.default
        self.router.default = self._not_yet
        self._include(AT_START)

    def _include(self, names: tuple[str, ...]) -> None:
        for page in [import_module(f"evenpitch.web.{name}") for name in names]:
            self.include_router(page.router)

    def load_rest(self) -> None:
        """The pages beyond the first, once."""
        with self._loading:
            if not self._whole:
                self._include(LATER)
                self._whole = True

    async def _not_yet(self, scope: Scope, receive: Receive, send: Send) -> None:
        """An address that no page loaded so far answers."""
        if self._whole or scope["type"] != "http":
            await self._nowhere(scope, receive, send)
        else:
            await run_in_threadpool(self.load_rest)
            await self.router(scope, receive, send)

    def openapi(self) -> dict[str, Any]:
        """The description of the JSON interface."""
        self.load_rest()
        return super().openapi()
