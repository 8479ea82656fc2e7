"""Each page on the workshop screen, a desk and a phone: nothing sideways, nothing hidden, nothing that axe finds; and with script off."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

import pytest

from journeys.conftest import DESK, TOUCH

if TYPE_CHECKING:
    from journeys.conftest import Walk

pytestmark = pytest.mark.browser

PHONE = (390, 844)
FULL = os.environ.get("EVENPITCH_FULL") == "1"
MILL = "/rigs/Museum%20horizontal%20mill"
REFUSED = "/jobs/new?line=28+teeth+mn+2+20-degree+helical"
ASKED_WRONG = "/ask/divide?divisions=113&circles=15,x;3.5&worm-ratio=q"
PAGES = (
    "/", "/jobs/new", "/jobs/new?line=97t+12DP+14½+face+3/4", REFUSED, "/jobs/B/gear", "/jobs/A/plan", "/jobs/B/plan?gear=2",
    "/jobs/A/cutters", "/jobs/B/cutters?swing=0.25%C2%B0&off=0.05",
    "/rigs", "/rigs/new", MILL, f"{MILL}/edit", "/book", "/nowhere",
    "/ask", "/ask/divide", "/ask/gear?teeth=97&dp=12&pressure-angle=14.5&face=0.75in&tolerance-class=8", ASKED_WRONG,
    "/ask/lead?helix-of=z%3D28+mn%3D2+beta%3D20&face=20+mm&pair-with=1028.765+mm", "/ask/ratio?lead=514.38mm&rig=Museum+horizontal+mill",
    "/charts/counts?chart=2-60", "/charts/leads?change-gears=24,28,32,40,48,56&diameter=60mm", "/help", "/help/words", "/help/findings",
    "/help/first-gear", "/help/commands", "/help/trust", "/help/pictures", "/sources", "/sources/ISO 21771:2007",
)  # fmt: skip
LONG = f"{MILL}/edit"
"""The same form as /rigs/new, only longer: what axe has to say of it is asked once."""
ONE_OF_EACH = {
    "/",
    REFUSED,
    "/jobs/B/gear",
    "/jobs/A/cutters",
    "/rigs/new",
    MILL,
    "/ask/divide",
    "/charts/counts?chart=2-60",
    "/help",
}


def axe_on(page: str) -> tuple[tuple[int, int], ...]:
    """Screens on which axe is asked, which takes longer than all the rest of a page: in full all pages, else one of each look."""
    if page == LONG:
        return (DESK,) if FULL else ()
    if FULL:
        return (TOUCH, DESK)
    return (TOUCH,) if page in ONE_OF_EACH else ()


SMALL = """return [...document.querySelectorAll(
    'button, .press, select, input:not([type=radio]):not([type=hidden]), .choice label, nav a')]
    .filter(e => e.offsetParent && !e.ariaHidden && e.getBoundingClientRect().height < 47.5)
    .map(e => e.outerHTML.slice(0, 90))"""
"""What a finger would miss: controls lower than 48 px."""


@pytest.fixture(scope="module", autouse=True)
def museum(walk: Walk) -> None:
    walk.go("/")
    walk.press("Open a worked example")


@pytest.mark.parametrize("page", [page if page in ONE_OF_EACH else pytest.param(page, marks=pytest.mark.full) for page in PAGES])
def test_a_page_on_every_screen(walk: Walk, page: str) -> None:
    from axe_core_python.selenium import Axe

    walk.go(page)
    for width, height in (PHONE, TOUCH, DESK):
        walk.size(width, height)
        reach = walk.driver.execute_script("return document.documentElement.scrollWidth")
        assert reach <= width, f"{page} is {reach} wide on {width}"
        act = walk.driver.find_elements("css selector", ".title-block .act")
        assert all(one.is_displayed() and one.rect["height"] >= 48 for one in act)
        if (width, height) in axe_on(page):
            found = Axe().run(walk.driver, options={"resultTypes": ["violations"]})["violations"]
            assert not found, [(one["id"], one["help"], one["nodes"][0]["html"][:200]) for one in found]


def test_targets_are_large_enough_for_a_finger(walk: Walk) -> None:
    walk.size(*TOUCH)
    for page in (
        "/",
        "/jobs/new",
        "/jobs/B/plan",
        "/jobs/B/cutters",
        "/rigs/new",
        "/ask",
        "/ask/divide?divisions=113",
        "/charts/counts?chart=2-20",
        "/help",
    ):
        walk.go(page)
        small = walk.driver.execute_script(SMALL)
        assert not small, (page, small)


def test_every_step_works_with_script_off(walk: Walk) -> None:
    walk.driver.execute_cdp_cmd("Emulation.setScriptExecutionDisabled", {"value": True})
    try:
        walk.size(*TOUCH)
        walk.go("/")
        walk.press("night")
        assert walk.driver.find_element("tag name", "html").get_attribute("data-night") == "night"
        walk.fill("line", "30t mn 2 20 face 15 mm")
        walk.press("Read it")
        walk.press("Plan it")
        assert walk.path.endswith("/plan")
        walk.press("day")
        assert walk.driver.find_element("tag name", "html").get_attribute("data-night") == "day"
        walk.go("/rigs/new")
        walk.fill("name", "Script off")
        walk.press("Add a plate")
        assert walk.value("plate.3.circles") == ""
        assert walk.value("name") == "Script off"
        walk.press("Keep this rig")
        assert walk.path == "/rigs/Script%20off"
    finally:
        walk.driver.execute_cdp_cmd("Emulation.setScriptExecutionDisabled", {"value": False})
