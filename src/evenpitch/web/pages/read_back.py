"""Read back: what the entries come to, in both systems, before they are used."""

from __future__ import annotations

from collections.abc import Mapping

from markupsafe import Markup

from evenpitch.gear.gear import Gear
from evenpitch.gear.mesh import pitches_suit, reference_centre_distance
from evenpitch.job.gear_question import ask_gear
from evenpitch.quantity.reading import read_length
from evenpitch.quantity.refusal import Refusal
from evenpitch.quantity.showing import System, both, mm
from evenpitch.sheet.compose.gear import gear_line
from evenpitch.sheet.compose.rows import schedule
from evenpitch.sheet.print_html import block_html

SAID = ("pitch_diameter", "outside_diameter", "root_diameter", "whole_depth", "lead", "spanned_teeth", "span")


def read_back(gears: tuple[Gear, ...], kept: Mapping[str, str]) -> Markup:
    """The derived sizes of each gear that can be read, and how two of them stand to each other."""
    parts = []
    for gear in gears:
        system: System = "inch" if gear.pitch.inch or gear.pitch.kind == "diametral pitch" else "metric"
        try:
            figures = tuple(
                figure for figure in ask_gear(gear).figures if figure.name in SAID and figure.value not in (0.0, "none")
            )
        except Refusal:
            continue
        rows = Markup(block_html(schedule(figures, system)))
        parts.append(Markup("<h3>{}</h3>{}").format(gear_line(gear), rows))
    if len(gears) == 2 and pitches_suit(*gears):
        parts.append(Markup("<p>{}</p>").format(_centres(gears[0], gears[1], kept.get("pair.centre_distance", ""))))
    return Markup("").join(parts)


def _centres(first: Gear, second: Gear, typed: str) -> str:
    theory = float(reference_centre_distance(first, second))
    said = f"Centres by theory {both(theory)}."
    try:
        given = float(read_length(typed, field=""))
    except Refusal:
        return said
    away = given - theory
    return f"{said} Yours are {mm(abs(away))} {'wider' if away >= 0 else 'closer'}."
