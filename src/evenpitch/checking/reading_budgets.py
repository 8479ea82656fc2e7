"""What one reading of a shop instrument is good to: a budget for each kind, every part of it to be changed by the shop's own figure."""

from __future__ import annotations

import math
from dataclasses import dataclass

from evenpitch.checking.budget import Budget, Part
from evenpitch.checking.warmth import EXPANSION
from evenpitch.sources.citations import cites

USUAL_KELVIN = 3.0
"""Work and micrometer differ by no more than this where no temperature was read; common practice."""
READ_KELVIN = 1.0
"""The same once the work's temperature was read."""
USUAL_SCATTER = 0.004
"""Standard deviation of one reading of a span by hand, mm; common practice."""
USUAL_INDICATOR = 0.003
"""Standard uncertainty of one reading of a comparator or of a pin under an indicator, mm; common practice."""
USUAL_ANGLE = math.radians(5 / 3600)
"""The same of one reading of the head's angle by an indicator against the flank; common practice."""


@dataclass(frozen=True, slots=True)
class Read:
    """How a size was read: its length (mm), how often, the scatter of one reading if it is known, the instrument's U, its own u."""

    length: float
    times: int = 1
    scatter: float | None = None
    instrument: float | None = None
    stated: float | None = None
    warm_known: bool = False
    expansion: float = EXPANSION["steel"]


def _warmth(read: Read) -> Part:
    kelvin = READ_KELVIN if read.warm_known else USUAL_KELVIN
    return Part("warmth", kelvin * read.expansion * read.length, "rectangular", owner="setup")


def _repeat(read: Read) -> Part:
    scatter = read.scatter if read.scatter is not None else USUAL_SCATTER
    return Part("repeat", scatter / math.sqrt(read.times), owner="instrument")


def _known(read: Read) -> tuple[Part, ...] | None:
    """Where the reading carries its own u, or the instrument its U, that stands for all but the warmth."""
    if read.stated is not None:
        return (Part("as typed", read.stated, owner="instrument"), _warmth(read))
    if read.instrument is not None:
        return (Part("instrument", read.instrument / 2, owner="instrument"), _warmth(read))
    return None


@cites("JCGM 100:2008", "common practice", formula="u² = u_mic² + u_repeat²/n + u_burr² + u_tilt² + u_zero² + u_warmth²")
def span_budget(read: Read) -> Budget:
    """A span by disc micrometer."""
    parts = _known(read) or (
        Part("micrometer", 0.004, "rectangular", owner="instrument"),
        _repeat(read),
        Part("burr", 0.002, owner="setup"),
        Part("tilt", 0.0015, owner="setup"),
        Part("zero", 0.001, owner="instrument"),
        _warmth(read),
    )
    return Budget(parts, "mm")


@cites("JCGM 100:2008", "common practice", formula="u² = u_mic² + u_repeat²/n + (c u_pin)² + u_burr² + u_zero² + u_warmth²")
def pins_budget(read: Read, per_pin: float) -> Budget:
    """A size over pins or balls; `per_pin`: what it gains for each unit the pin is larger."""
    parts = _known(read) or (
        Part("micrometer", 0.004, "rectangular", owner="instrument"),
        _repeat(read),
        Part("burr", 0.002, weight=2.0, owner="setup"),
        Part("zero", 0.001, owner="instrument"),
        _warmth(read),
    )
    return Budget((*parts, Part("pin size", 0.001, "rectangular", weight=per_pin, owner="instrument")), "mm")


@cites("JCGM 100:2008", "common practice", formula="u² = u_vernier² + (2 tan α u_height)² + u_repeat²/n")
def chord_budget(read: Read, per_height: float) -> Budget:
    """A chord by gear-tooth vernier; `per_height`: what it gains for each unit that the jaws stand lower."""
    parts = _known(read) or (Part("vernier", 0.02, "rectangular", owner="instrument"), _repeat(read))
    return Budget((*parts, Part("height setting", 0.02, "rectangular", weight=per_height, owner="setup")), "mm")
