"""Follow a cut: the entries of a record folded, one after the other, to what is cut, what is next and what is in doubt.

Folding in one go or in pieces comes to the same place. An entry that cannot be at that point is refused, so that a record never holds one.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from datetime import datetime
from fractions import Fraction
from statistics import median

from evenpitch.job.record import ORDERS, PASSES, Cutting, Entry, Kind, OrderName, PassName, no_such_space
from evenpitch.job.standing import Datum, Moves, Standing, stand
from evenpitch.quantity.refusal import refuse
from evenpitch.quantity.units import ARCSEC_PER_TURN

PACE_OF = 15
"""Minutes left are reckoned from the last so many spaces once there are five of them, else from the plan."""
PACE_FROM = 5
LONGEST_SPACE = 3600.0
"""Seconds; a longer gap between two presses was a break, whether the wait was written or not."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Progress:
    """Where a cut stands. `last`: number of the last entry of the whole record; `at`: when this gear's last entry was written.

    `cut`: spaces of the running pass in the order they were cut; `done`: passes finished before it; `stood`: the space the work stood
    at last. `waiting`: since when; `off`: spaces counted as cut beyond those in the record, 0 where the counts agree; `closing`: the gap
    of a closing test, mm. `pace`: seconds from press to press. `picked`: offset of the work and its U as picked up last, seconds of
    arc; `lost`: nothing was cut since, so that where the work stands is not in the record.
    """

    running: PassName
    last: int = 0
    at: datetime | None = None
    begun: bool = False
    order: OrderName = "1, 2, 3"
    start: int = 1
    cut: tuple[int, ...] = ()
    done: tuple[PassName, ...] = ()
    stood: int | None = None
    waiting: datetime | None = None
    off: int = 0
    counted: tuple[int, int] | None = None
    closing: float | None = None
    depth: float | None = None
    span: float | None = None
    picked: tuple[float, float | None] | None = None
    lost: bool = False
    note: str = ""
    notes: int = 0
    pace: tuple[float, ...] = ()
    pressed: datetime | None = None


def nothing_cut(cutting: Cutting) -> Progress:
    """Before the first entry: the first of the rounds that finish the gear, unless something else is begun."""
    return Progress(running=cutting.rounds()[0])


def follow(cutting: Cutting, entries: Iterable[Entry], before: Progress | None = None) -> Progress:
    """Fold entries onto `before` (None: the beginning); a Refusal at the first that cannot be there."""
    progress = nothing_cut(cutting) if before is None else before
    for entry in entries:
        progress = after(cutting, progress, entry)
    return progress


def after(cutting: Cutting, progress: Progress, entry: Entry) -> Progress:
    """One entry more; one of the other gear of a pair only counts on."""
    if entry.number != progress.last + 1:
        likely = f"The record stands at entry {progress.last}."
        raise refuse("entry", entry.number, f"entry {progress.last + 1}", likely, "Load the page again.")
    if entry.gear != cutting.gear:
        return replace(progress, last=entry.number)
    made = _FOLDS[entry.kind](cutting, progress, entry)
    ended = None if entry.kind in _END_A_WAIT else made.waiting
    return replace(made, last=entry.number, at=entry.at, waiting=ended)


# What is next


def sequence(cutting: Cutting, progress: Progress) -> tuple[int, ...]:
    """The spaces of the running pass in the order they are to be cut."""
    if progress.running == "trial":
        return tuple(range(1, cutting.planned("trial").spaces + 1))
    order = cutting.moves.spread if progress.order == "spread" else cutting.moves.in_turn
    if progress.start == 1:
        return order
    place = order.index(progress.start)
    return (*order[place:], *order[:place])


def next_space(cutting: Cutting, progress: Progress) -> int | None:
    """The first space of the order that is not cut; None where all of the pass are."""
    cut = frozenset(progress.cut)
    return next((space for space in sequence(cutting, progress) if space not in cut), None)


