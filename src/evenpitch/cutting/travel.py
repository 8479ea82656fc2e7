"""Table travel of one space, and the time it takes."""

from __future__ import annotations

import math
from dataclasses import dataclass

from evenpitch.quantity.units import Millimetre, Radian
from evenpitch.sources.citations import cites

OVER_RUN = Millimetre(2.54)
"""Clear at each end, 0.1 in; common practice."""

SPUR = Radian(0.0)

RETURN_FEED = Millimetre(508.0)
"""By hand, mm/min (20 in/min); common practice."""

INDEX_MINUTES = 0.35
"""To lower the knee, index and raise it; common practice."""

TAKE_UP_TIMES = 3
"""The link's backlash is taken up this many times over before the blank; common practice."""


@cites("derived here", formula="√(h (D − h))")
def approach(depth: Millimetre, outside: Millimetre) -> Millimetre:
    """Travel from first touch of the face to full depth under the arbor, mm; 0 where the cutter would not reach that depth."""
    return Millimetre(math.sqrt(max(0.0, depth * (outside - depth))))


@cites("derived here", formula="b + √(h (D − h)) / cos β + 2 × over-run")
def travel_per_space(
    face: Millimetre, depth: Millimetre, outside: Millimetre, helix: Radian = SPUR, over_run: Millimetre = OVER_RUN
) -> Millimetre:
    """Table travel under feed for one space, mm. On a swung cutter the approach is taken long, by 1/cos β, to be safe."""
    return Millimetre(face + approach(depth, outside) / math.cos(helix) + 2 * over_run)


@cites("common practice", formula="travel / feed + travel / return + index")
def minutes_per_space(
    travel: Millimetre, feed: Millimetre, back: Millimetre = RETURN_FEED, index: float = INDEX_MINUTES
) -> float:
    """Minutes from one space to the next; feeds in mm/min."""
    return float(travel / feed + travel / back + index)


@cites("derived here", formula="B L / 360°")
def take_up(backlash: Radian, lead: Millimetre) -> Millimetre:
    """Table travel, mm, in which the head's backlash (rad at the work) is closed at the lead of the job, mm."""
    return Millimetre(backlash * lead / (2 * math.pi))


@dataclass(frozen=True, slots=True)
class TravelNeed:
    """Table travel that the job needs against what the machine and the scale have; None where not known."""

    needed: Millimetre
    table: Millimetre | None
    scale: Millimetre | None

    def fits(self) -> bool:
        """Whether neither table nor scale is too short, as far as they are known."""
        return all(length is None or self.needed <= length for length in (self.table, self.scale))


def travel_need(travel: Millimetre, start_before: Millimetre, table: Millimetre | None, scale: Millimetre | None) -> TravelNeed:
    """Travel of a space and the start before it (the take-up), mm, against the table's travel and the scale's length."""
    return TravelNeed(Millimetre(travel + start_before), table, scale)
