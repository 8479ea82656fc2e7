"""Record on a formula where it comes from, without wrapping it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, TypeVar

F = TypeVar("F", bound=Callable[..., Any])

_ATTRIBUTE = "__citation__"


@dataclass(frozen=True, slots=True)
class Citation:
    """What a formula stands on: keys of library.toml, each perhaps followed by ", clause or page"; and the equation as text."""

    sources: tuple[str, ...]
    formula: str


_NONE = Citation((), "")


def cites(*sources: str, formula: str = "") -> Callable[[F], F]:
    """Mark a function with its sources and its equation; the function itself stays as it is."""

    def mark(function: F) -> F:
        setattr(function, _ATTRIBUTE, Citation(sources, formula))
        return function

    return mark


def citation_of(function: Callable[..., Any]) -> Citation:
    """The citation that `cites` left on a function; an empty one where there is none."""
    found = getattr(function, _ATTRIBUTE, _NONE)
    return found if isinstance(found, Citation) else _NONE
