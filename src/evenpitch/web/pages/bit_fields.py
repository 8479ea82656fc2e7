"""The form of the fly cutter's bit on the page of the cutters: on what it swings, with what rake and relief it is ground."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING

from evenpitch.quantity.refusal import Fault, Refusal
from evenpitch.web.cutters_answer import BitAsked, bit_made, read_bit
from evenpitch.web.pages.fields import Field, with_messages
from evenpitch.web.typed import Collected

if TYPE_CHECKING:
    from evenpitch.job.bit import BitPlan
    from evenpitch.job.plan import GearPlan

FIELDS = (
    Field(path="bit-diameter", label="End of the bit swings on", help="usual: 63 mm", example="63 mm", value=""),
    Field(path="bit-rake", label="Rake", help="usual: none; with one the edge is corrected", example="0°", value=""),
    Field(path="bit-relief", label="End relief", help="usual: 10°; 8 to 12", example="10°", value=""),
)


def typed_for_bit(asked: Mapping[str, str]) -> dict[str, str]:
    """What was typed of the bit."""
    return {one.path: asked[one.path] for one in FIELDS if asked.get(one.path, "").strip()}


def bit_shown(gear: GearPlan, asked: Mapping[str, str]) -> tuple[BitPlan | None, tuple[Fault, ...]]:
    """The bit as asked for, or the usual one and what was refused; none where this gear has no usual one."""
    typed = typed_for_bit(asked)
    if typed:
        collected = Collected()
        try:
            found = read_bit(typed, collected)
            collected.settle()
            return bit_made(gear, found), ()
        except Refusal as refusal:
            return bit_shown(gear, {})[0], refusal.faults
    try:
        return bit_made(gear, BitAsked()), ()
    except Refusal:
        return None, ()


def bit_fields(asked: Mapping[str, str], faults: tuple[Fault, ...], first: int) -> tuple[Field, ...]:
    """The fields with what was typed, and what was refused beside them, numbered from `first`."""
    return with_messages(tuple(replace(one, value=asked.get(one.path, "")) for one in FIELDS), faults, first)