def complete(cutting: Cutting, progress: Progress) -> bool:
    """Whether every space of the running pass is cut."""
    return len(progress.cut) == cutting.planned(progress.running).spaces


def then(cutting: Cutting, progress: Progress) -> PassName | None:
    """The pass that follows the running one; None after the last."""
    gone = {*progress.done, progress.running}
    return next((name for name in cutting.rounds() if name not in gone), None)


def finished(cutting: Cutting, progress: Progress) -> bool:
    """Whether the last pass is complete and no count is in doubt."""
    return complete(cutting, progress) and then(cutting, progress) is None and not progress.off


def target(cutting: Cutting, progress: Progress) -> Standing | None:
    """Where the work must stand for the next space; at the end of a round at space 1 again, for the closing test."""
    return target_by(cutting.moves, cutting, progress)


def target_by(way: Moves, cutting: Cutting, progress: Progress) -> Standing | None:
    """The same by another way of dividing than the plan's own."""
    space, again = next_space(cutting, progress), False
    if space is None:
        if progress.stood is None:
            return None
        space, again = 1, True
    return stand(way, space, progress.stood, again=again, datum=datum_of(progress))


def datum_of(progress: Progress) -> Datum:
    """Where the datum of the work stands after what was picked up."""
    offset = 0.0 if progress.picked is None else progress.picked[0]
    return Datum(Fraction(offset) / ARCSEC_PER_TURN, progress.lost)


def minutes_left(cutting: Cutting, progress: Progress) -> float | None:
    """Of the running pass, from the pace of the last spaces, or from the plan before there are five of them."""
    planned = cutting.planned(progress.running)
    left = planned.spaces - len(progress.cut)
    if len(progress.pace) >= PACE_FROM:
        return left * median(progress.pace) / 60
    return None if planned.minutes is None else left * planned.minutes


# One fold for each kind of entry


def _cut(cutting: Cutting, progress: Progress, entry: Entry) -> Progress:
    progress = _moved_on(cutting, progress, entry)
    space = _space(cutting, entry)
    if space in progress.cut:
        likely = f"Space {space} is in the record of this pass already."
        raise refuse("space", space, f"space {next_space(cutting, progress)}, the next", likely, "Nothing more to write for it.")
    if progress.off < 0:
        likely = f"The last count found {-progress.off} fewer cut than the record holds."
        raise refuse("space", space, "two counts that agree", likely, "Take back what was not cut, or count again.")
    expected = next_space(cutting, progress)
    if space != expected:
        likely = f"{len(progress.cut)} are cut; the record knows of no cut in space {expected}."
        do = f"If {expected} is cut, write that first. If it is not, go there; or go on from {space} by a changed order."
        raise refuse("space", space, f"space {expected}, the next", likely, do)
    return replace(
        progress,
        begun=True,
        cut=(*progress.cut, space),
        stood=space,
        lost=False,
        off=max(progress.off - 1, 0),
        pace=_pace(progress, entry),
        pressed=entry.at,
        closing=None,
    )


def _moved_on(cutting: Cutting, progress: Progress, entry: Entry) -> Progress:
    """A cut of the pass that follows begins it, once the running one is complete."""
    if entry.pass_name in (None, progress.running):
        return progress
    if entry.pass_name == then(cutting, progress) and complete(cutting, progress):
        return _begun(progress, entry.pass_name, progress.order)
    likely = f"The pass in hand is {progress.running}, {len(progress.cut)} spaces of it cut."
    raise refuse("pass", entry.pass_name, progress.running, likely, "Finish it, or begin the other pass first.")


def _pace(progress: Progress, entry: Entry) -> tuple[float, ...]:
    if progress.pressed is None or progress.waiting is not None or not progress.cut:
        return progress.pace
    seconds = (entry.at - progress.pressed).total_seconds()
    return (*progress.pace, seconds)[-PACE_OF:] if 0 < seconds <= LONGEST_SPACE else progress.pace


