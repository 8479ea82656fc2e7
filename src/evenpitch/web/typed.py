"""Words typed at the command line, in a form or in a JSON request, read field by field; all faults told at once."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TypeVar

from evenpitch.quantity.read_number import is_unknown
from evenpitch.quantity.refusal import Fault, Refusal
from evenpitch.rig.rig import Rig

Typed = Mapping[str, str]
T = TypeVar("T")
U = TypeVar("U")


class Collected:
    """Faults of several fields, so that all are told at once."""

    def __init__(self) -> None:
        self.faults: list[Fault] = []
        self.refused: set[str] = set()

    def read(self, typed: Typed, field: str, reader: Callable[[str], T], usual: U) -> T | U:
        """The field read, or the usual value where it was left out or not known; a fault is kept and the usual given."""
        text = typed.get(field)
        if text is None or is_unknown(text):
            return usual
        try:
            return reader(text)
        except Refusal as refusal:
            self.faults += refusal.faults
            self.refused.add(field)
            return usual

    def settle(self) -> None:
        """Refuse with all that was found."""
        if self.faults:
            raise Refusal(*self.faults)


def rig_of(rig: bytes | None) -> Rig | None:
    """The rig of a file, or None."""
    if rig is None:
        return None
    from evenpitch.store.files.rig_file import read_rig

    return read_rig(rig).rig
