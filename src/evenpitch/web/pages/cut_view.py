"""What the page at the machine shows in each of its states, and what may be pressed there: six targets at most, one of them large."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import datetime

from evenpitch.job.cut_doubts import EYE, likeliest
from evenpitch.quantity.showing import dms, grouped, mm
from evenpitch.web.cut_words import PASS_WORDS, Going, approach_words, by_hand_words, depth_words, going, left_words, picked_words
from evenpitch.web.machine import Place
from evenpitch.web.pages.shown import address


@dataclass(frozen=True, slots=True)
class Deed:
    """A button: an entry that is sent, or a page that is opened (`href`)."""

    words: str
    fields: tuple[tuple[str, str], ...] = ()
    href: str = ""


@dataclass(frozen=True, slots=True)
class Lines:
    """A list under its own word: what is known, what is not, what to do (numbered)."""

    head: str
    lines: tuple[str, ...]
    numbered: bool = False


@dataclass(frozen=True, slots=True)
class View:
    """One state of the page. `beside`: label and figure at the right of "cut so far"; `strong`: the word before the lead.

    `more`: a line under `then`.
    """

    state: str
    beside: tuple[str, str]
    lead: str
    big: tuple[tuple[str, str], ...]
    then: str
    main: Deed
    deeds: tuple[Deed, ...] = ()
    strong: str = ""
    lists: tuple[Lines, ...] = ()
    last: tuple[str, ...] = field(default=())
    more: str = ""


def view_of(place: Place, started: datetime) -> View:
    """The state the page is in. `started`: when this server was; what was written before it was written before a stop."""
    progress = place.progress
    if progress.off:
        return _counts_differ(place)
    if place.complete():
        return _pass_complete(place)
    if progress.begun and progress.at is not None and progress.at < started:
        return _come_back(place)
    return _waiting(place) if progress.waiting is not None else _next(place)


def here(place: Place, page: str = "") -> str:
    """The address of the page at the machine, or of one that belongs to it."""
    gear = place.cutting.gear
    return address("jobs", place.job, "cut", *([page] if page else []), gear="" if gear == 1 else gear)


def _sheet(place: Place, sheet: str) -> str:
    """The address of another sheet of this gear."""
    return address("jobs", place.job, sheet, gear="" if place.cutting.gear == 1 else place.cutting.gear)


def entry(
    place: Place, kind: str, space: int | None = None, *, of: str | None = None, order: str | None = None, gap: str | None = None
) -> tuple[tuple[str, str], ...]:
    """The fields of a press: the plan it belongs to, the last entry this page knew, and the deed. `of`: the pass it is of."""
    known = {"plan": place.issued.number, "gear": place.cutting.gear, "last": place.progress.last, "kind": kind}
    fields = {**known, "space": space, "pass": of, "order": order, "gap": gap}
    return tuple((name, str(value)) for name, value in fields.items() if value is not None)


def is_cut(place: Place, space: int) -> Deed:
    """The deed that counts."""
    return Deed(f"{space} IS CUT", entry(place, "cut", space, of=place.progress.running))


def _take_back(place: Place) -> tuple[Deed, ...]:
    """Taking back the last one cut."""
    progress = place.progress
    if not progress.cut:
        return ()
    last = progress.cut[-1]
    return (Deed(f"{last} was not cut", entry(place, "not cut", last, of=progress.running)),)


def _count(place: Place) -> Deed:
    return Deed("Count check", href=here(place, "count"))


def _last(place: Place) -> tuple[str, ...]:
    return tuple(words for words in (approach_words(place), left_words(place), depth_words(place)) if words)


def _where(place: Place) -> Going:
    return going(place) or Going("at the datum", (("0°", ""),), "")


def _next(place: Place) -> View:
    space, where = place.next() or 1, _where(place)
    small = _take_back(place) or (Deed("Pass and order", href=here(place, "start")),)
    return View(
        "next",
        ("next space", str(space)),
        where.lead,
        where.big,
        where.then,
        is_cut(place, space),
        (Deed("Wait", entry(place, "wait")), _count(place), *small),
        last=_last(place),
    )


def _waiting(place: Place) -> View:
    space, where, since = place.next() or 1, _where(place), place.progress.waiting
    at = "" if since is None else f"since {since.astimezone():%H:%M}; {where.lead}"
    return View(
        "waiting",
        ("next space", str(space)),
        at,
        where.big,
        where.then,
        Deed(f"CARRY ON AT {space}", entry(place, "carry on")),
        (Deed("Note", href=here(place, "note")), _count(place), *_take_back(place)),
        strong="waits",
        last=_last(place),
    )


def _counts_differ(place: Place) -> View:
    progress = place.progress
    held, counted = len(progress.cut), len(progress.cut) + progress.off
    more = progress.off > 0
    space = place.next() if more else progress.cut[-1]
    main = is_cut(place, space or 1) if more else Deed(f"{space} WAS NOT CUT", _take_back(place)[0].fields)
    then = "look at the blank; if it is, write it" if more else "look at the blank; take back what was not cut"
    return View(
        "stop",
        ("in doubt", str(space)),
        f"counted {counted} cut, the record holds {held}",
        ((f"is {space}", "cut?"),),
        f"{then}; or count again before moving anything",
        main,
        (_count(place), Deed("Note", href=here(place, "note"))),
        strong="stop:",
        last=_last(place),
    )


def _come_back(place: Place) -> View:
    """After a stop: what is known, what is not, what to do, one line each."""
    progress, space = place.progress, place.next() or 1
    at = progress.at.astimezone() if progress.at is not None else None
    last = progress.cut[-1] if progress.cut else None
    of = place.cutting.planned(progress.running).spaces
    known = [f"{len(progress.cut)} of {of} cut" + (f", the last is {last}" if last is not None else "")]
    known.append(f"entry {progress.last} is on the disk, {at:%H:%M on %d %b}" if at else "")
    known.append(f"{space} at {_place_words(place)}")
    if picked := picked_words(place):
        known.append(f"{picked}: the place goes by it")
    unknown = (f"whether {space} was cut after that", "where the work stands now")
    return View(
        "back",
        ("next space", str(space)),
        "",
        (),
        "",
        Deed(f"CARRY ON AT {space}", entry(place, "carry on")),
        (
            _count(place),
            Deed(f"{space} was cut too", is_cut(place, space).fields),
            Deed("Pick up a tooth", href=_sheet(place, "pick-up")),
        ),
        strong="come back after a stop",
        lists=(
            Lines("known", tuple(line for line in known if line)),
            Lines("not known", unknown),
            Lines("do", tuple(_to_do(place, space)), numbered=True),
        ),
        last=(),
    )


def _place_words(place: Place) -> str:
    target = place.target()
    if target is None:
        return "the datum"
    words = dms(target.angle * 360)
    if place.cutting.moves.by_motor_alone:
        return f"{words}, pulse {grouped(target.pulse or 0)}"
    if target.from_datum is not None:
        return f"{words}, {target.from_datum[0]} + {target.from_datum[1]}/{target.circle} turns"
    return f"{words}, hole {target.nose}"


def _to_do(place: Place, space: int) -> Iterator[str]:
    """Going by what is lost, the least first."""
    yield f"stop the cutter, look: is {space} cut?"
    if place.cutting.moves.by_motor_alone:
        yield "power kept, nothing touched: carry on"
        yield "power lost: indicate in a cut space first"
    else:
        yield "pin in its hole, plate not moved: carry on"
        yield "in doubt: crank to the place named here"
    yield "work moved: pick up a tooth in 3 spaces"


def _pass_complete(place: Place) -> View:
    progress = place.progress
    if progress.running == "trial":
        return _to_measure(place)
    if progress.closing is None and progress.running in ("scratch", "full"):
        return _to_close(place)
    if progress.closing is not None and abs(progress.closing) > EYE:
        return _does_not_close(place)
    following = place.then()
    if following is None:
        return _done(place)
    return _to_measure(place) if progress.running == "rough" else _scratched(place)


def _all(place: Place) -> tuple[str, str]:
    following = place.then()
    return ("then", PASS_WORDS[following]) if following else ("left", "0")


def _to_close(place: Place) -> View:
    """A round is made: space 1 again must take nothing, or its scratch must meet the first."""
    where, scratch = _where(place), place.progress.running == "scratch"
    main = Deed("THEY MEET" if scratch else "IT TAKES NOTHING", entry(place, "closing", gap="0"))
    gap = Deed("There is a gap" if scratch else "It takes metal", href=here(place, "closing"))
    lead = "space 1 again: the last scratch must meet the first" if scratch else "space 1 again: the cut must take nothing"
    return View(
        "closing", ("again", "1"), lead, where.big, where.then, main, (_count(place), gap, *_take_back(place)), last=_last(place)
    )


def _does_not_close(place: Place) -> View:
    found = place.findings()[0]
    scratch = place.progress.running == "scratch"
    main = (
        Deed("SCRATCH AGAIN", entry(place, "begin", of="scratch", order=place.progress.order))
        if scratch
        else Deed("INSPECT IT", href=_sheet(place, "inspect"))
    )
    gap = mm(abs(place.progress.closing or 0), 2)
    return View(
        "stop",
        ("gap", gap.split()[0]),
        found.says,
        (("do not cut", "on"),) if scratch else (("inspect", "first"),),
        found.do.removeprefix("Do not cut. ") if scratch else "The last space is wide or narrow by that: measure over it.",
        main,
        (Deed("Read the gap again", href=here(place, "closing")), Deed("Note", href=here(place, "note"))),
        strong="stop:",
        more=likeliest(place.progress.closing or 0.0, place.to.outside, place.to.slips),
    )


def _scratched(place: Place) -> View:
    return View(
        "closed",
        _all(place),
        "the round closes; wash off the blue, or leave it",
        (("set the", "depth"),),
        "choose trial spaces or the round on the next page",
        Deed("BEGIN THE CUT", href=here(place, "start")),
        (Deed("Note", href=here(place, "note")),),
    )


def _to_measure(place: Place) -> View:
    span = place.to.span
    following = place.then() or "full"
    lead = "stop the cutter" if span is None else f"stop the cutter, measure over {span.k} teeth; at full depth wanted"
    big = (("measure", ""),) if span is None else ((f"{span.least:.3f}", "to"), (f"{span.most:.3f}", "mm"))
    found = place.progress.span
    then = (
        "deeper is thinner; the sheet's table says how much deeper" if found is None else f"found {mm(found)}; deeper is thinner"
    )
    return View(
        "measure",
        _all(place),
        lead,
        big,
        then,
        Deed("GO TO FULL DEPTH", entry(place, "begin", of=following, order=place.progress.order)),
        (Deed("Write what was measured", href=here(place, "note")), *_deeper(place), *_take_back(place)),
        last=(depth_words(place),),
    )


def _deeper(place: Place) -> tuple[Deed, ...]:
    """Where a span was measured: how much deeper, with its doubt, the dial and the first bite."""
    span = place.progress.span
    if span is None:
        return ()
    gear = "" if place.cutting.gear == 1 else place.cutting.gear
    return (Deed("How much deeper", href=address("jobs", place.job, "inspect", gear=gear, span=f"{span:.6g}")),)


def _done(place: Place) -> View:
    gears = place.to.gears
    other = 3 - place.cutting.gear
    mate = (
        (Deed(f"Gear {other}", href=address("jobs", place.job, "cut", gear=other if other == 2 else "")),) if gears == 2 else ()
    )
    return View(
        "done",
        ("left", "0"),
        "all are cut, and the round closes",
        (("finished", ""),),
        "leave it on the mandrel until it is measured",
        Deed(
            "READ THE PLAN", href=address("jobs", place.job, "plan", gear=place.cutting.gear if place.cutting.gear == 2 else "")
        ),
        (Deed("Note", href=here(place, "note")), *mate, *_take_back(place)),
    )


def not_written(place: Place, again: tuple[tuple[str, str], ...], reason: str, do: str) -> View:
    """The press could not be put on the disk: it stays on the screen to be pressed again."""
    held = len(place.progress.cut)
    fields = dict(again)
    space = fields.get("space") or str(place.next() or 1)
    return View(
        "not-written",
        ("in the cutter", space),
        reason,
        (("still", ""), (str(held), "")),
        f"{do.replace(', then do it again', '')} Then press again; nothing is lost",
        Deed("WRITE AGAIN", again),
        last=_last(place),
        strong="not written:",
    )


def overtaken(place: Place, reason: str) -> View:
    """A press from a page that the record has gone past: refused with the reason, nothing applied."""
    space = place.next()
    return View(
        "overtaken",
        ("next space", str(space) if space is not None else "none"),
        "this page was older than the record",
        (("now", ""), (str(len(place.progress.cut)), "cut")),
        reason,
        Deed("SHOW WHERE IT STANDS", href=here(place)),
        strong="refused:",
    )


def by_hand(place: Place) -> str:
    """For the second line where the crank is the fallback."""
    return by_hand_words(place)