def _not_cut(cutting: Cutting, progress: Progress, entry: Entry) -> Progress:
    space = _space(cutting, entry)
    if entry.pass_name not in (None, progress.running) or space not in progress.cut:
        likely = f"Space {space} is not in the record of the pass in hand, {progress.running}."
        raise refuse("space", space, "a space that the record says is cut", likely, "Look at the ring again.")
    left = tuple(one for one in progress.cut if one != space)
    stood = left[-1] if left and progress.stood == space else None if not left else progress.stood
    return replace(progress, cut=left, stood=stood, off=min(progress.off + 1, 0), closing=None, pressed=None)


def _wait(cutting: Cutting, progress: Progress, entry: Entry) -> Progress:
    if progress.waiting is not None:
        since = f"It waits since {progress.waiting:%H:%M} UTC."
        raise refuse("wait", "", "a job that is being cut", since, "Carry on, or write what was cut.")
    return replace(progress, waiting=entry.at, pressed=None)


def _carry_on(cutting: Cutting, progress: Progress, entry: Entry) -> Progress:
    if not progress.begun:
        raise refuse("carry on", "", "a job that was begun", "Nothing was cut yet.", "Begin, or write that space 1 is cut.")
    return replace(progress, pressed=None)


def _count(cutting: Cutting, progress: Progress, entry: Entry) -> Progress:
    spaces = cutting.planned(progress.running).spaces if progress.running != "trial" else cutting.spaces
    forward, back = entry.forward, entry.back
    if forward is None or back is None or forward < 0 or back < 0:
        raise refuse("count", f"{forward} {back}", "two counts from 0", "One is missing.", "Count both ways and write both.")
    if forward + back != spaces:
        given = f"{forward} + {back} = {forward + back}"
        raise refuse(
            "count", given, f"together {spaces}", "One was missed or counted twice.", "Count again before moving anything."
        )
    return replace(progress, counted=(forward, back), off=forward - len(progress.cut), pressed=None)


def _closing(cutting: Cutting, progress: Progress, entry: Entry) -> Progress:
    if not complete(cutting, progress):
        likely = f"{len(progress.cut)} of {cutting.planned(progress.running).spaces} are cut."
        raise refuse("closing", entry.gap, "a round that is complete", likely, "Go on to the last space first.")
    if entry.gap is None or not -50 <= entry.gap <= 50:
        raise refuse("closing", entry.gap, "a gap in mm, 0 where they meet", "", "Read it at the outside of the blank.")
    return replace(progress, closing=entry.gap)


def _note(cutting: Cutting, progress: Progress, entry: Entry) -> Progress:
    if not (entry.text or "").strip():
        raise refuse("note", "", "a few words", "Nothing was typed.", "Type what is to be remembered.")
    return replace(progress, note=entry.text or "", notes=progress.notes + 1)


def _depth(cutting: Cutting, progress: Progress, entry: Entry) -> Progress:
    if entry.depth is None and entry.span is None:
        raise refuse("depth", "", "a depth from metal or a span, mm", "Neither was typed.", "Type one of them.")
    for name, value in (("depth", entry.depth), ("span", entry.span)):
        if value is not None and not 0 < value < 10_000:
            raise refuse(name, value, "a length above 0 in mm", "A sign or a unit slipped.", "Read it again.")
    depth = progress.depth if entry.depth is None else entry.depth
    span = progress.span if entry.span is None else entry.span
    noted = {"note": entry.text, "notes": progress.notes + 1} if entry.text else {}
    return replace(progress, depth=depth, span=span, **noted)  # type: ignore[arg-type]


def _picked_up(cutting: Cutting, progress: Progress, entry: Entry) -> Progress:
    if entry.offset is None:
        raise refuse("picked up", "", "the offset found, in seconds of arc", "It is missing.", "Work it out from the readings.")
    if not abs(entry.offset) <= ARCSEC_PER_TURN / 2 or (entry.u is not None and not 0 <= entry.u <= ARCSEC_PER_TURN):
        raise refuse("picked up", entry.offset, "within half a turn", "A unit slipped.", "Work it out from the readings.")
    return replace(progress, picked=(entry.offset, entry.u), lost=True, pressed=None)


