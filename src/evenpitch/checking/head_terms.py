"""Which waves of the head the readings can show, and which they can never show."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

import numpy as np

from evenpitch.checking.least_squares import Array
from evenpitch.checking.notes import note
from evenpitch.checking.readings import HeadReading
from evenpitch.quantity.finding import Finding

PLACES_IN_A_TURN = 4
"""Fewest places for the wheel's wave beside the zero."""
PHASES = 3
"""Fewest phases of the worm at which its wave can be told from the zero; among few equal parts of a turn it looks like another."""
WHEEL_REACH = 0.5
"""Part of a turn that must be covered before the wheel's wave can be told from a slope; below it the two are one."""
SECOND_REACH = 0.75


@dataclass(frozen=True, slots=True)
class Terms:
    """Waves to fit, per turn, in order of weight; and what to say of those that cannot be."""

    waves: tuple[int, ...]
    findings: tuple[Finding, ...]


def terms_of(readings: Sequence[HeadReading], ratio: Fraction) -> Terms:
    """Worm once and twice a crank turn, wheel once and twice a turn: those that places and reach allow."""
    turns = np.array(sorted({round(one.nominal / (2 * math.pi), 9) for one in readings}))
    waves: list[int] = []
    findings: list[Finding] = []
    worm = _worm(turns, ratio)
    if worm is None:
        findings.append(note("worm-not-seen", per_turn=f"{ratio}", reason=_worm_reason(turns, ratio)))
    reach = float(np.ptp(turns)) if len(turns) else 0.0
    if _distinct(turns, 1) >= PLACES_IN_A_TURN and reach >= WHEEL_REACH:
        waves.append(1)
    else:
        places = _distinct(turns, 1)
        few = f"They stand at {places} place{'s' if places > 1 else ''} of the turn only; {PLACES_IN_A_TURN} are the fewest."
        short = f"They cover {reach * 360:.0f}° of the turn: a slope and the wheel's wave look alike there."
        reason = few if reach >= WHEEL_REACH else short
        findings.append(note("wheel-not-seen", per_turn=1, reason=reason))
    waves += [] if worm is None else worm
    if 1 in waves and _distinct(turns, 1) >= 6 and reach >= SECOND_REACH:
        waves.append(2)
    findings += _aliases(turns, ratio)
    return Terms(tuple(sorted(waves)), tuple(findings))


def _distinct(turns: Array, per_turn: int) -> int:
    """How many different phases of the wave were read."""
    return len({round(float(phase), 4) % 1 for phase in np.mod(turns * per_turn, 1.0)})


def _worm(turns: Array, ratio: Fraction) -> list[int] | None:
    """The worm's waves that the places can show; a ratio that is not whole has no wave of whole turns."""
    if ratio.denominator != 1:
        return None
    once = int(ratio)
    seen = _distinct(turns, once)
    if seen < PHASES or _faces(turns) is not None:
        return None
    return [once, 2 * once] if seen >= 6 else [once]


def _faces(turns: Array) -> int | None:
    """n where the places are just the n equal parts of a turn, up to 24 of them."""
    within = sorted({round(float(turn) % 1.0, 7) % 1.0 for turn in turns})
    n = len(within)
    even = all(abs(place - k / n) < 1e-6 for k, place in enumerate(within)) if n else False
    return n if even and n <= 24 else None


def _worm_reason(turns: Array, ratio: Fraction) -> str:
    if ratio.denominator != 1:
        return f"{ratio} turns of the crank to one of the work: its wave does not close in a turn."
    seen = _distinct(turns, int(ratio))
    if seen == 1:
        return "Every place meets the worm at the same phase."
    return f"The worm is met at {seen} phases only, and among {len(turns)} places its wave looks like another."


def _aliases(turns: Array, ratio: Fraction) -> Iterator[Finding]:
    n = _faces(turns)
    if n is None or ratio.denominator != 1 or int(ratio) % n == 0:
        return
    low = min(int(ratio) % n, -int(ratio) % n)
    yield note("waves-alias", faces=n, first=int(ratio), second=low)
