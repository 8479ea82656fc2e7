"""A served book and a real browser, both for one file of journeys."""

from __future__ import annotations

import os
import shutil
import socket
import threading
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
import uvicorn

CHROMIUM, DRIVER = shutil.which("chromium"), shutil.which("chromedriver")
SWITCHES = (
    "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync", "--hide-scrollbars",
)  # fmt: skip
TOUCH, DESK = (800, 480), (1280, 800)
"""The small workshop screen, and a desk."""

PATIENCE = 15
FULL = os.environ.get("EVENPITCH_FULL") == "1"


@dataclass
class Walk:
    """A browser that stands at a served book."""

    driver: Any
    at: str

    def go(self, path: str) -> None:
        """Open a page."""
        self.driver.get(self.at + path)

    def size(self, width: int, height: int) -> None:
        """Look at it on a screen of that size."""
        metrics = {"width": width, "height": height, "deviceScaleFactor": 1, "mobile": False}
        self.driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", metrics)

    def fill(self, name: str, text: str) -> None:
        """Type into a field."""
        field = self.driver.find_element("css selector", f'input[name="{name}"]')
        field.clear()
        field.send_keys(text)

    def choose(self, name: str, words: str) -> None:
        """Choose from a list by its words."""
        from selenium.webdriver.support.select import Select

        Select(self.driver.find_element("css selector", f'select[name="{name}"]')).select_by_visible_text(words)

    def tick(self, name: str, value: str) -> None:
        """Choose in a strip: press on the words, as a finger does."""
        self.driver.find_element("xpath", f'//label[input[@name="{name}" and @value="{value}"]]').click()

    def press(self, words: str) -> None:
        """Press a button or a link, and wait until another page stands there."""
        self._press(f'//*[(self::button or self::a) and not(@aria-hidden) and contains(normalize-space(.), "{words}")]')

    def press_named(self, field: str, value_begins: str) -> None:
        """Press the button that sends this field with a value that begins so."""
        self._press(f'//button[@name="{field}" and starts-with(@value, "{value_begins}")]')

    def _press(self, xpath: str) -> None:
        from selenium.webdriver.support import expected_conditions
        from selenium.webdriver.support.wait import WebDriverWait

        page = self.driver.find_element("tag name", "html")
        found = self.driver.find_element("xpath", xpath)
        self.driver.execute_script("arguments[0].scrollIntoView({block: 'center'})", found)
        found.click()
        WebDriverWait(self.driver, PATIENCE).until(expected_conditions.staleness_of(page))
        WebDriverWait(self.driver, PATIENCE).until(
            lambda driver: driver.execute_script("return document.readyState") == "complete"
        )

    def clean(self, *sizes: tuple[int, int]) -> None:
        """Nothing sideways on any of these screens, and nothing that axe finds: in full."""
        from axe_core_python.selenium import Axe

        for size in sizes:
            self.size(*size)
            reach = self.driver.execute_script("return document.documentElement.scrollWidth")
            assert reach <= size[0], f"{self.path} is {reach} wide on {size[0]}"
            if FULL:
                found = Axe().run(self.driver, options={"resultTypes": ["violations"]})["violations"]
                assert not found, [(one["id"], one["help"], one["nodes"][0]["html"][:200]) for one in found]

    @property
    def text(self) -> str:
        """What can be read on the page."""
        return str(self.driver.find_element("tag name", "body").text)

    @property
    def path(self) -> str:
        """Where one stands."""
        return str(self.driver.current_url).removeprefix(self.at)

    def value(self, name: str) -> str:
        """What stands in a field."""
        return str(self.driver.find_element("css selector", f'input[name="{name}"]').get_attribute("value"))


@pytest.fixture(scope="module")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of a server over an empty book."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("EVENPITCH_HOME", str(tmp_path_factory.mktemp("home")))
        from evenpitch.web.app import make_app

        listener = socket.create_server(("127.0.0.1", 0))
        server = uvicorn.Server(uvicorn.Config(make_app(), log_level="critical", lifespan="on"))
        thread = threading.Thread(target=server.run, kwargs={"sockets": [listener]}, daemon=True)
        thread.start()
        deadline = time.monotonic() + PATIENCE
        while not server.started and time.monotonic() < deadline:
            time.sleep(0.02)
        yield f"http://127.0.0.1:{listener.getsockname()[1]}"
        server.should_exit = True
        thread.join(PATIENCE)
        listener.close()


@pytest.fixture(scope="module")
def walk(served: str, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Walk]:
    """The browser, at the bench of that server."""
    driver = _driver(tmp_path_factory.mktemp("browser"))
    try:
        driver.get("about:blank")
        made = Walk(driver, served)
        made.size(*DESK)
        made.go("/")
        yield made
    finally:
        driver.quit()


def _driver(folder: Path) -> Any:
    if CHROMIUM is None or DRIVER is None:
        if os.environ.get("CI"):
            pytest.fail("chromium and its driver are needed for the journeys")
        pytest.skip("needs chromium and chromedriver")
    from selenium.webdriver import Chrome, ChromeOptions
    from selenium.webdriver.chrome.service import Service

    options = ChromeOptions()
    options.binary_location = CHROMIUM
    for switch in (*SWITCHES, f"--user-data-dir={folder}"):
        options.add_argument(switch)
    return Chrome(options=options, service=Service(DRIVER))


def fetched(walk: Walk, path: str) -> bytes:
    """A file as the browser would keep it."""
    import urllib.request

    with urllib.request.urlopen(walk.at + path, timeout=PATIENCE) as answer:
        return bytes(answer.read())
