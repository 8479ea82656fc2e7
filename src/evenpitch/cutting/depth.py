"""The depth ladder: touch, rough, measure, full; in millimetres from metal and on the knee dial from the touch paper."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from evenpitch.quantity.units import Millimetre
from evenpitch.rig.machine import Dial
from evenpitch.sources.citations import cites

RungName = Literal["touch", "rough", "measure", "full"]

ROUGH_SHARE = 0.9
"""Share of the depth from touch that is roughed; common practice."""

ROUGH_TO = Millimetre(0.05)
"""The roughing depth is rounded down to this; common practice."""

NONE = Millimetre(0.0)

DEPTH_LEFT_EVERY = Millimetre(0.02)
"""From row to row of the depth-left table."""


@dataclass(frozen=True, slots=True)
class DialReading:
    """Whole turns of a handwheel and the divisions beyond them, from its zero."""

    turns: int
    divisions: float


@dataclass(frozen=True, slots=True)
class Rung:
    """One depth: `depth` from metal, `raised` on the knee from where the paper was touched; `dial` None without a knee dial."""

    name: RungName
    depth: Millimetre
    raised: Millimetre
    dial: DialReading | None


@cites("common practice", formula="turns = ⌊h / turn⌋;  divisions = (h − turns · turn) / division")
def dial_reading(length: Millimetre, dial: Dial) -> DialReading:
    """What the dial shows after `length` mm from its zero, to a tenth of a division."""
    tenths = round(length / dial.division * 10)
    per_turn = round(dial.turn / dial.division * 10)
    turns, rest = divmod(tenths, per_turn)
    return DialReading(turns, rest / 10)


@cites("common practice", formula="rough = 0.9 h, rounded down to 0.05 mm")
def rough_depth(depth: Millimetre) -> Millimetre:
    """Roughing depth from metal, mm, of a depth from touch, mm."""
    return Millimetre(math.floor(ROUGH_SHARE * depth / ROUGH_TO + 1e-9) * ROUGH_TO)


def depth_ladder(depth: Millimetre, paper: Millimetre, dial: Dial | None, sink: Millimetre = NONE) -> tuple[Rung, ...]:
    """The ladder of a depth from touch. The knee goes further than the depth by the thickness of the paper, mm.

    `sink`: how much past the whole depth the cutter must go for the thinning; the full rung holds it. The span decides, not the dial.
    """

    def rung(name: RungName, at: float) -> Rung:
        raised = Millimetre(at + paper)
        return Rung(name, Millimetre(at), raised, None if dial is None else dial_reading(raised, dial))

    rough = rough_depth(depth)
    return (rung("touch", 0.0), rung("rough", rough), rung("measure", rough), rung("full", depth + sink))


@dataclass(frozen=True, slots=True)
class DepthLeft:
    """A row of the table: the span read, the depth still to go, and that on the knee dial."""

    span: Millimetre
    to_go: Millimetre
    dial: DialReading | None


def depth_left_table(
    target: Millimetre,
    largest: Millimetre,
    to_go: Callable[[Millimetre], Millimetre],
    dial: Dial | None,
    every: Millimetre = DEPTH_LEFT_EVERY,
) -> tuple[DepthLeft, ...]:
    """Rows from the target span up to `largest`, mm, each with what is left by the rule `to_go` of span read -> depth, mm."""
    count = max(0, math.ceil((largest - target) / every - 1e-9))
    rows = []
    for index in range(count + 1):
        span = Millimetre(target + index * every)
        left = to_go(span)
        rows.append(DepthLeft(span, left, None if dial is None else dial_reading(left, dial)))
    return tuple(rows)
