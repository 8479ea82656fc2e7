"""At the bench on the small screen, by the keyboard alone: readings from a file, the verdict read, a tooth picked up for the recut."""

from __future__ import annotations

import urllib.request
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from job.inspection_cases import scattered, spans, steps, table
from journeys.conftest import FULL, TOUCH

if TYPE_CHECKING:
    from journeys.conftest import Walk

pytestmark = pytest.mark.browser

MOST_TABS = 60


def _tab_to(walk: Walk, selector: str) -> None:
    """Go on by the tabulator until the wanted place has the focus."""
    from selenium.webdriver import ActionChains, Keys

    for _ in range(MOST_TABS):
        if walk.driver.execute_script("return document.activeElement.matches(arguments[0])", selector):
            return
        ActionChains(walk.driver).send_keys(Keys.TAB).perform()
    pytest.fail(f"no way by the keyboard to {selector}")


def _type(walk: Walk, text: str) -> None:
    from selenium.webdriver import ActionChains

    ActionChains(walk.driver).send_keys(text).perform()


def _enter(walk: Walk, selector: str) -> None:
    from selenium.webdriver import Keys
    from selenium.webdriver.support import expected_conditions
    from selenium.webdriver.support.wait import WebDriverWait

    _tab_to(walk, selector)
    page = walk.driver.find_element("tag name", "html")
    _type(walk, Keys.ENTER)
    WebDriverWait(walk.driver, 15).until(expected_conditions.staleness_of(page))
    WebDriverWait(walk.driver, 15).until(lambda driver: driver.execute_script("return document.readyState") == "complete")


def _clean(walk: Walk) -> None:
    """Nothing found by the rules of WCAG 2, A to AAA; asked in full."""
    from axe_core_python.selenium import Axe

    if not FULL:
        return

    rules = ["wcag2a", "wcag2aa", "wcag2aaa", "wcag21a", "wcag21aa", "best-practice"]
    found = Axe().run(walk.driver, options={"runOnly": {"type": "tag", "values": rules}})
    assert not found["violations"], [
        (one["id"], [node["html"][:120] for node in one["nodes"][:3]]) for one in found["violations"]
    ]


def test_readings_from_a_file_give_a_verdict(walk: Walk, tmp_path: Path) -> None:
    walk.go("/")
    walk.press("worked example")
    walk.size(*TOUCH)
    walk.go("/jobs/A/inspect")
    file = tmp_path / "wheel.csv"
    file.write_text(table([*spans(), *steps(scattered, 2)]), encoding="utf-8")
    _tab_to(walk, "#f-file")
    walk.driver.switch_to.active_element.send_keys(str(file))
    _enter(walk, "button.act")
    assert "0.291 mm deeper" in walk.text
    assert "fail: thick" in walk.text
    assert "Class" in walk.text
    assert walk.driver.execute_script("return document.documentElement.scrollWidth") <= TOUCH[0]
    _clean(walk)
    _enter(walk, "button.act")
    assert "Kept on" in walk.text
    assert "fail: thick" in walk.text
    assert walk.path == "/jobs/A/inspections/1"
    assert walk.driver.execute_script("return document.documentElement.scrollWidth") <= TOUCH[0]
    _clean(walk)
    _tab_to(walk, "a.act")
    printed = walk.driver.switch_to.active_element.get_attribute("href")
    assert printed.endswith("/record.pdf")
    with urllib.request.urlopen(printed, timeout=30) as record:
        assert record.read(4) == b"%PDF"
    walk.go("/jobs/A/plan")
    assert "inspection 1," in walk.text


@pytest.mark.full
def test_a_tooth_is_picked_up_for_the_recut(walk: Walk) -> None:
    walk.size(*TOUCH)
    walk.go("/jobs/A/plan")
    walk.press("Issue plan 1 and print")
    walk.go("/jobs/A/pick-up")
    for place, space in enumerate((1, 33, 65)):
        middle = 360 * (space - 1) / 97 + 0.15
        for name, text in ((f"left.{place}", middle - 0.5), (f"right.{place}", middle + 0.5)):
            _tab_to(walk, f'input[name="{name}"]')
            walk.fill(name, f"{text:.5f}")
        walk.driver.find_element("css selector", f'input[name="space.{place}"]').clear()
        walk.fill(f"space.{place}", str(space))
    _enter(walk, "button.act")
    assert "540″ ahead of its old place" in walk.text
    _clean(walk)
    _enter(walk, "button.act")
    assert walk.path == "/jobs/A/cut/start"
    _enter(walk, "button.act")
    assert "picked up +540″" in walk.text
    assert "0° 9′ 0″" in walk.text
    assert walk.driver.execute_script("return document.documentElement.scrollHeight") <= TOUCH[1]
    _clean(walk)
