"""The decision rule: a reading passes or fails only where its uncertainty leaves no doubt; between the two nothing is proven."""

from __future__ import annotations

from typing import Literal

from evenpitch.sources.citations import cites

Says = Literal["pass", "not proven", "fail"]
WORST: tuple[Says, ...] = ("fail", "not proven", "pass")


@cites("ISO 14253-1:2017", formula="pass: LSL + U ≤ y ≤ USL − U;  fail: y < LSL − U or y > USL + U;  else not proven")
def decide(value: float, U: float, *, least: float | None = None, most: float | None = None) -> Says:
    """The zone in which a reading with its expanded uncertainty lies; one limit or two, in the unit of the reading."""
    if least is None and most is None:
        return "not proven"
    if (most is not None and value - U > most) or (least is not None and value + U < least):
        return "fail"
    inside = (most is None or value + U <= most) and (least is None or value - U >= least)
    return "pass" if inside else "not proven"


def worst(several: tuple[Says, ...]) -> Says:
    """The worst of several verdicts; nothing judged is not proven."""
    return min(several, key=WORST.index, default="not proven")


def settling(value: float, *, least: float | None = None, most: float | None = None) -> float:
    """The U below which this value would be proven one way or the other."""
    return min(abs(value - limit) for limit in (least, most) if limit is not None)
