"""Every finding of the virtual cut is produced by a case that a person could type."""

from __future__ import annotations

import pytest

from evenpitch.job.cut_findings import cut_findings
from evenpitch.job.findings import KINDS
from job.cut_cases import CUT_CASES, told, weighed
from job.shop import pinion, wheel


@pytest.mark.parametrize("code", CUT_CASES)
def test_finding_is_produced(code: str) -> None:
    found = [one for one in told(code) if one.code == code]
    assert found, [one.code for one in told(code)]
    assert found[0].weight == KINDS[code].weight
    assert found[0].says
    assert found[0].do
    assert "{" not in found[0].says + found[0].why + found[0].do


def test_a_face_too_narrow_for_the_span_is_said() -> None:
    plan = pinion(face="6 mm")
    assert "span-face" in {one.code for one in cut_findings(plan.gears[0], weighed(plan))}
    plan = pinion()
    assert "span-face" not in {one.code for one in cut_findings(plan.gears[0], weighed(plan))}


def test_a_right_form_leaves_nothing_to_say() -> None:
    """A module set's No. 3 made for 17 on a 17-tooth spur gear without thinning: exact, inside its range, chosen by the plan too."""
    plan = pinion(
        _drawer({"pitch": "module 2", "pressure_angle": "20", "number": "3", "numbering": "module", "made_for": 17, "outside": "60 mm"}),
        teeth=17, helix="0", hand="none", thinning=None,
    )  # fmt: skip
    cut = weighed(plan)
    assert cut.recommended is cut.quick
    left = cut.recommended.left
    assert max(abs(left.tip), abs(left.root), left.total) < 0.01
    assert {one.code for one in cut_findings(plan.gears[0], cut)} <= {"cut-form-start"}


def _drawer(*cutters: dict[str, object]):
    from job.cut_cases import with_cutters

    return with_cutters(*cutters)


def test_reversed_numbering_names_both_ranges() -> None:
    says = next(one.says for one in told("cut-reversed-number") if one.code == "cut-reversed-number")
    assert "35–54" in says
    assert "No. 3 for" in says
    assert "DP set it would be No. 6" in says


def test_a_wheel_says_why_another_cutter_than_that_of_the_plan() -> None:
    plan = wheel(teeth=97, choice={"cutter": "12 DP No. 2"})
    cut = weighed(plan)
    found = next(one for one in cut_findings(plan.gears[0], cut) if one.code == "cut-other-cutter")
    assert "You chose the one in the plan" in found.why
    assert "12 DP No. 1½" in found.do
