"""The trains nearest to a lead, against a plain loop four gears deep. Run: python benchmarks/bench_lead.py [leads]

Both sides run here and must name the same leads. Ours is timed from nothing, the making of its table of trains included; that table
costs about as much as one plain loop, so a single lead gains little and every further one nearly all.
"""

from __future__ import annotations

import math
import sys
import time
from fractions import Fraction
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))

from evenpitch.dividing.lead_pair import lead_pairs
from evenpitch.dividing.trains import ratios_near
from evenpitch.quantity.units import INCH
from evenpitch.rig.generic import GEAR_SETS
from evenpitch.rig.head import Head
from witnesses.plain_dividing import leads_by_loops

GEARS = GEAR_SETS["twelve gears, 24 to 100"]
MACHINE_LEAD = 254.0
MOST = 8


def targets(count: int) -> list[float]:
    """Driven/drivers wanted for helical gears of module 2 at 20°, one tooth apart."""
    return [math.pi * 2 * (12 + z) / math.sin(math.radians(20)) / MACHINE_LEAD for z in range(count)]


def main(count: int) -> int:
    """Print both sides and their ratio; 1 if the answers differ or the ratio is below 20."""
    wanted = targets(count)
    start = time.perf_counter()
    ours = [ratios_near(target, GEARS, MOST) for target in wanted]
    fast = time.perf_counter() - start
    start = time.perf_counter()
    plain = [leads_by_loops(target, GEARS.teeth, GEARS.stud_clearance, MOST) for target in wanted]
    slow = time.perf_counter() - start
    same = all({(r.numerator, r.denominator) for r in mine} == set(theirs) for mine, theirs in zip(ours, plain, strict=True))
    print(f"{MOST} nearest of {count} leads, twelve gears; same answers: {same}")
    print(f"  plain loop, four deep {slow * 1000:10.1f} ms")
    print(f"  ours, from nothing    {fast * 1000:10.1f} ms   {slow / fast:8.0f} x")
    lead = math.pi * 56 / math.sin(math.radians(20))
    start = time.perf_counter()
    pairs = lead_pairs(lead, 2 * lead, Head(ratio=Fraction(40)), INCH / 4, GEARS)
    print(f"two leads together: {(time.perf_counter() - start) * 1000:.1f} ms, mismatch {pairs[0].mismatch_ppm:.3g} ppm")
    return 0 if same and slow / fast >= 20 else 1


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 60))
