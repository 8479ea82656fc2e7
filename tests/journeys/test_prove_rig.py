"""Prove the rig at the machine: with the keyboard alone on the small screen, from a file, and a display that shows another figure."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest

from journeys.conftest import DESK, PATIENCE, TOUCH

if TYPE_CHECKING:
    from pathlib import Path

    from journeys.conftest import Walk

pytestmark = pytest.mark.browser

MILL = "/rigs/Museum%20horizontal%20mill"
PHONE = (390, 844)
SCALE = "run,direction,reference_mm,reading_mm\n" + "\n".join(
    f"{run},{side},{at},{at * (1 - 180e-6) + offset + 0.0002 * ((at // 100 * 7 + run) % 3 - 1):.5f}"
    for run in (1, 2)
    for side, offset in (("up", 0.0), ("down", 0.002))
    for at in ((0, 100, 200, 300, 400) if side == "up" else (400, 300, 200, 100, 0))
)
TYPED = {
    "dial.read": "63.493", "strokes.read": "0 0.001 0.002 0", "link.up": "34.9911", "link.down": "34.9378", "pen.rise": "30.6",
    "along.top_left": "0", "along.top_middle": "0.02", "along.top_right": "0.03", "along.front_left": "0",
    "along.front_middle": "-0.01", "along.front_right": "0.02", "block.left": "99.984", "block.middle": "99.982",
    "block.right": "99.979", "cutter.middle": "99.983",
}  # fmt: skip
SMALL = """return [...document.querySelectorAll('button, .press, select, textarea, input:not([type=hidden]), .choice label, nav a')]
    .filter(e => e.offsetParent && !e.ariaHidden && e.getBoundingClientRect().height < 47.5).map(e => e.outerHTML.slice(0, 90))"""


@pytest.fixture(scope="module", autouse=True)
def museum(walk: Walk) -> None:
    walk.go("/")
    walk.press("Open a worked example")


def keys(walk: Walk, *sent: str) -> None:
    """Keys to wherever the focus is."""
    from selenium.webdriver.common.action_chains import ActionChains

    ActionChains(walk.driver).send_keys(*sent).perform()


def focused(walk: Walk) -> Any:
    return walk.driver.switch_to.active_element


def tab_to(walk: Walk, wanted: str) -> None:
    """Tab on until the field of that name, or the control of those words, has the focus; it must be seen then."""
    from selenium.webdriver.common.keys import Keys

    for _ in range(80):
        keys(walk, Keys.TAB)
        found = focused(walk)
        if found.get_attribute("name") == wanted or wanted in (found.text or ""):
            place = found.rect
            assert place["height"] >= 47.5
            assert (
                found.value_of_css_property("outline-style") != "none"
                or found.find_element("xpath", "..").value_of_css_property("outline-style") != "none"
            ), wanted
            return
    pytest.fail(f"no tab leads to {wanted}")


def waited(walk: Walk, page: Any) -> None:
    from selenium.webdriver.support import expected_conditions
    from selenium.webdriver.support.wait import WebDriverWait

    WebDriverWait(walk.driver, PATIENCE).until(expected_conditions.staleness_of(page))


def test_mount_and_prove_with_the_keyboard_on_the_small_screen(walk: Walk) -> None:
    from selenium.webdriver.common.keys import Keys

    walk.size(*TOUCH)
    walk.go(f"{MILL}/proof?job=B")
    for name in (*(path for path in TYPED if not path.startswith(("along", "block", "cutter"))),):
        tab_to(walk, name)
        keys(walk, TYPED[name])
    for name in (path for path in TYPED if path.startswith(("along", "block", "cutter"))):
        tab_to(walk, name)
        keys(walk, TYPED[name])
    page = walk.driver.find_element("tag name", "html")
    keys(walk, Keys.ENTER)
    waited(walk, page)
    assert "your link is good to ±2.5 µm" in walk.text
    assert "8 of 8" in walk.text
    assert walk.value("block.left") == "99.984"
    tab_to(walk, "Keep this proof")
    page = walk.driver.find_element("tag name", "html")
    keys(walk, Keys.ENTER)
    waited(walk, page)
    assert walk.path.endswith("/proofs/1")
    assert "limited by the worm's own wave" in walk.text
    walk.go("/jobs/B/plan")
    assert "your link is good to ±2.5 µm" in walk.text
    assert "Not yet proven" not in walk.text


def test_load_a_file_of_scale_readings_and_read_the_sentence(walk: Walk, tmp_path: Path) -> None:
    file = tmp_path / "scale.csv"
    file.write_text(SCALE, encoding="utf-8")
    walk.size(*TOUCH)
    walk.go(MILL)
    walk.press("Calibrate the scale")
    walk.driver.find_element("css selector", "input[type=file]").send_keys(str(file))
    walk.press("Judge the readings")
    assert "The scale reads too little by" in walk.text
    assert "µm in a metre" in walk.text
    walk.press("Keep this calibration")
    assert "The scale reads too little by" in walk.text
    walk.press("the rig")
    assert "scale calibrated" in walk.text


@pytest.mark.full
def test_a_wrong_reading_and_the_test_that_decides(walk: Walk) -> None:
    walk.size(*TOUCH)
    walk.go("/reading")
    walk.fill("moved", "50 mm")
    walk.fill("shown", "200 mm")
    walk.press("Find the cause")
    assert "all four edges of a period are counted" in walk.text
    assert "Move 1.000 mm by the indicator" in walk.text
    walk.go("/reading")
    walk.press("360°, turns 180°")
    assert "the drive's switch" in walk.text


def test_a_file_that_is_no_table_is_named_and_nothing_is_kept(walk: Walk, tmp_path: Path) -> None:
    file = tmp_path / "scale.csv"
    file.write_text("run;direction;place\n1;up;3\n", encoding="utf-8")
    walk.go(f"{MILL}/scale")
    walk.driver.find_element("css selector", "input[type=file]").send_keys(str(file))
    walk.press("Judge the readings")
    assert "to clear" in walk.text
    assert "reference_mm" in walk.text


SHOWN = (
    f"{MILL}/prove",
    f"{MILL}/prove?job=B&from=1",
    f"{MILL}/scale",
    f"{MILL}/head",
    "/reading?moved=50mm&shown=200mm",
    f"{MILL}/proofs/1",
)


@pytest.mark.full
@pytest.mark.parametrize("page", SHOWN)
def test_a_page_of_proving_on_every_screen(walk: Walk, page: str) -> None:
    walk.go(page)
    walk.clean(TOUCH, DESK, PHONE)
    for size in (TOUCH, DESK):
        walk.size(*size)
        small = walk.driver.execute_script(SMALL)
        assert not small, small


def test_the_page_works_with_script_off(walk: Walk) -> None:
    walk.size(*TOUCH)
    walk.driver.execute_cdp_cmd("Emulation.setScriptExecutionDisabled", {"value": True})
    try:
        walk.go(f"{MILL}/prove")
        walk.fill("block.left", "99.984")
        walk.press("Judge the readings")
        assert "1 of 5" in walk.text
    finally:
        walk.driver.execute_cdp_cmd("Emulation.setScriptExecutionDisabled", {"value": False})
