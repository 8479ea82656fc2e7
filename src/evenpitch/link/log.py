"""The log of a link as arrays: counters that wrapped are unrolled and said, gaps named, nothing mended in silence."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from evenpitch.link.pulse_train import Array, Whole
from evenpitch.quantity.refusal import Fault, Refusal

WRAPS = (2**16, 2**32)
"""Sizes of counters that come back to the start."""

GAP_TIMES = 20.0
"""A pause this many times the usual one is a gap in the log; common practice."""

LEAST_ROWS = 10


@dataclass(frozen=True, slots=True)
class Wrap:
    """A counter of so many bits that came back to its start: which column, before which row."""

    column: str
    row: int
    bits: int


@dataclass(frozen=True, slots=True)
class Log:
    """Times rising, s; counts and pulses from the first row; motor and work angle, radian, or None where not logged.

    `gaps`: rows before which the log pauses. `wraps`: where counters were unrolled.
    """

    time: Array
    count: Whole
    pulse: Whole
    motor: Array | None
    work: Array | None
    gaps: tuple[int, ...]
    wraps: tuple[Wrap, ...]

    @property
    def rows(self) -> int:
        """How many."""
        return len(self.time)


def log_of(time: Any, count: Any, pulse: Any, motor: Any = None, work: Any = None) -> Log:
    """The log, or a Refusal with every fault. Times in s, angles in radian."""
    t, n, s = np.asarray(time, float), np.asarray(count), np.asarray(pulse)
    angles = {name: None if a is None else np.asarray(a, float) for name, a in (("motor", motor), ("work", work))}
    faults = [*_lengths(t, n, s, angles), *_numbers(t, n, s, angles)]
    if not faults:
        faults += _times(t)
    if faults:
        raise Refusal(*faults)
    wraps: list[Wrap] = []
    counts, pulses = (_unrolled(np.asarray(column, dtype=np.int64), name, wraps) for name, column in (("count", n), ("pulse", s)))
    pauses = np.diff(t)
    gaps = tuple((np.nonzero(pauses > GAP_TIMES * np.median(pauses))[0] + 1).tolist())
    return Log(t, counts, pulses, angles["motor"], angles["work"], gaps, tuple(wraps))


def _lengths(t: Array, n: Any, s: Any, angles: dict[str, Array | None]) -> list[Fault]:
    sizes = {"time": len(t), "count": len(n), "pulse": len(s), **{k: len(a) for k, a in angles.items() if a is not None}}
    if len(set(sizes.values())) > 1:
        return [Fault("log", str(sizes), "columns of one length", "A column ends early.", "Write the log once more.")]
    if len(t) < LEAST_ROWS:
        return [Fault("log", f"{len(t)} rows", f"{LEAST_ROWS} or more", "So few prove nothing.", "Log a whole pass.")]
    return []


def _numbers(t: Array, n: Any, s: Any, angles: dict[str, Array | None]) -> list[Fault]:
    faults = []
    for name, column in (("time", t), ("count", n), ("pulse", s), *angles.items()):
        if column is None:
            continue
        values = np.asarray(column, float)
        bad = np.nonzero(~np.isfinite(values))[0]
        if len(bad):
            given = f"not a number in {len(bad)} rows, first in row {bad[0] + 1}"
            faults.append(
                Fault(f"log, {name}", given, "a number in every row", "The logger wrote a blank.", "Take those rows out.")
            )
        elif name in ("count", "pulse") and (np.abs(values - np.round(values)) > 0).any():
            row = int(np.nonzero(values != np.round(values))[0][0]) + 1
            faults.append(
                Fault(
                    f"log, {name}",
                    f"{values[row - 1]:g} in row {row}",
                    "whole numbers",
                    "Lengths or degrees were logged.",
                    "Log the counters.",
                )
            )
    return faults


def _times(t: Array) -> list[Fault]:
    steps = np.diff(t)
    back, same = np.nonzero(steps < 0)[0], np.nonzero(steps == 0)[0]
    faults = []
    if len(back):
        given = f"{t[back[0] + 1]:g} s after {t[back[0]]:g} s in row {back[0] + 2}, {len(back)} in all"
        faults.append(
            Fault("log, time", given, "times that rise", "Two logs were joined, or rows sorted.", "Give each log by itself.")
        )
    if len(same):
        given = f"{t[same[0]]:g} s twice, in rows {same[0] + 1} and {same[0] + 2}, {len(same)} in all"
        faults.append(
            Fault(
                "log, time",
                given,
                "each time once",
                "The clock of the log is too coarse.",
                "Log with milliseconds, or fewer rows.",
            )
        )
    return faults


def _unrolled(values: Whole, name: str, wraps: list[Wrap]) -> Whole:
    """Counters that jumped by nearly their whole size run on. A jump of 0.9 of the size is no table move."""
    out = values.copy()
    jumps = np.diff(values)
    for size in WRAPS:
        if values.max() - values.min() >= size or values.min() < -size // 2:
            continue
        for row in np.nonzero(np.abs(jumps) > 0.9 * size)[0].tolist():
            out[row + 1 :] -= np.sign(jumps[row]) * size
            wraps.append(Wrap(name, row + 1, size.bit_length() - 1))
        if wraps and wraps[-1].column == name:
            break
    return out
