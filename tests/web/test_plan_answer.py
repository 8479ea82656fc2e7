"""The plan as one JSON object: the keys that outside scripts rely on, and what must agree among them."""

from __future__ import annotations

from typing import Any

import pytest

from evenpitch.store.museum import museum_folder
from evenpitch.web.desk import ask_plan

RIG = (museum_folder() / "museum-mill.toml").read_bytes()


@pytest.fixture(scope="module", params=["loom-change-wheel", "timing-pair", "draft-wheel"])
def plan(request: pytest.FixtureRequest) -> dict[str, Any]:
    return dict(ask_plan(museum_folder() / f"{request.param}.toml", RIG, trial=False).json)


def test_the_keys_of_the_contract(plan: dict[str, Any]) -> None:
    assert {"figures", "findings", "refusals", "methods", "chosen", "lead", "cutters", "depths", "passes", "checks"} <= set(plan)
    assert {"swing", "feed", "work", "cutter"} <= set(plan["direction"])
    assert all({"name", "least", "most", "unit", "instrument"} <= set(check) for check in plan["checks"])
    assert all({"depth_mm", "table_feed", "spaces", "minutes"} <= set(one) for one in plan["passes"])
    assert all(isinstance(caution, str) and caution for caution in plan["cautions"])
    for name in ("depth_from_touch", "cutter_speed", "table_feed", "time_per_space", "job_time", "pulses_per_turn"):
        assert name in plan["figures"]
    assert plan["figures"]["table_swing"]["value"] == plan["direction"]["swing_deg"] == plan["figures"]["helix_angle"]["value"]


def test_the_way_chosen_is_one_of_those_listed(plan: dict[str, Any]) -> None:
    assert plan["chosen"] in plan["methods"]
    if plan["chosen"]["method"] == "pulses":
        assert plan["chosen"]["targets"][0] == 0
        assert plan["chosen"]["targets"][-1] == plan["chosen"]["pulses_per_turn"]


def test_depths_rise_from_touch_to_full(plan: dict[str, Any]) -> None:
    assert [rung["name"] for rung in plan["depths"]] == ["touch", "rough", "measure", "full"]
    depths = [rung["mm"] for rung in plan["depths"]]
    assert depths == sorted(depths)
    assert depths[-1] == plan["figures"]["depth_from_touch"]["value"]


def test_the_lead_answers_as_lead_and_ratio_do(plan: dict[str, Any]) -> None:
    if not plan["figures"]["helix_angle"]["value"]:
        assert plan["lead"] is None
        return
    assert {"machine_lead", "trains", "pairs", "pulses", "counts", "exact", "error_ppm", "decimal_traps"} <= set(plan["lead"])
    assert plan["lead"]["trains"][0]["helix_slope_um"] > 0
