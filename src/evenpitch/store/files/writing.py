"""Forms become TOML files: what was typed, as it was typed; over an older file, whose comments and order stay."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError
from tomlkit.items import AoT, Item

from evenpitch.quantity.refusal import Refusal
from evenpitch.store.files.further import FIELD
from evenpitch.store.files.tables import Table, nested
from evenpitch.store.files.typed import flat, tables_of

_NUMBER = re.compile(r"0|[1-9]\d{0,15}")
_NUMBERS = re.compile(r"\s*[1-9]\d{0,8}(?:[\s,]+[1-9]\d{0,8})+\s*")


def written(tables: Mapping[str, Any], shape: type[Table], over: str = "") -> str:
    """The text of a file that holds these tables and nothing else; `over`: the text it was before."""
    if over.strip() and (text := _over(over, tables, shape)) is not None:
        return text
    document = tomlkit.document()
    _lay(document, tables, shape)
    return tomlkit.dumps(document)


def _over(text: str, tables: Mapping[str, Any], shape: type[Table]) -> str | None:
    """The older text with these values in it; None where its layout does not let itself be changed with certainty."""
    try:
        document = tomlkit.parse(text)
        _lay(document, tables, shape)
        changed = tomlkit.dumps(document)
        return changed if _same(tables_of(changed, "file"), tables) else None
    except (TOMLKitError, Refusal, ValueError, TypeError, KeyError, IndexError, AttributeError):
        return None


def _same(found: Mapping[str, Any], wanted: Mapping[str, Any]) -> bool:
    return {path: _signs(text) for path, text in flat(found)} == {path: _signs(text) for path, text in flat(wanted)}


def _signs(text: str) -> str:
    """A text without what a list may be parted by."""
    return re.sub(r"[\s,]+", " ", text)


def _lay(into: Any, tables: Mapping[str, Any], shape: type[Table] | None) -> None:
    for name in [name for name in into if name not in tables]:
        del into[name]
    for name in _ordered(tables, shape):
        value = tables[name]
        inner = _inner(shape, name)
        if isinstance(value, Mapping) and isinstance(into.get(name), Mapping):
            _lay(into[name], value, inner)
        elif isinstance(value, list) and isinstance(into.get(name), list) and _all_tables(value) and _all_tables(into[name]):
            _lay_each(into[name], value, inner)
        elif name not in into or _text(into[name]) != _text(value):
            into[name] = _item(value, inner, top=isinstance(into, tomlkit.TOMLDocument), counts=_of_counts(shape, name))


def _inner(shape: type[Table] | None, name: str) -> type[Table] | None:
    return nested(shape.model_fields[name].annotation) if shape and name in shape.model_fields else None


def _of_counts(shape: type[Table] | None, name: str) -> bool:
    return bool(shape and name in shape.model_fields and shape.model_fields[name].annotation == tuple[int, ...])


def _ordered(tables: Mapping[str, Any], shape: type[Table] | None) -> list[str]:
    """Plain values first, as TOML needs them; otherwise in the order of the file's description."""
    order = [name for name in shape.model_fields if name != FIELD] if shape else []
    place = {name: number for number, name in enumerate(order)}
    return sorted(tables, key=lambda name: (isinstance(tables[name], (dict, list)), place.get(name, len(place))))


def _all_tables(value: list[Any]) -> bool:
    return bool(value) and all(isinstance(each, Mapping) for each in value)


def _lay_each(into: Any, value: list[Any], shape: type[Table] | None) -> None:
    while len(into) > len(value):
        into.pop()
    for place, each in enumerate(value):
        if place < len(into):
            _lay(into[place], each, shape)
        else:
            into.append(_item(each, shape, top=isinstance(into, AoT)))


def _item(value: Any, shape: type[Table] | None, *, top: bool, counts: bool = False) -> Item:
    """A value as it stands in a file. `top`: where a table may have a heading of its own; `counts`: of a list of counts."""
    if isinstance(value, Mapping):
        table: Any = tomlkit.table() if top else tomlkit.inline_table()
        for name in _ordered(value, shape):
            table[name] = _item(value[name], _inner(shape, name), top=False, counts=_of_counts(shape, name))
        return table  # type: ignore[no-any-return]
    if isinstance(value, list):
        return (
            _tables(value, shape)
            if top and _all_tables(value)
            else tomlkit.item([_item(each, shape, top=False) for each in value])
        )
    text = str(value)
    if counts and _NUMBERS.fullmatch(text):
        return tomlkit.item([int(part) for part in re.split(r"[\s,]+", text.strip())])
    return tomlkit.item(int(text) if _NUMBER.fullmatch(text) else text)


def _tables(value: list[Any], shape: type[Table] | None) -> Item:
    each_one = tomlkit.aot()
    for each in value:
        each_one.append(_item(each, shape, top=True))
    return each_one


def _text(value: Any) -> str:
    """A value as one text, to tell whether a form changed it."""
    plain = value.unwrap() if isinstance(value, Item) else value
    if isinstance(plain, list):
        return ", ".join(map(str, plain))
    return str(plain).lower() if isinstance(plain, bool) else str(plain)
