"""The closing test of a full turn: what is left, and what its size means."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from evenpitch.checking.readings import HeadReading
from evenpitch.quantity.units import ARCSEC_PER_TURN, RADIAN_PER_ARCSEC, Radian
from evenpitch.sources.citations import cites

TURN = 2 * math.pi


def closing_residue(readings: Sequence[HeadReading]) -> tuple[float, int] | None:
    """What the bar shows at the same place a turn later, mean for one turn, and from how many places; None where none was met again.

    Pairs are taken within one run and from one side, so that zero and play fall out.
    """
    left: list[float] = []
    groups: dict[tuple[int, str], list[HeadReading]] = {}
    for one in readings:
        if one.method == "bar":
            groups.setdefault((one.run, one.direction), []).append(one)
    for group in groups.values():
        left += _returns(group)
    return (math.fsum(left) / len(left), len(left)) if left else None


def _returns(group: list[HeadReading]) -> list[float]:
    """For each place of a run that was met again, the mean change of the reading for one turn on."""
    found = []
    by_place: dict[float, list[HeadReading]] = {}
    for one in group:
        by_place.setdefault(round(one.nominal % TURN, 6) % round(TURN, 6), []).append(one)
    for place in by_place.values():
        first, last = min(place, key=lambda one: one.nominal), max(place, key=lambda one: one.nominal)
        turns = round((last.nominal - first.nominal) / TURN)
        if turns:
            found.append((last.error - first.error) / turns)
    return found


@dataclass(frozen=True, slots=True)
class Meaning:
    """One thing that a residue may be. `size`: what one of it is at the work, radian; `times`: how many the residue is."""

    cause: str
    size: float
    times: float
    fits: bool
    test: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Drive:
    """What stands between a pulse and the work. `belt_teeth`: of the pulley on the head, None without a belt."""

    pulses_per_turn: Fraction
    microsteps: int | None = None
    belt_teeth: int | None = None
    ratio: Fraction = Fraction(40)
    backlash: Radian | None = None


@cites("derived here", formula="belt tooth 360°/(i_w z_head); cycle 4 μ pulses; pulse 360°/T")
def sizes_of(drive: Drive) -> tuple[tuple[str, float, str], ...]:
    """What one of each cause is at the work, radian, largest first."""
    pulse = TURN / float(drive.pulses_per_turn)
    found = []
    if drive.belt_teeth:
        size = TURN / float(drive.ratio * drive.belt_teeth)
        found.append(("belt tooth jumped", size, "Mark belt and pulley with chalk, and make the turn again."))
    if drive.backlash:
        found.append(
            ("play not taken up", float(drive.backlash), "Approach both times from the same side, past it by twice the play.")
        )
    if drive.microsteps:
        cycle = 4 * drive.microsteps * pulse
        found.append(
            (
                "motor slipped a cycle of four full steps",
                cycle,
                "Slow the start; if it is gone the motor was too weak or too fast.",
            )
        )
    found.append(("pulse lost", pulse, "Make the turn at half the speed, then with ten starts and stops."))
    return tuple(sorted(found, key=lambda one: -one[1]))


@cites("derived here", formula="n = residue/size, fits where |residue − round(n) size| <= U, round(n) ≠ 0")
def meanings(residue: Radian, U: Radian, drive: Drive) -> tuple[Meaning, ...]:
    """What the residue of one turn may be, those that fit first, the fewest of the largest first.

    A cause that U could hide altogether is named only where nothing larger fits.
    """
    found = []
    for cause, size, test in sizes_of(drive):
        times = residue / size
        whole = round(abs(times))
        fits = whole >= 1 and abs(abs(residue) - whole * size) <= U and size / 2 > U
        found.append(Meaning(cause, size, times, fits, test))
    return tuple(sorted(found, key=lambda one: (not one.fits, abs(abs(one.times) - 1) if one.fits else 0)))


@dataclass(frozen=True, slots=True)
class Growth:
    """How the residue went on with more turns: "grows", "stays" or "not shown"; and what that means."""

    kind: str
    words: str


@cites("derived here", formula="grows where r₂ ≈ 2 r₁, stays where r₂ ≈ r₁, within U")
def growth(once: Radian, twice: Radian, U: Radian) -> Growth:
    """From the residue after one turn and after two."""
    if abs(once) <= U and abs(twice) <= U:
        return Growth("not shown", "It closes within what can be seen.")
    grows, stays = abs(twice - 2 * once), abs(twice - once)
    if grows <= U < stays:
        return Growth("grows", "It doubles: a wrong ratio, or pulses lost at every turn.")
    if stays <= U < grows:
        return Growth("stays", "It stays: a slip on start.")
    return Growth("not shown", "Neither the same nor twice as much: repeat with a third turn.")


def residue_words(residue: Radian, U: Radian, drive: Drive) -> str:
    """One sentence for the residue: how large, in pulses, and what it is or is not."""
    arcsec = residue / RADIAN_PER_ARCSEC
    pulses = float(residue / TURN * drive.pulses_per_turn)
    head = f"{arcsec:.1f}″, {abs(pulses):.1f} pulses"
    if abs(residue) <= U:
        return f"{head}: it closes within ±{U / RADIAN_PER_ARCSEC:.0f}″."
    fitting = [one for one in meanings(residue, U, drive) if one.fits]
    if fitting:
        best = fitting[0]
        return f"{head}: {abs(round(best.times))} × {best.cause} ({best.size / RADIAN_PER_ARCSEC:.1f}″ each). {best.test}"
    belt = drive.belt_teeth and ARCSEC_PER_TURN / float(drive.ratio * drive.belt_teeth)
    small = f" Far too small for a jumped belt tooth ({belt:.0f}″ at the work)." if belt and abs(arcsec) < belt / 3 else ""
    return (
        f"{head}.{small} Look for belt slip, approach from the other side, indicator shift. Repeat over two turns: if it doubles "
        "it is a ratio or lost pulses, if it stays it is slip on start."
    )
