"""Counts against pulses: whole numbers, no statistics. It shows what the controller did, never what the work did."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from evenpitch.link.pulse_train import Whole, link_target
from evenpitch.sources.citations import cites

SETTLED = 3
"""Rows for which a deviation must stand to count as lost, not held back; common practice."""


@cites("derived here", formula="dev_i = s_i − floor((2 n_i P + Q)/(2 Q))")
def deviations(counts: Any, pulses: Any, ratio_pulses: int, ratio_counts: int) -> Whole:
    """Pulses commanded less pulses due, row by row; the log starts where table and work were zero."""
    return np.asarray(pulses, dtype=np.int64) - link_target(counts, ratio_pulses, ratio_counts)


def change_rows(dev: Whole) -> tuple[int, ...]:
    """Rows at which the deviation changes: each is an event."""
    return tuple((np.nonzero(np.diff(dev))[0] + 1).tolist())


@dataclass(frozen=True, slots=True)
class Change:
    """At a row the pulses fell behind (−) or ran ahead (+) for good."""

    row: int
    pulses: int


@dataclass(frozen=True, slots=True)
class HeldBack:
    """From one row to another pulses were late by at most so many; both agreed again afterwards."""

    first: int
    last: int
    most: int


@dataclass(frozen=True, slots=True)
class Controller:
    """`changes`: pulses lost or added for good; `held`: stretches where they came late; `final`: deviation at the end."""

    changes: tuple[Change, ...]
    held: tuple[HeldBack, ...]
    final: int


@cites("derived here", formula="s_i − n_i P/Q within a band of width 1 as long as nothing is lost")
def check_controller(
    counts: Any, pulses: Any, ratio_pulses: int, ratio_counts: int, most: int | None = None
) -> Controller | None:
    """Which pulses were lost or added, and which only came late. The start of log and link within a count need not be known:
    as long as nothing is lost, pulses less counts times the ratio stay within a band one pulse wide. None where more than
    `most` things happened: pulses then run behind with the feed, and whole numbers say nothing.
    """
    n, s = np.asarray(counts, dtype=np.int64), np.asarray(pulses, dtype=np.int64)
    ahead = (s - s[0]) * ratio_counts - (n - n[0]) * ratio_pulses
    base, start = 0, 0
    changes: list[Change] = []
    held: list[HeldBack] = []
    low, high = -ratio_counts - 1, ratio_counts + 1
    while start < len(s):
        if most is not None and len(changes) + len(held) > most:
            return None
        stop, low, high = _band(ahead - base * ratio_counts, start, low, high, ratio_counts)
        if stop == len(s):
            break
        shift, end = _settled(ahead, stop, low, high, ratio_counts, base)
        if shift:
            changes.append(Change(stop, shift))
            base += shift
            start = stop
        else:
            off = (ahead[stop:end] - base * ratio_counts) / ratio_counts
            held.append(HeldBack(stop, end - 1, int(np.round(off[np.argmax(np.abs(off))]))))
            start = end
    return Controller(tuple(changes), tuple(held), base)


def _band(ahead: Whole, start: int, low: int, high: int, q: int) -> tuple[int, int, int]:
    """The first row from `start` that leaves the band, and the band narrowed by the rows before it.

    The unknown start f obeys ahead − f ≤ 0 < ahead − f + Q in units of 1/Q pulse.
    """
    part = ahead[start:]
    lows = np.maximum.accumulate(np.maximum(part, low) if len(part) else part)
    highs = np.minimum.accumulate(np.minimum(part + q, high) if len(part) else part)
    bad = np.nonzero(lows >= highs)[0]
    if not len(bad):
        return start + len(part), int(lows[-1]), int(highs[-1])
    stop = int(bad[0])
    return (start + stop, int(lows[stop - 1]), int(highs[stop - 1])) if stop else (start, low, high)


def _settled(ahead: Whole, stop: int, low: int, high: int, q: int, base: int) -> tuple[int, int]:
    """Whole pulses by which the rows from `stop` on stand off for good, and the row at which they agree again (shift 0)."""
    rest = ahead[stop:] - base * q
    inside = (rest < high) & (rest + q > low)
    for row in np.nonzero(inside)[0].tolist():
        if inside[row : row + SETTLED].all():
            return 0, stop + row
    middle = (low + high - q) / 2
    shift = int(np.round((float(np.median(rest[: max(SETTLED, 1)])) - middle) / q))
    return shift or (1 if rest[0] >= high else -1), stop
