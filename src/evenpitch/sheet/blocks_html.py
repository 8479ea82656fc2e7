"""Blocks -> HTML fragments, for whole documents and for the pages with forms."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby
from typing import assert_never

from markupsafe import Markup

from evenpitch.quantity.finding import Finding
from evenpitch.quantity.refusal import Fault
from evenpitch.sheet.document import (
    Blanks,
    Block,
    Notes,
    Picture,
    Row,
    Schedule,
    Section,
    Steps,
    Table,
    Words,
    Working,
)
from evenpitch.sheet.flags import Flag, beside, flagged
from evenpitch.sheet.markup import cell_words, flag, flags, words
from evenpitch.sheet.print_svg import svg
from evenpitch.sheet.sources_html import origins
from evenpitch.sheet.tables_html import Form, table_html

_NONE = Markup("")


@dataclass(frozen=True, slots=True)
class Setting:
    """What a block needs to know of the page it stands on: the flags there, where a Choose is sent, where sources have their pages."""

    flags: tuple[Flag, ...] = ()
    form: Form | None = None
    sources_at: str = ""


def block_html(block: Block, setting: Setting = Setting()) -> Markup:
    """One block."""
    match block:
        case Words():
            return Markup("<p{}>{}</p>").format(Markup(' class="strong"') if block.strong else "", words(block.text))
        case Schedule():
            return _schedule(block, setting)
        case Table():
            return table_html(block, setting.form)
        case Steps():
            return _steps(block)
        case Notes():
            return notes_html(_own(block, setting.flags), addressed=False)
        case Picture():
            return _picture(block, setting.flags)
        case Working():
            return Markup('<p class="working">{}</p>').format(Markup("<br>").join(block.lines))
        case Blanks():
            return _blanks(block)
        case _:
            assert_never(block)


def blocks_html(blocks: tuple[Block, ...], setting: Setting = Setting()) -> Markup:
    """Blocks in order; neighbouring pictures share a row where there is room."""
    parts = []
    for pictures, several in groupby(blocks, lambda block: isinstance(block, Picture)):
        inner = Markup("").join(block_html(block, setting) for block in several)
        parts.append(Markup('<div class="pics">{}</div>').format(inner) if pictures else inner)
    return Markup("").join(parts)


def section_html(section: Section, setting: Setting = Setting()) -> Markup:
    """A heading under its thick rule and what stands under it."""
    head = Markup("<h2>{}</h2>").format(words(section.heading)) if section.heading else _NONE
    lead = Markup('<p class="lead">{}</p>').format(words(section.lead)) if section.lead else _NONE
    plain = _NONE if section.heading else Markup(' class="plain"')
    return Markup('<section id="{}"{}>{}{}{}</section>').format(
        section.key, plain, head, lead, blocks_html(section.blocks, setting)
    )


def sections_html(sections: tuple[Section, ...], setting: Setting = Setting()) -> Markup:
    """All sections: neighbours of left and right side by side, wide ones across."""
    parts = []
    for wide, several in groupby(sections, lambda section: section.place in ("wide", "notes")):
        group = tuple(several)
        parts.append(_NONE.join(section_html(one, setting) for one in group) if wide else _pair(group, setting))
    return _NONE.join(parts)


def _pair(group: tuple[Section, ...], setting: Setting) -> Markup:
    sides = [_NONE.join(section_html(one, setting) for one in group if one.place == place) for place in ("left", "right")]
    return Markup('<div class="pair"><div>{}</div><div>{}</div></div>').format(*sides)


def notes_html(numbered: tuple[Flag, ...], *, addressed: bool = True) -> Markup:
    """Findings as flag notes: the number in its shape, the weight as a word, what is so, why, and what to do in bold.

    `addressed`: links may lead to them; only once on a page.
    """
    items = [
        Markup('<li{} class="{}">{}<p><b class="weight">{}.</b> {}</p></li>').format(
            _address(one) if addressed else _NONE, one.weight, flag(one, hidden=True), one.weight, _sentences(one)
        )
        for one in numbered
    ]
    return Markup('<ul class="flags">{}</ul>').format(_NONE.join(items)) if items else _NONE


def _address(one: Flag) -> Markup:
    return Markup(' id="flag-{}"').format(one.number)


def _sentences(one: Flag) -> Markup:
    finding = one.finding
    does = Markup("<b>{}</b>").format(finding.do.replace("**", "")) if finding.do else _NONE
    said = [words(text) for text in (finding.says, finding.why) if text]
    return Markup(" ").join([*said, does] if does else said)


def fault_html(fault: Fault, number: int) -> Markup:
    """A refusal at its field, in four labelled lines: what was typed, what was expected, the likely reason, what to do."""
    given = f"{fault.field}: {fault.given}" if fault.given else f"{fault.field}: nothing typed"
    shown = Flag(number, Finding("", "stop", given, fault.likely, fault.do))
    return message_html(shown, expected=fault.expected)


def message_html(one: Flag, *, expected: str = "") -> Markup:
    """A finding at the field it is about: the edge and the ground say its weight."""
    finding = one.finding
    says = Markup('<b class="weight">{}.</b> {}').format(finding.weight, words(finding.says))
    lines = (("what", says), ("expected", words(expected)), ("why", words(finding.why)), ("do", _do(finding.do)))
    rows = _NONE.join(Markup("<dt>{}</dt><dd>{}</dd>").format(label, text) for label, text in lines if text)
    return Markup('<div class="message {}" id="flag-{}">{}<dl>{}</dl></div>').format(
        finding.weight, one.number, flag(one, hidden=True), rows
    )


def _do(text: str) -> Markup:
    return Markup("<b>{}</b>").format(text.replace("**", "")) if text else _NONE


def _own(block: Notes, known: tuple[Flag, ...]) -> tuple[Flag, ...]:
    numbered = tuple(one for one in known if one.finding in block.findings)
    return numbered if len(numbered) == len(block.findings) else flagged(block.findings)


def _schedule(schedule: Schedule, setting: Setting) -> Markup:
    second = any(row.second for row in schedule.rows) or bool(schedule.heads[1])
    heads = schedule.heads if second else schedule.heads[:1]
    head = _NONE
    if any(schedule.heads):
        cells = _NONE.join(Markup('<th scope="col">{}</th>').format(text) for text in heads)
        head = Markup('<thead><tr><th scope="col"><span class="unseen">name</span></th>{}</tr></thead>').format(cells)
    body = _NONE.join(_row(row, second, bool(head), setting.flags) for row in schedule.rows)
    return Markup('<table class="schedule">{}<tbody>{}</tbody></table>{}').format(
        head, body, origins(schedule.rows, setting.sources_at)
    )


def _row(row: Row, second: bool, headed: bool, known: tuple[Flag, ...]) -> Markup:
    """Name, figure, second figure. A figure that stands alone takes the room of both, unless it is short under its head."""
    name = words(row.name) + flags(beside(known, row.flags, row.figure))
    short = Markup(' class="nw"') if len(row.name) <= (26 if second else 34) else _NONE
    first = Markup("<b>{}</b>").format(words(row.first))
    figures = Markup("<td>{}</td>").format(first)
    if second and row.second:
        kept = Markup(' class="nw"') if len(row.second) <= 14 else _NONE
        figures += Markup("<td{}>{}</td>").format(kept, words(row.second))
    elif second and headed and len(row.first) <= 14:
        figures += Markup("<td></td>")
    elif second:
        figures = Markup('<td colspan="2">{}</td>').format(first)
    return Markup('<tr><th scope="row"{}>{}</th>{}</tr>').format(short, name, figures)


def _steps(steps: Steps) -> Markup:
    box = Markup('<span class="box"></span>') if steps.boxes else _NONE
    items = _NONE.join(Markup("<li>{}<span>{}</span></li>").format(box, words(item)) for item in steps.items)
    tag = Markup("ul") if steps.boxes else Markup("ol")
    return Markup('<{} class="steps">{}</{}>').format(tag, items, tag)


def _picture(picture: Picture, known: tuple[Flag, ...]) -> Markup:
    drawing = picture.drawing
    beneath = cell_words(drawing.caption) + flags(beside(known, picture.flags))
    caption = Markup("<figcaption>{}</figcaption>").format(beneath) if beneath else _NONE
    return Markup("<figure>{}{}</figure>").format(Markup(svg(drawing)), caption)


def _blanks(blanks: Blanks) -> Markup:
    line = Markup('<span class="line"></span>')
    single = [Markup("<span>{} {}</span>").format(words(label), line) for label, count in blanks.labels if label and count == 1]
    rows = [Markup('<p class="blanks">{}</p>').format(_NONE.join(single))] if single else []
    for label, count in blanks.labels:
        if not label:
            rows += [Markup('<p class="blanks">{}</p>').format(line)] * count
        elif count > 1:
            rows.append(Markup('<p class="blanks">{} {}</p>').format(words(label), Markup(" ").join([line] * count)))
    return _NONE.join(rows)
