"""What one slip is worth at the work: a hole, a belt tooth, a motor cycle, a pulse, a hole of the direct plate."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from evenpitch.rig.rig import Rig
from evenpitch.sources.citations import cites

MOST = 6
"""More of one kind at once is not offered as the likeliest."""
NOT_IN_USE = 0.75
"""A slip of a way that the plan does not use is put behind one that it does, as if it were three quarters of a slip more."""
LEAST_SIZE = 0.03
"""A size fits within what is read, or within this part of itself, for steps of a wheel are no truer."""


@dataclass(frozen=True, slots=True)
class SlipSize:
    """One kind of slip: its code and words, its angle at the work (rad), whether the plan divides that way."""

    code: str
    words: str
    angle: float
    used: bool


@dataclass(frozen=True, slots=True)
class SlipFound:
    """So many of one kind, and by what the size differs from it, rad."""

    kind: SlipSize
    times: int
    off: float

    def words(self) -> str:
        """As in "one hole of 20", "2 belt teeth"."""
        return self.kind.words if self.times == 1 else f"{self.times} × {self.kind.words.removeprefix('one ')}"


@cites("derived here", formula="hole 360°/(K n), belt tooth 360°/(K z_h), motor cycle 4 · 360°/(S i K), pulse 360°/P")
def slip_sizes(rig: Rig, way: str, circles: tuple[int, ...]) -> tuple[SlipSize, ...]:
    """All that this rig can slip by. `way`: how the plan divides; `circles`: those it uses."""
    return (*_holes(rig, way, circles), *_motor(rig, way))


def _holes(rig: Rig, way: str, circles: tuple[int, ...]) -> Iterator[SlipSize]:
    turn = 2 * math.pi
    owned = sorted({circle for plate in rig.plates for circle in plate.circles})
    for circle in owned:
        used = circle in circles
        yield SlipSize("hole", f"one hole of {circle}", turn / float(rig.head.ratio * circle), used)
    if rig.head.direct:
        yield SlipSize(
            "direct hole", f"one hole of the direct plate of {rig.head.direct}", turn / rig.head.direct, way == "direct"
        )
    yield SlipSize("crank turn", "one turn of the crank", turn / float(rig.head.ratio), way not in ("pulses", "direct"))


def _motor(rig: Rig, way: str) -> Iterator[SlipSize]:
    link, pulses = rig.link, rig.pulses_per_turn()
    if link is None:
        return
    by_motor = way == "pulses"
    if link.belt is not None:
        tooth = 2 * math.pi / float(rig.head.ratio * link.plate_turns * link.belt.head)
        yield SlipSize("belt tooth", f"one tooth of the belt on the pulley of {link.belt.head}", tooth, by_motor)
    if pulses is None or link.microsteps is None:
        return
    pulse = 2 * math.pi / float(pulses)
    yield SlipSize("motor cycle", "one cycle of the motor (4 full steps)", pulse * float(Fraction(4 * link.microsteps)), by_motor)
    yield SlipSize("pulse", "one pulse", pulse, by_motor)


def explain_size(angle: float, U: float, sizes: tuple[SlipSize, ...]) -> tuple[SlipFound, ...]:
    """The slips that a size can be, the likeliest first: few of one kind, in a way that is used, near the size."""
    found = []
    for kind in sizes:
        times = round(abs(angle) / kind.angle)
        off = abs(angle) - times * kind.angle
        if 1 <= times <= MOST and abs(off) <= max(U, LEAST_SIZE * kind.angle):
            found.append(SlipFound(kind, times, off))
    return tuple(sorted(found, key=lambda one: (one.times + (0 if one.kind.used else NOT_IN_USE), abs(one.off))))
