"""The fields of a press, as a form sends them, read as what an entry holds."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from evenpitch.job.record import LONGEST_NOTE, Kind
from evenpitch.quantity.read_length import read_length
from evenpitch.quantity.refusal import refuse
from evenpitch.web.typed import Collected

_LENGTHS = {"gap": "gap", "depth": "depth", "span": "span"}
_WORDS = {"pass": "pass_name", "order": "order"}
_COUNTS = {"space": "space", "forward": "forward", "back": "back", "start": "start"}

_OF: dict[Kind, tuple[str, ...]] = {
    "begin": ("pass", "order"),
    "cut": ("space", "pass"),
    "not cut": ("space", "pass"),
    "wait": (),
    "carry on": (),
    "count": ("forward", "back"),
    "closing": ("gap",),
    "note": ("text",),
    "depth": ("depth", "span", "text"),
    "order": ("order", "start"),
    "picked up": (),
}
"""What each kind of entry may be sent with."""


def fields_of(kind: Kind, typed: Mapping[str, str]) -> dict[str, Any]:
    """Fields of one kind of entry; all that cannot be read is refused at once. Lengths take any unit; bare ones are millimetres."""
    collected = Collected()
    found: dict[str, Any] = {}
    for name in _OF[kind]:
        text = typed.get(name, "").strip()
        if not text:
            continue
        if name in _LENGTHS:
            found[_LENGTHS[name]] = collected.read(typed, name, lambda words, name=name: _length(words, name), None)  # type: ignore[misc]
        elif name in _COUNTS:
            found[_COUNTS[name]] = collected.read(typed, name, lambda words, name=name: _count(words, name), None)  # type: ignore[misc]
        elif name in _WORDS:
            found[_WORDS[name]] = text
        else:
            found["text"] = collected.read(typed, name, _note, None)
    collected.settle()
    return found


def _length(words: str, name: str) -> float:
    return float(read_length(words, field=name))


def _count(words: str, name: str) -> int:
    text = words.strip()
    if not text.isascii() or not text.isdigit() or len(text) > 6:
        raise refuse(name, words, "a whole number from 0", "A letter or a sign slipped in.", "Type the number counted.")
    return int(text)


def _note(words: str) -> str:
    text = " ".join(words.split())
    if len(text) > LONGEST_NOTE:
        raise refuse("text", f"{len(text)} letters", f"at most {LONGEST_NOTE}", "", "Write the rest as a second note.")
    return text
