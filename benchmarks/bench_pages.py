"""Plan page, start-up, memory and weight against the bounds set for them, each as a ratio to its bound; above 1 is within it.

The plan is also timed against its own parts done plainly one after the other in this process: planning alone and printing alone.
Run: .venv/bin/python benchmarks/bench_pages.py
"""

from __future__ import annotations

import os
import re
import subprocess
import sys
import tempfile
import time
import urllib.request
from collections.abc import Callable
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent.parent
BIN = Path(sys.executable).parent / "evenpitch"
PLAN_SECONDS, FIRST_PAGE_SECONDS, DIVIDE_SECONDS, HELP_SECONDS = 0.060, 1.0, 0.4, 0.15
MEMORY_MB, PAGE_KB = 180, 60
ROUNDS, STARTS = 15, 5


def best(run: Callable[[], object], rounds: int = ROUNDS) -> float:
    """Least time of several rounds, s."""
    times = []
    for _ in range(rounds):
        start = time.perf_counter()
        run()
        times.append(time.perf_counter() - start)
    return min(times)


def show(what: str, bound: float, found: float, unit: str) -> bool:
    """One line; True where the bound is kept."""
    print(f"{what:48} {found:9.3f} {unit:3} bound {bound:8.3f}   {bound / found:6.2f} x within" if found else what)
    return found <= bound


def in_process() -> bool:
    """Planning, composing and printing the page of the 97-tooth wheel."""
    from evenpitch.job.planning import plan
    from evenpitch.sheet.compose.plan import compose_plan
    from evenpitch.sheet.print_html import standalone
    from evenpitch.store.files.job_file import order_from
    from evenpitch.store.files.rig_file import read_rig

    rig = read_rig((ROOT / "examples/museum-mill.toml").read_text(encoding="utf-8")).rig
    order = order_from((ROOT / "examples/loom-change-wheel.toml").read_text(encoding="utf-8"), rig)
    made = plan(order)
    document = compose_plan(made)
    whole = best(lambda: standalone(compose_plan(plan(order))))
    print(f"of it: planning {best(lambda: plan(order)):.4f} s, composing {best(lambda: compose_plan(made)):.4f} s,", end=" ")
    print(f"printing {best(lambda: standalone(document)):.4f} s")
    kept = show("plan page of 97 teeth, in process", PLAN_SECONDS, whole, "s")
    return show("its weight with style and pictures", PAGE_KB, len(standalone(document).encode()) / 1000, "kB") and kept


def processes() -> bool:
    """Whole processes of the command line."""
    kept = show("evenpitch --help", HELP_SECONDS, best(lambda: _run("--help"), 5), "s")
    return show("evenpitch divide 113", DIVIDE_SECONDS, best(lambda: _run("divide", "113"), 5), "s") and kept


def _run(*words: str) -> None:
    subprocess.run([str(BIN), *words], check=True, capture_output=True)


def server() -> bool:
    """First page after `serve`, and memory after every page was visited once."""
    with tempfile.TemporaryDirectory() as home:
        environment = {**os.environ, "EVENPITCH_HOME": home}
        subprocess.run([str(BIN), "demo", "--no-serve"], check=True, capture_output=True, env=environment)
        first = best(lambda: _served(environment, lambda base, pid: None), STARTS)
        kept = show("first page of serve, museum's book", FIRST_PAGE_SECONDS, first, "s")
        seen, resident = _served(environment, lambda base, pid: (_crawl(base), _resident(pid)))
        return show(f"resident memory after {seen} pages", MEMORY_MB, resident, "MB") and kept


def _served(environment: dict[str, str], then: Callable[[str, int], Any]) -> Any:
    """Serve until the first page has come, then what is wanted of it."""
    serving = subprocess.Popen([str(BIN), "serve"], stdout=subprocess.PIPE, env=environment, text=True)
    try:
        assert serving.stdout is not None
        found = re.search(r"http://[\d.:]+", serving.stdout.readline())
        assert found is not None
        _page(found[0] + "/")
        return then(found[0], serving.pid)
    finally:
        serving.kill()
        serving.wait(10)


def _page(address: str) -> str:
    with urllib.request.urlopen(address, timeout=20) as answer:
        return str(answer.read().decode("utf-8", "replace"))


def _crawl(base: str) -> int:
    todo, seen = ["/"], set()
    while todo and len(seen) < 200:
        path = todo.pop()
        if path in seen:
            continue
        seen.add(path)
        try:
            text = _page(base + path)
        except OSError:
            continue
        todo += [link.replace("&amp;", "&") for link in re.findall(r'href="(/[^"#]*)', text) if "/light" not in link]
    return len(seen)


def _resident(pid: int) -> float:
    status = Path(f"/proc/{pid}/status")
    if not status.exists():
        return 0.0
    found = re.search(r"VmRSS:\s+(\d+)", status.read_text())
    return int(found[1]) / 1024 if found else 0.0


if __name__ == "__main__":
    results = [in_process(), processes(), server()]
    sys.exit(0 if all(results) else 1)
