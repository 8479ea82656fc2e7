"""Speed of the virtual cut, as ratios to one plain union of cutter sections (T1), in one run on one machine, warm.

    python benchmarks/bench_flank.py

T1: union by a polygon library of 81 plane sections of 100 points, for one section of one space. The same way of doing the full gear
would take 2 000 T1.
"""

from __future__ import annotations

import math
import time
import tracemalloc
from collections.abc import Callable

import numpy as np
import shapely

from evenpitch.flank.choose import Candidate, rank_cutters
from evenpitch.flank.draws import Rigs, Wave, drawn_figures
from evenpitch.flank.envelope import Cut
from evenpitch.flank.exact import exact_form
from evenpitch.flank.forms import numbered_form
from evenpitch.flank.motion import Motion, WormError
from evenpitch.flank.setting import Setting, usual_setting
from evenpitch.flank.slices import outline, sections
from evenpitch.flank.wanted import WantedFlank, wanted_flank
from evenpitch.flank.whole import whole_gear
from evenpitch.quantity.units import Millimetre, Radian

SECOND = math.pi / 648_000
TWENTY = Radian(math.radians(20))
FIFTEEN = (12, 13, 14, 15, 17, 19, 21, 23, 26, 30, 35, 42, 55, 80, 135)

LIMITS = {"full gear": 10.0, "1 000 rigs": 60.0, "15 cutters": 30.0}
"""At most so many T1."""


def best_time(work: Callable[[], object], times: int = 5) -> float:
    """Shortest of several runs, seconds; one run before them warms up."""
    work()
    found = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        found.append(time.perf_counter() - start)
    return min(found)


def the_gear(teeth: int, helix: float = 20.0) -> WantedFlank:
    """Module 2, 20 degrees, 20 mm face."""
    return wanted_flank(teeth, Millimetre(2.0), TWENTY, Radian(math.radians(helix)), Millimetre(20.0))


def union_of_sections(made: Cut) -> object:
    """The yardstick."""
    edge = outline(made.form.plus)
    outer = np.flatnonzero(edge.w >= 0)
    some = outer[np.linspace(0, len(outer) - 1, 50).astype(int)]
    w = np.concatenate([-edge.w[some][::-1], edge.w[some]])
    R = np.concatenate([edge.R[some][::-1], edge.R[some]])
    taken = []
    for zeta in np.linspace(-8, 8, 81):
        radius, angle = sections(w, R, made.setting, zeta)
        here = np.isfinite(radius)
        turned = angle[here] - made.motion.q * zeta
        taken.append(shapely.Polygon(np.column_stack([radius[here] * np.cos(turned), radius[here] * np.sin(turned)])))
    return shapely.union_all(taken)


def main() -> None:
    """Print the ratios and whether they keep their limits."""
    wanted = the_gear(40)
    setting = usual_setting(
        Millimetre(wanted.root_radius), Millimetre(30.0), Radian(wanted.helix), swing_error=Radian(math.radians(0.2))
    )
    motion = Motion(40, wanted.q / 1.0002, worms=(WormError(30 * SECOND, 40.0, 0.3),))
    form = exact_form(wanted, Setting(wanted.helix, 0.0, wanted.root_radius + 30), 60.0)
    made = Cut(form, setting, wanted, motion)
    other = Cut(
        numbered_form(42, Millimetre(2.0), TWENTY, Millimetre(60.0), corner=Millimetre(0.5), nodes=300), setting, wanted, motion
    )
    draw, n = np.random.default_rng(1), 1000
    rigs = Rigs(
        swing=wanted.helix + math.radians(0.1) * draw.normal(size=n), offset=0.03 * draw.normal(size=n),
        centre=wanted.root_radius + 30 + 0.02 * draw.normal(size=n), q=wanted.q / (1 + 1e-4 * draw.normal(size=n)),
        waves=(Wave(30 * SECOND * draw.random(n), 6 * draw.random(n), 40 * wanted.q, 2 * math.pi),),
        index=10 * SECOND * draw.normal(size=(n, 40)),
    )  # fmt: skip
    drawer = tuple(
        Candidate(name=f"made for {count}", form_teeth=count, module=Millimetre(2.0), pressure_angle=TWENTY, outside=Millimetre(60.0),
                  corner=Millimetre(0.5)) for count in FIFTEEN
    )  # fmt: skip
    yardstick = best_time(lambda: union_of_sections(other))
    jobs: dict[str, Callable[[], object]] = {
        "full gear": lambda: whole_gear(made),
        "1 000 rigs": lambda: drawn_figures(form, wanted, rigs),
        "15 cutters": lambda: rank_cutters(the_gear(24, 30.0), drawer),
    }
    print(f"T1 {1e3 * yardstick:.1f} ms")
    for name, work in jobs.items():
        ratio = best_time(work) / yardstick
        kept = "kept" if ratio <= LIMITS[name] else "BROKEN"
        print(f"{name}: {ratio:.1f} T1 ({1e3 * ratio * yardstick:.0f} ms), at most {LIMITS[name]:g}: {kept}")
    tracemalloc.start()
    found = whole_gear(made)
    most = tracemalloc.get_traced_memory()[1] / (found.plus.nbytes + found.minus.nbytes)
    tracemalloc.stop()
    print(f"memory of the full gear: {most:.1f} times its output, at most 10: {'kept' if most <= 10 else 'BROKEN'}")


if __name__ == "__main__":
    main()
