"""A rig described by its owner, and a helical pair on it: once the table swings, once the milling head."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from journeys.conftest import Walk

pytestmark = pytest.mark.browser

PAIR = (
    ("gear.0.teeth", "28"), ("gear.0.pitch", "mn 2"), ("gear.0.pressure_angle", "20"), ("gear.0.face", "20 mm"), ("gear.0.helix", "20"),
)  # fmt: skip


def open_part(walk: Walk, words: str) -> None:
    """Open a part of the form that is folded."""
    summary = walk.driver.find_element("xpath", f'//summary[contains(., "{words}")]')
    if summary.find_element("xpath", "..").get_attribute("open") is None:
        walk.driver.execute_script("arguments[0].scrollIntoView({block: 'center'})", summary)
        summary.click()


@pytest.mark.parametrize(
    ("swings", "says"),
    [
        ("table", "push the right-hand end away"),
        pytest.param("milling head", "nose to the operator's left", marks=pytest.mark.full),
    ],
)
def test_a_helical_pair_on_a_rig_of_ones_own(walk: Walk, swings: str, says: str) -> None:
    """Which way goes what: derived by vectors in tests/job/test_direction.py; the table's swing also in print."""
    name = f"Mill, {swings} swings"
    walk.go("/rigs/new")
    walk.fill("name", name)
    open_part(walk, "Machine")
    walk.tick("table.helix_set_by", swings)
    walk.fill("table.screw_lead", "1/4 in")
    walk.press("Keep this rig")
    assert walk.path.startswith("/rigs/Mill")
    assert "1/4 in" in walk.text
    walk.go("/jobs/new?gears=two")
    walk.choose("rig", name)
    for field, text in PAIR:
        walk.fill(field, text)
    walk.tick("gear.0.hand", "right")
    walk.fill("gear.1.teeth", "56")
    walk.fill("pair.centre_distance", '3.520"')
    walk.press("Plan it")
    assert "28 teeth" in walk.text
    assert says in walk.text
    assert "514.38" in walk.text  # lead of 28 teeth, module 2, 20 degrees: π m z / sin β
    assert "Change gears for the lead" in walk.text
    walk.press("its mate, 56 teeth")
    assert "1028.765" in walk.text
    opposite = {"table": "push the left-hand end away", "milling head": "nose to the operator's right"}
    assert opposite[swings] in walk.text


@pytest.mark.full
def test_both_hands_alike_are_stopped_and_mended(walk: Walk) -> None:
    walk.go("/rigs/new")
    walk.fill("name", "Mill for both hands")
    open_part(walk, "Machine")
    walk.fill("table.screw_lead", "1/4 in")
    walk.press("Keep this rig")
    walk.press("New job on it")
    walk.tick("gears", "two")
    for field, text in PAIR:
        walk.fill(field, text)
    walk.tick("gear.0.hand", "right")
    walk.fill("gear.1.teeth", "56")
    walk.tick("gear.1.hand", "right")
    walk.press("Plan it")
    assert "to clear" in walk.text
    assert "Issue plan" not in walk.text
    walk.press("1 gear")
    walk.tick("gear.1.hand", "left")
    walk.press("Plan it")
    assert "Issue plan 1 and print" in walk.text
