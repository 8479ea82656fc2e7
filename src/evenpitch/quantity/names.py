"""The nomenclature: one word, one symbol, one unit for every figure and every field; forms, help, sheets and JSON read it from here."""

from __future__ import annotations

from functools import cache

from evenpitch.quantity.field_names import FieldName, field_table
from evenpitch.quantity.figure_names import FIGURES, Name

__all__ = ["FieldName", "Name", "all_names", "field_named", "fields", "name_of"]


@cache
def _by_word() -> dict[str, Name]:
    return {name.word: name for name in FIGURES}


def name_of(word: str) -> Name:
    """The name of a figure, by its word in JSON: "pitch_diameter". KeyError if it is not in the nomenclature."""
    return _by_word()[word]


def all_names() -> tuple[Name, ...]:
    """Every figure of the nomenclature, in the order of the contract."""
    return FIGURES


def fields(table: str | None = None) -> tuple[FieldName, ...]:
    """The input fields of one table of a job or rig file ("gear", "head", "link" ...), or all of them."""
    return tuple(field for field in field_table() if table is None or field.table == table)


@cache
def _by_place() -> dict[tuple[str, str], FieldName]:
    return {(field.table, field.word): field for field in field_table()}


def field_named(table: str, word: str) -> FieldName:
    """One input field: field_named("gear", "teeth"). KeyError if there is none."""
    return _by_place()[table, word]
