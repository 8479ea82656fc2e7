"""Markup: texts of a document as HTML. Everything is escaped here; nothing else pastes text into a page."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from markupsafe import Markup, escape

from evenpitch.sheet.runs import Run, runs

if TYPE_CHECKING:
    from evenpitch.sheet.document import Verdict
    from evenpitch.sheet.flags import Flag

_BOX = Markup('<span class="box"></span>')
_LINE = Markup('<span class="line"></span>')

_SHAPES = {
    "stop": '<path d="M9.2 1h11.6L29 9.2v11.6L20.8 29H9.2L1 20.8V9.2z"/>',
    "look": '<path d="M15 2.5 28.5 27h-27z"/>',
    "note": '<circle cx="15" cy="15" r="13"/>',
}
_FOOT = {"stop": 21, "look": 24, "note": 21}

_SIGNS: dict[Verdict, tuple[str, str]] = {
    "pass": ("pass", "M2 9l4 5 9-11"),
    "not proven": ("doubt", "M1 10q4-7 8 -1t8-3"),
    "fail": ("fail", "M3 3l12 12m0-12L3 15"),
}


def words(text: str) -> Markup:
    """A text with its bold, boxes and lines; a newline breaks the line."""
    lines = [Markup("").join(map(_run, runs(line))) for line in text.split("\n")]
    return Markup("<br>").join(lines)


def cell_words(text: str) -> Markup:
    """A cell: its first line, and what stands beneath it softer."""
    first, *rest = text.split("\n")
    return words(first) + Markup("").join(Markup('<span class="second">{}</span>').format(words(line)) for line in rest)


def _run(run: Run) -> Markup:
    if run.kind == "box":
        return _BOX
    if run.kind == "line":
        return _LINE
    return Markup("<b>{}</b>").format(run.text) if run.kind == "bold" else escape(run.text)


def flag(one: Flag, *, hidden: bool = False) -> Markup:
    """The flag of a finding: its shape and number. `hidden` where its name is printed in words beside it."""
    name = Markup(' aria-hidden="true"') if hidden else Markup(' role="img" aria-label="{}"').format(one.name)
    return Markup('<svg class="flag {}" viewBox="0 0 30 30"{}>{}<text x="15" y="{}">{}</text></svg>').format(
        one.weight, name, Markup(_SHAPES[one.weight]), _FOOT[one.weight], one.number
    )


def flags(several: tuple[Flag, ...]) -> Markup:
    """Flags beside a figure, in the order of their numbers."""
    return Markup("").join(Markup(" ") + flag(one) for one in several)


def bare_flag(weight: str) -> Markup:
    """A flag without a number, for a list of jobs: the words beside it say how many."""
    return Markup('<svg class="flag {}" viewBox="0 0 30 30" aria-hidden="true">{}</svg>').format(weight, Markup(_SHAPES[weight]))


def verdict(verdict: Verdict, said: Markup | str) -> Markup:
    """Sign and word together."""
    name, course = _SIGNS[verdict]
    return Markup('<span class="verdict {}"><svg viewBox="0 0 18 18" aria-hidden="true"><path d="{}"/></svg>{}</span>').format(
        name, course, said
    )


def hidden_fields(fields: Sequence[tuple[str, str]]) -> Markup:
    """Fields that go with a form unseen."""
    return Markup("").join(Markup('<input type="hidden" name="{}" value="{}">').format(*field) for field in fields)
