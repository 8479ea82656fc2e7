"""Made-up logs of the 28-tooth pinion of the museum workshop on its own rig, as rows and as the CSV a logger writes."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from evenpitch.checking.readings import LogRow
from evenpitch.link.motion import CrankFeed
from evenpitch.link.pulse_train import link_target
from evenpitch.quantity.units import RADIAN_PER_ARCSEC, Radian

RATIO = (24_364, 65_273)
ARCSEC_OF_A_PULSE = 6.75


def made_log(rig_count: float = 0.001, *, lost: int = 0, latency: float = 0.0, work: bool = True, **more: Any) -> list[LogRow]:
    """A pass of the pinion by crank: rows as the reader of files gives them."""
    random = np.random.default_rng(3)
    motion = CrankFeed(1.0, 0.6, 1.0)
    t = np.arange(0, 42, 0.07)
    n = np.floor(motion.place(t) / rig_count + 0.5).astype(int)
    late = np.floor(motion.place(np.maximum(t - latency, 0)) / rig_count + 0.5).astype(int)
    s = link_target(late, *RATIO) + np.asarray(more.get("added", np.zeros(len(t), dtype=int)))
    s = s - lost * (t > 20)
    wave = np.sin(s * 40 * ARCSEC_OF_A_PULSE * RADIAN_PER_ARCSEC)
    angle = (s - more.get("slip", 0) * (t > 15)) * ARCSEC_OF_A_PULSE + more.get("worm", 0.0) * wave
    angle = (
        angle * (1 + more.get("ratio", 0.0))
        + 3 * random.standard_normal(len(t))
        + more.get("lean", 0.0) * np.convolve(random.standard_normal(len(t) + 4), np.ones(5), "valid")
    )
    if more.get("deviations"):
        angle = angle - ARCSEC_OF_A_PULSE * s
    times = t + 40 * (t > 30) if more.get("gap") else t
    counts = (n + 65_000) % 65_536 if more.get("wrap") else n
    sign = -1 if more.get("other_way") else 1
    return [
        LogRow(float(a), int(b), int(c) * sign, None, Radian(float(d) * sign * RADIAN_PER_ARCSEC) if work else None)
        for a, b, c, d in zip(times, counts, s, angle, strict=True)
    ]


def as_csv(rows: Sequence[LogRow]) -> str:
    """The rows as a logger writes them."""
    lines = "".join(f"{row.time:.3f},{row.count},{row.pulse},{(row.work or 0) / RADIAN_PER_ARCSEC:.3f}\n" for row in rows)
    return f"time_s,count,pulse,work_arcsec\n{lines}"
