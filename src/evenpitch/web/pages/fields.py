"""The fields of a form: label, what was typed, what it was understood as, and the message beside it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from markupsafe import Markup

from evenpitch.quantity.echo import echo_angle, echo_length, echo_pitch
from evenpitch.quantity.field_names import FieldName
from evenpitch.quantity.finding import Finding
from evenpitch.quantity.names import field_named
from evenpitch.quantity.reading import is_unknown, read_angle, read_length, read_pitch
from evenpitch.quantity.refusal import Fault, Refusal
from evenpitch.sheet.blocks_html import message_html
from evenpitch.sheet.flags import Flag

WIDE = ("circles", "whole list", "rotation list", "feed list", "length list")
"""Kinds that need the whole width."""

FEW = 5
"""So many choices stand in one strip; more of them in a list to open."""


@dataclass(frozen=True, slots=True)
class Field:
    """One field as the page shows it. `path`: its name in the form.

    `choices`: (value, words), empty for a typed one; `wordy`: they are too long for a strip; `wide`: it takes the whole width.
    """

    path: str
    label: str
    help: str
    example: str
    value: str
    choices: tuple[tuple[str, str], ...] = ()
    echo: str = ""
    unit: str = ""
    needed: bool = False
    messages: tuple[Markup, ...] = ()
    wordy: bool = False
    wide: bool = False

    @property
    def strip(self) -> bool:
        """Whether its choices stand in one strip."""
        return 0 < len(self.choices) <= FEW and not self.wordy

    @property
    def key(self) -> str:
        """Its id on the page."""
        return "f-" + self.path.replace(".", "-").replace("_", "-")


def path_of(name: FieldName, place: int | None = None) -> str:
    """The path of a field in a form; `place`: which of several tables it stands in."""
    parts = [] if name.table in ("job", "rig") else [name.table]
    return ".".join([*parts, *([str(place)] if place is not None else []), name.word])


def field(name: FieldName, typed: Mapping[str, str], place: int | None = None, *, label: str = "", asked: bool = True) -> Field:
    """A field of the nomenclature as the page shows it. `asked`: "don't know" is offered where nothing is usual."""
    path = path_of(name, place)
    value = typed.get(path, "")
    return Field(
        path=path,
        label=label or name.label,
        help=name.help,
        example=name.example,
        value=value,
        choices=_choices(name, value, asked),
        wide=name.kind in WIDE,
        echo=echo(name, value),
        unit=_unit(name, value),
        needed=name.needed,
    )


def named(table: str, word: str, typed: Mapping[str, str], place: int | None = None, *, label: str = "") -> Field:
    """The same, by its place in the file."""
    return field(field_named(table, word), typed, place, label=label)


def _choices(name: FieldName, value: str, asked: bool) -> tuple[tuple[str, str], ...]:
    """The words to choose from; "" stands for the usual one, or for not knowing. What was typed otherwise stays a choice."""
    if not name.choices:
        return ()
    words = tuple((choice, choice) for choice in name.choices)
    if name.usual in name.choices:
        usual = value if value == name.usual else ""
        words = ((usual, f"usual: {name.usual}"), *(pair for pair in words if pair[0] != name.usual))
    elif asked:
        words = (*words, ("", "don't know"))
    known = value in [word for word, _ in words]
    return words if known or not value else (*words, (value, value))


_ECHOES: dict[str, Callable[[str], str]] = {
    "length": lambda text: str(echo_length(text, read_length(text, field=""))),
    "angle": lambda text: str(echo_angle(text, read_angle(text, field=""))),
    "pitch": lambda text: str(echo_pitch(text, read_pitch(text, field=""))),
}


def echo(name: FieldName, value: str) -> str:
    """What was understood, in both systems; nothing where it cannot be read."""
    if not value.strip() or name.kind not in _ECHOES:
        return ""
    if is_unknown(value):
        return "not known: the plan says what that costs"
    try:
        return _ECHOES[name.kind](value)
    except Refusal:
        return ""


def _unit(name: FieldName, value: str) -> str:
    """The unit cell of a length: that of what was typed."""
    if name.kind == "angle":
        return "°"
    if name.kind != "length" or not value.strip():
        return ""
    inch = any(mark in value.casefold() for mark in ("in", '"', "″", "”", "thou", "tenth", "ft", "feet", "foot"))
    return "in" if inch else "mm"


def with_messages(fields: tuple[Field, ...], faults: tuple[Fault, ...], first: int = 1) -> tuple[Field, ...]:
    """The same fields with what was refused beside them, numbered in the order of the faults."""
    return tuple(
        replace(
            one,
            messages=tuple(
                fault_message(fault, first + at, one.label) for at, fault in enumerate(faults) if fault.field == one.path
            ),
        )
        for one in fields
    )


def fault_message(fault: Fault, number: int, label: str) -> Markup:
    """A refusal in four labelled lines: what was typed, what was expected, the likely reason, what to do."""
    says = f"{label}: “{fault.given}”." if fault.given else f"{label}: nothing typed."
    return message_html(Flag(number, Finding("", "stop", says, fault.likely, fault.do)), expected=f"{fault.expected}.")


def left_over(faults: tuple[Fault, ...], shown: tuple[Field, ...], first: int = 1) -> tuple[Markup, ...]:
    """Messages about what has no field on the page; they stand at its top."""
    paths = {one.path for one in shown}
    return tuple(fault_message(fault, first + at, fault.field) for at, fault in enumerate(faults) if fault.field not in paths)
