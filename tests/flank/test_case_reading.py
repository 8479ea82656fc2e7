"""What a case may not be: each fault named by its field, all at once."""

from __future__ import annotations

import copy
from typing import Any

import pytest

from evenpitch.flank.case import run_case
from evenpitch.flank.case_reading import read_case
from evenpitch.quantity.refusal import Refusal

GOOD: dict[str, Any] = {
    "gear": {"teeth": 24, "module": 2, "helix_deg": 0, "face_mm": 20},
    "cutter": {"kind": "numbered", "teeth": 26, "module": 2, "outside_dia_mm": 60, "tip_corner_mm": 0.5},
    "setup": {},
    "motion": {},
    "evaluate": {"n_profile": 21, "n_lead": 11},
}


def fields(case: dict[str, Any]) -> list[str]:
    """The fields a case is refused for."""
    with pytest.raises(Refusal) as refusal:
        run_case(case)
    assert all(fault.expected and fault.do for fault in refusal.value.faults)
    return [fault.field for fault in refusal.value.faults]


def changed(**parts: Any) -> dict[str, Any]:
    """The good case with parts replaced; a part given as (part, value) pairs is merged."""
    case = copy.deepcopy(GOOD)
    for part, value in parts.items():
        case[part] = (
            {**case.get(part, {}), **value} if isinstance(value, dict) and isinstance(case.get(part, {}), dict) else value
        )
    return case


@pytest.mark.parametrize(
    ("parts", "field"),
    [
        ({"extra": 1}, "extra"),
        ({"gear": {"teeth": "24"}}, "gear, teeth"),
        ({"gear": {"teeth": 24.5}}, "gear, teeth"),
        ({"gear": {"module": 0}}, "gear, module"),
        ({"gear": {"module": float("nan")}}, "gear, module"),
        ({"gear": {"colour": "red"}}, "gear, colour"),
        ({"gear": {"dedendum_factor": 2.9, "teeth": 5}}, "gear, dedendum_factor"),
        ({"cutter": {"tip_corner_mm": -1}}, "cutter, tip_corner_mm"),
        ({"cutter": {"tip_corner_mm": 5}}, "cutter, tip_corner_mm"),
        ({"cutter": {"module": 1}}, "cutter, module"),
        ({"cutter": {"pressure_angle_deg": 14.5}}, "cutter, pressure_angle_deg"),
        ({"cutter": {"teeth": 3}}, "cutter, teeth"),
        ({"cutter": {"outside_dia_mm": 8}}, "cutter, outside_dia_mm"),
        ({"cutter": {"kind": "hob"}}, "cutter, kind"),
        ({"setup": {"swivel_deg": 60}}, "setup, swivel_deg"),
        ({"setup": {"offset_mm": 9}}, "setup, offset_mm"),
        ({"setup": {"sink_mm": -6}}, "setup, sink_mm"),
        ({"setup": {"centre_mm": 99}}, "setup, sink_mm"),
        ({"motion": {"table": {"s_mm": [-5, 5], "arcsec": [0, 1]}}}, "motion, table, s_mm"),
        ({"motion": {"table": {"s_mm": [10, -10], "arcsec": [0, 1]}}}, "motion, table, s_mm"),
        ({"motion": {"table": {"s_mm": [-10, 10], "arcsec": [0]}}}, "motion, table, s_mm"),
        ({"motion": {"lead_mm": 100, "lead_error_ppm": 3}}, "motion, lead_mm"),
        ({"motion": {"sines": [{"amp_arcsec": 3, "period_mm": 0}]}}, "motion, sines 1, period_mm"),
        ({"motion": {"sines": {}}}, "motion, sines"),
        ({"motion": {"worm": {"amp_arcsec": 3}}}, "motion, worm, ratio"),
        ({"index_error_arcsec": [1, 2]}, "index_error_arcsec"),
        ({"index_error_arcsec": "none"}, "index_error_arcsec"),
        ({"evaluate": {"teeth": [0, 24]}}, "evaluate, teeth"),
        ({"evaluate": {"teeth": []}}, "evaluate, teeth"),
        ({"evaluate": {"u_start_mm": 20}}, "evaluate, u_start_mm"),
        ({"evaluate": {"n_lead": 1}}, "evaluate, n_lead"),
        ({"motion": []}, "motion"),
    ],
)
def test_is_refused_by_field(parts: dict[str, Any], field: str) -> None:
    assert field in fields(changed(**parts))


