"""Printed figures about gears beside ours: worked examples, and two charts of tooth sizes."""

from __future__ import annotations

import json
import math
from collections.abc import Iterator
from typing import Any

from evenpitch.gear.sizes import addendum, base_pitch, circular_pitch, dedendum, whole_depth
from evenpitch.gear.thickness import tooth_thickness
from gear.made import DATA, cases, spur
from gear.worked import worked
from published.row import Row

CUT_OFF = "the printed figure is cut off after its last digit, or added from rounded parts"
NOTES = {
    ("G2-08", "alpha_w"): "the source worked on from an involute function rounded to six digits",
    ("G2-08", "y"): "the source worked on from an involute function rounded to six digits",
    ("G3-04", "W_z100_k12"): "the printed table was built by adding rounded differences",
    ("G4-04", "phi"): "the source carried a cut-off involute function",
    ("G4-04", "inv_phi_check"): "cut off in print, not rounded",
}
"""Why print and program differ, where they do."""


def rows() -> list[Row]:
    """Every printed figure we hold about gears."""
    return [*_examples(), *_tooth_parts(), *_pitches()]


def _printed(figure: float, resolution: float) -> str:
    return f"{figure:.{max(0, round(-math.log10(resolution)))}f}"


def _examples() -> Iterator[Row]:
    for name, case in cases().items():
        printed = {key: out for key, out in case["outputs"].items() if "published" in out}
        ours = worked(name) if printed else {}
        for key, out in printed.items():
            resolution = out["published_resolution"]
            yield Row(
                source=case["source"],
                what=f"{_inputs(case['inputs'])}: {key}, {out['unit']}".rstrip(", "),
                printed=_printed(out["published"], resolution),
                computed=float(ours[key]),
                tolerance=resolution / 2.0,
                held=case["held"],
                note=NOTES.get((name, key), ""),
            )


def _inputs(inputs: dict[str, Any]) -> str:
    said = []
    for key, value in inputs.items():
        if key.endswith("_range"):
            said.append(f"{key.removesuffix('_range')} {value[0]:g} to {value[1]:g}")
        elif not isinstance(value, list):
            said.append(f"{key} {value}")
    return ", ".join(said)


def _table(ident: str) -> dict[str, Any]:
    tables: list[dict[str, Any]] = json.loads((DATA / "gear_tables.json").read_text(encoding="utf-8"))
    return next(table for table in tables if table["id"] == ident)


def _cell(table: dict[str, Any], what: str, text: str, ours: float, note: str = "") -> Row:
    decimals = len(text.partition(".")[2])
    row = Row(table["source"], what, text, ours, 0.5 * 10.0**-decimals, table["held"], note)
    if row.agrees or note or abs(ours - float(text)) >= 10.0**-decimals:
        return row
    return Row(table["source"], what, text, ours, row.tolerance, table["held"], CUT_OFF)


def _tooth_parts() -> Iterator[Row]:
    table = _table("module_tooth_parts")
    for module, *printed in table["rows"]:
        gear = spur(20, float(module))
        lengths = (circular_pitch(gear), addendum(gear), dedendum(gear), whole_depth(gear))
        ours = [25.4 / gear.module] + [size / unit for size in lengths for unit in (25.4, 1.0)]
        for column, text, figure in zip(table["columns"][1:], printed, ours, strict=True):
            wrong = (module, column) == ("5.5", "addendum in")
            note = "two digits changed places in print: 0.2165" if wrong else ""
            yield _cell(table, f"module {module}: {column}", text, figure, note)


def _pitches() -> Iterator[Row]:
    table = _table("pitch_module_dp_basepitch")
    for p, m, dp, s, _, base_14, base_20 in ([cell.replace(",", ".") for cell in row] for row in table["rows"]):
        module = 25.4 / float(dp) if dp else float(p) / math.pi if m.startswith("(") else float(m)
        old, new = spur(20, module, 14.5), spur(20, module)
        ours = {
            "circular pitch, mm": (p, circular_pitch(new)),
            "tooth thickness, mm": (s, tooth_thickness(new)),
            "base pitch at 14.5 deg, mm": (base_14, base_pitch(old)),
            "base pitch at 20 deg, mm": (base_20, base_pitch(new)),
        }
        for what, (text, figure) in ours.items():
            if text:
                yield _cell(table, f"module {m.strip('()')}: {what}", text, figure)
