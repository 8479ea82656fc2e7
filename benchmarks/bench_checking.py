"""Checking against a plain way of doing the same, in one run: ratios first, times beside them.

python benchmarks/bench_checking.py
"""

from __future__ import annotations

import math
import time
from collections.abc import Callable, Sequence
from fractions import Fraction

import numpy as np

from evenpitch.checking.least_squares import fit
from evenpitch.checking.periodic import MOST_PERIODS, strongest_wave, wave_at
from evenpitch.checking.readings import HeadReading, ScaleReading
from evenpitch.checking.scale import calibrate_scale
from evenpitch.checking.setting_slips import Setting, slips
from evenpitch.checking.wrong_reading import explain_reading
from evenpitch.job.commissioning import commission_head, commission_scale
from evenpitch.sheet.compose.proving import compose_head, compose_scale
from evenpitch.sheet.print_text import text


def timed(work: Callable[[], object], least: float = 0.2) -> float:
    """Seconds for one go, the best of as many as fit, after a first that loads what it needs."""
    work()
    best, begun = math.inf, time.perf_counter()
    while time.perf_counter() - begun < least:
        start = time.perf_counter()
        work()
        best = min(best, time.perf_counter() - start)
    return best


def scale_readings(n: int) -> list[ScaleReading]:
    """n readings over 600 mm, both ways."""
    rng = np.random.default_rng(1)
    x = np.linspace(0, 600, n // 2).tolist()
    both = [("up", at) for at in x] + [("down", at) for at in x[::-1]]
    return [ScaleReading(1, side, at, at * (1 - 180e-6) + float(rng.normal(0, 0.001))) for side, at in both]  # type: ignore[arg-type]


def head_readings(n: int) -> list[HeadReading]:
    """n bar readings round the head."""
    rng = np.random.default_rng(2)
    angles = np.linspace(0, 2 * math.pi, n).tolist()
    return [
        HeadReading("bar", 1, "up", a, 2e-4 * math.sin(a) + 7e-5 * math.sin(40 * a) + float(rng.normal(0, 1e-5))) for a in angles
    ]


def plain_line(readings: Sequence[ScaleReading]) -> tuple[float, float]:
    """The line and reversal by normal equations in plain loops, and the residuals once more to get s."""
    rows = [(1.0, one.reference, 0.5 if one.direction == "up" else -0.5) for one in readings]
    matrix = [[sum(a[i] * a[j] for a in rows) for j in range(3)] for i in range(3)]
    right = [sum(a[i] * one.error for a, one in zip(rows, readings, strict=True)) for i in range(3)]
    for i in range(3):
        for k in range(i + 1, 3):
            factor = matrix[k][i] / matrix[i][i]
            matrix[k] = [a - factor * b for a, b in zip(matrix[k], matrix[i], strict=True)]
            right[k] -= factor * right[i]
    solved = [0.0, 0.0, 0.0]
    for i in (2, 1, 0):
        solved[i] = (right[i] - sum(matrix[i][j] * solved[j] for j in range(i + 1, 3))) / matrix[i][i]
    left = [one.error - sum(c * a for c, a in zip(solved, row, strict=True)) for row, one in zip(rows, readings, strict=True)]
    return solved[1], math.sqrt(sum(r * r for r in left) / (len(left) - 3))


def plain_waves(readings: Sequence[ScaleReading]) -> float:
    """The strongest wave by a whole fit anew at each period that may be tried."""
    reach = max(one.reference for one in readings) - min(one.reference for one in readings)
    periods = reach / np.linspace(1.0, MOST_PERIODS / 2, MOST_PERIODS)
    return max((wave_at(readings, float(period)) for period in periods), key=lambda wave: wave.amplitude.value).period


def plain_without_each(readings: Sequence[ScaleReading], some: int) -> float:
    """Bad readings looked for by a fit anew without each of `some` readings: seconds that all of them would take."""
    start = time.perf_counter()
    x, y = np.array([one.reference for one in readings]), np.array([one.error for one in readings])
    side = np.array([0.5 if one.direction == "up" else -0.5 for one in readings])
    for out in range(some):
        columns = {"at": np.ones(len(x) - 1), "gain": np.delete(x, out), "reversal": np.delete(side, out)}
        fit(columns, np.delete(y, out))
    return (time.perf_counter() - start) * len(readings) / some


def plain_search(moved: Fraction, shown: Fraction) -> int:
    """Every candidate, alone and by two, fitted anew through ten made-up readings."""
    known = list(slips(Setting()))
    factors = [one.factor for one in known] + [a.factor * b.factor for i, a in enumerate(known) for b in known[i + 1 :]]
    x = [moved * k / 10 for k in range(1, 11)]
    hits = 0
    for factor in factors:
        y = [factor * at for at in x]
        slope = sum(a * b for a, b in zip(x, y, strict=True)) / sum(a * a for a in x)
        hits += abs(slope * moved - shown) < Fraction(1, 500) * abs(shown)
    return hits


def main() -> None:
    """Print the table."""
    readings, head = scale_readings(2000), head_readings(2000)
    fit_time, loop = timed(lambda: calibrate_scale(readings)), timed(lambda: plain_line(readings))
    page = timed(lambda: text(compose_scale(commission_scale(readings))))
    search = timed(lambda: explain_reading(Fraction(50), Fraction(200)))
    refit = timed(lambda: plain_search(Fraction(50), Fraction(200)))
    waves, each = timed(lambda: strongest_wave(readings)), timed(lambda: plain_waves(readings), least=0.001)
    without = plain_without_each(readings, 50)
    joint = timed(lambda: text(compose_head(commission_head(head, Fraction(40)))))
    print(f"scale, 2000 readings, whole calibration   {fit_time * 1e3:8.1f} ms   one plain line {loop * 1e3:.1f} ms")
    print(f"  bad readings named in it, each left out once by a refit {without * 1e3:.0f} ms: {without / fit_time:.0f} x as long")
    print(f"  wave among {MOST_PERIODS} periods                {waves * 1e3:8.1f} ms")
    print(f"  a refit for each period                 {each * 1e3:8.1f} ms   {each / waves:.0f} x as long")
    print(f"scale, 2000 readings, all of it and page  {page * 1e3:8.1f} ms   bar 200 ms: {kept(page, 0.2)}")
    print(f"head, 2000 readings, joint fit and page   {joint * 1e3:8.1f} ms   bar 200 ms: {kept(joint, 0.2)}")
    print(f"wrong reading, one and two causes         {search * 1e3:8.2f} ms   bar 50 ms: {kept(search, 0.05)}")
    print(f"  a refit for every candidate             {refit * 1e3:8.1f} ms   {refit / search:.0f} x as long")


def kept(found: float, bar: float) -> str:
    """Whether a time keeps its bar."""
    return "kept" if found <= bar else "BROKEN"


if __name__ == "__main__":
    main()
