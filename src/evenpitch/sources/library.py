"""The bibliography: every source that a citation may name, with how it is held."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Literal

Held = Literal["text read", "quoted second-hand", "from memory", "common practice", "derived here"]


@dataclass(frozen=True, slots=True)
class Source:
    """One work. `held` says how far a reader may lean on what we took from it."""

    key: str
    title: str
    publisher: str
    year: str
    held: Held
    note: str = ""


@cache
def library() -> dict[str, Source]:
    """All sources by key, in the order of the file."""
    text = resources.files(__package__).joinpath("library.toml").read_text(encoding="utf-8")
    return {key: Source(key=key, **entry) for key, entry in tomllib.loads(text).items()}


def source_named(citation: str) -> Source:
    """The source a citation names: its text is a key, or a key followed by ", " and the clause or page. KeyError if unknown."""
    key = citation
    while key not in library():
        key, comma, _ = key.rpartition(", ")
        if not comma:
            raise KeyError(citation)
    return library()[key]
