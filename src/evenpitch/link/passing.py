"""One pass simulated: pulses computed where they fire, the error of the work taken at both edges of each. No march through time."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from evenpitch.link.motion import Motion, Tabulated
from evenpitch.link.pulse_train import Array, Timing, Whole, firing_counts, leaving, link_target
from evenpitch.quantity.refusal import refuse

MOST_PULSES = 5_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Linked:
    """The link as set: mm of a count, ratio as whole numbers, where within a count it starts (0 to 1), pulses of a turn, lead mm."""

    count: float
    pulses: int
    per_counts: int
    offset: float
    pulses_per_turn: float
    lead: float
    timing: Timing = Timing()

    def target(self, place: float) -> int:
        """Pulses due with the table at a place."""
        return int(link_target(math.floor(place / self.count + self.offset), self.pulses, self.per_counts))


@dataclass(frozen=True, slots=True)
class Pass:
    """Every pulse of a pass: when due and when it left (s), the pulse count after it, where the table was when it left (mm).

    `before`, `after`: work angle less wanted, radian, just before and just after it left: between pulses the error only falls or
    only rises, so the extremes are among them. `ends`: the error when the pass begins and ends. `span`: s.
    """

    due: Array
    left: Array
    number: Whole
    place: Array
    before: Array
    after: Array
    ends: tuple[float, float]
    span: float

    @property
    def pulses(self) -> int:
        """Pulses due in the pass."""
        return len(self.due)

    @property
    def done(self) -> int:
        """Pulses that left before it ended."""
        return int((self.left <= self.span).sum())

    @property
    def longest_delay(self) -> float:
        """From due to leaving, s."""
        return float((self.left - self.due).max()) if len(self.due) else 0.0

    @property
    def error_range(self) -> tuple[float, float]:
        """Least and greatest error, radian, while the pass runs."""
        within = self.left <= self.span
        if not within.any():
            return min(self.ends), max(self.ends)
        if within.all():
            before, after = self.before, self.after
        else:
            before, after = self.before[within], self.after[within]
        return min(float(before.min()), float(after.min())), max(float(before.max()), float(after.max()))

    def behind_from(self, latency: float) -> float | None:
        """Place, mm, from which the drive holds pulses back beyond the link's own delay; None where it never does."""
        late = np.nonzero(self.left - self.due > latency + 1e-6)[0]
        return float(self.place[late[0]]) if len(late) else None


def simulate_pass(motion: Motion, link: Linked, span: float) -> Pass:
    """The pass over so many seconds, table and work at 0 when it begins."""
    number, direction, due = _due(motion, link, span)
    left = leaving(due, link.timing)
    place = motion.place(left)
    per_pulse, per_mm = 2 * math.pi / link.pulses_per_turn, 2 * math.pi / link.lead
    wanted = per_mm * place
    after = per_pulse * number - wanted
    before = after - per_pulse * direction
    done = left <= span
    last = int(number[done][-1]) if done.any() else link.target(0.0)
    ends = (
        per_pulse * link.target(0.0) - per_mm * float(motion.place(0.0)),
        per_pulse * last - per_mm * float(motion.place(span)),
    )
    return Pass(due, left, number, place, before, after, ends, span)


def _due(motion: Motion, link: Linked, span: float) -> tuple[Whole, Array | float, Array]:
    """Pulse count after each pulse, +1 or −1 for its sense, and when it falls due."""
    if not isinstance(motion, Tabulated):
        numbers = _crossed(link, float(motion.place(0.0)), float(motion.place(span)))
        return numbers, 1.0, motion.when(_places(link, numbers))
    found: list[tuple[Whole, Array, Array]] = []
    for t, x in motion.pieces:
        up = x[-1] >= x[0]
        low, high = (x[0], x[-1]) if up else (x[-1], x[0])
        numbers = _crossed(link, float(low), float(high))
        times, places = (t, x) if up else (t[::-1], x[::-1])
        at = np.interp(_places(link, numbers), places, times)
        found.append((numbers if up else numbers[::-1] - 1, np.full(len(at), 1.0 if up else -1.0), at if up else at[::-1]))
    parts = [np.concatenate(part) for part in zip(*found, strict=True)]
    keep = parts[2] <= span
    return parts[0][keep].astype(np.int64), parts[1][keep].astype(np.float64), parts[2][keep].astype(np.float64)


def _crossed(link: Linked, low: float, high: float) -> Whole:
    """Numbers of the pulses that fall due between two places, the lower one not counted."""
    first, last = link.target(low) + 1, link.target(high)
    if last - first > MOST_PULSES:
        raise refuse(
            "pass", f"{last - first} pulses", f"at most {MOST_PULSES}", "It is longer than any face.", "Simulate a shorter pass."
        )
    return np.arange(first, last + 1, dtype=np.int64)


def _places(link: Linked, numbers: Whole) -> Array:
    """Table places, mm, at which those pulses fall due."""
    if not len(numbers):
        return np.empty(0)
    counts = firing_counts(int(numbers[0]), int(numbers[-1]), link.pulses, link.per_counts)
    return np.asarray((counts - link.offset) * link.count, dtype=np.float64)


def target_at(motion: Motion, link: Linked, times: Array) -> Whole:
    """Pulses out at any times, asked at random: a link that never holds pulses back needs no list of events."""
    places = motion.place(np.asarray(times, float) - link.timing.latency)
    return link_target(np.floor(places / link.count + link.offset).astype(np.int64), link.pulses, link.per_counts)
