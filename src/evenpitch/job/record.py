"""The cut record as nouns: what is being cut to, and the entries that were written while cutting. Each entry is one deliberate press."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Literal, get_args

from evenpitch.job.standing import Moves
from evenpitch.quantity.refusal import Refusal, refuse

PassName = Literal["scratch", "trial", "rough", "full"]
"""In the order they are cut: lines only; a few spaces to measure on; the whole round roughed; the whole round to full depth."""

PASSES: tuple[PassName, ...] = get_args(PassName)

OrderName = Literal["1, 2, 3", "spread"]
ORDERS: tuple[OrderName, ...] = get_args(OrderName)

Kind = Literal["begin", "cut", "not cut", "wait", "carry on", "count", "closing", "note", "depth", "order", "picked up"]
KINDS: tuple[Kind, ...] = get_args(Kind)

LONGEST_NOTE = 400


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One line of the record. Which fields it has depends on its kind; the others are None.

    `pass_name`: of begin, cut, not cut, closing; `order`, `start`: the order taken up, and the space it starts from;
    `forward`, `back`: spaces counted as cut, and as not cut; `gap`: mm between the first and the last scratch, 0 where they meet;
    `depth`: mm from metal as set; `span`: mm as measured there; `offset`, `u`: seconds of arc of a space picked up again, and its U.
    """

    number: int
    at: datetime
    kind: Kind
    space: int | None = None
    gear: int = 1
    pass_name: PassName | None = None
    order: OrderName | None = None
    start: int | None = None
    forward: int | None = None
    back: int | None = None
    gap: float | None = None
    depth: float | None = None
    span: float | None = None
    offset: float | None = None
    u: float | None = None
    text: str | None = None


_KEYS = {
    "gear": "gear",
    "pass": "pass_name",
    "order": "order",
    "start": "start",
    "forward": "forward",
    "back": "back",
    "gap_mm": "gap",
    "depth_mm": "depth",
    "span_mm": "span",
    "offset_arcsec": "offset",
    "u_arcsec": "u",
    "text": "text",
}
"""Names in the book and in JSON, and the fields they stand for."""


def payload_of(entry: Entry) -> dict[str, object]:
    """What the book keeps of an entry beside number, time, kind and space."""
    held = {key: getattr(entry, field) for key, field in _KEYS.items()}
    return {key: value for key, value in held.items() if value is not None}


def entry_of(number: int, at: datetime, kind: str, space: int | None, payload: Mapping[str, object]) -> Entry:
    """An entry as the book keeps it; a Refusal for a kind or a key that no entry has."""
    if kind not in KINDS:
        raise refuse(
            "entry", kind, f"one of {', '.join(KINDS)}", "Another program has written it.", "Restore a copy of the book."
        )
    strange = [key for key in payload if key not in _KEYS]
    if strange:
        raise refuse("entry", strange[0], f"keys of {', '.join(_KEYS)}", "Another program has written it.", "Restore a copy.")
    fields = {_KEYS[key]: value for key, value in payload.items()}
    return Entry(number=number, at=at, kind=kind, space=space, **fields)  # type: ignore[arg-type]


@dataclass(frozen=True, slots=True)
class PlannedPass:
    """One round, or the trial spaces. `depth`: mm from metal, None for the scratch; `minutes`: of one space, None if not known."""

    name: PassName
    spaces: int
    depth: float | None
    minutes: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cutting:
    """What one gear of an issued plan is cut to. `passes`: those the plan has, scratch first; `gear`: 1, or 2 of a pair."""

    plan: int
    gear: int
    spaces: int
    moves: Moves
    passes: tuple[PlannedPass, ...]
    by_hand: Moves | None = None

    def planned(self, name: PassName) -> PlannedPass:
        """The pass of that name; a Refusal where the plan has none."""
        found = next((one for one in self.passes if one.name == name), None)
        if found is None:
            have = ", ".join(one.name for one in self.passes)
            raise refuse("pass", name, f"one of {have}", f"Plan {self.plan} has no such pass.", "Take one that it has.")
        return found

    def rounds(self) -> tuple[PassName, ...]:
        """The passes that finish the gear: full, or rough and full."""
        return tuple(one.name for one in self.passes if one.name in ("rough", "full"))


def no_such_space(space: object, spaces: int) -> Refusal:
    """A space that the work does not have."""
    return refuse("space", space, f"1 to {spaces}", f"The work has {spaces} spaces.", "Read the number on the ring again.")
