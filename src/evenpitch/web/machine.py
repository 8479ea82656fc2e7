"""At the machine: the record of an issued plan as where it stands, and a press as one entry on the disk."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Hashable
from dataclasses import dataclass
from datetime import datetime
from threading import Lock
from typing import Any, Generic, TypeVar

from evenpitch.job.cut_doubts import doubts
from evenpitch.job.following import Progress, after, complete, finished, follow, next_space, target, then
from evenpitch.job.record import Cutting, Entry, Kind, PassName, entry_of, payload_of
from evenpitch.job.standing import Standing
from evenpitch.quantity.finding import Finding
from evenpitch.quantity.refusal import Refusal, refuse
from evenpitch.store.book import Book
from evenpitch.store.kept import Issued, KeptEntry
from evenpitch.web.cut_to import CutTo, cut_to

AT_HAND = 32
"""Plans and places kept at hand; the others are read from the book again."""

Held = TypeVar("Held")


class _AtHand(Generic[Held]):
    """The last few things used, by key; the oldest is let go."""

    def __init__(self) -> None:
        self._held: OrderedDict[Hashable, Held] = OrderedDict()
        self._lock = Lock()

    def get(self, key: Hashable) -> Held | None:
        with self._lock:
            found = self._held.get(key)
            if found is not None:
                self._held.move_to_end(key)
            return found

    def put(self, key: Hashable, value: Held) -> Held:
        with self._lock:
            self._held[key] = value
            self._held.move_to_end(key)
            while len(self._held) > AT_HAND:
                self._held.popitem(last=False)
        return value


@dataclass(frozen=True, slots=True)
class _Folded:
    """A record folded up to its last entry."""

    progress: Progress
    last: KeptEntry | None


_plans: _AtHand[CutTo] = _AtHand()
_places: _AtHand[_Folded] = _AtHand()


@dataclass(frozen=True, slots=True)
class Place:
    """One gear of an issued plan at the machine. `last`: the newest entry of the whole record, whichever gear it is of."""

    job: str
    issued: Issued
    to: CutTo
    progress: Progress
    last: KeptEntry | None

    @property
    def cutting(self) -> Cutting:
        """What is cut to."""
        return self.to.cutting

    def next(self) -> int | None:
        """The next space; None where the pass is complete."""
        return next_space(self.cutting, self.progress)

    def target(self) -> Standing | None:
        """Where the work must stand next."""
        return target(self.cutting, self.progress)

    def complete(self) -> bool:
        """Whether the pass in hand is."""
        return complete(self.cutting, self.progress)

    def finished(self) -> bool:
        """Whether nothing is left to cut."""
        return finished(self.cutting, self.progress)

    def then(self) -> PassName | None:
        """The pass after the one in hand."""
        return then(self.cutting, self.progress)

    def findings(self) -> tuple[Finding, ...]:
        """What is in doubt."""
        return doubts(self.cutting, self.progress, self.to.outside, self.to.slips)


def issued_plan(book: Book, job: str, number: int | None = None) -> Issued:
    """The plan of that number, the last where none is named; a Refusal where none was issued."""
    found = [one for one in book.issued(job) if number in (None, one.number)]
    if not found:
        book.job(job)
        what = "No plan of this job has been issued." if number is None else f"Job {job} has no plan {number}."
        raise refuse("plan", "" if number is None else number, "a plan that was issued", what, "Issue the plan first.")
    return found[-1]


def place_of(book: Book, job: str, gear: int = 1, number: int | None = None) -> Place:
    """Where the cutting of one gear stands. What was folded before is not folded again; a book put back from a copy is read anew."""
    issued = issued_plan(book, job, number)
    key = (str(book.path), issued.key, issued.digest, gear)
    to = _plans.get(key) or _plans.put(key, cut_to(book.release(job, issued.number), gear))
    folded = _folded(book, issued.key, to.cutting, _places.get(key))
    _places.put(key, folded)
    return Place(job, issued, to, folded.progress, folded.last)


def _folded(book: Book, release: int, cutting: Cutting, known: _Folded | None) -> _Folded:
    if known is not None and known.last is not None:
        since = book.entries(release, known.last.number - 1)
        if since and since[0] == known.last:
            return _on(cutting, since[1:], known)
    return _on(cutting, book.entries(release), None)


def _on(cutting: Cutting, kept: tuple[KeptEntry, ...], known: _Folded | None) -> _Folded:
    entries = (entry_of(one.number, one.at, one.kind, one.space, one.payload) for one in kept)
    progress = follow(cutting, entries, None if known is None else known.progress)
    return _Folded(progress, kept[-1] if kept else None if known is None else known.last)


@dataclass(frozen=True, slots=True)
class Pressed:
    """What a press came to. `copied`: of a finished job, the copy of the book, or the reason there is none."""

    place: Place
    written: KeptEntry
    copied: str = ""


def press(
    book: Book,
    place: Place,
    kind: Kind,
    now: Callable[[], datetime],
    *,
    last_seen: int | None = None,
    space: int | None = None,
    **fields: Any,
) -> Pressed:
    """Write one entry; it is on the disk when this returns.

    `last_seen`: the last entry that the page knew, None for one that reads the record as it stands. The same press again answers as it
    was written; another press on a record that has gone on is stale and refused, and so is an entry that cannot be at that point.
    """
    progress, at = place.progress, now()
    seen = progress.last if last_seen is None else last_seen
    entry = Entry(number=seen + 1, at=at, kind=kind, space=space, gear=place.cutting.gear, **fields)
    if seen == progress.last:
        after(place.cutting, progress, entry)
    written = book.append_entry(place.issued.key, seen, kind, payload_of(entry), at, space=space)
    now_at = place_of(book, place.job, place.cutting.gear, place.issued.number)
    copied = _copy(book, at) if now_at.finished() and not place.finished() else ""
    return Pressed(now_at, written, copied)


def _copy(book: Book, at: datetime) -> str:
    """A copy after a finished job. Where it cannot be made the record stands all the same, and the reason is told."""
    try:
        made = book.copy_now(at)
    except Refusal as refusal:
        fault = refusal.faults[0]
        return f"No copy of the book was made: {fault.likely} {fault.do}"
    return "" if made is None else f"The book was copied: {made.name}."
