"""`evenpitch cut`: where a cut stands, and one entry more; as text and as the one JSON object."""

from __future__ import annotations

from typing import Any

from evenpitch.job.following import minutes_left, target_by
from evenpitch.job.record import Kind
from evenpitch.job.standing import Standing
from evenpitch.quantity.read_length import read_length
from evenpitch.quantity.refusal import refuse
from evenpitch.quantity.showing import dms
from evenpitch.quantity.units import ARCSEC_PER_TURN
from evenpitch.sheet.answers import answer
from evenpitch.sheet.document import Document, Row, Schedule, Section
from evenpitch.store.book import Book
from evenpitch.web.answer import Answer
from evenpitch.web.cut_words import (
    PASS_WORDS,
    approach_words,
    by_hand_words,
    depth_of,
    depth_words,
    going,
    left_words,
    picked_words,
)
from evenpitch.web.machine import Place, place_of, press
from evenpitch.web.opened import Clock, clock, open_book

Deed = tuple[Kind, dict[str, Any]]
"""One entry to write, without what the place knows itself."""


def cut_answer(job: str, deeds: tuple[Deed, ...], *, gear: int = 1, last_entry: int | None = None, now: Clock = clock) -> Answer:
    """Where the cutting of a job stands; with a deed, after it is written."""
    deed = one_deed(deeds) if deeds else None
    with open_book() as book:
        return cut_json(book, job, gear, deed, last_entry, now)


def one_deed(deeds: tuple[Deed, ...]) -> Deed:
    """The one that was asked for; a Refusal of none and of several."""
    if len(deeds) == 1:
        return deeds[0]
    words = ", ".join(kind for kind, _ in deeds)
    likely = "Each is an entry of its own." if deeds else "Nothing was asked to be written."
    raise refuse("cut", words, "one deed at a time", likely, "Write them one after the other.")


def deeds_of(
    *,
    cut: int | None = None,
    not_cut: int | None = None,
    wait: bool = False,
    carry_on: bool = False,
    count: tuple[int, int] | None = None,
    note: str | None = None,
    begin: str | None = None,
    order: str | None = None,
    start: int | None = None,
    closing: str | None = None,
    depth: str | None = None,
    span: str | None = None,
) -> tuple[Deed, ...]:
    """What was asked to be written: words of a command line or of a request."""
    deeds: list[Deed] = []
    if cut is not None:
        deeds.append(("cut", {"space": cut}))
    if not_cut is not None:
        deeds.append(("not cut", {"space": not_cut}))
    deeds += [("wait", {})] if wait else []
    deeds += [("carry on", {})] if carry_on else []
    if count is not None:
        deeds.append(("count", {"forward": count[0], "back": count[1]}))
    if note is not None:
        deeds.append(("note", {"text": note}))
    if closing is not None:
        deeds.append(("closing", {"gap": _mm(closing, "closing")}))
    if depth is not None or span is not None:
        deeds.append(("depth", {"depth": _mm(depth, "depth"), "span": _mm(span, "span")}))
    if begin is not None:
        deeds.append(("begin", {"pass_name": begin, "order": order or "1, 2, 3"}))
    elif order is not None or start is not None:
        deeds.append(("order", {"order": order, "start": start}))
    return tuple(deeds)


def _mm(text: str | None, field: str) -> float | None:
    return None if text is None else float(read_length(text, field=field))


def cut_json(book: Book, job: str, gear: int, deed: Deed | None, last_entry: int | None, now: Clock) -> Answer:
    """The deed written, if there is one, and the place after it."""
    place = place_of(book, job, gear)
    copied = ""
    if deed is not None:
        kind, fields = deed
        if kind in ("cut", "not cut"):
            fields = {**fields, "pass_name": _pass_at(book, place, kind, last_entry)}
        pressed = press(book, place, kind, now, last_seen=last_entry, **fields)
        place, copied = pressed.place, pressed.copied
    return Answer(_document(place, copied), place_json(place))


def _pass_at(book: Book, place: Place, kind: Kind, last_entry: int | None) -> str:
    """The pass a press is of; for one that was written before, the pass it was written for, so that it answers as it was."""
    if last_entry is not None and 0 <= last_entry < place.progress.last:
        return str(book.entries(place.issued.key, last_entry)[0].payload.get("pass", place.progress.running))
    return pass_of(place) if kind == "cut" else place.progress.running


