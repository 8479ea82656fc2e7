"""The order of cutting that spreads the heat."""

from __future__ import annotations

from heapq import heappop, heappush

from evenpitch.sources.citations import cites


@cites("Modern Machine-Shop Practice", formula="three equidistant first, then midway, and so on")
def spread_order(divisions: int) -> tuple[int, ...]:
    """The spaces, 1 to N, each once: three as near equidistant as the count allows, then always midway in the widest gap left."""
    first = (
        sorted({round(third * divisions / 3) for third in range(3)} - {divisions}) if divisions > 3 else list(range(divisions))
    )
    gaps: list[tuple[int, int, int]] = []
    for turn, (start, end) in enumerate(zip(first, [*first[1:], divisions], strict=True)):
        heappush(gaps, (start - end, turn, start))
    order, turn = list(first), len(first)
    while gaps:
        size, _, start = heappop(gaps)
        middle = -size // 2
        if middle:
            order.append(start + middle)
            for gap, where in ((middle, start), (-size - middle, start + middle)):
                heappush(gaps, (-gap, turn, where))
                turn += 1
    return tuple(space + 1 for space in order)
