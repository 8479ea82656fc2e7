"""Nouns -> the JSON of the commands: the common shape of every answer. What a single command adds is made by its caller."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import Any

from evenpitch import __version__
from evenpitch.quantity.figure import Figure, Value
from evenpitch.quantity.finding import Finding
from evenpitch.quantity.refusal import Fault

DIGITS = 12
"""Significant digits of a value; more would only print the noise of binary arithmetic."""


def value_json(value: Value | bool | None) -> float | int | str | bool | None:
    """A value as JSON holds it: exact ratios as "40/113", whole numbers whole, others to 12 significant digits."""
    if isinstance(value, Fraction):
        return str(value)
    if isinstance(value, float):
        return float(f"{value:.{DIGITS}g}")
    return value


def figure_json(figure: Figure) -> dict[str, Any]:
    """One figure: value, unit, symbol, source; formula, inputs and note where it has them."""
    shown: dict[str, Any] = {
        "value": value_json(figure.value),
        "unit": figure.unit,
        "symbol": figure.symbol,
        "source": list(figure.sources),
    }
    if figure.formula:
        shown["formula"] = figure.formula
    if figure.inputs:
        shown["inputs"] = dict(figure.inputs)
    if figure.note:
        shown["note"] = figure.note
    return shown


def figures_json(figures: Iterable[Figure]) -> dict[str, Any]:
    """Figures by their names in the nomenclature, in the order given."""
    return {figure.name: figure_json(figure) for figure in figures}


def findings_json(findings: Iterable[Finding]) -> list[dict[str, Any]]:
    """Findings in the order given."""
    return [_finding_json(finding) for finding in findings]


def _finding_json(finding: Finding) -> dict[str, Any]:
    shown: dict[str, Any] = {
        "code": finding.code,
        "weight": finding.weight,
        "says": finding.says,
        "why": finding.why,
        "do": finding.do,
        "source": list(finding.sources),
    }
    if finding.about:
        shown["about"] = finding.about
    return shown


def refusals_json(faults: Iterable[Fault]) -> list[dict[str, Any]]:
    """The faults of a refusal in the order found."""
    return [
        {"field": fault.field, "given": fault.given, "expected": fault.expected, "likely": fault.likely, "do": fault.do}
        for fault in faults
    ]


def answer(
    command: str,
    figures: Iterable[Figure] = (),
    findings: Iterable[Finding] = (),
    refusals: Iterable[Fault] = (),
    **more: Any,
) -> dict[str, Any]:
    """The one object a command prints: the common keys, then what the command adds, with its values made fit for JSON."""
    return {
        "evenpitch": __version__,
        "command": command,
        "figures": figures_json(figures),
        "findings": findings_json(findings),
        "refusals": refusals_json(refusals),
        **{key: plain(value) for key, value in more.items()},
    }


def plain(value: Any) -> Any:
    """Any nest of mappings, sequences, figures, findings and numbers as JSON holds it."""
    if isinstance(value, Figure):
        return figure_json(value)
    if isinstance(value, Finding):
        return _finding_json(value)
    if isinstance(value, Mapping):
        return {str(value_json(key) if isinstance(key, Fraction) else key): plain(inner) for key, inner in value.items()}
    if isinstance(value, (list, tuple)):
        return [plain(inner) for inner in value]
    if hasattr(value, "item") and not isinstance(value, (str, bytes)):
        return value_json(value.item())  # a number out of an array
    return value_json(value)


def dumps(shown: Mapping[str, Any]) -> str:
    """The object as text, one key a line, letters as they are; a value that is not a number (nan, inf) is our own fault."""
    return json.dumps(shown, indent=1, ensure_ascii=False, allow_nan=False)
