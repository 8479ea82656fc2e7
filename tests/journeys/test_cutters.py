"""Choose another cutter and see picture and figures change; ask what if; take the bit along."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest

from journeys.conftest import DESK, TOUCH, fetched

if TYPE_CHECKING:
    from journeys.conftest import Walk

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module", autouse=True)
def museum(walk: Walk) -> None:
    walk.go("/")
    walk.press("Open a worked example")


def picture(walk: Walk) -> str:
    """The lines of the first picture of the cutter looked at."""
    found: Any = walk.driver.find_element("css selector", "#looked-at svg").get_attribute("outerHTML")
    return str(found)


def inspection(walk: Walk) -> str:
    """What an inspection would read, as it stands on the page."""
    return str(walk.driver.find_element("css selector", "#inspection table").text)


def test_another_cutter_another_picture_other_figures(walk: Walk) -> None:
    walk.go("/jobs/A/plan")
    walk.press("what each cutter leaves")
    assert walk.path == "/jobs/A/cutters"
    assert "Looked at: 12 DP No. 1½, made for 80" in walk.text
    before, figures = picture(walk), inspection(walk)
    walk.choose("cutter", "12 DP No. 2, made for 55")
    walk.press("Cut it and look")
    assert "cutter=12-dp-no2-55" in walk.path
    assert "Looked at: 12 DP No. 2, made for 55" in walk.text
    assert picture(walk) != before
    assert inspection(walk) != figures
    assert "takes 97 µm" in walk.text


@pytest.mark.full
def test_what_if_changes_trace_and_span_and_as_set_takes_it_back(walk: Walk) -> None:
    walk.size(*TOUCH)
    walk.go("/jobs/B/cutters")
    before, figures = picture(walk), inspection(walk)
    walk.press("0.05 mm off centre")
    assert "the span changes by" in walk.text
    assert picture(walk) != before
    walk.fill("swing", "15'")
    walk.press("Cut it and look")
    assert walk.value("off") == "0.05 mm"
    assert "0.2500°" in walk.text
    walk.press("as set, without slips")
    assert picture(walk) == before
    assert inspection(walk) == figures
    walk.size(*DESK)


@pytest.mark.full
def test_choosing_for_the_plan_and_back(walk: Walk) -> None:
    walk.go("/jobs/A/cutters")
    walk.press_named("choice.cutter", "12 DP No. 2")
    assert walk.path.startswith("/jobs/A/plan")
    walk.press("what each cutter leaves")
    assert "You chose the one in the plan" in walk.text
    walk.press_named("choice.cutter", "12 DP No. 1½")


def test_the_bit_is_taken_along(walk: Walk) -> None:
    assert fetched(walk, "/jobs/B/bit.pdf").startswith(b"%PDF")
    assert b"SECTION" in fetched(walk, "/jobs/B/bit.dxf")
