"""At the machine: ten spaces, the server killed, coming back, one corrected, the gear finished; by touch and by keyboard alone."""

from __future__ import annotations

import os
import re
import signal
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from journeys.conftest import DESK, TOUCH, Walk

if TYPE_CHECKING:
    from journeys.conftest import Walk as Walker

pytestmark = pytest.mark.browser

SPACES = 12
TARGETS = "return [...document.querySelectorAll('a:not(.skip), button, input:not([type=hidden])')]"
LOW = """return [...document.querySelectorAll('.deeds a, .deeds button')].filter(e => e.getBoundingClientRect().height < 104)
    .map(e => e.outerHTML)"""


class Program:
    """The program as it is started at the terminal, on a book of its own; it may be killed and started again on its port."""

    def __init__(self, home: Path) -> None:
        self.home = home
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            self.port = free.getsockname()[1]
        self.at = f"http://127.0.0.1:{self.port}"
        self.start()

    def start(self) -> None:
        words = f"from evenpitch.cli import run; run(['serve', '--port', '{self.port}'])"
        environment = {**os.environ, "EVENPITCH_HOME": str(self.home)}
        quiet = subprocess.DEVNULL
        self.process = subprocess.Popen([sys.executable, "-c", words], stdout=quiet, stderr=quiet, env=environment)
        deadline = time.monotonic() + 30
        while time.monotonic() < deadline:
            try:
                urllib.request.urlopen(self.at + "/help", timeout=5).close()
                return
            except OSError:
                time.sleep(0.1)
        self.kill()
        raise AssertionError("the server did not start")

    def kill(self) -> None:
        self.process.send_signal(signal.SIGKILL)
        self.process.wait(10)


@pytest.fixture(scope="module")
def program(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Program]:
    made = Program(tmp_path_factory.mktemp("machine"))
    yield made
    made.kill()


@pytest.fixture
def walk_there(walk: Walker, program: Program) -> Walker:
    """The same browser, at the program's own port, on the small screen."""
    there = Walk(walk.driver, program.at)
    there.size(*TOUCH)
    return there


def clean(walk: Walker, sizes: tuple[tuple[int, int], ...] = (TOUCH,)) -> None:
    """Nothing that axe finds, nothing sideways; and back to the small screen."""
    walk.clean(*sizes)
    walk.size(*TOUCH)


def at_a_glance(walk: Walker) -> None:
    """The page on the small screen: nothing to scroll, six targets at most, those of deeds 104 px high."""
    height = walk.driver.execute_script("return document.documentElement.scrollHeight")
    assert height <= TOUCH[1]
    shown = [one for one in walk.driver.execute_script(TARGETS) if one.is_displayed()]
    assert len(shown) <= 6, [one.text for one in shown]
    assert not walk.driver.execute_script(LOW)


def test_ten_spaces_a_kill_and_the_gear_is_finished(walk_there: Walker, program: Program) -> None:
    walk = walk_there
    walk.go("/jobs/new?line=12t+mn+1.5+20+face+10+mm")
    walk.press("Plan it")
    job = walk.path.split("/")[2]
    walk.press("Issue plan 1 and print")
    walk.go(f"/jobs/{job}/cut")
    assert walk.path.endswith("/cut/start")
    clean(walk)
    walk.tick("pass", "full")
    walk.press("BEGIN")
    clean(walk, (TOUCH, DESK))
    for space in range(1, 11):
        at_a_glance(walk)
        assert f"{space} IS CUT" in walk.text
        walk.press(f"{space} IS CUT")
    program.kill()
    program.start()
    walk.go(f"/jobs/{job}/cut")
    assert "come back after a stop" in walk.text
    assert f"10 of {SPACES} cut, the last is 10" in walk.text
    at_a_glance(walk)
    clean(walk)
    walk.press("CARRY ON AT 11")
    walk.press("10 was not cut")
    assert "10 IS CUT" in walk.text
    walk.press("10 IS CUT")
    walk.press("Wait")
    at_a_glance(walk)
    assert "waits" in walk.text
    walk.press("CARRY ON AT 11")
    walk.press("Count check")
    walk.fill("forward", "10")
    walk.fill("back", "1")
    walk.press("COMPARE")
    assert "10 + 1 = 11" in walk.text
    clean(walk)
    walk.fill("back", "2")
    walk.press("COMPARE")
    for space in (11, 12):
        walk.press(f"{space} IS CUT")
    assert "the cut must take nothing" in walk.text
    at_a_glance(walk)
    walk.press("IT TAKES NOTHING")
    assert "finished" in walk.text
    clean(walk)
    walk.go("/")
    assert "finished" in walk.text
    assert f"cut 12 of {SPACES}" in walk.text


def _key(walk: Walker, *keys: str) -> None:
    from selenium.webdriver.common.action_chains import ActionChains

    chain: Any = ActionChains(walk.driver)
    for key in keys:
        chain = chain.send_keys(key)
    chain.perform()


def _go_by_tab(walk: Walker, words: str) -> None:
    """Tab until the thing with these words has the focus, then press Enter; wait for the next page."""
    from selenium.webdriver.common.keys import Keys
    from selenium.webdriver.support import expected_conditions
    from selenium.webdriver.support.wait import WebDriverWait

    page = walk.driver.find_element("tag name", "html")
    for _ in range(25):
        _key(walk, Keys.TAB)
        if words in walk.driver.switch_to.active_element.text:
            width = walk.driver.execute_script("return getComputedStyle(document.activeElement).outlineWidth")
            assert width == "3px", f"{words} does not show that it has the focus"
            break
    else:
        raise AssertionError(f"{words} is not reached by the keyboard")
    _key(walk, Keys.ENTER)
    WebDriverWait(walk.driver, 15).until(expected_conditions.staleness_of(page))
    WebDriverWait(walk.driver, 15).until(lambda driver: driver.execute_script("return document.readyState") == "complete")


@pytest.mark.full
def test_by_keyboard_alone(walk_there: Walker) -> None:
    walk = walk_there
    walk.go("/jobs/new?line=12t+mn+2+20+face+10+mm")
    walk.press("Plan it")
    job = walk.path.split("/")[2]
    walk.press("Issue plan 1 and print")
    walk.go(f"/jobs/{job}/cut")
    _go_by_tab(walk, "BEGIN")
    trial = "trial" in walk.text
    for space in (1, 2, 3):
        _go_by_tab(walk, f"{space} IS CUT")
    _go_by_tab(walk, "3 was not")
    assert "3 IS CUT" in walk.text
    _go_by_tab(walk, "Wait")
    _go_by_tab(walk, "CARRY ON AT 3")
    _go_by_tab(walk, "night")
    assert walk.driver.find_element("tag name", "html").get_attribute("data-night") == "night"
    clean(walk)
    _go_by_tab(walk, "day")
    assert trial == ("trial" in walk.text)
    assert re.search(r"cut so far\s+2 of", walk.text)
