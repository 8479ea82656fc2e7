"""A document as JSON and back, so that an issued sheet can be printed again as it was, whatever a later program would say."""

from __future__ import annotations

import json
from dataclasses import fields, is_dataclass
from fractions import Fraction
from functools import cache
from typing import Any

from evenpitch.quantity import figure, finding
from evenpitch.sheet import document, drawing
from evenpitch.sheet.document import Document

KIND = "is"
"""Key that holds the kind of a noun; no noun has a field of this name."""


@cache
def _nouns() -> dict[str, type[Any]]:
    """Every noun that may stand in a document, by its name."""
    held = {name: value for module in (document, drawing, figure, finding) for name, value in vars(module).items()}
    return {name: value for name, value in held.items() if isinstance(value, type) and is_dataclass(value)}


def kept(pages: tuple[Document, ...]) -> str:
    """The text that stands for these documents in the book."""
    return json.dumps([_plain(page) for page in pages], ensure_ascii=False, separators=(",", ":"), allow_nan=False)


def kept_pages(text: str) -> tuple[Document, ...]:
    """The documents of a text that `kept` wrote; fields that a later edition added have their usual values."""
    return tuple(_noun(page) for page in json.loads(text))


def _plain(value: Any) -> Any:
    if is_dataclass(value) and not isinstance(value, type):
        return {KIND: type(value).__name__} | {field.name: _plain(getattr(value, field.name)) for field in fields(value)}
    if isinstance(value, Fraction):
        return {KIND: "Fraction", "value": str(value)}
    if isinstance(value, (tuple, list)):
        return [_plain(one) for one in value]
    if hasattr(value, "item"):
        return value.item()  # a number out of an array
    return value


def _noun(value: Any) -> Any:
    if isinstance(value, list):
        return tuple(_noun(one) for one in value)
    if not isinstance(value, dict):
        return value
    if value[KIND] == "Fraction":
        return Fraction(value["value"])
    noun = _nouns()[value[KIND]]
    known = {field.name for field in fields(noun)}
    return noun(**{name: _noun(held) for name, held in value.items() if name in known})
