"""The book: where it is, its copies, and how to take a copy along or a file in."""

from __future__ import annotations

import tempfile
from datetime import datetime
from pathlib import Path

from fastapi import APIRouter, Request, UploadFile
from fastapi.responses import HTMLResponse, RedirectResponse, Response

from evenpitch.quantity.refusal import refuse
from evenpitch.sheet.frame_html import Action
from evenpitch.store.exported import read_exported
from evenpitch.store.where import copies_folder, places
from evenpitch.web.pages.shown import AtDesk, address, bench_nav, see, sheet
from evenpitch.web.taken_in import take_job_text, take_rig_text

router = APIRouter(include_in_schema=False)


@router.get("/book")
def book(request: Request, desk: AtDesk) -> HTMLResponse:
    """Where the book stands and what is in it."""
    path = desk.book.path
    copies = sorted(copies_folder(path).glob("*.sqlite"), reverse=True)
    jobs, rigs = desk.book.jobs(), desk.book.rigs()
    rows = (
        ("the book", str(path)),
        ("its copies, the newest first", str(copies_folder(path))),
        ("the log of our own faults", str(places().log)),
    )
    return sheet(
        request,
        "book.html",
        title="Book",
        nav=bench_nav("book"),
        cells=(("sheet", "book"), ("jobs", str(len(jobs))), ("rigs", str(len(rigs)))),
        action=Action("Take a copy along", "/book/backup"),
        rows=rows,
        copies=[(copy.name, f"{copy.stat().st_size / 1000:.0f} kB") for copy in copies[:12]],
        jobs=[(kept, address("jobs", kept.name, "job.jsonl")) for kept in jobs],
    )


@router.get("/book/backup")
def backup(desk: AtDesk) -> Response:
    """A whole, proved copy of the book as a file."""
    with tempfile.TemporaryDirectory() as folder:
        made = desk.book.backup(Path(folder) / "book.sqlite")
        content = made.read_bytes()
    stamp = f"{desk.now():%Y%m%d-%H%M}"
    headers = {"content-disposition": f'attachment; filename="evenpitch-book-{stamp}.sqlite"'}
    return Response(content, media_type="application/vnd.sqlite3", headers=headers)


@router.post("/book/take-in")
async def take_in(desk: AtDesk, file: UploadFile) -> RedirectResponse:
    """A JOB.toml, a RIG.toml or an exported job into the book."""
    content = await file.read()
    if not content.strip():
        raise refuse(
            "file", file.filename or "", "a file with something in it", "No file was chosen, or it is empty.", "Choose a file."
        )
    return see(_taken(desk, content, Path(file.filename or "").stem, desk.now()))


def _taken(desk: AtDesk, content: bytes, stem: str, at: datetime) -> str:
    if content.lstrip()[:1] == b"{":
        return address("jobs", desk.book.take(read_exported(content), at).name, "plan")
    from evenpitch.web.desk import is_rig

    if is_rig(content):
        return address("rigs", take_rig_text(desk.book, content, at).name)
    return address("jobs", take_job_text(desk.book, content, at, name=stem or None).name, "plan")
