"""Before and after the cut: a drive with two don't-knows to a prediction; a log with one slip to the space it hit, by the keyboard."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from job.link_logs import as_csv, made_log
from journeys.conftest import DESK, PATIENCE, TOUCH

if TYPE_CHECKING:
    from pathlib import Path

    from journeys.conftest import Walk

pytestmark = pytest.mark.browser

DRIVE = {
    "link.count": "1 um", "link.belt": "20:60", "link.full_steps": "200", "link.microsteps": "8", "link.latency": "don't know",
    "link.supply": "48 V", "link.current": "4 A", "link.holding_torque": "don't know", "link.largest_pulse_rate": "16000",
    "link.largest_speed": "600 rpm",
}  # fmt: skip
MOST_TABS = 60


@pytest.fixture(scope="module", autouse=True)
def museum(walk: Walk) -> None:
    walk.go("/")
    walk.press("Open a worked example")


@pytest.mark.full
def test_a_drive_with_two_dont_knows_to_a_prediction(walk: Walk) -> None:
    walk.size(*DESK)
    walk.go("/rigs/new")
    walk.driver.find_element("xpath", '//summary[starts-with(., "Electronic link")]').click()
    for name, text in {"name": "Mill with a belt", **DRIVE}.items():
        walk.fill(name, text)
    walk.press("Keep this rig")
    assert walk.path == "/rigs/Mill%20with%20a%20belt"
    walk.go("/jobs/new?line=28t+mn+2+20°+pressure+20°+helix+right+hand+face+20+mm")
    walk.choose("rig", "Mill with a belt")
    walk.press("Plan it")
    assert walk.path.endswith("/plan"), walk.text
    walk.press("what the rig will leave")
    for words in ("Expect class", "with probability", "What spoils it, on this tooth", "What is not known"):
        assert words in walk.text
    unknown = walk.driver.find_element("id", "unknown").text
    for words in (
        "delay",
        "5 ms (0.2 to 20)",
        "holding torque",
        "1.9 Nm (1.2 to 3)",
        "the motor's plate or data sheet: five minutes",
    ):
        assert words in unknown
    assert "supply" not in unknown
    walk.clean(TOUCH, DESK)
    walk.fill("link.latency", "0.5 ms")
    walk.press("Predict with this drive")
    assert "nothing of it is kept" in walk.text
    assert "5 ms (0.2 to 20)" not in walk.driver.find_element("id", "unknown").text
    walk.press("Simulate a pass")
    assert "Error along the table" in walk.text
    walk.clean(TOUCH, DESK)


def test_a_log_with_one_slip_to_the_space_it_hit(walk: Walk, tmp_path: Path) -> None:
    """By the keyboard alone, on the workshop screen."""
    file = tmp_path / "pass.csv"
    file.write_text(as_csv(made_log(slip=32)), encoding="utf-8")
    walk.size(*TOUCH)
    walk.go("/jobs/B/plan")
    walk.press("audit a log")
    walk.clean(TOUCH)
    _tab_to(walk, "#f-file")
    walk.driver.switch_to.active_element.send_keys(str(file))
    _tab_to(walk, "#f-space")
    _keys(walk, "12")
    _enter(walk, "button.act")
    assert "Lost on space 12" in walk.text
    events = walk.driver.find_element("id", "events").text
    assert "rotor slip" in events
    assert "work angle" in events
    assert "1 electrical turn: 31 µm on space 12" in walk.text
    walk.clean(TOUCH, DESK)


def _keys(walk: Walk, *sent: str) -> None:
    from selenium.webdriver import ActionChains

    ActionChains(walk.driver).send_keys(*sent).perform()


def _tab_to(walk: Walk, selector: str) -> None:
    """Go on by the tabulator until the wanted place has the focus."""
    from selenium.webdriver import Keys

    for _ in range(MOST_TABS):
        if walk.driver.execute_script("return document.activeElement.matches(arguments[0])", selector):
            return
        _keys(walk, Keys.TAB)
    pytest.fail(f"no way by the keyboard to {selector}")


def _enter(walk: Walk, selector: str) -> None:
    from selenium.webdriver import Keys
    from selenium.webdriver.support import expected_conditions
    from selenium.webdriver.support.wait import WebDriverWait

    _tab_to(walk, selector)
    page = walk.driver.find_element("tag name", "html")
    _keys(walk, Keys.ENTER)
    WebDriverWait(walk.driver, PATIENCE).until(expected_conditions.staleness_of(page))
    WebDriverWait(walk.driver, PATIENCE).until(lambda driver: driver.execute_script("return document.readyState") == "complete")
