"""The sizes of one gear as a document."""

from __future__ import annotations

from evenpitch.gear.gear import Gear
from evenpitch.job.gear_question import GearAnswer
from evenpitch.quantity.figure import Figure
from evenpitch.quantity.showing import System, angle_words
from evenpitch.quantity.units import to_degrees
from evenpitch.sheet.compose.rows import schedule, shown
from evenpitch.sheet.document import Cell, Document, KeyFigure, Section

_SHAPE = (
    "teeth", "module", "diametral_pitch", "pressure_angle", "helix_angle", "hand", "profile_shift", "face_width",
    "transverse_module", "transverse_pressure_angle", "base_helix_angle", "lead",
)  # fmt: skip
_SIZE = (
    "outside_diameter", "pitch_diameter", "root_diameter", "base_diameter", "addendum", "dedendum", "whole_depth",
    "circular_pitch", "base_pitch", "tooth_thickness", "virtual_teeth", "cutter_form_teeth",
)  # fmt: skip
_MEASURE = (
    "spanned_teeth", "span", "span_nominal", "span_face_needed", "pin_diameter", "over_pins", "over_pins_nominal", "over_balls",
    "over_balls_nominal", "chordal_thickness", "chordal_thickness_nominal", "chordal_height", "caliper_points", "caliper_jaws",
)  # fmt: skip


def gear_line(gear: Gear) -> str:
    """The gear in one line, as on a title block: "97 teeth, 12 DP, 14½°, spur"."""
    angle = angle_words(to_degrees(gear.pressure_angle))
    if not gear.helix:
        return f"{gear.teeth} teeth, {gear.pitch.words()}, {angle}, spur"
    return f"{gear.teeth} teeth, {gear.pitch_words()}, {angle} pressure, {angle_words(to_degrees(gear.helix))} helix {gear.hand}"


def compose_gear(answer: GearAnswer, system: System) -> Document:
    """What `evenpitch gear` prints, and its page."""
    by_name = {figure.name: figure for figure in answer.figures}

    def pick(names: tuple[str, ...]) -> tuple[Figure, ...]:
        return tuple(by_name[name] for name in names if name in by_name and _says_something(by_name[name].value))

    sections = [
        Section("gear", "Gear", (schedule(pick(_SHAPE), system),), "left"),
        Section("sizes", "Sizes", (schedule(pick(_SIZE), system),), "right"),
        Section("measuring", "What to measure", (schedule(pick(_MEASURE), system),), "left"),
    ]
    if answer.limits:
        heading = f"Limits of class {answer.tolerance_class}"
        sections.append(Section("limits", heading, (schedule(answer.limits, system),), "right"))
    gear = answer.gear
    other: System = "inch" if system == "metric" else "metric"
    keys = tuple(
        KeyFigure(label, shown(by_name[name], system), "", shown(by_name[name], other))
        for label, name in (
            ("outside diameter", "outside_diameter"),
            ("whole depth", "whole_depth"),
            (f"span over {by_name['spanned_teeth'].value}", "span"),
        )
    )
    if gear.helix:
        keys += (KeyFigure("lead", shown(by_name["lead"], system), "", shown(by_name["lead"], other)),)
    cells = (Cell("sheet", "one gear"), Cell("gear", gear_line(gear)), Cell("strength", "not checked"))
    return Document(
        kind="answer", title=gear_line(gear), keys=keys, findings=answer.findings, sections=tuple(sections), cells=cells
    )


def _says_something(value: object) -> bool:
    return value not in ("none", 0.0)
