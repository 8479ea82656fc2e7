"""The tables of JOB.toml, each field with its reader and the range it may lie in (ranges are common practice)."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Annotated

from pydantic import Field, PlainValidator

from evenpitch.gear.gear import DepthSystem, Hand
from evenpitch.job.order import Dividing, Drive, Lead, Paper, Train, Units
from evenpitch.quantity.pitch import Pitch
from evenpitch.quantity.reading import read_limits, read_whole_list
from evenpitch.quantity.refusal import refuse
from evenpitch.store.files import shop
from evenpitch.store.files.tables import Table
from evenpitch.store.files.values import angle, number, reader, size, whole, word, words

_DEPTHS = ("full", "14.5", "stub", "fine", "iso53-a", "iso53-b", "iso53-c", "iso53-d")
_DEPTH_SPELLINGS = {"14½": "14.5", "14 1/2": "14.5", "14,5": "14.5"}


def limits() -> PlainValidator:
    """Upper and lower limit of a size, within 2 mm."""
    expected = "two limits such as +0/-0.05 mm or ±0.02 mm"

    def read(text: str) -> tuple[Fraction, Fraction]:
        upper, lower = read_limits(text, field="")
        if not -2 <= lower <= upper <= 2:
            raise refuse(
                "", text, expected, f"{float(max(upper, -lower)):g} mm off is no limit of a size.", "Write how far it may be off."
            )
        return upper, lower

    return reader(read, expected)


def gear_train() -> PlainValidator:
    """Change gears chosen for the lead: drivers, then driven, "48, 86 : 32, 64" or "48·86/(32·64)"."""
    expected = "drivers : driven, such as 48, 86 : 32, 64"

    def read(text: str) -> Train:
        sides = re.split(r"[:/]", re.sub(r"[()]", " ", text))
        if len(sides) != 2:
            raise refuse("", text, expected, "Drivers and driven are needed, with one colon between.", f"Write {expected}.")
        drivers, driven = (read_whole_list(re.sub(r"[·×x*]", ",", side), field="", least=8, most=300, fewest=1) for side in sides)
        if len(drivers) != len(driven):
            raise refuse(
                "", text, expected, f"{len(drivers)} drivers and {len(driven)} driven do not pair.", f"Write {expected}."
            )
        return Train(drivers, driven)

    return reader(read, expected)


class GearTable(Table):
    """[[gear]]"""

    teeth: Annotated[int, whole(5, 1000, needed=True, words=("teeth", "t"))]
    pitch: Annotated[Pitch, shop.pitch()]
    pressure_angle: Annotated[Fraction, angle(5, 40, needed=True)]
    helix: Annotated[Fraction | None, angle(0, 80)] = None
    hand: Annotated[Hand | None, word("left", "right", "none", also={"lh": "left", "l": "left", "rh": "right", "r": "right"})] = (
        None
    )
    face: Annotated[Fraction | None, size(Fraction(1, 10), 2000, answered=True)]
    depth: Annotated[DepthSystem | None, word(*_DEPTHS, also=_DEPTH_SPELLINGS)] = None
    shift: Annotated[Fraction | None, number(-3, 3)] = None
    thinning: Annotated[Fraction | None, size(0, 3)] = None
    tolerance_class: Annotated[int | None, whole(1, 11)] = None
    drive: Annotated[Drive | None, word("clockwise", "anticlockwise", "both", also={"counterclockwise": "anticlockwise"})] = None
    material: Annotated[str | None, words(80)] = None
    bore: Annotated[Fraction | None, size(Fraction(1, 10), 2000)] = None
    quantity: Annotated[int | None, whole(1, 1000)] = None
    outside_found: Annotated[Fraction | None, size(1, 5000)] = None
    span_tolerance: Annotated[tuple[Fraction, Fraction] | None, limits()] = None
    outside_tolerance: Annotated[tuple[Fraction, Fraction] | None, limits()] = None
    spanned: Annotated[int | None, whole(1, 500, words=("teeth",))] = None
    pin: Annotated[Fraction | None, size(Fraction(1, 20), 100)] = None


class PairTable(Table):
    """[pair]"""

    centre_distance: Annotated[Fraction | None, size(1, 5000)] = None
    backlash: Annotated[Fraction | None, size(0, 5)] = None


class ChoiceTable(Table):
    """[choice]"""

    dividing: Annotated[Dividing | None, word("direct", "simple", "block", "compound", "differential", "pulses")] = None
    lead: Annotated[Lead | None, word("link", "change gears")] = None
    paper: Annotated[Paper | None, word("a4", "letter")] = None
    units: Annotated[Units | None, word("inch", "metric", also={"in": "inch", "mm": "metric"})] = None
    cutter: Annotated[str | None, words(80)] = None
    paper_thickness: Annotated[Fraction | None, size(0, 1)] = None
    train: Annotated[Train | None, gear_train()] = None
    way: Annotated[str | None, words(200)] = None


class JobTable(Table):
    """The whole of JOB.toml."""

    title: Annotated[str | None, words(120)] = None
    gear: Annotated[tuple[GearTable, ...], Field(max_length=100)]
    pair: PairTable | None = None
    choice: ChoiceTable = ChoiceTable()
