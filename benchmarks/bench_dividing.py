"""All ways of dividing by one number, against plain nested loops that find the same set. Run: python benchmarks/bench_dividing.py [N]

Both sides run here, one after the other: plate x ordered pair of circles x skip x crank spaces x plate spaces in integers, and
circle x spaces x every one- and two-pair train. Ours is timed cold (nothing remembered from before) and warm.
"""

from __future__ import annotations

import sys
import time
from fractions import Fraction
from math import lcm
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))

from evenpitch.dividing.chart import chart
from evenpitch.dividing.compound import exact_compounds, near_misses
from evenpitch.dividing.differential import differential_ways
from evenpitch.dividing.methods import Compound
from evenpitch.dividing.simple import simple_ways
from evenpitch.dividing.ways import ways
from evenpitch.rig.generic import GEAR_SETS, PLATE_SETS
from evenpitch.rig.head import Head
from witnesses.plain_dividing import compound_by_loops, differential_by_loops, simple_by_loops

HEAD = Head(ratio=Fraction(40), direct=24)
PLATES = PLATE_SETS["three plates, 15 to 49 holes"]
GEARS = GEAR_SETS["twelve gears, 24 to 100"]
CIRCLES = [plate.circles for plate in PLATES]
Found = tuple[set[tuple[int, ...]], set[tuple[int, int]], set[tuple[int, int]]]


def ours(divisions: int) -> Found:
    """Everything within 60″ by compound moves, every simple and every differential move."""
    compounds = [*exact_compounds(divisions, HEAD, PLATES), *near_misses(divisions, HEAD, PLATES, exact=False, least_error=False)]
    told = set()
    for way in compounds:
        if isinstance(way, Compound):
            grid = lcm(way.circle, way.plate_circle)
            told.add((way.circle, way.plate_circle, way.skip, int(abs(way.move_error) * divisions * grid), grid))
    simple = {(way.circle, way.whole_turns * way.circle + way.spaces) for way in simple_ways(divisions, HEAD, PLATES)}
    geared = {
        (way.circle, way.whole_turns * way.circle + way.spaces) for way in differential_ways(divisions, HEAD, PLATES, GEARS)
    }
    return told, simple, geared


def plain(divisions: int) -> Found:
    """The same by nested loops; of exact skips the smallest for each pair."""
    compounds = compound_by_loops(divisions, 40, CIRCLES, 60)
    least: dict[tuple[int, ...], int] = {}
    for first, second, skip, error, _ in compounds:
        if not error:
            least[first, second] = min(skip, least.get((first, second), skip))
    return (
        {found for found in compounds if found[3] or found[2] == least[found[:2]]},
        simple_by_loops(divisions, 40, CIRCLES),
        differential_by_loops(divisions, 40, CIRCLES, GEARS.teeth, GEARS.stud_clearance),
    )


def timed(work: object, *args: object, times: int = 1) -> tuple[float, object]:
    """Seconds of the fastest of so many runs, and what the last gave."""
    best, found = float("inf"), None
    for _ in range(times):
        start = time.perf_counter()
        found = work(*args)  # type: ignore[operator]
        best = min(best, time.perf_counter() - start)
    return best, found


def main(divisions: int) -> int:
    """Print both sides and their ratio; 1 if the sets differ or the ratio is below 50."""
    cold, found = timed(ours, divisions)
    warm, _ = timed(ours, divisions, times=5)
    full, _ = timed(ways, divisions, HEAD, PLATES, GEARS, Fraction(192_000), times=5)
    loops, expected = timed(plain, divisions)
    same = found == expected
    print(f"ways of dividing by {divisions}, three plates, twelve gears; same set found: {same}")
    print(f"  plain nested loops   {loops * 1000:10.1f} ms")
    print(f"  ours, cold           {cold * 1000:10.1f} ms   {loops / cold:8.0f} x")
    print(f"  ours, warm           {warm * 1000:10.1f} ms   {loops / warm:8.0f} x")
    print(f"  ways(), ranked, warm {full * 1000:10.1f} ms")
    seconds, rows = timed(chart, 2, 400, HEAD, PLATES, GEARS, Fraction(192_000))
    print(f"wall chart 2 to 400: {seconds:.2f} s, {len(rows)} rows")  # type: ignore[arg-type]
    return 0 if same and loops / cold >= 50 and seconds < 10 else 1


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 113))
