"""The closing test of a full turn: what is left, and what its size means."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from statistics import stdev

from evenpitch.checking.readings import HeadReading
from evenpitch.quantity.units import ARCSEC_PER_TURN, RADIAN_PER_ARCSEC, Radian
from evenpitch.sources.citations import cites

TURN = 2 * math.pi
ENOUGH = 3
"""Places met again from which their own scatter is told."""


@dataclass(frozen=True, slots=True)
class Residue:
    """What one turn leaves, radian: the mean over so many `places`, and the standard deviation of one (None from fewer than three)."""

    value: float
    places: int
    scatter: float | None


def closing_residue(readings: Sequence[HeadReading]) -> Residue | None:
    """What the bar shows at the same place a turn later; None where none was met again.

    Pairs are taken within one run and from one side, so that zero and play fall out; only where no place was met after just one
    turn, the change over more of them is shared out.
    """
    once = _changes(readings, 1)
    left = once or [
        (place[-1].error - place[0].error) / turns for place in _met_again(readings) if (turns := _turns(place[0], place[-1]))
    ]
    if not left:
        return None
    return Residue(math.fsum(left) / len(left), len(left), stdev(left) if len(left) >= ENOUGH else None)


def after_turns(readings: Sequence[HeadReading], turns: int) -> float | None:
    """What so many turns leave, from the first reading of each place, mean; None where no place was met then."""
    left = _changes(readings, turns)
    return math.fsum(left) / len(left) if left else None


def _changes(readings: Sequence[HeadReading], turns: int) -> list[float]:
    places = _met_again(readings)
    return [one.error - place[0].error for place in places for one in place[1:] if _turns(place[0], one) == turns]


def _turns(first: HeadReading, one: HeadReading) -> int:
    return round((one.nominal - first.nominal) / TURN)


def _met_again(readings: Sequence[HeadReading]) -> list[list[HeadReading]]:
    """The bar's readings of each place of a run and a side, in the order of the turns."""
    places: dict[tuple[int, str, float], list[HeadReading]] = {}
    for one in readings:
        if one.method == "bar":
            at = round(one.nominal % TURN, 6) % round(TURN, 6)
            places.setdefault((one.run, one.direction, at), []).append(one)
    return [sorted(place, key=lambda one: one.nominal) for place in places.values()]


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
        told = whole >= 1 and abs(abs(residue) - whole * size) <= U and size / 2 > U
        found.append(Meaning(cause, size, times, told, test))
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
    pulses = float(residue / TURN * drive.pulses_per_turn)
    head = f"{residue / RADIAN_PER_ARCSEC:.1f}″, {abs(pulses):.1f} pulses"
    if abs(residue) <= U:
        return f"{head}: it closes within ±{U / RADIAN_PER_ARCSEC:.0f}″."
    return f"{head}{':' if fits(residue, U, drive) else '.'} {what_it_is(residue, U, drive)} {what_decides(residue, U, drive)}"


def fits(residue: Radian, U: Radian, drive: Drive) -> Meaning | None:
    """The likeliest thing that the residue may be, if any is."""
    return next((one for one in meanings(residue, U, drive) if one.fits), None)


def what_it_is(residue: Radian, U: Radian, drive: Drive) -> str:
    """What the residue is, or is not."""
    best = fits(residue, U, drive)
    if best is not None:
        return f"{abs(round(best.times))} × {best.cause} ({best.size / RADIAN_PER_ARCSEC:.1f}″ each)."
    belt = drive.belt_teeth and ARCSEC_PER_TURN / float(drive.ratio * drive.belt_teeth)
    if belt and abs(residue) / RADIAN_PER_ARCSEC < belt / 3:
        return f"Far too small for a jumped belt tooth ({belt:.0f}″ at the work)."
    return "No whole number of belt teeth, cycles of the motor or pulses shows in it."


def what_decides(residue: Radian, U: Radian, drive: Drive) -> str:
    """The test that decides."""
    best = fits(residue, U, drive)
    if best is not None:
        return best.test
    return (
        "Look for belt slip, approach from the other side, indicator shift. Repeat over two turns: if it doubles "
        "it is a ratio or lost pulses, if it stays it is slip on start."
    )
