"""Document -> HTML: a whole page, a fragment for a page with forms, or one file that stands alone."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from markupsafe import Markup

from evenpitch.sheet import blocks_html
from evenpitch.sheet.blocks_html import Setting, notes_html, sections_html
from evenpitch.sheet.document import Block, Cell, Document, KeyFigure, Section
from evenpitch.sheet.flags import Flag, beside, counted, flagged
from evenpitch.sheet.frame_html import SYSTEM, Action, Link, Night, frame
from evenpitch.sheet.markup import flag, flags, verdict, words
from evenpitch.sheet.runs import unmarked
from evenpitch.sheet.tables_html import Form

_NONE = Markup("")

SOURCES = "/sources/"
"""Where a served page has the page of each source."""


def page(
    document: Document,
    *,
    nav: Sequence[Link] = (),
    night: Night = SYSTEM,
    action: Action | None = None,
    head_links: Sequence[Link] = (),
    form: Form | None = None,
    home: str = "/",
    after: Markup = _NONE,
) -> str:
    """The document as a whole page. `head_links` stand beneath the heading; `form` is where the Choose buttons are sent.

    `after`: what belongs to the served page and not to the document, under its last section.
    """
    shown = parts(document, links=head_links, form=form, sources_at=SOURCES)
    shown["body"] += after
    return frame(**shown, nav=nav, night=night, action=action, stamp=document.stamp, home=home)


def standalone(document: Document) -> str:
    """The document as one file with its styles inside, to keep or to send."""
    return frame(**parts(document), stamp=document.stamp, home="#main", inline_styles=True)


def block_html(block: Block, flags: tuple[Flag, ...] = (), form: Form | None = None) -> str:
    """One block as a fragment."""
    return str(blocks_html.block_html(block, Setting(flags, form)))


def parts(
    document: Document,
    *,
    links: Sequence[Link] = (),
    form: Form | None = None,
    under: Markup = _NONE,
    sources_at: str = "",
) -> dict[str, Any]:
    """What a frame needs of a document: title, head, aside, body, cells. `under`: stands beneath the heading, before the key figures.

    `sources_at`: where each source has its page; "" where there is no server to ask.
    """
    numbered = flagged(document.findings)
    setting = Setting(numbered, form, sources_at)
    aside = tuple(section for section in document.sections if section.place == "notes")
    sheet = tuple(section for section in document.sections if section.place != "notes")
    return {
        "title": unmarked(document.title),
        "head": head_html(document, numbered, links, under),
        "aside": _notes(numbered) + sections_html(aside, setting),
        "body": sections_html(sheet, setting),
        "cells": _cells(document, numbered),
    }


def head_html(document: Document, numbered: tuple[Flag, ...], links: Sequence[Link] = (), under: Markup = _NONE) -> Markup:
    """Heading, the sentence beneath it, what else stands `under` it, the strip of key figures, and the line of jumps."""
    lead = Markup('<p class="lead">{}</p>').format(words(document.lead)) if document.lead else _NONE
    keys = _NONE.join(_key(key, numbered) for key in document.keys)
    strip = Markup('<dl class="keys">{}</dl>').format(keys) if keys else _NONE
    return Markup("<h1>{}</h1>{}{}{}{}").format(
        words(document.title), lead, under, strip, _jumps(document.sections, numbered, links)
    )


def _key(key: KeyFigure, numbered: tuple[Flag, ...]) -> Markup:
    unit = Markup(" <small>{}</small>").format(key.unit) if key.unit else _NONE
    beneath = words(key.second) + flags(beside(numbered, key.flags))
    second = Markup("<dd>{}</dd>").format(beneath) if beneath else _NONE
    return Markup("<div><dt>{}</dt><dd><b>{}</b>{}</dd>{}</div>").format(key.label, key.value, unit, second)


def _jumps(sections: tuple[Section, ...], numbered: tuple[Flag, ...], links: Sequence[Link]) -> Markup:
    headed = [section for section in sections if section.heading]
    jumps = [Link(section.key.replace("-", " "), f"#{section.key}") for section in headed] if len(headed) > 2 else []
    anchors = [Markup('<a href="{}">{}</a>').format(link.href, link.words) for link in (*jumps, *links)]
    if numbered:
        to_notes = Markup('<span class="to-notes">{} <a href="#flag-1">{}</a></span>')
        anchors.insert(0, to_notes.format(flag(numbered[0], hidden=True), counted(numbered)))
    return Markup('<nav class="jumps" aria-label="on this sheet">{}</nav>').format(_NONE.join(anchors)) if anchors else _NONE


def _notes(numbered: tuple[Flag, ...]) -> Markup:
    return Markup("<h2>Notes</h2>{}").format(notes_html(numbered)) if numbered else _NONE


def _cells(document: Document, numbered: tuple[Flag, ...]) -> list[tuple[str, Markup]]:
    """The cells of the title block; what is still open, stops and looks, is counted in the last of them."""
    cells = [(cell.label, _value(cell)) for cell in document.cells]
    still_open = tuple(one for one in numbered if one.weight != "note")
    return [*cells, ("still open", flags(still_open))] if still_open else cells


def _value(cell: Cell) -> Markup:
    return verdict(cell.verdict, words(cell.value)) if cell.verdict else words(cell.value)
