"""Inspection: readings of one gear put together by what they are of; what cannot be is refused with its line."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from statistics import median

from evenpitch.checking.readings import GearReading
from evenpitch.quantity.refusal import Fault, Refusal

Flank = str
LENGTHS = ("span", "over pins", "over balls", "chordal")
AROUND = ("pitch step", "runout", "head angle")
MOST_SMALL = 5.0
"""A comparator or an indicator reads less than this, mm; more is a size typed in its place."""


@dataclass(frozen=True, slots=True)
class SizeRead:
    """Readings of one size: `kind`, over `k` teeth or a `pin`, or a chord at `height`; (space, value in mm, the reading)."""

    kind: str
    k: int | None
    pin: float | None
    height: float | None
    readings: tuple[GearReading, ...]

    @property
    def mean(self) -> float:
        """The mean of the places, each the mean of its readings."""
        places = self.places()
        return math.fsum(places.values()) / len(places)

    def places(self) -> dict[int, float]:
        """Mean by space."""
        found: dict[int, list[float]] = defaultdict(list)
        for one in self.readings:
            found[one.space].append(one.value)
        return {space: math.fsum(values) / len(values) for space, values in sorted(found.items())}


@dataclass(frozen=True, slots=True)
class AroundRead:
    """Rounds of one flank ("left", "right" or ""): reading by space, as typed; `over`: pitches to a reading."""

    kind: str
    flank: Flank
    over: int
    rounds: tuple[dict[int, GearReading], ...]

    def row(self, index: int) -> tuple[float, ...]:
        """One round in the order of the spaces."""
        held = self.rounds[index]
        return tuple(held[space].value for space in sorted(held))


@dataclass(frozen=True, slots=True)
class Inspection:
    """All readings of one gear."""

    teeth: int
    sizes: tuple[SizeRead, ...]
    around: tuple[AroundRead, ...]
    readings: tuple[GearReading, ...]

    def of(self, kind: str) -> tuple[AroundRead, ...]:
        """The rounds of one kind."""
        return tuple(one for one in self.around if one.kind == kind)


def inspection(teeth: int, readings: Sequence[GearReading]) -> Inspection:
    """Put together; a Refusal with every fault where a space is missing, twice, or not of this gear."""
    if not readings:
        raise Refusal(Fault("readings", "none", "at least one reading", "The table has a header only.", "Type what was read."))
    faults = list(_misplaced(teeth, readings))
    if not faults:
        around = tuple(_around(teeth, readings, faults))
        sizes = tuple(_sizes(readings))
    if faults:
        raise Refusal(*faults)
    return Inspection(teeth, sizes, around, tuple(readings))


def _misplaced(teeth: int, readings: Sequence[GearReading]) -> Iterator[Fault]:
    for one in readings:
        least = 0 if one.kind in LENGTHS else 1
        if not least <= one.space <= teeth:
            likely = "Another gear, or a slip of the pen."
            yield Fault(_at(one, "space"), str(one.space), f"a space from 1 to {teeth}", likely, "Read the number off the gear.")
        if one.angle and one.kind != "head angle":
            yield Fault(
                _at(one, "value"),
                one.kind,
                "a length",
                "The value stands in a column of angles.",
                "Write it in value_mm or value_um.",
            )
        if one.kind in ("pitch step", "runout") and not one.angle and abs(one.value) > MOST_SMALL:
            likely = "The unit of the column: micrometres typed under mm?"
            yield Fault(
                _at(one, "value"), f"{one.value:g} mm", f"less than {MOST_SMALL:g} mm", likely, "Use value_um for micrometres."
            )
        if one.kind == "pitch step" and one.spanned is not None and not 1 <= one.spanned < teeth:
            yield Fault(_at(one, "k"), str(one.spanned), f"1 to {teeth - 1} pitches", "", "Leave it empty for one pitch.")
        if one.u is not None and not one.u > 0:
            yield Fault(
                _at(one, "u"), f"{one.u:g}", "above 0", "An uncertainty has no sign.", "Leave it empty for the usual one."
            )


def _at(one: GearReading, column: str) -> str:
    return f"line {one.line}, {column}" if one.line else column


def _around(teeth: int, readings: Sequence[GearReading], faults: list[Fault]) -> Iterator[AroundRead]:
    groups: dict[tuple[str, Flank, int], list[GearReading]] = defaultdict(list)
    for one in readings:
        if one.kind in AROUND and not (one.kind == "head angle" and one.height is not None):
            groups[one.kind, one.flank or "", one.spanned or 1 if one.kind == "pitch step" else 1].append(one)
    for (kind, flank, over), rows in groups.items():
        rounds = _rounds(kind, rows, faults)
        if kind == "pitch step":
            faults += _whole(teeth, kind, flank, rounds, rows)
        yield AroundRead(kind, flank, over, tuple(rounds))


def _rounds(kind: str, rows: Sequence[GearReading], faults: list[Fault]) -> list[dict[int, GearReading]]:
    """By the column of rounds, or a new round where a space comes again."""
    numbered = any(one.round is not None for one in rows)
    found: dict[int, dict[int, GearReading]] = {}
    now = 0
    for one in rows:
        if not numbered and one.space in found.get(now, {}):
            now += 1
        turn = (one.round or 0) if numbered else now
        held = found.setdefault(turn, {})
        if one.space in held:
            likely = f"It stands on line {held[one.space].line} too, in the same round."
            faults.append(
                Fault(
                    _at(one, "space"),
                    f"{kind} {one.space}",
                    "each space once a round",
                    likely,
                    "Number the rounds, or strike one out.",
                )
            )
        held[one.space] = one
    return [found[turn] for turn in sorted(found)]


def _whole(
    teeth: int, kind: str, flank: Flank, rounds: list[dict[int, GearReading]], rows: Sequence[GearReading]
) -> Iterator[Fault]:
    """Readings that close on themselves need every space."""
    if all(len(held) == teeth for held in rounds):
        return
    side = f" {flank} flank" if flank else ""
    if len(rows) == teeth + 1 and len(rounds) == 2:
        twice = _came_again(rows)
        likely = f"Space {twice} comes twice."
        yield Fault(
            f"{kind}{side}", f"{len(rows)} readings", f"{teeth}, one for each space", likely, "Strike one of the two out."
        )
        return
    for number, held in enumerate(rounds, 1):
        missing = [space for space in range(1, teeth + 1) if space not in held]
        if missing:
            which = ", ".join(map(str, missing[:6])) + (" and more" if len(missing) > 6 else "")
            what = f"round {number} has {len(held)} of {teeth}"
            likely = f"Missing: space {which}. The sum round the gear closes only with all of them."
            yield Fault(
                f"{kind}{side}", what, f"readings for all {teeth} spaces", likely, "Read what is missing, or leave the round out."
            )


def _came_again(rows: Sequence[GearReading]) -> int:
    seen: set[int] = set()
    for one in rows:
        if one.space in seen:
            return one.space
        seen.add(one.space)
    return 0


def _sizes(readings: Sequence[GearReading]) -> Iterator[SizeRead]:
    groups: dict[tuple[str, int | None, float | None, float | None], list[GearReading]] = defaultdict(list)
    for one in readings:
        if one.kind in LENGTHS:
            held_at = one.height if one.kind == "chordal" else None
            groups[one.kind, one.spanned if one.kind == "span" else None, one.pin, held_at].append(one)
    for (kind, k, pin, height), rows in groups.items():
        yield SizeRead(kind, k, pin, height, tuple(rows))


def stands_out(values: Sequence[float]) -> tuple[int, float, float] | None:
    """Place of a reading far from all others, how many times further than they lie, and what they lie within; None where none does."""
    if len(values) < 4:
        return None
    middle = median(values)
    off = [abs(value - middle) for value in values]
    place = max(range(len(off)), key=off.__getitem__)
    others = sorted(off[:place] + off[place + 1 :])
    within = max(others[-1], 1e-4)
    times = off[place] / within
    return (place, times, within) if times >= 5 and off[place] > 0.03 else None