def _ordered(cutting: Cutting, progress: Progress, entry: Entry) -> Progress:
    order = progress.order if entry.order is None else entry.order
    start = progress.start if entry.start is None else entry.start
    if progress.running == "trial":
        likely = "Trial spaces lie side by side, so that the span can be measured over them."
        raise refuse("order", order, "a pass of the whole round", likely, "Change it once the round is begun.")
    return replace(progress, order=_can_be(cutting, order), start=_within(cutting, start), begun=True, pressed=None)


def _begin(cutting: Cutting, progress: Progress, entry: Entry) -> Progress:
    name = entry.pass_name
    if name is None or name not in PASSES:
        raise refuse("pass", name, f"one of {', '.join(PASSES)}", "None was named.", "Name the pass to begin.")
    cutting.planned(name)
    order = "1, 2, 3" if entry.order is None or name == "trial" else entry.order
    if name == "trial" and cutting.moves.skip != 1:
        likely = f"This way of dividing goes on {cutting.moves.skip} spaces at each move."
        raise refuse("pass", name, "a way that cuts neighbours", likely, "Rough the whole round, then measure.")
    whole = complete(cutting, progress)
    if progress.cut and not whole and progress.running in ("rough", "full"):
        likely = f"{len(progress.cut)} spaces of the pass {progress.running} are cut."
        raise refuse("pass", name, f"{progress.running}, to its last space", likely, "Finish it first.")
    again = name == progress.running and (name == "scratch" or (name == "full" and whole))  # all scratched, or recut, once more
    done = (*progress.done, progress.running) if progress.cut and not again else progress.done
    latest = max((PASSES.index(one) for one in done), default=-1)
    missing = [one for one in cutting.rounds() if PASSES.index(one) < PASSES.index(name) and one not in done]
    if (PASSES.index(name) <= latest and not again) or missing:
        likely = f"Missing before it: {', '.join(missing)}." if missing else f"{name} comes before {done[-1]}, which was cut."
        raise refuse("pass", name, "a pass that is still to come", likely, "Go on with the pass in hand.")
    return _begun(progress, name, _can_be(cutting, order), done)


def _begun(progress: Progress, name: PassName, order: OrderName, done: tuple[PassName, ...] | None = None) -> Progress:
    gone = (*progress.done, progress.running) if done is None else done
    return replace(
        progress,
        running=name,
        order=order,
        start=1,
        cut=(),
        done=gone,
        begun=True,
        off=0,
        counted=None,
        closing=None,
        pressed=None,
    )


def _can_be(cutting: Cutting, order: OrderName) -> OrderName:
    if order not in ORDERS:
        raise refuse("order", order, f"one of: {'; '.join(ORDERS)}", "", "Take one of them.")
    if order == "spread" and cutting.moves.skip != 1:
        likely = f"This way of dividing goes on {cutting.moves.skip} spaces at each move, which spreads them already."
        raise refuse("order", order, "the order of the moves", likely, "Keep the order of the moves.")
    return order


def _within(cutting: Cutting, space: int) -> int:
    if not 1 <= space <= cutting.spaces:
        raise no_such_space(space, cutting.spaces)
    return space


def _space(cutting: Cutting, entry: Entry) -> int:
    if entry.space is None:
        raise no_such_space("", cutting.spaces)
    return _within(cutting, entry.space)


_END_A_WAIT: frozenset[Kind] = frozenset({"carry on", "cut", "begin"})

_FOLDS: dict[Kind, Callable[[Cutting, Progress, Entry], Progress]] = {
    "begin": _begin,
    "cut": _cut,
    "not cut": _not_cut,
    "wait": _wait,
    "carry on": _carry_on,
    "count": _count,
    "closing": _closing,
    "note": _note,
    "depth": _depth,
    "order": _ordered,
    "picked up": _picked_up,
}
