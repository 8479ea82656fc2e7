"""What every table of a file has in common: its names, its needed fields, and how pydantic's findings become faults."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from difflib import get_close_matches
from typing import Any, ClassVar, TypeVar, get_args

from pydantic import BaseModel, ConfigDict, ValidationError, model_validator

from evenpitch.quantity.refusal import Fault, Refusal
from evenpitch.store.files.further import FIELD, OTHER_NAMES, WITH_UNIT, is_further
from evenpitch.store.files.values import READ, placed, with_unit


class Table(BaseModel):
    """A table: unknown names are refused, and a needed field that is not there is asked for like an empty one."""

    model_config = ConfigDict(
        extra="forbid", frozen=True, arbitrary_types_allowed=True, hide_input_in_errors=True, defer_build=True
    )
    takes_further: ClassVar[bool] = False

    @model_validator(mode="before")
    @classmethod
    def _laid_out(cls, raw: Any) -> Any:
        if not isinstance(raw, Mapping):
            return raw
        found = _apart(dict(raw), cls) if cls.takes_further else dict(raw)
        for name, field in cls.model_fields.items():
            if field.is_required() and name not in found and not nested(field.annotation):
                found[name] = None
        return found


def _apart(found: dict[str, Any], table: type[Table]) -> dict[str, Any]:
    """The further quantities of a drive under one name of their own, other names under their usual ones."""
    if FIELD in found:
        found["a further quantity"] = found.pop(FIELD)
    found = {FIELD: {name: value for name, value in found.items() if is_further(name)}} | {
        name: value for name, value in found.items() if not is_further(name)
    }
    for name, (usual, unit) in OTHER_NAMES.items():
        if name in found and usual not in found and usual in table.model_fields:
            value = found.pop(name)
            found[usual] = (
                with_unit(str(value), unit) if isinstance(value, (str, int, float)) and not isinstance(value, bool) else value
            )
    return found


def nested(annotation: Any) -> type[Table] | None:
    """The table that a field holds, or holds several of; None for a plain value."""
    if isinstance(annotation, type) and issubclass(annotation, Table):
        return annotation
    return next((found for inner in get_args(annotation) if (found := nested(inner))), None)


T = TypeVar("T", bound=Table)


def checked(table: type[T], raw: Mapping[str, Any], path: Callable[[str], str] = str) -> T:
    """The table read whole; a Refusal with every fault of it. `path` gives a field's path as the person knows it."""
    try:
        return table.model_validate(raw)
    except ValidationError as trouble:
        raise Refusal(*_in_order(table, trouble, path)) from None


def _in_order(table: type[Table], trouble: ValidationError, path: Callable[[str], str]) -> Iterator[Fault]:
    for found in trouble.errors(include_url=False):
        loc = tuple(part for part in found["loc"] if part != FIELD)
        where = path(".".join(map(str, loc))) or "a field without a name"
        if found["type"] == READ:
            faults = found["ctx"]["faults"]
            if found["loc"][-1] == FIELD:
                yield from (fault for one in faults for fault in placed((one,), path(".".join(map(str, (*loc, one.field))))))
            else:
                yield from placed(faults, where)
        elif found["type"] == "extra_forbidden":
            yield _unknown(_at(table, found["loc"][:-1]), where, str(found["loc"][-1]), found.get("input"))
        else:
            yield _misshapen(where, found["type"], found["msg"])


def _at(table: type[Table], loc: tuple[int | str, ...]) -> type[Table]:
    for part in loc:
        if isinstance(part, str) and part in table.model_fields:
            table = nested(table.model_fields[part].annotation) or table
    return table


def _unknown(table: type[Table], where: str, name: str, given: Any) -> Fault:
    names = [known for known in table.model_fields if known != FIELD]
    further = list(WITH_UNIT) if table.takes_further else []
    near = get_close_matches(name.casefold(), names + further, n=1, cutoff=0.6)
    likely = f"{name[:40]!r} is no name known here."
    do = f"{near[0]!r} meant?" if near else "Take it out, or correct its name."
    shown = given if isinstance(given, str) else name
    return Fault(where[:120], shown[:80], "one of " + ", ".join(names), likely, do)


def _misshapen(where: str, kind: str, message: str) -> Fault:
    if kind in ("model_type", "model_attributes_type", "dict_type", "missing"):
        return Fault(
            where, "", "a table", "Something else stands there, or it is missing.", f"Write [{where}], and its fields below."
        )
    if kind in ("tuple_type", "list_type"):
        return Fault(
            where, "", f"[[{where}]], once for each", "One pair of brackets was written.", f"Write [[{where}]] with two brackets."
        )
    if kind == "too_long":
        return Fault(where, "", message, "There are more of them than any shop has.", "Take some out.")
    raise AssertionError(f"pydantic said {kind}: {message}")
