"""A file's text or a form's fields, as nested tables of what was typed; and back to flat paths."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping
from typing import Any

from evenpitch.quantity.refusal import Fault, Refusal, refuse

LARGEST = 1_000_000
"""Bytes that are read of one file."""

DEEPEST = 6
"""Dots in the path of a field."""

Typed = tuple[tuple[str, str], ...]
"""What was typed, by the path of its field: ("gear.0.teeth", "97")."""


def tables_of(text: str | bytes, name: str) -> dict[str, Any]:
    """The tables of a TOML file, decimals kept as they were typed. A Refusal with the line where it cannot be read."""
    plain = decoded(text, name)
    try:
        found = tomllib.loads(plain.replace("\r\n", "\n"), parse_float=_as_typed)
        if _too_deep(found):
            raise ValueError("nested too deep")
        return found
    except tomllib.TOMLDecodeError as trouble:
        raise refuse(name, _line(plain, str(trouble)), "a TOML file", f"{trouble}.", _hint(_line(plain, str(trouble)))) from None
    except (ValueError, RecursionError) as trouble:
        likely = "A number in it is too long, or its brackets are nested too deep."
        raise refuse(name, "", "a TOML file", likely, "Write the file again, as the examples show.") from trouble


def _too_deep(tables: dict[str, Any]) -> bool:
    level: list[Any] = [tables]
    for _ in range(DEEPEST + 2):
        level = [
            inner
            for outer in level
            for inner in (outer.values() if isinstance(outer, dict) else outer if isinstance(outer, list) else ())
        ]
    return bool(level)


def decoded(text: str | bytes, name: str) -> str:
    """The text of a file: bounded in size, in UTF-8, with nothing in it that cannot be stored."""
    size = len(text)
    if size > LARGEST:
        raise refuse(
            name, f"{size} bytes", f"at most {LARGEST} bytes", "This is not a file of this kind.", "Name the right file."
        )
    try:
        plain = text.decode("utf-8-sig") if isinstance(text, bytes) else text.removeprefix("\ufeff")
        plain.encode()
    except UnicodeError:
        raise refuse(name, "", "text in UTF-8", "It is no text, or was saved in another encoding.", "Save it as UTF-8.") from None
    return plain


def _as_typed(number: str) -> str:
    return number.replace("_", "")


def _line(text: str, message: str) -> str:
    found = re.search(r"at line (\d+)", message)
    lines = text.splitlines()
    return lines[int(found.group(1)) - 1].strip()[:80] if found and int(found.group(1)) <= len(lines) else ""


def _hint(line: str) -> str:
    if re.match(r"""[\w.-]+\s*=\s*[^"'\[{]""", line):
        return "Set values that hold a unit, a fraction or words in quotes."
    return "Correct that line; the examples show how."


def flat(tables: Mapping[str, Any]) -> Typed:
    """Every value of the tables with its path; a list of plain values is one text."""
    return tuple(_flat("", tables))


def _flat(path: str, value: Any) -> Iterator[tuple[str, str]]:
    if isinstance(value, Mapping):
        for name, inner in value.items():
            yield from _flat(f"{path}.{name}" if path else str(name), inner)
    elif isinstance(value, list) and any(isinstance(inner, Mapping) for inner in value):
        for place, inner in enumerate(value):
            yield from _flat(f"{path}.{place}", inner)
    elif isinstance(value, list):
        yield path, ", ".join(map(str, value))
    else:
        yield path, str(value).lower() if isinstance(value, bool) else str(value)


class Fields:
    """A form's fields as tables. Fields left empty fall away; numbered tables close up, and `path` tells where each came from."""

    def __init__(self, fields: Mapping[str, str], name: str) -> None:
        self._came_from: dict[str, str] = {}
        if sum(len(path) + len(text) for path, text in fields.items()) > LARGEST:
            raise refuse(name, "", f"at most {LARGEST} characters", "This is no form of ours.", "Load the page again.")
        given = {path: text.strip() for path, text in fields.items() if text.strip()}
        root: dict[str, Any] = {}
        faults = [fault for path, text in given.items() if (fault := _lay(root, path, text)) is not None]
        if faults:
            raise Refusal(*faults)
        self.tables: dict[str, Any] = self._closed_up(root, "", "")

    def path(self, path: str) -> str:
        """The path of a field as it was in the form."""
        parts = path.split(".")
        for length in range(len(parts), 0, -1):
            if (before := self._came_from.get(".".join(parts[:length]))) is not None:
                return ".".join([before, *parts[length:]])
        return path

    def _closed_up(self, value: Any, now: str, before: str) -> Any:
        if not isinstance(value, dict):
            return value
        numbered = bool(now) and bool(value) and all(name.isdecimal() and name.isascii() and len(name) < 6 for name in value)
        names = sorted(value, key=int) if numbered else list(value)
        made: dict[str, Any] = {}
        for place, name in enumerate(names):
            new = str(place) if numbered else name
            new_path, old_path = _joined(now, new), _joined(before, name)
            self._came_from[new_path] = old_path
            made[new] = self._closed_up(value[name], new_path, old_path)
        return list(made.values()) if numbered else made


def _joined(path: str, name: str) -> str:
    return f"{path}.{name}" if path else name


def _lay(root: dict[str, Any], path: str, text: str) -> Fault | None:
    *tables, name = path.split(".")
    place = root
    if len(tables) <= DEEPEST and all(path.split(".")):
        for table in tables:
            inner = place.setdefault(table, {})
            if not isinstance(inner, dict):
                break
            place = inner
        else:
            if not isinstance(place.get(name), dict):
                place[name] = text
                return None
    return Fault(
        path[:120] or "a field without a name",
        text[:80],
        "a field of this form",
        "Two fields stand in each other's place.",
        "Load the page again.",
    )
