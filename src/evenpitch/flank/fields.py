"""Reading the fields of a plain dictionary: every fault is collected, none stops the reading."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Any

from evenpitch.quantity.refusal import Fault


class Fields:
    """One object of a case under its name. Fields asked for are struck off; `finish` reports those nobody asked for."""

    def __init__(self, given: object, name: str, faults: list[Fault]) -> None:
        self._name = name
        self.faults = faults
        if not isinstance(given, Mapping):
            self.fault("", given, "an object of named values", "", "Write it as { ... }.")
            given = {}
        self._left: dict[str, Any] = dict(given)

    def fault(self, field: str, given: object, expected: str, likely: str, do: str) -> None:
        """Note one fault of a field of this object."""
        where = ", ".join(part for part in (self._name, field) if part)
        self.faults.append(Fault(where, str(given)[:80], expected, likely, do))

    def has(self, field: str) -> bool:
        """Whether the field was given and not yet read."""
        return field in self._left

    def take(self, field: str, usual: Any = None) -> Any:
        """The raw value, or the usual one."""
        return self._left.pop(field, usual)

    def number(
        self, field: str, usual: float | None = None, least: float = -math.inf, most: float = math.inf, *, above: bool = False
    ) -> float:
        """A number from least to most (`above`: least itself is out). Without a usual value it is needed; a fault gives a safe stand-in."""
        stand_in = usual if usual is not None else (most if math.isinf(least) else least)
        if field not in self._left:
            if usual is None:
                self.fault(field, "nothing", _range(least, most, above), "It is missing.", "Add it.")
            return stand_in if math.isfinite(stand_in) else 0.0
        value = self._left.pop(field)
        if isinstance(value, bool) or not isinstance(value, (int, float)) or not math.isfinite(value):
            self.fault(
                field,
                value,
                f"a number, {_range(least, most, above)}",
                "",
                "Write a bare number in the unit of the field's name.",
            )
        elif value < least or value > most or (above and value == least):
            self.fault(field, f"{value:g}", _range(least, most, above), "Another unit or a slip of the sign?", "Check the value.")
        else:
            return float(value)
        return stand_in if math.isfinite(stand_in) else 0.0

    def whole(self, field: str, usual: int | None = None, least: int = 0, most: int = 1_000_000) -> int:
        """A whole number from least to most."""
        value = self._left.get(field)
        if isinstance(value, float) and math.isfinite(value) and value != int(value):
            self._left.pop(field)
            self.fault(field, f"{value:g}", f"a whole number from {least} to {most}", "", "Count again.")
            return usual if usual is not None else least
        return int(self.number(field, usual, least, most))

    def numbers(self, field: str) -> tuple[float, ...]:
        """A list of numbers; empty when not given or faulty."""
        value = self._left.pop(field, ())
        if isinstance(value, (str, bytes)) or not isinstance(value, Sequence) or not all(map(_is_number, value)):
            self.fault(field, value, "a list of numbers", "", "Write it as [1.0, 2.0, ...].")
            return ()
        return tuple(float(one) for one in value)

    def word(self, field: str, among: tuple[str, ...]) -> str:
        """One of the words allowed."""
        value = self._left.pop(field, None)
        if value not in among:
            self.fault(field, value if value is not None else "nothing", "one of " + ", ".join(among), "", "Choose one of them.")
            return ""
        return str(value)

    def finish(self) -> None:
        """Report what was given but is not known."""
        for field in self._left:
            self.fault(str(field), self._left[field], "no such field here", "Misspelt, or meant for another part?", "Remove it.")


def _is_number(value: object) -> bool:
    return not isinstance(value, bool) and isinstance(value, (int, float)) and math.isfinite(value)


def _range(least: float, most: float, above: bool) -> str:
    """The range in words."""
    if math.isinf(least) and math.isinf(most):
        return "a number"
    low = "" if math.isinf(least) else f"{'more than' if above else 'from'} {least:g}"
    high = "" if math.isinf(most) else f"{'and ' if above and low else ''}{'to' if low and not above else 'at most'} {most:g}"
    return " ".join(part for part in (low, high) if part)
