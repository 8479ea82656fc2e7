"""Help: the papers of the repository, the words of the trade, everything a plan may say."""

from __future__ import annotations

import re
from typing import Annotated, Any

from fastapi import APIRouter, HTTPException, Query, Request
from fastapi.responses import HTMLResponse, Response
from markupsafe import Markup, escape

from evenpitch.job.findings import EVERY_KIND
from evenpitch.quantity.finding import WEIGHTS, Weight
from evenpitch.quantity.glossary import GLOSSARY
from evenpitch.sheet.document import Picture
from evenpitch.sheet.drawings.key_to_pictures import key_to_fillings, key_to_lines
from evenpitch.sheet.frame_html import Action
from evenpitch.sheet.markup import bare_flag
from evenpitch.sheet.print_html import block_html
from evenpitch.web.docs import Paper, names, paper, pictures
from evenpitch.web.pages.shown import address, bench_nav, sheet
from evenpitch.web.pages.sources_page import source_link

router = APIRouter(include_in_schema=False)

ABOUT = {
    "first-gear": ("Your first gear", "From four numbers to a sheet on the wall, in five minutes."),
    "prove-the-rig": ("Prove the rig", "Scale, head and link: how good they are, before metal is cut."),
    "before-and-after": ("Before and after the cut", "What the rig will leave, a pass tried, a log audited."),
    "at-the-machine": ("At the machine", "One press a space; corrections, counts, coming back after a stop."),
    "inspect": ("Inspect and judge", "What to read, the verdict, why, what can be saved, and what is kept."),
    "where-things-are": ("Where things are", "The book, its copies; back up, restore, upgrade, uninstall."),
    "pictures": ("How to read the pictures", "Six lines, five fillings, three flags."),
    "nomenclature": ("Nomenclature", "Every figure: its name, symbol, unit."),
    "commands": ("Commands", "The same answers at the command line."),
    "trust": ("Trust", "Printed figures beside ours, and why some differ."),
    "changelog": ("What changed", "Edition by edition."),
}
"""The papers in the order they are offered."""
FROM_CODE = (
    ("/help/words", "Words of the trade", "Each in a sentence, with where the word is from."),
    ("/help/findings", "What may have to be said", "Every stop, look and note: what is so, why, what to do."),
    ("/sources", "Sources", "Every source, how it is held, and what was taken from it."),
)
MEDIA = {".png": "image/png", ".svg": "image/svg+xml"}


@router.get("/help")
def help_list(request: Request) -> HTMLResponse:
    """What there is to read."""
    there = names()
    papers = [(address("help", name), title, says) for name, (title, says) in ABOUT.items() if name in there]
    return _sheet(request, "help.html", "Help", papers=papers, from_code=FROM_CODE, absent=not there)


@router.get("/help/words")
def words(request: Request) -> HTMLResponse:
    """The glossary, in the order of the alphabet."""
    terms = [
        (term.term, term.meaning, source_link(term.source)) for term in sorted(GLOSSARY, key=lambda term: term.term.casefold())
    ]
    return _sheet(request, "words.html", "Words of the trade", terms=terms)


@router.get("/help/findings")
def findings(request: Request, weight: Weight = "stop") -> HTMLResponse:
    """Every finding of one weight; together they are too long for one page."""
    rows = [
        (code, _blanks(kind.says), _blanks(kind.why), _blanks(kind.do), Markup("; ").join(map(source_link, kind.sources)))
        for code, kind in EVERY_KIND.items()
        if kind.weight == weight
    ]
    kinds = [(one, bare_flag(one), sum(kind.weight == one for kind in EVERY_KIND.values())) for one in WEIGHTS]
    return _sheet(request, "findings.html", "What may have to be said", kinds=kinds, shown=weight, rows=rows)


def _blanks(text: str) -> Markup:
    """A text with its places to fill named in italics: "{limit:.1f}" is the limit."""
    parts = re.split(r"\{(\w*)[^{}]*\}", text)
    return Markup("").join(
        Markup("<i>{}</i>").format(part.replace("_", " ")) if at % 2 else escape(part) for at, part in enumerate(parts)
    )


@router.get("/help/pictures/{name}")
def picture(name: str) -> Response:
    """A picture of a paper."""
    there = pictures()
    if name not in there:
        raise HTTPException(404)
    return Response(there[name].read_bytes(), media_type=MEDIA[there[name].suffix])


@router.get("/help/{name}")
def show_paper(request: Request, name: str, part: Annotated[int, Query(ge=1, le=1000)] = 1) -> HTMLResponse:
    """One paper, a long one part by part."""
    try:
        found = paper(name)
    except KeyError:
        raise HTTPException(404) from None
    at = min(part, len(found.parts))
    shown = (found.parts[at - 1],) if found.long else found.parts
    drawn = (key_to_lines(), key_to_fillings()) if name == "pictures" else ()
    pictured = Markup("").join(Markup(block_html(Picture(one))) for one in drawn)
    return _sheet(request, "paper.html", found.title, parts=shown, others=_others(found, at), pictured=pictured)


def _others(found: Paper, at: int) -> list[tuple[str, str, bool]]:
    """The parts of a long paper: address, heading, whether it is the one shown."""
    if not found.long:
        return []
    return [
        (address("help", found.name, part=number), part.heading or "In short", number == at)
        for number, part in enumerate(found.parts, 1)
    ]


def _sheet(request: Request, template: str, heading: str, **more: Any) -> HTMLResponse:
    return sheet(
        request,
        template,
        title=heading,
        nav=bench_nav("help"),
        cells=(("sheet", "help"), ("page", heading)),
        action=Action("To the bench", "/"),
        heading=heading,
        **more,
    )
