"""The pages that belong to the one at the machine: how to begin, two counts, a note with what was measured, a closing gap."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from fastapi import Request
from fastapi.responses import HTMLResponse
from markupsafe import Markup

from evenpitch.quantity.refusal import Fault, Refusal
from evenpitch.quantity.showing import mm
from evenpitch.sheet.frame_html import Action
from evenpitch.web.machine import Place
from evenpitch.web.pages.cut_view import entry, here
from evenpitch.web.pages.fields import Field, fault_message, with_messages
from evenpitch.web.pages.shown import address, job_nav, sheet


@dataclass(frozen=True, slots=True)
class Choices:
    """A group of radio buttons: (value, words, small print)."""

    name: str
    legend: str
    chosen: str
    of: tuple[tuple[str, str, str], ...]


@dataclass(frozen=True, slots=True)
class Asked:
    """One such page. `kind`: of the entry it writes; `act`: the words of the main action."""

    heading: str
    lead: str
    kind: str
    act: str
    fields: tuple[Field, ...] = ()
    choices: tuple[Choices, ...] = ()
    lines: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()


def form_page(
    request: Request,
    place: Place,
    page: str,
    typed: Mapping[str, str] | None = None,
    refusal: Refusal | None = None,
    status: int = 200,
) -> HTMLResponse:
    """One of the pages, with what was typed and what was refused."""
    given = typed or {}
    asked = _PAGES[page](place, given)
    faults = refusal.faults if refusal is not None else ()
    fields = with_messages(asked.fields, faults)
    named = {one.path for one in fields}
    others = tuple(fault for fault in faults if fault.field not in named)
    gear = "" if place.cutting.gear == 1 else place.cutting.gear
    return sheet(
        request,
        "cut_form.html",
        title=f"{place.job}: {asked.heading}",
        nav=job_nav(place.job, "cut", issued=True),
        action=Action(asked.act, form="entry"),
        status=status,
        body_class="beside-machine",
        asked=asked,
        fields=fields,
        messages=_messages(others),
        hidden=(*entry(place, asked.kind), ("page", page)),
        to=address("jobs", place.job, "cut"),
        back=here(place) if place.progress.begun else address("jobs", place.job, "plan", gear=gear),
        others=_others(place, page),
        reached_at=_mark(request, place) if page in ("start", "note") else "",
    )


def _messages(faults: tuple[Fault, ...]) -> tuple[Markup, ...]:
    return tuple(fault_message(fault, at, fault.field) for at, fault in enumerate(faults, 1))


def _mark(request: Request, place: Place) -> Markup:
    from evenpitch.web.pages.address_mark import address_mark

    return address_mark(request, here(place))


def _others(place: Place, page: str) -> tuple[tuple[str, str], ...]:
    """What else one may have come for: the other gear of a pair, a tooth to be picked up."""
    gear = "" if place.cutting.gear == 1 else place.cutting.gear
    pick_up = ("work was moved: pick up a tooth", address("jobs", place.job, "pick-up", gear=gear))
    other = _other_gear(place) if page == "start" else None
    return (*(() if other is None else (other,)), *(() if page == "closing" else (pick_up,)))


def _other_gear(place: Place) -> tuple[str, str] | None:
    if place.to.gears < 2:
        return None
    other = 3 - place.cutting.gear
    return f"gear {other} of the pair", address("jobs", place.job, "cut", gear=other if other == 2 else "")


def _start(place: Place, typed: Mapping[str, str]) -> Asked:
    """How to begin: which pass, in which order."""
    progress, cutting = place.progress, place.cutting
    rounds = cutting.rounds()
    gone = {*progress.done, *((progress.running,) if progress.cut else ())}
    words = {
        "scratch": (f"Scratch all {cutting.spaces} first", "0.05 mm deep, then see that the last meets the first"),
        "rough": (f"Rough all {cutting.spaces}", f"{_depth(place, 'rough')}, then measure"),
        "full": (f"All {cutting.spaces} to full depth", _depth(place, "full")),
    }
    have = {one.name: one for one in cutting.passes}
    if "trial" in have and cutting.moves.skip == 1:
        words["trial"] = (
            f"{have['trial'].spaces} trial spaces first",
            f"{_depth(place, 'trial')}, then stop and measure the span",
        )
    may = [
        name
        for name in ("scratch", "trial", "rough", "full")
        if name in words and name in have and name not in gone and (name != "full" or "rough" not in rounds or "rough" in gone)
    ]
    latest = max((("scratch", "trial", "rough", "full").index(name) for name in gone), default=-1)
    may = [name for name in may if ("scratch", "trial", "rough", "full").index(name) > latest]
    if progress.running == "full" and place.complete():
        words["full"] = (
            f"All {cutting.spaces} once more, deeper",
            "a recut: pick up three spaces first, and set the depth found",
        )
        may.append("full")
    usual = "trial" if "trial" in may else next((name for name in rounds if name in may), "full")
    orders = [
        ("1, 2, 3", "1, 2, 3 …" if cutting.moves.skip == 1 else f"as the moves come, every {cutting.moves.skip} spaces", "")
    ]
    if cutting.moves.skip == 1:
        orders.append(
            (
                "spread",
                "spread for the heat",
                "three far apart, then always midway in the widest gap; trial spaces stay side by side",
            )
        )
    return Asked(
        heading="How to begin" if not progress.cut else "What comes next",
        lead=f"Plan {place.issued.number}, {place.to.line}. This page moves nothing: it keeps count.",
        kind="begin",
        act="BEGIN",
        choices=(
            Choices("pass", "which pass", typed.get("pass", usual), tuple((name, *words[name]) for name in may)),
            Choices("order", "in which order", typed.get("order", "1, 2, 3"), tuple(orders)),
        ),
        lines=_measured_first(place),
        cautions=place.to.cautions,
    )


def _depth(place: Place, name: str) -> str:
    found = next((one.depth for one in place.cutting.passes if one.name == name), None)
    return "" if found is None else f"depth {mm(found, 2)}"


def _measured_first(place: Place) -> tuple[str, ...]:
    take_up = place.to.take_up
    lines = ["The datum tooth is marked; the cutter stands over space 1; scale and crank read as on the sheet."]
    if take_up:
        lines.append(f"Each cut starts at least {mm(take_up, 2)} of table before the blank; knee down before the return.")
    return tuple(lines)


def _counting(place: Place, typed: Mapping[str, str]) -> Asked:
    spaces, progress = place.cutting.spaces, place.progress
    return Asked(
        heading="Count check",
        lead=f"Count twice, without looking at the figure: forward from the datum what is cut, back from it what is not. "
        f"Together they must be {spaces}.",
        kind="count",
        act="COMPARE",
        fields=(
            _field("forward", "cut, counted forward from the datum", "whole spaces", typed, "spaces"),
            _field("back", "not cut, counted back from the datum", "whole spaces", typed, "spaces"),
        ),
        lines=(() if progress.counted is None else (f"Last count: {progress.counted[0]} cut, {progress.counted[1]} not.",)),
    )


def _noting(place: Place, typed: Mapping[str, str]) -> Asked:
    """A note; or what was set and measured, where a figure is given."""
    span = place.to.span
    wanted = "" if span is None else f"wanted at full depth over {span.k} teeth: {span.least:.3f} to {mm(span.most)}"
    return Asked(
        heading="Note, or what was measured",
        lead="Words, figures, or both: one entry. Nothing in the record is ever rubbed out.",
        kind="note",
        act="WRITE IT",
        fields=(
            _field("text", "note", "e.g. worm mark 2 pulses off at space 33", typed, ""),
            _field("depth", "depth set, from metal", "bare figures are millimetres", typed, "mm"),
            _field("span", "span measured there", wanted, typed, "mm"),
        ),
        lines=() if not place.progress.note else (f"Last note: {place.progress.note}",),
    )


def _closing(place: Place, typed: Mapping[str, str]) -> Asked:
    return Asked(
        heading="Closing test",
        lead="The work has gone round and stands at space 1 again. How far is it off, read at the outside of the blank?",
        kind="closing",
        act="WRITE THE GAP",
        fields=(_field("gap", "gap", "0 where they meet; the eye reads 0.1 mm", typed, "mm"),),
    )


def _field(name: str, label: str, says: str, typed: Mapping[str, str], unit: str) -> Field:
    return Field(path=name, label=label, help=says, example="", value=typed.get(name, ""), unit=unit)


_PAGES = {"start": _start, "count": _counting, "note": _noting, "closing": _closing}