def test_all_faults_are_told_at_once() -> None:
    found = fields(changed(gear={"teeth": "x"}, cutter={"tip_corner_mm": -1}, setup={"swivel_deg": 80}, motion={"nonsense": 0}))
    assert {"gear, teeth", "cutter, tip_corner_mm", "setup, swivel_deg", "motion, nonsense"} <= set(found)


def test_a_lead_of_the_other_hand_is_refused() -> None:
    assert fields(changed(gear={"helix_deg": 20}, motion={"lead_mm": -440})) == ["motion, lead_mm"]


@pytest.mark.parametrize(
    "points",
    [
        [[1, 30], [2, 29], [1.5, 28]],
        [[1, 30], [2, 31]],
        [[1, 30], [1, 30]],
        [[-1, 30], [2, 28]],
        [[1, 40], [2, 28]],
        [[1, 30]],
        [[1, 30], [1.5, 29, 3]],
        "points",
    ],
)
def test_points_that_are_no_side_of_a_cutter(points: Any) -> None:
    case = changed()
    case["cutter"] = {"kind": "points", "points_mm": points, "outside_dia_mm": 60}
    assert "cutter, points_mm" in fields(case)


def test_a_cutter_wider_than_the_room_between_its_neighbours() -> None:
    case = changed()
    case["cutter"] = {"kind": "vee", "included_angle_deg": 90, "tip_flat_mm": 4, "outside_dia_mm": 60}
    assert fields(case) == ["cutter"]


def test_a_form_that_ends_below_the_tip_is_refused() -> None:
    case = changed(gear={"teeth": 60}, evaluate={"u_end_mm": 60})
    case["cutter"] = {"kind": "vee", "included_angle_deg": 20, "tip_flat_mm": 1, "outside_dia_mm": 40}
    assert fields(case) == ["cutter"]


def test_no_case_at_all_names_what_is_needed() -> None:
    assert {"gear, teeth", "gear, module", "cutter, kind", "cutter, outside_dia_mm"} <= set(fields({}))


def test_a_form_made_for_another_diameter_moves_with_the_radius() -> None:
    """Reground from 60 to 55 mm: 2.7 um at 20 degrees, own computation by the independent method."""
    case = changed(gear={"helix_deg": 20}, evaluate={"n_profile": 101})
    made_at = read_case(changed(gear={"helix_deg": 20})).cut.wanted.root_radius + 30
    case["cutter"] = {"kind": "exact", "outside_dia_mm": 55, "design_centre_mm": made_at}
    assert run_case(case)["+"]["F_alpha"] == pytest.approx(2.7, abs=0.05)


def test_a_form_used_where_it_was_made_for_is_exact() -> None:
    case = changed(gear={"helix_deg": 20}, setup={"centre_mm": 53.1, "offset_mm": 0.5})
    case["cutter"] = {"kind": "exact", "outside_dia_mm": 60, "design_centre_mm": 53.1, "design_offset_mm": 0.5}
    found = run_case(case)
    assert max(found["+"]["F_alpha"], found["-"]["F_alpha"]) < 1e-3


def test_a_gear_with_faults_lays_none_on_the_cutter_and_an_unknown_kind_none_on_its_fields() -> None:
    assert fields(changed(gear={"module": "two"})) == ["gear, module"]
    assert fields(changed(cutter={"kind": "hob"})) == ["cutter, kind"]
    assert fields(changed(cutter={"outside_dia_mm": 0, "tip_corner_mm": 0.2})) == ["cutter, outside_dia_mm"]


@pytest.mark.parametrize("motion", [{"sines": [{"amp_arcsec": 200_000, "period_mm": 2}]}, {"lead_mm": 100}])
def test_work_that_stands_a_quarter_of_a_tooth_off_is_another_gear(motion: dict[str, Any]) -> None:
    assert fields(changed(motion=motion)) == ["motion"]
