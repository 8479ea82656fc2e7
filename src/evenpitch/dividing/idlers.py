"""How many idlers: from the head's own trial, never from a rule of another head."""

from __future__ import annotations

from evenpitch.rig.head import IdlerTest, Sense
from evenpitch.sources.citations import cites


@cites("derived here", formula="each mesh turns the sense; idlers of two pairs = idlers of one pair - 1, less or more by 2")
def idlers(sense: Sense, pairs: int, idler_test: IdlerTest | None) -> int | None:
    """The fewest idlers with which a train of one or two pairs turns the plate in `sense`; None where the head was never tried.

    A single pair gets at least one, to reach from shaft to shaft; two pairs mesh once more, so they want one fewer.
    """
    if idler_test is None:
        return None
    single = idler_test.idlers if sense == idler_test.sense else idler_test.idlers + 1
    return (single - 1) % 2 if pairs == 2 else 2 - single % 2
