"""Verdict and explanation of a gear of 400 teeth, both flanks, against its bound and against a plain way; a judged page; a kept one.

The plain way sums the steps of each round in a loop, takes the wave of every count by its own sine and cosine sums, and draws what
scatter does to F_p and f_p one gear after the other; of these draws a thirtieth is timed and reckoned up.
Run: .venv/bin/python benchmarks/bench_inspection.py
"""

from __future__ import annotations

import math
import sys
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from random import Random

import numpy as np

from evenpitch.checking.extremes import DRAWS as DRAWN
from evenpitch.checking.extremes import SIZES
from evenpitch.checking.readings import GearReading
from evenpitch.job.judging import judge
from evenpitch.job.plan import Plan
from evenpitch.job.planning import plan
from evenpitch.job.predicting import expected_of
from evenpitch.sheet.compose.inspection import compose_inspection
from evenpitch.sheet.print_html import standalone
from evenpitch.store.files.job_file import order_from
from evenpitch.store.files.rig_file import read_rig
from evenpitch.web.known_beside import DRAWS

ROOT = Path(__file__).resolve().parent.parent
TEETH, ROUNDS, BOUND = 400, 2, 0.5


def the_plan() -> Plan:
    """A wheel of 400 teeth, module 1, on the museum's mill."""
    rig = read_rig((ROOT / "examples/museum-mill.toml").read_text(encoding="utf-8")).rig
    text = (ROOT / "examples/loom-change-wheel.toml").read_text(encoding="utf-8")
    order = order_from(text, rig)
    work = order.works[0]
    gear = replace(work.gear, teeth=TEETH, spanned=None)
    return plan(replace(order, works=(replace(work, gear=gear, outside_found=None),)))


def readings() -> tuple[GearReading, ...]:
    """Both flanks, two rounds: a wave of the worm, a bore off the axis, one slip, and scatter."""
    rng = np.random.default_rng(1)
    at = 2 * np.pi * np.arange(TEETH) / TEETH
    found = []
    for flank, lean in (("right", 0.25), ("left", -0.25)):
        curve = 0.02 * np.sin(at + lean) + 0.006 * np.sin(40 * at)
        curve[200] += 0.11
        steps = np.roll(curve, -1) - curve
        for turn in range(1, ROUNDS + 1):
            read = steps + rng.normal(0, 0.003, TEETH)
            found += [
                GearReading("pitch step", space, flank, "comparator", float(value), round=turn)  # type: ignore[arg-type]
                for space, value in enumerate(read, 1)
            ]
    found += [
        GearReading("runout", space, None, "indicator", float(0.02 * math.cos(angle) + rng.normal(0, 0.003)))
        for space, angle in enumerate(at, 1)
    ]
    return tuple(found)


def plain(every: tuple[GearReading, ...]) -> float:
    """Mean rounds, close, sum, and every wave by plain loops; the largest amplitude."""
    largest = 0.0
    for flank in ("right", "left"):
        rows = [one.value for one in every if one.flank == flank]
        mean = [sum(rows[space::TEETH]) / ROUNDS for space in range(TEETH)]
        closing = sum(mean) / TEETH
        curve, here = [], 0.0
        for step in mean:
            curve.append(here)
            here += step - closing
        for wave in range(1, TEETH // 2):
            angles = [2 * math.pi * wave * space / TEETH for space in range(TEETH)]
            sine = sum(value * math.sin(angle) for value, angle in zip(curve, angles, strict=True))
            cosine = sum(value * math.cos(angle) for value, angle in zip(curve, angles, strict=True))
            largest = max(largest, 2 * math.hypot(sine, cosine) / TEETH)
    return largest


def plain_draws(every: tuple[GearReading, ...], draws: int) -> float:
    """So many gears drawn at every size, for both extremes, shapes and flanks, in loops; the largest of all."""
    random, largest = Random(1), 0.0
    curve = [one.value for one in every if one.flank == "right"][:TEETH]
    for _ in range(draws * 2 * 2 * 2):
        scatter = [random.gauss(0.0, 0.002) for _ in range(TEETH)]
        for size in range(SIZES):
            drawn = [size / SIZES * own + off for own, off in zip(curve, scatter, strict=True)]
            largest = max(largest, max(drawn) - min(drawn))
    return largest


def best(run: Callable[[], object], times: int = 5) -> float:
    """Least seconds of several goes."""
    spent = []
    for _ in range(times):
        start = time.perf_counter()
        run()
        spent.append(time.perf_counter() - start)
    return min(spent)


def main() -> int:
    """Print the table; 0 where the bound is kept."""
    made, every = the_plan(), readings()
    start = time.perf_counter()
    verdict = judge(made, every)
    cold, warm = time.perf_counter() - start, best(lambda: judge(made, every))
    loops = best(lambda: plain(every), 2) + best(lambda: plain_draws(every, DRAWN // 30), 1) * 30
    drawn = best(lambda: expected_of(made.order, made.gears[0], DRAWS), 2)
    page = best(lambda: standalone(compose_inspection(made, verdict)))
    bound = f"bound {BOUND * 1e3:.0f} ms, {BOUND / cold:.1f} x within"
    print(f"verdict and explanation, {TEETH} teeth, both flanks, first {cold * 1e3:7.0f} ms   {bound}")
    print(
        f"the same again                                       {warm * 1e3:7.0f} ms   plain {loops * 1e3:.0f} ms, ratio {loops / warm:.0f}"
    )
    print(f"what to expect of this rig, {DRAWS} gears drawn        {drawn * 1e3:7.0f} ms   once for a plan, then at hand")
    print(f"the page of it                                        {page * 1e3:7.0f} ms")
    print(f"first of its causes: {', '.join(cause.code for cause in verdict.causes[:3])}")
    return 0 if cold <= BOUND else 1


if __name__ == "__main__":
    sys.exit(main())
