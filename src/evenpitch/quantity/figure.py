"""Figure: a number that can explain itself on the page, the sheet and in JSON."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from evenpitch.sources.citations import citation_of

Value = float | int | Fraction | str


@dataclass(frozen=True, slots=True)
class Figure:
    """A value under its name in the nomenclature, with the formula, inputs and sources it came from.

    `value` is in `unit` (one of the units of interface.md: mm, deg, arcsec, um, rpm, mm/min, N, Nm, s, ppm, or "" for a bare
    number); exact ratios are Fractions. `inputs` are (name, value as text). `note` is what the reader must know, or "".
    """

    name: str
    value: Value
    unit: str = ""
    symbol: str = ""
    formula: str = ""
    inputs: tuple[tuple[str, str], ...] = ()
    sources: tuple[str, ...] = ()
    note: str = ""


def figure(
    name: str,
    value: Value,
    unit: str = "",
    *,
    by: Callable[..., Any] | None = None,
    symbol: str = "",
    inputs: tuple[tuple[str, str], ...] = (),
    sources: tuple[str, ...] = (),
    note: str = "",
) -> Figure:
    """A Figure whose formula and sources are those recorded on the function `by` that gave the value."""
    found = citation_of(by) if by is not None else None
    return Figure(
        name=name,
        value=value,
        unit=unit,
        symbol=symbol,
        formula=found.formula if found else "",
        inputs=inputs,
        sources=sources or (found.sources if found else ()),
        note=note,
    )
