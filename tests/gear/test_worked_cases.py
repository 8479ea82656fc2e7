"""Worked cases against figures found apart from this program in 30-digit arithmetic; each case names its source."""

from __future__ import annotations

import pytest

from evenpitch.gear.rack import RACKS
from gear.made import cases
from gear.worked import WORKED, worked

CHECKS = [(case, name) for case in WORKED for name, out in cases()[case]["outputs"].items() if "value" in out]


@pytest.mark.parametrize(("case", "name"), CHECKS, ids=lambda part: part)
def test_case(case: str, name: str) -> None:
    wanted = cases()[case]["outputs"][name]
    assert worked(case)[name] == pytest.approx(wanted["value"], abs=wanted["tol_abs"], rel=0)


def test_every_case_with_a_figure_is_worked() -> None:
    unworked = {case for case in cases() if case not in WORKED}
    assert unworked == {"G7-03", "G7-06", "G8-07"}


@pytest.mark.parametrize("row", cases()["G1-12"]["outputs"]["rows"], ids=lambda row: row["profile"])
def test_iso_53_rack(row: dict[str, float]) -> None:
    rack = RACKS["iso53-" + str(row["profile"]).lower()]  # type: ignore[index]
    assert (rack.addendum, rack.dedendum, rack.root_radius) == (row["ha"], row["hf"], row["rho_f"])
