"""The link's kernels against plain Python loops that do the same, both sides in one run. Run: python benchmarks/bench_link.py [--short]

With --short the slow sides run over less of the work and are scaled up; the printed line says so.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import TypeVar

import numpy as np

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))

from evenpitch.link.draws import draw
from evenpitch.link.fit import least_squares, log_design
from evenpitch.link.helix_passes import helix_passes
from evenpitch.link.jumps import largest_jump
from evenpitch.link.limits import class_limits
from evenpitch.link.motion import CrankFeed
from evenpitch.link.passing import Linked, simulate_pass
from evenpitch.link.prediction import look_at
from evenpitch.link.pulse_train import Timing
from evenpitch.quantity.ratios import best_bounded
from link.logs import LEAD, made
from link.marching import march
from link.shop import drive_of, sizes
from link.test_helix_passes import PLAN

T = TypeVar("T")
SHORT = "--short" in sys.argv
MISSED: list[str] = []


def timed(work: Callable[[], T], times: int = 1) -> tuple[float, T]:
    """Seconds of the fastest of so many runs, and what it gave."""
    best = float("inf")
    for _ in range(times):
        start = time.perf_counter()
        found = work()
        best = min(best, time.perf_counter() - start)
    return best, found


def told(name: str, ours: float, plain: float, least: float, most: float | None = None, note: str = "") -> None:
    """One line: both sides, their ratio, what is asked."""
    ratio = plain / ours
    met = ratio >= least and (most is None or ours <= most)
    asked = f"asked {least:.0f}x" + (f", {most * 1000:.0f} ms" if most is not None else "")
    print(f"{name:34s} ours {ours * 1000:10.3f} ms   plain {plain * 1000:12.1f} ms   {ratio:9.0f}x   ({asked}) {note}")
    if not met:
        MISSED.append(name)


def ratios() -> None:
    """The nearest fraction within 15-bit fields, against a scan over all denominators."""
    wanted = Fraction("0.725789285963716")

    def scan() -> Fraction:
        best, value = (float("inf"), 0, 1), float(wanted)
        for q in range(1, 32_768):
            p = round(value * q)
            if 1 <= p <= 32_767 and abs(value - p / q) < best[0]:
                best = (abs(value - p / q), p, q)
        return Fraction(best[1], best[2])

    plain, there = timed(scan)
    ours, here = timed(lambda: best_bounded(wanted, 32_767, 32_767), 50)
    assert here == there
    told("bounded ratio, 32767", ours, plain, 20)


def passes() -> None:
    """A minute by crank at 1 µm, against a march in time."""
    timing = Timing(latency=0.002, most=20_000.0)
    link = Linked(count=0.001, pulses=6138, per_counts=14_095, offset=0.37, pulses_per_turn=192_000, lead=LEAD, timing=timing)
    motion = CrankFeed(1, 0.6, 1.2, 0.3)
    ours, events = timed(lambda: simulate_pass(motion, link, 60.0), 15)
    coarse, loop = timed(lambda: march(motion, link, 60.0, 5e-5))
    same = loop.numbers == events.number[: len(loop.numbers)].tolist()
    assert same
    assert len(events.number) - len(loop.numbers) <= 1
    told("pass of 60 s at 1 µm, 50 µs loop", ours, coarse, 60, 0.010)
    span = 6.0 if SHORT else 60.0
    fine, _ = timed(lambda: march(motion, link, span, 1e-5))
    told("pass of 60 s at 1 µm, 10 µs loop", ours, fine * 60 / span, 300, None, "scaled up" if SHORT else "")


def monte_carlo() -> None:
    """Helix passes by the thousand, against a sample loop of one pass of 25 mm at 50 µs."""
    count = 20_000
    ours, found = timed(lambda: helix_passes(PLAN, count, 3), 2)
    motion = CrankFeed(PLAN.mean, PLAN.unevenness, PLAN.turns)
    plain, _ = timed(lambda: sample_loop(motion, PLAN.link, 41.2, 5e-5))
    print(f"helix passes: {count / ours:.0f} a second (asked 10 000), sd of slope {found.slope.std():.3f} µm")
    told("one helix pass, 50 µs loop", ours / count, plain, 5000)
    if count / ours < 10_000:
        MISSED.append("helix passes a second")


def sample_loop(motion: CrankFeed, link: Linked, travel: float, tick: float) -> float:
    """The plain way: every tick the table, the count, the pulses, the waves, and the largest error."""
    import math

    v0, k, w, c = motion.mean, motion.unevenness, motion.pace, motion.phase
    sine, worst, t = math.sin, 0.0, float(motion.when([travel - 25])[0])
    per_pulse, per_mm = 2 * math.pi / link.pulses_per_turn, 2 * math.pi / link.lead
    while True:
        t += tick
        x = v0 * (t - k / w * (sine(w * t + c) - sine(c)))
        if x > travel:
            return worst
        late = t - link.timing.latency
        seen = v0 * (late - k / w * (sine(w * late + c) - sine(c)))
        n = math.floor(seen / link.count + 0.37)
        s = (2 * n * link.pulses + link.per_counts) // (2 * link.per_counts)
        angle = per_pulse * s
        error = angle - per_mm * x + 9.7e-5 * sine(40 * angle) + 1.2e-4 * sine(angle) + 3.9e-5 * sine(s * math.pi / 16)
        worst = max(worst, abs(error))


def classes() -> None:
    """Whole gears: 20 000 draws, and the 24-tooth gear by the weak rig is the slowest."""
    for name in ("h24", "s127"):
        gear = sizes(name)
        for letter in "ABC":
            drive = drive_of(letter)
            seconds, found = timed(lambda d=drive, g=gear: look_at(draw(d, g, 20_000, 1), class_limits(g)), 2)  # type: ignore[misc]
            print(f"class of {name} on rig {letter}, 20 000 draws: {seconds:.2f} s (asked 2 s), class {found.class95}")
            if seconds > 2:
                MISSED.append(f"class of {name} on {letter}")


def audits() -> None:
    """A jump found in 6000 rows, against a refit at every row."""
    rows = 6000
    log = made(np.random.default_rng(5), rows, sd=5, lost=2)
    design = log_design(log.place, log.speed, LEAD, 40)
    ours, jump = timed(lambda: largest_jump(least_squares(design, log.residual)), 7)
    every = 20 if SHORT else 1

    def refit() -> tuple[float, int, float]:
        best = (float("inf"), 0, 0.0)
        for row in range(1, rows - 1, every):
            columns = np.column_stack([design.columns, np.arange(rows) >= row])
            values = np.linalg.solve(columns.T @ columns, columns.T @ log.residual)
            left = log.residual - columns @ values
            best = min(best, (float(left @ left), row, float(values[-1])))
        return best

    plain, (_, row, size) = timed(refit)
    assert jump is not None
    if not SHORT:
        assert row == jump.row
        assert abs(size / jump.size - 1) < 1e-6
    told("audit of 6000 rows, refit of every row", ours, plain * every, 200, 0.050, "scaled up" if SHORT else "")


def main() -> int:
    """All of them; 1 if one misses what is asked."""
    for part in (ratios, passes, monte_carlo, classes, audits):
        part()
    print("missed: " + ", ".join(MISSED) if MISSED else "all as asked")
    return 1 if MISSED else 0


if __name__ == "__main__":
    sys.exit(main())
