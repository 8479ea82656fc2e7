"""From what was read to what may have caused it: each cause with its evidence, the test that separates it, and the remedy."""

from __future__ import annotations

from evenpitch.checking.cause import Cause, Evidence
from evenpitch.checking.jump_causes import jump_causes
from evenpitch.checking.jumps_between import jumps, without
from evenpitch.checking.once_a_turn import once_a_turn
from evenpitch.checking.wave_causes import wave_causes
from evenpitch.sources.citations import cites


@cites("derived here", "common practice", formula="size and shape of what is seen against what each part of the rig can do")
def causes(seen: Evidence) -> tuple[Cause, ...]:
    """Ranked: the largest first, then what else the same things may be. A clean gear has none."""
    found: list[Cause] = []
    if seen.mean is not None:
        odd = jumps(seen.mean)
        for jump in odd:
            found += jump_causes(jump, seen)
        found += wave_causes(without(seen.mean, odd), seen)
    else:
        found += once_a_turn(None, seen)
    return tuple(sorted(found, key=lambda cause: (cause.rank, -cause.size)))
