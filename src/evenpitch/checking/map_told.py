"""What the map of the head lets one expect of a wave in a gear cut on it."""

from __future__ import annotations

import math

from evenpitch.checking.cause import UM, Evidence
from evenpitch.checking.spectrum import WaveSeen, seen_as


def of_map(per_turn: int, seen: Evidence, count: int) -> complex | None:
    """What the map says of that wave, as it is seen in the spacing of this count; mm."""
    told = next((one for one in seen.rig.harmonics if one.per_turn == per_turn), None)
    if told is None:
        return None
    phase = seen_as(per_turn, count, told.phase)
    return told.amplitude * seen.radius * complex(math.cos(phase), math.sin(phase))


def said_by_map(per_turn: int, wave: WaveSeen, seen: Evidence) -> str:
    """The same in words, to stand behind what was found."""
    count = wave.per_turn + wave.looks_like
    told = of_map(per_turn, seen, count)
    if told is None:
        return "; no map says what to expect" if not seen.rig.harmonics else "; the map has no such wave"
    return f"; the map says {abs(told) * UM:.0f} µm, found {wave.amplitude * UM:.0f}"
