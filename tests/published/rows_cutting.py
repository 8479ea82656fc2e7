"""Figures in print about cutters, depth and speed, beside ours."""

from __future__ import annotations

import math
from fractions import Fraction

from evenpitch.cutting.formcutters import cutter_set, made_for_habits, number_for, range_of
from evenpitch.cutting.speeds import cutter_speed, table_feed
from evenpitch.gear.gear import Gear
from evenpitch.gear.rack import rack_addendum, rack_dedendum
from evenpitch.gear.virtual import virtual_teeth
from evenpitch.quantity.pitch import Pitch
from published.row import Row

TREATISE = "Practical Treatise on Milling and Milling Machines, p. 149"
RANGES = {1: "135–rack", 2: "55–134", 3: "35–54", 4: "26–34", 5: "21–25", 6: "17–20", 7: "14–16", 8: "12–13"}
HALVES = {"1½": "80–134", "2½": "42–54", "3½": "30–34", "4½": "23–25", "5½": "19–20", "6½": "15–16", "7½": "13"}
COUNTS = {12: 8, 13: 8, 14: 7, 16: 7, 17: 6, 20: 6, 21: 5, 25: 5, 26: 4, 34: 4, 35: 3, 54: 3, 55: 2, 127: 2, 134: 2, 135: 1}
ROSE = (200, 68, 40, 29, 22, 18, 16, 14)


def rows() -> tuple[Row, ...]:
    """All of them."""
    return (*_ranges(), *_rose(), *_speeds(), *_depths())


def _number(teeth: float) -> str:
    found = number_for(teeth, "dp")
    return found.number if found else ""


def _ranges() -> list[Row]:
    whole = [
        Row(TREATISE, f"range of No. {n}", words, range_of(str(n), "dp").range_words(), 0.0, "text read")
        for n, words in RANGES.items()
    ]
    note = "the copy read shows 23-35 for No. 4½, a slip"
    half = [
        Row(TREATISE, f"range of No. {n}", words, range_of(n, "dp").range_words(), 0.0, "text read", note if n == "4½" else "")
        for n, words in HALVES.items()
    ]
    count = [Row(TREATISE, f"cutter for {z} teeth", str(n), _number(z), 0.0, "text read") for z, n in COUNTS.items()]
    ends = Row(TREATISE, "numbers in a set with halves", "15", float(len(cutter_set("dp", 15))), 0.0, "text read")
    return [*whole, *half, *count, ends]


def _rose() -> list[Row]:
    return [
        Row(
            "Modern Machine-Shop Practice",
            f"teeth that No. {n} is made for",
            str(teeth),
            float(next(h.teeth for h in made_for_habits(str(n), "dp") if h.source == "Modern Machine-Shop Practice")),
            0.0,
            "text read",
        )
        for n, teeth in enumerate(ROSE, start=1)
    ]


def _speeds() -> list[Row]:
    note = "Machine-Shop Work prints about sixty turns"
    return [
        Row("Observatory shop note", "rpm at 300 ft/min, 1/2 in", "2292", cutter_speed(300, 12.7), 0.5, "text read"),
        Row("Observatory shop note", "rpm at 120 ft/min, 3/8 in", "1222", cutter_speed(120, 9.525), 0.5, "text read"),
        Row("Machine-Shop Work", "rpm at 40 ft/min, 2 1/2 in", "60", cutter_speed(40, 63.5), 5.0, "text read", note),
        Row(
            "Milling handbook 1973",
            "feed, in/min, 0.004 in a tooth, 32 teeth, 88 rpm",
            "11.2",
            table_feed(0.004 * 25.4, 32, 88) / 25.4,
            0.1,
            "quoted second-hand",
            "11.264: cut short in print, not rounded",
        ),
    ]


def _depths() -> list[Row]:
    depth = rack_addendum("14.5", 25.4 / 24) + rack_dedendum("14.5", 25.4 / 24)
    helical = Gear(
        teeth=20, pitch=Pitch("module", Fraction(1)), module=1.0, pressure_angle=math.radians(20), helix=math.radians(40)
    )
    return [
        Row("trade catalogue", "whole depth at 24 DP, in", "0.090", depth / 25.4, 0.0005, "quoted second-hand"),
        Row(
            "Machinery Repairman, ch. 14", "virtual teeth, 20 at 40°", "44.5", virtual_teeth(helical), 0.05, "quoted second-hand"
        ),
    ]
