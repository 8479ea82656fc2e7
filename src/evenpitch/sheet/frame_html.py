"""The frame of a page: top line, sheet, notes column, title block with the one main action. Documents and forms share it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any, Literal

import jinja2
from markupsafe import Markup

from evenpitch.sheet.markup import hidden_fields

STYLESHEET = "/static/page.css"

_NONE = Markup("")


@dataclass(frozen=True, slots=True)
class Link:
    """A link of the top line or beneath the heading; `current`: the page one is on."""

    words: str
    href: str
    current: bool = False


@dataclass(frozen=True, slots=True)
class Night:
    """Day or night: "" follows the system. The two addresses keep the other choice; without them no link is printed."""

    stands: Literal["", "night", "day"] = ""
    to_night: str = ""
    to_day: str = ""


SYSTEM = Night()
"""Day or night as the system has it, with no link to change it."""


@dataclass(frozen=True, slots=True)
class Action:
    """The one thing to do next, in the title block. `blocked`: words only, e.g. "2 stops to clear".

    `form`: id of a form it sends; `value`: name and value by which the form knows this press from its others.
    """

    words: str
    href: str = ""
    post: bool = False
    hidden: tuple[tuple[str, str], ...] = ()
    form: str = ""
    blocked: bool = False
    value: tuple[str, str] | None = None


def environment(*loaders: jinja2.BaseLoader) -> jinja2.Environment:
    """Templates with everything escaped: the caller's own first, then those of the sheet ("frame.html" to extend)."""
    own = jinja2.PackageLoader("evenpitch.sheet", "templates")
    return jinja2.Environment(
        loader=jinja2.ChoiceLoader([*loaders, own]),
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        undefined=jinja2.StrictUndefined,
    )


@cache
def _environment() -> jinja2.Environment:
    return environment()


@cache
def page_styles() -> str:
    """The one stylesheet, as text."""
    return lean(resources.files(__package__).joinpath("page.css").read_text(encoding="utf-8"))


def lean(styles: str) -> str:
    """A stylesheet without its remarks and idle space, which a browser does not need and a page has to carry."""
    plain = " ".join(re.sub(r"/\*.*?\*/", "", styles, flags=re.DOTALL).split())
    return re.sub(r" ?([{};,]) ?", r"\1", plain).replace(": ", ":").replace(";}", "}")


def framing(
    *,
    title: str,
    head: Markup,
    body: Markup,
    aside: Markup = _NONE,
    cells: Sequence[tuple[str, Markup | str]] = (),
    nav: Sequence[Link] = (),
    night: Night = SYSTEM,
    action: Action | None = None,
    stamp: str = "",
    mark: str = "evenpitch",
    home: str = "/",
    body_class: str = "",
    inline_styles: bool = False,
) -> dict[str, Any]:
    """What the template "frame.html" is rendered with."""
    return {
        "title": title,
        "head": head,
        "body": body,
        "aside": aside,
        "cells": tuple(cells),
        "nav": tuple(nav),
        "night": night,
        "action": action,
        "stamp": stamp,
        "act": act_html(action, stamp),
        "mark": mark,
        "home": home,
        "body_class": body_class,
        "stylesheet": STYLESHEET,
        "styles": Markup(page_styles()) if inline_styles else "",
    }


def frame(**parts: Any) -> str:
    """A whole page of the parts that `framing` takes."""
    return _environment().get_template("frame.html").render(framing(**parts))


def act_html(action: Action | None, stamp: str = "") -> Markup:
    """The action as a link or a button; a blocked one, or the stamp of a sheet that has none, as words in a broken outline."""
    if action is None:
        return Markup('<p class="act blocked">{}</p>').format(stamp) if stamp else Markup("")
    if action.blocked:
        return Markup('<p class="act blocked">{}</p>').format(action.words)
    if action.form:
        known = Markup("") if action.value is None else Markup(' name="{}" value="{}"').format(*action.value)
        return Markup('<button class="act" form="{}"{}>{}</button>').format(action.form, known, action.words)
    if action.post:
        return Markup('<form method="post" action="{}">{}<button class="act">{}</button></form>').format(
            action.href, hidden_fields(action.hidden), action.words
        )
    return Markup('<a class="act" href="{}">{}</a>').format(action.href, action.words)
