"""Plans to cut to, and a hand that writes entries, for the tests of the cut record."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from fractions import Fraction
from random import Random

from evenpitch.dividing.pulse_targets import targets_of
from evenpitch.job.following import Progress, after, complete, next_space, nothing_cut, then
from evenpitch.job.record import Cutting, Entry, PlannedPass
from evenpitch.job.standing import Moves

START = datetime(2026, 3, 12, 9, 0, tzinfo=UTC)


def by_link(spaces: int = 97, pulses: int = 192_000, trial: int = 9) -> Cutting:
    """One round by the motor on the worm shaft, trial spaces before it; the museum's own figures."""
    passes = (
        PlannedPass("scratch", spaces, 0.05, None),
        PlannedPass("trial", trial, 4.05, 0.974),
        PlannedPass("full", spaces, 4.546, 0.974),
    )
    moves = Moves("pulses", spaces, pulses=targets_of(pulses, spaces))
    return Cutting(plan=1, gear=1, spaces=spaces, moves=moves, passes=passes, by_hand=by_gears(spaces))


def by_gears(spaces: int = 97) -> Moves:
    """97 divided as 100 with gears: 8 spaces of the 20 circle a move."""
    return Moves("differential", spaces, whole_turns=0, circle=20, holes=8, gears="48 : 40", per_turn=Fraction(194, 5))


def two_rounds(spaces: int = 28) -> Cutting:
    """Rough all, finish all; by the crank: 1 turn and 9 spaces of 21 (40/28)."""
    passes = (
        PlannedPass("scratch", spaces, 0.05, None),
        PlannedPass("rough", spaces, 4.05, 1.0),
        PlannedPass("full", spaces, 4.5, 1.0),
    )
    moves = Moves("simple", spaces, whole_turns=1, circle=21, holes=9, per_turn=Fraction(40))
    return Cutting(plan=2, gear=1, spaces=spaces, moves=moves, passes=passes)


def in_blocks() -> Cutting:
    """28 spaces, every third one at a move."""
    cutting = two_rounds()
    return replace(cutting, moves=Moves("block", 28, skip=3, whole_turns=4, circle=21, holes=6))


class Hand:
    """Writes one entry after the other, half a minute apart."""

    def __init__(self, cutting: Cutting) -> None:
        self.cutting, self.progress = cutting, nothing_cut(cutting)
        self.entries: list[Entry] = []
        self.at = START

    def write(self, kind: str, space: int | None = None, *, seconds: float = 30, **fields: object) -> Progress:
        """The next entry, folded on."""
        self.at += timedelta(seconds=seconds)
        entry = Entry(number=len(self.entries) + 1, at=self.at, kind=kind, space=space, **fields)  # type: ignore[arg-type]
        self.progress = after(self.cutting, self.progress, entry)
        self.entries.append(entry)
        return self.progress

    def cut(self, count: int) -> Progress:
        """So many spaces one after the other."""
        for _ in range(count):
            self.write("cut", next_space(self.cutting, self.progress))
        return self.progress


def any_history(random: Random, cutting: Cutting, length: int) -> tuple[Entry, ...]:
    """A random history that is legal: cuts mostly, with corrections, waits, counts, orders, notes, a tooth picked up, passes."""
    hand = Hand(cutting)
    while len(hand.entries) < length:
        for kind, space, fields in _may_be(random, hand):
            hand.write(kind, space, seconds=random.choice((1, 30, 5000)), **fields)
    return tuple(hand.entries)


def _may_be(random: Random, hand: Hand) -> Iterator[tuple[str, int | None, dict[str, object]]]:
    """Every kind of entry that can be here, one of them drawn."""
    cutting, progress = hand.cutting, hand.progress
    space, whole = next_space(cutting, progress), complete(cutting, progress)
    may: list[tuple[str, int | None, dict[str, object]]] = [
        ("note", None, {"text": f"note {len(hand.entries)}"}),
        ("depth", None, {"depth": random.uniform(1, 5), "span": random.uniform(40, 60)}),
        ("picked up", None, {"offset": random.uniform(-900, 900), "u": 12.0}),
    ]
    if space is not None and progress.off >= 0:
        may += [("cut", space, {"pass_name": progress.running})] * 12
    if progress.cut:
        may.append(("not cut", random.choice(progress.cut), {}))
        forward = max(0, min(cutting.spaces, len(progress.cut) + random.choice((-1, 0, 0, 0, 1))))
        may.append(("count", None, {"forward": forward, "back": cutting.spaces - forward}))
    if progress.begun:
        may.append(("carry on", None, {}))
    if progress.waiting is None:
        may.append(("wait", None, {}))
    if progress.running != "trial":
        order = "spread" if cutting.moves.skip == 1 and random.random() < 0.5 else "1, 2, 3"
        may.append(("order", None, {"order": order, "start": random.randint(1, cutting.spaces)}))
    if whole:
        may += [("closing", None, {"gap": random.choice((0.0, 0.05))})] * 3
        following = then(cutting, progress)
        if progress.running == "full":
            may.append(("begin", None, {"pass_name": "full", "order": "1, 2, 3"}))  # a recut
        if following is not None:
            may += [("begin", None, {"pass_name": following, "order": "1, 2, 3"})] * 3
            if progress.off >= 0:
                may += [("cut", 1, {"pass_name": following})] * 3 if progress.order == "1, 2, 3" else []
    if not progress.begun:
        may += [("begin", None, {"pass_name": name, "order": "1, 2, 3"}) for name in _first(cutting)]
    yield random.choice(may)


def _first(cutting: Cutting) -> tuple[str, ...]:
    names = tuple(one.name for one in cutting.passes)
    return names[:2] if "trial" in names and cutting.moves.skip == 1 else names[:1]
