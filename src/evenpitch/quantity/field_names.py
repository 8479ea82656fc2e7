"""Every field that a job or rig file, and the form that stands for it, takes: label, kind, range, help, what to type."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal

from evenpitch.quantity.physical_units import Kind

FieldKind = (
    Kind
    | Literal[
        "text", "choice", "whole", "number", "ratio", "length", "angle", "pitch", "limits", "belt", "circles", "date", "dial", "harmonics",
        "whole list", "length list", "rotation list", "feed list", "length range", "train", "yes or no",
    ]
)  # fmt: skip
"""Which reader the field goes through."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldName:
    """One input. `table` and `word`: where it stands in a file. `example`: what to type, readable by the reader of its kind.

    `least`..`most`: in mm, degrees or the unit its kind is kept in; None where there is no bound. `usual`: the usual value as typed, "" if
    there is none. `needed`: nothing can be done without it.
    """

    table: str
    word: str
    label: str
    kind: FieldKind
    help: str
    example: str
    least: float | None = None
    most: float | None = None
    choices: tuple[str, ...] = ()
    usual: str = ""
    needed: bool = False


@cache
def field_table() -> tuple[FieldName, ...]:
    """All fields, in the order of the files. The tables are imported here, for they are made of FieldName."""
    from evenpitch.quantity.drive_fields import DRIVE_FIELDS
    from evenpitch.quantity.job_fields import JOB_FIELDS
    from evenpitch.quantity.rig_fields import RIG_FIELDS

    return JOB_FIELDS + RIG_FIELDS + DRIVE_FIELDS
