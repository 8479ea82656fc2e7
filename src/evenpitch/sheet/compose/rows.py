"""Figures become the rows of a schedule, in both systems, by the nomenclature."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from evenpitch.quantity.figure import Figure
from evenpitch.quantity.names import name_of
from evenpitch.quantity.showing import System, grouped, mixed_number, show
from evenpitch.sheet.document import Row, Schedule

HEADS: dict[System, tuple[str, str]] = {"metric": ("mm", "in"), "inch": ("in", "mm")}


def trade(word: str) -> str:
    """What people call a figure."""
    return name_of(word).trade


def shown(figure: Figure, system: System = "metric") -> str:
    """A figure as text with its unit."""
    value = figure.value
    if isinstance(value, str):
        return value
    if isinstance(value, Fraction):
        return mixed_number(value)
    if isinstance(value, int) and not figure.unit:
        return grouped(value)
    return show(figure.name, value, system)


def row(figure: Figure, system: System = "metric", words: str = "", *, bare: bool = False) -> Row:
    """One figure; lengths in both systems. `bare`: without units, where the head of the column has them."""
    name = words or trade(figure.name)
    first, second = shown(figure, system), ""
    if figure.unit in ("mm", "mm/min") and not isinstance(figure.value, str):
        second = shown(figure, "inch" if system == "metric" else "metric")
    if bare:
        first, second = (text.removesuffix(" mm").removesuffix(" in") for text in (first, second))
    return Row(name, first, second, figure, flags=())


def schedule(figures: Iterable[Figure], system: System = "metric", words: dict[str, str] | None = None) -> Schedule:
    """Rows of figures whose units stand beside them."""
    named = words or {}
    return Schedule(tuple(row(figure, system, named.get(figure.name, "")) for figure in figures))
