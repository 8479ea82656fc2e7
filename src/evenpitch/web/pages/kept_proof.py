"""Proofs as they were kept: the sheet of one, its paper, what was typed for it; and the sheet to fill in by pencil."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import datetime
from typing import Annotated

from fastapi import APIRouter, Query, Request
from fastapi.responses import HTMLResponse, Response

from evenpitch.quantity.refusal import Refusal
from evenpitch.sheet.document import Paper
from evenpitch.sheet.frame_html import Action, Link
from evenpitch.sheet.kept_document import kept_pages
from evenpitch.sheet.print_html import page
from evenpitch.store.files.rig_file import read_rig
from evenpitch.store.kept import KeptProof
from evenpitch.web.pages.shown import AtDesk, Desk, address, bench_nav, night_of
from evenpitch.web.papers import pdf

router = APIRouter(include_in_schema=False)

PDF = "application/pdf"
WORDS = {"mounting": "mounting proven", "scale": "scale calibrated", "head": "head measured", "link": "link proven"}
PAGES = {"mounting": "prove", "link": "prove", "scale": "scale", "head": "head"}
"""The page on which a proof of each kind is made."""


@router.get("/rigs/{name:path}/proofs/{number}")
def show_proof(request: Request, desk: AtDesk, name: str, number: int) -> HTMLResponse:
    """One proof as it was kept."""
    proof = desk.book.proof(name, number)
    (document,) = kept_pages(proof.document)
    links = (
        Link("the rig", address("rigs", name)),
        Link("readings as typed", address("rigs", name, "proofs", str(number), "readings.csv")),
        Link("begin again from it", address("rigs", name, PAGES[proof.kind], **{"from": number})),
        *((Link("plan of the job", address("jobs", proof.job, "plan")),) if proof.job else ()),
    )
    return HTMLResponse(
        page(
            document,
            nav=bench_nav("rigs"),
            night=night_of(request),
            action=Action("Print this proof", address("rigs", name, "proofs", str(number), "proof.pdf")),
            head_links=links,
        )
    )


@router.get("/rigs/{name:path}/proofs/{number}/proof.pdf")
def proof_pdf(desk: AtDesk, name: str, number: int, paper: Annotated[Paper | None, Query()] = None) -> Response:
    """The same on paper."""
    (document,) = kept_pages(desk.book.proof(name, number).document)
    return Response(pdf(replace(document, paper=paper or document.paper)), media_type=PDF, headers=named(f"proof {number}.pdf"))


@router.get("/rigs/{name:path}/proofs/{number}/readings.csv")
def proof_readings(desk: AtDesk, name: str, number: int) -> Response:
    """What was typed, as it was typed: the table, and before it the fields as remarks."""
    typed = desk.book.proof(name, number).typed
    fields = [f"# {field}: {text}" for field, text in typed.items() if field != "readings"]
    text = "\n".join([*fields, typed.get("readings", "").strip()]).strip() + "\n"
    return Response(text, media_type="text/csv; charset=utf-8", headers=named(f"proof {number}.csv", keep=True))


@router.get("/rigs/{name:path}/prove.pdf")
def proving_sheet(desk: AtDesk, name: str, job: str = "", paper: Annotated[Paper, Query()] = "a4") -> Response:
    """The sheet to fill in at the machine; with a helical job also what its link must turn."""
    from evenpitch.web.prove_answer import sheet_answer

    work = desk.book.job(job).text.encode() if job else None
    made = sheet_answer(desk.book.rig(name).text.encode(), work, paper)
    return Response(made.files["pdf"](), media_type=PDF, headers=named("prove the rig.pdf"))


@router.get("/rigs/{name:path}/head.pdf")
def head_sheet(desk: AtDesk, name: str, paper: Annotated[Paper, Query()] = "a4") -> Response:
    """The sheet of the head, to fill in at the machine."""
    from evenpitch.sheet.compose.proving_sheet import head_sheet as composed

    document = composed(read_rig(desk.book.rig(name).text).rig, paper)
    return Response(pdf(document), media_type=PDF, headers=named("know the head.pdf"))


def named(name: str, *, keep: bool = False) -> dict[str, str]:
    """The name under which a browser keeps a file; `keep`: it is kept, not shown."""
    return {"content-disposition": f'{"attachment" if keep else "inline"}; filename="{name}"'}


def long_day(at: datetime) -> str:
    """A day as it is spoken."""
    here = at.astimezone()
    return f"{here.day} {here:%B %Y}"


def typed_before(desk: Desk, name: str, number: int | None) -> Mapping[str, str]:
    """What was typed for an earlier proof, to begin again from; nothing where there is none of that number."""
    if number is None:
        return {}
    try:
        return desk.book.proof(name, number).typed
    except Refusal:
        return {}


def proof_line(proof: KeptProof) -> str:
    """One proof in one line: "3: link proven on B, 12 March 2026"."""
    on = f" on {proof.job}" if proof.job else ""
    return f"{proof.number}: {WORDS[proof.kind]}{on}, {long_day(proof.date)}"
