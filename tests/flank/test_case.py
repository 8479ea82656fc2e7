"""The cases of the virtual cut, computed by an independent method (source in the data file), and what a case may not be."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from evenpitch.flank.case import run_case

DATA = json.loads((Path(__file__).parents[1] / "data" / "virtual_cut.json").read_text(encoding="utf-8"))
CASES: list[dict[str, Any]] = DATA["cases"]
ROUNDING = 0.0006
"""The file is rounded to a thousandth of a micrometre."""


def allowed(case: dict[str, Any], what: str) -> float:
    """Micrometres allowed: finer than the file's own tolerances, as section 11 of the method demands."""
    name = case["name"]
    if name.startswith("spur-exact"):
        return 0.001
    if name.startswith("helical-exact"):
        return 0.01
    if case["motion"]:
        return 0.3 if name in ("err-ripple-0.5", "err-ripple-0.1") else 0.1
    return 0.05 if what in ("F", "span") else 0.02


def differences(case: dict[str, Any]) -> list[tuple[str, float, float]]:
    """Name, difference and what is allowed, for every number of the answer."""
    found, expected = run_case(case), case["expect"]
    assert set(expected) <= set(found)
    rows: list[tuple[str, float, float]] = []
    for key in ("u_mm", "lead_mm"):
        pairs = zip(_listed(found.get(key)), _listed(expected.get(key)), strict=True)
        rows.extend((key, abs(ours - theirs), 1e-6) for ours, theirs in pairs)
    for flank in "+-":
        assert set(found[flank]) == set(expected[flank])
        for key, value in expected[flank].items():
            points = list(zip(_listed(found[flank][key]), _listed(value), strict=True))
            trace = len(points) > 1
            for place, (ours, theirs) in enumerate(points):
                start = trace and key.startswith("profile") and place == 0 and not case["motion"]
                rows.append(
                    (
                        f"{flank} {key} {place}",
                        abs(ours - theirs),
                        0.2 if start else allowed(case, "trace" if trace else "F") + ROUNDING,
                    )
                )
    span, theirs = found["span"], expected["span"]
    assert (span["over_teeth"], span["note"]) == (theirs["over_teeth"], theirs["note"])
    rows.append(("span nominal", abs(span["nominal_mm"] - theirs["nominal_mm"]), 6e-5))
    limit = allowed(case, "span") + ROUNDING
    rows.extend((f"span {key}", abs(span[key] - theirs[key]), limit) for key in ("mean_dev_um", "range_um"))
    thick, wanted = found["tooth_thickness_dev_um"], expected["tooth_thickness_dev_um"]
    rows.extend((f"thickness {key}", abs(thick[key] - wanted[key]), limit) for key in ("mean", "range"))
    return rows


def _listed(value: Any) -> list[float]:
    return [] if value is None else value if isinstance(value, list) else [value]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["name"])
def test_agrees_with_the_independent_method(case: dict[str, Any]) -> None:
    worst = [row for row in differences(case) if not row[1] <= row[2]]
    assert not worst


@pytest.mark.parametrize("teeth", [12, 13, 17, 20, 24, 40, 127, 400])
def test_a_spur_gear_cut_by_a_cutter_of_its_own_count_is_exact(teeth: int) -> None:
    case = {
        "gear": {"teeth": teeth, "module": 1.5},
        "cutter": {"kind": "numbered", "teeth": teeth, "module": 1.5, "outside_dia_mm": 60, "tip_corner_mm": 0.3},
    }
    found = run_case(case)
    assert max(abs(v) for flank in "+-" for v in found[flank]["profile_every_10"]) < 0.001


def test_without_setup_motion_or_evaluate_the_usual_ones_are_taken() -> None:
    case = CASES[0]
    assert run_case({"gear": case["gear"], "cutter": case["cutter"]}) == run_case(case)


def test_a_narrow_face_cannot_be_spanned_squarely() -> None:
    case = {
        "gear": {"teeth": 40, "module": 2, "helix_deg": 45, "face_mm": 5},
        "cutter": {"kind": "exact", "outside_dia_mm": 60},
    }
    assert run_case(case)["span"]["note"] == "face too narrow for a square span"
