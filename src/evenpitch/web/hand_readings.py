"""Readings of an inspection as a hand writes them into a form: several figures to a field, each becoming a reading."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import Literal, TypeVar

from evenpitch.checking.readings import GearReading
from evenpitch.job.plan import GearPlan
from evenpitch.quantity.read_length import read_length
from evenpitch.quantity.read_number import read_number
from evenpitch.quantity.refusal import Fault, Refusal
from evenpitch.quantity.units import Millimetre
from evenpitch.store.files.readings import read_inspection
from evenpitch.web.typed import Typed

Flank = Literal["left", "right"]
T = TypeVar("T")
TABLE = "readings"
MOST = 4000
AROUND = ("steps_right", "steps_left", "runout")
LENGTHS = ("span", "span2", "over", "chord")


@dataclass(frozen=True, slots=True)
class HandField:
    """One field of the form."""

    path: str
    label: str
    help: str
    example: str = ""
    long: bool = False


def hand_fields(plan: GearPlan) -> tuple[HandField, ...]:
    """The fields for this gear, with its targets as examples."""
    cut = plan.form_cut
    over = "balls" if plan.gear.helix else "pins"
    size = cut.over_balls if plan.gear.helix else cut.over_pins
    teeth = plan.gear.teeth
    each = f"all {teeth} one after another, in µm"
    return (
        HandField("span", f"Span over {cut.spanned}", "at several places, parted by spaces or semicolons", f"{cut.span:.3f}"),
        HandField("span2", f"Span over {cut.spanned + 1}", "one more tooth: tells a span over the wrong count"),
        HandField("over", f"Over {cut.pin:.4g} mm {over}", "at several places", f"{size:.3f}"),
        HandField("chord", "Chordal thickness", "by gear-tooth vernier", f"{cut.chordal_thickness:.3f}"),
        HandField("height", "Vernier set to", "height below the tip", f"{cut.chordal_height:.3f}"),
        HandField("temperature", "Work at, °C", "20 if it has stood overnight", "20"),
        HandField("steps_right", "Pitch steps, right flank", each, "3 -2 5 …", long=True),
        HandField("steps_left", "Pitch steps, left flank", each, "", long=True),
        HandField("runout", "Pin in each space", f"{each}, + outwards", "", long=True),
        HandField("seen", "Seen on the flanks", "as marks = 0.9 mm; contact = one end, tips, roots or even"),
        HandField("budget", "Own figures for a U", "as burr = 1 um; tilt = 2 um"),
    )


def hand_readings(plan: GearPlan, typed: Typed) -> tuple[GearReading, ...]:
    """What was typed, and the table beside it; a Refusal with every fault, each by its field."""
    faults: list[Fault] = []
    found: list[GearReading] = []
    warm = _kept(faults, lambda: _temperature(typed), None)
    for field in LENGTHS:
        found += _kept(faults, partial(_lengths, plan, typed, field, warm), [])
    for field in AROUND:
        found += _kept(faults, partial(_round, plan, typed, field), [])
    if typed.get(TABLE, "").strip():
        found += _kept(faults, lambda: read_inspection(typed[TABLE]), ())
    if faults:
        raise Refusal(*faults)
    return tuple(found)


def _kept(faults: list[Fault], read: Callable[[], T], usual: T) -> T:
    """What was read, or the usual with its faults kept."""
    try:
        return read()
    except Refusal as refusal:
        faults += refusal.faults
        return usual


def _temperature(typed: Typed) -> float | None:
    text = typed.get("temperature", "").strip()
    return float(read_number(text, field="temperature", least=-20, most=80)) if text else None


def _lengths(plan: GearPlan, typed: Typed, field: str, warm: float | None) -> list[GearReading]:
    cut = plan.form_cut
    kinds = {"span": "span", "span2": "span", "over": "over balls" if plan.gear.helix else "over pins", "chord": "chordal"}
    texts = [text.strip() for text in _parts(typed.get(field, ""))]
    height = typed.get("height", "").strip()
    spaced = plan.gear.teeth / max(len(texts), 1)
    return [
        GearReading(
            kind=kinds[field],
            space=1 + round(place * spaced),
            flank=None,
            instrument="",
            value=float(read_length(text, field=field)),
            spanned=cut.spanned + (field == "span2") if field.startswith("span") else None,
            pin=cut.pin if field == "over" else None,
            height=Millimetre(float(read_length(height, field="height"))) if field == "chord" and height else None,
            temperature=warm,
        )
        for place, text in enumerate(texts)
    ]


def _parts(text: str) -> list[str]:
    """Figures parted by semicolons or lines; by spaces too where no unit stands in the text."""
    if ";" in text or "\n" in text.strip() or any(letter.isalpha() or letter in "\"'″" for letter in text):
        return [part for part in re.split(r"[;\n]", text) if part.strip()]
    return text.split()


def _round(plan: GearPlan, typed: Typed, field: str) -> list[GearReading]:
    """Rounds of figures in µm, one for each space; several rounds follow each other."""
    figures = [part for part in re.split(r"[;\s]+", typed.get(field, "").strip()) if part][:MOST]
    teeth = plan.gear.teeth
    if figures and len(figures) % teeth:
        whole, left = divmod(len(figures), teeth)
        likely = f"{left} of {teeth} stand in round {whole + 1}: one is missing or too many."
        raise Refusal(
            Fault(
                field,
                f"{len(figures)} readings",
                f"{teeth}, or a number of whole rounds",
                likely,
                "Read the list against the gear.",
            )
        )
    flank: Flank | None = "right" if field == "steps_right" else "left" if field == "steps_left" else None
    return [
        GearReading(
            kind="runout" if field == "runout" else "pitch step",
            space=place % teeth + 1,
            flank=flank,
            instrument="",
            value=float(read_number(text, field=field, least=-100_000, most=100_000)) / 1000,
            round=place // teeth + 1,
        )
        for place, text in enumerate(figures)
    ]
