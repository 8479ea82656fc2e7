"""The page at the machine in a browser that was just started, its processor slowed six times: until a press can be made.

The browser's own clock is read: from the start of navigation until the page is laid out and its large button can be pressed. The plain
page beside it, a few words from the same server, is what browser and network take anyway.
Run: .venv/bin/python benchmarks/bench_cold_start.py; needs chromium and its driver.
"""

from __future__ import annotations

import json
import os
import shutil
import socket
import subprocess
import sys
import tempfile
import time
import urllib.request
from pathlib import Path
from typing import Any

SLOWED, BOUND = 6, 1.0
STARTS = 5
TIMES = """const [n] = performance.getEntriesByType('navigation');
const p = performance.getEntriesByType('paint').find(e => e.name === 'first-contentful-paint');
const b = document.querySelector('.act'), r = b ? b.getBoundingClientRect() : null;
return {interactive: n.domInteractive, loaded: n.domContentLoadedEventEnd, done: n.loadEventEnd, paint: p ? p.startTime : null,
    pressable: !!r && document.elementFromPoint(r.x + r.width / 2, r.y + r.height / 2) === b};"""
SWITCHES = ("--headless=new", "--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking")


def served(home: Path) -> tuple[subprocess.Popen[bytes], str]:
    """The program on a book with the museum's wheel issued and begun."""
    environment = {**os.environ, "EVENPITCH_HOME": str(home)}
    run = [sys.executable, "-c", "from evenpitch.cli import run; import sys; sys.exit(run(sys.argv[1:]))"]
    for words in (["demo", "--no-serve"], ["release", "A"], ["cut", "A", "--cut", "1"]):
        subprocess.run([*run, *words], check=True, capture_output=True, env=environment)
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    at = f"http://127.0.0.1:{port}"
    process = subprocess.Popen([*run, "serve", "--port", str(port)], env=environment, stdout=subprocess.DEVNULL)
    for _ in range(300):
        try:
            urllib.request.urlopen(f"{at}/help", timeout=5).close()
            return process, at
        except OSError:
            time.sleep(0.1)
    process.kill()
    raise SystemExit("the server did not start")


def carry_on(at: str) -> None:
    """Past the page that one comes back to: the ring and the next place are what is pressed on all day."""
    body = json.dumps({"last_entry": 1, "carry_on": True}).encode()
    asked = urllib.request.Request(f"{at}/api/jobs/A/cut", data=body, headers={"content-type": "application/json"})
    urllib.request.urlopen(asked, timeout=10).close()


def started() -> Any:
    """A browser of its own, with an empty profile, on the small screen, slowed."""
    from selenium import webdriver

    options = webdriver.ChromeOptions()
    options.binary_location = str(shutil.which("chromium"))
    for switch in SWITCHES:
        options.add_argument(switch)
    driver = webdriver.Chrome(options=options, service=webdriver.ChromeService(str(shutil.which("chromedriver"))))
    driver.get("about:blank")
    driver.execute_cdp_cmd(
        "Emulation.setDeviceMetricsOverride", {"width": 800, "height": 480, "deviceScaleFactor": 1, "mobile": False}
    )
    driver.execute_cdp_cmd("Emulation.setCPUThrottlingRate", {"rate": SLOWED})
    return driver


def opened(address: str) -> dict[str, Any]:
    """The times of one cold opening, ms."""
    driver = started()
    try:
        driver.get(address)
        for _ in range(100):
            times: dict[str, Any] = driver.execute_script(TIMES)
            if times["done"] and times["paint"] is not None:
                return times
            time.sleep(0.05)
        return times
    finally:
        driver.quit()


def main() -> int:
    """Print the figures; 0 where the bound is kept."""
    if not shutil.which("chromium") or not shutil.which("chromedriver"):
        print("no chromium with its driver here: not measured")
        return 0
    with tempfile.TemporaryDirectory() as home:
        process, at = served(Path(home))
        try:
            carry_on(at)
            cut = [opened(f"{at}/jobs/A/cut") for _ in range(STARTS)]
            plain = [opened(f"{at}/static/nothing") for _ in range(STARTS)]
        finally:
            process.terminate()
            process.wait(10)
    # the least of several is what page and browser take; the rest is what else this machine does
    usable = [max(one["done"], one["paint"]) / 1000 for one in cut]
    bare = [max(one["done"], one["paint"] or 0.0) / 1000 for one in plain]
    assert all(one["pressable"] for one in cut), "the large button cannot be pressed"
    found, slowest = min(usable), max(usable)
    print(f"cutting page, cold browser, slowed {SLOWED} times: {found:.2f} s, slowest of {STARTS} {slowest:.2f} s", end="   ")
    print(f"bound {BOUND:.1f} s, {BOUND / found:.1f} x within; a page of words {min(bare):.2f} s, ratio {min(bare) / found:.2f}")
    print(f"load of the machine meanwhile: {os.getloadavg()[0]:.1f} on {os.cpu_count()} cores")
    return 0 if found <= BOUND else 1


if __name__ == "__main__":
    sys.exit(main())
