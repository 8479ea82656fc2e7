"""The drive of a rig as a form: what is known of it, to be tried with other values; nothing is kept."""

from __future__ import annotations

from collections.abc import Mapping

from evenpitch.quantity.names import field_named
from evenpitch.quantity.refusal import Fault
from evenpitch.store.files.rig_file import RigFile, rig_from_fields
from evenpitch.web.pages.fields import Field, field, with_messages

TRY = "try"
"""Stands in the address where a drive was tried: then a field left empty is not known."""
LONGEST = 60

TRIED = (
    "link.count", "link.belt", "link.full_steps", "link.microsteps", "link.latency", "link.largest_pulse_rate", "link.largest_speed",
    "link.supply", "link.current", "link.holding_torque", "link.feed", "link.crank_unevenness", "head.backlash",
    "setup.blank_eccentricity_um",
)  # fmt: skip
"""What is bought, set or found out first; the rest is on the rig's own page."""


RATIO_FIELDS = ("largest-pulses", "largest-counts")


def ratio_fields(query: Mapping[str, str], faults: tuple[Fault, ...], first: int) -> tuple[Field, ...]:
    """How large the numbers of a ratio may be in the controller."""
    told = "Largest number that the controller's ratio takes."
    made = (
        Field("largest-pulses", "Pulses of a ratio", told, "65535", query.get("largest-pulses", "").strip()[:LONGEST]),
        Field("largest-counts", "Counts of a ratio", told, "65535", query.get("largest-counts", "").strip()[:LONGEST]),
    )
    return with_messages(made, faults, first)


def asked(query: Mapping[str, str]) -> dict[str, str] | None:
    """The fields as tried, None where the rig stands as it is."""
    if TRY not in query:
        return None
    return {path: query.get(path, "").strip()[:LONGEST] for path in TRIED}


def tried_rig(rig: RigFile, tried: Mapping[str, str] | None) -> RigFile:
    """The rig with the fields tried in place of its own; a Refusal with all their faults."""
    if tried is None:
        return rig
    fields = {path: text for path, text in rig.typed if path not in TRIED}
    return rig_from_fields(fields | {path: text for path, text in tried.items() if text}, rig.text)


def drive_fields(rig: RigFile, tried: Mapping[str, str] | None, faults: tuple[Fault, ...], first: int) -> tuple[Field, ...]:
    """The fields of the form, with what was refused beside them, numbered from `first`."""
    typed = dict(rig.typed) if tried is None else dict(tried)
    made = []
    for path in TRIED:
        table, word = path.split(".")
        made.append(field(field_named(table, word), typed))
    return with_messages(tuple(made), faults, first)