def pass_of(place: Place) -> str:
    """The pass that the next cut belongs to: the one in hand, or the one after it where that is complete."""
    following = place.then()
    return following if place.complete() and following is not None else place.progress.running


def place_json(place: Place) -> dict[str, Any]:
    """The one object."""
    progress, here = place.progress, place.target()
    return answer(
        "cut",
        findings=place.findings(),
        job=place.job,
        plan=place.issued.number,
        gear=place.cutting.gear,
        place={
            "cut": len(progress.cut),
            "next": place.next(),
            "of": place.cutting.planned(progress.running).spaces,
            "pass": progress.running,
            "then": place.then(),
            "order": progress.order,
            "finished": place.finished(),
        },
        target=None if here is None else target_json(place, here),
        entries=progress.last,
        waiting=None if progress.waiting is None else progress.waiting.isoformat(),
        minutes_left=minutes_left(place.cutting, progress),
        depth_mm=depth_of(place),
        picked_up=_picked_json(place),
        counted=None if progress.counted is None else list(progress.counted),
        note=progress.note or None,
    )


def target_json(place: Place, here: Standing) -> dict[str, Any]:
    """Where the work must stand, every way. `crank`: the plan's own way, or by hand beside the motor; None where there is none."""
    own = place.cutting.moves
    hand = own if own.circle else place.cutting.by_hand
    by_hand = None if hand is None or not hand.circle else target_by(hand, place.cutting, place.progress)
    return {
        "space": here.space,
        "deg": float(here.angle * 360),
        "dms": dms(here.angle * 360),
        "pulse": here.pulse,
        "move_pulses": here.move_pulses,
        "crank": None if by_hand is None else _crank(by_hand),
        "direct": None if here.nose is None else {"hole": here.nose, "plate_holes": own.nose_holes, "move": here.nose_move},
    }


def _picked_json(place: Place) -> dict[str, Any] | None:
    """The offset that every target has since a tooth was picked up; `cut_since`: whether a space was cut since."""
    progress = place.progress
    if progress.picked is None:
        return None
    offset, u = progress.picked
    return {"offset_arcsec": offset, "u_arcsec": u, "cut_since": not progress.lost}


def _crank(here: Standing) -> dict[str, Any]:
    move, datum = here.crank or (0, 0), here.from_datum or (0, 0)
    shown: dict[str, Any] = {
        "whole_turns": move[0],
        "spaces": move[1],
        "circle": here.circle,
        "from_datum": {"whole_turns": datum[0], "spaces": datum[1]},
        "left_arcsec": None if here.left is None else float(here.left * ARCSEC_PER_TURN),
    }
    if here.plate is not None:
        shown["plate"] = {"spaces": here.plate, "circle": here.plate_circle}
    return shown


def _document(place: Place, copied: str) -> Document:
    progress, following = place.progress, place.next()
    planned = place.cutting.planned(progress.running)
    rows = [
        Row("cut so far", f"{len(progress.cut)} of {planned.spaces}"),
        Row("next space", "none, the pass is complete" if following is None else str(following)),
    ]
    way = going(place)
    if way is not None:
        head = way.lead if following is not None else f"closing test, space 1 again: {way.lead}"
        rows.append(Row(head, " ".join(f"{figure} {words}".strip() for figure, words in way.big), way.then))
    if hand := by_hand_words(place):
        rows.append(Row("the same", hand))
    last = "none" if place.last is None else f"{progress.last}: {place.last.kind}"
    rows += [
        Row("pass", f"{PASS_WORDS[progress.running]}, {depth_words(place)}", f"order {progress.order}"),
        Row("time", left_words(place) or "not known", approach_words(place)),
        Row("last entry", last),
    ]
    if picked := picked_words(place):
        rows.append(Row("targets go by", picked))
    if progress.waiting is not None:
        rows.append(Row("waits since", f"{progress.waiting:%H:%M} UTC"))
    if progress.note:
        rows.append(Row("last note", progress.note))
    if copied:
        rows.append(Row("copy", copied))
    title = f"{place.job}: {place.to.line}, plan {place.issued.number}"
    return Document(
        kind="answer", title=title, findings=place.findings(), sections=(Section("cut", "", (Schedule(tuple(rows)),)),)
    )
