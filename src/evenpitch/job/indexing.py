"""Choose how to divide: every way of the rig weighed, the reason for the one chosen, and what each excludes."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from evenpitch.dividing.methods import Block, Compound, Differential, Direct, Method, PlatePulses, Pulses, Simple
from evenpitch.dividing.rank import LeadMethod, fits_lead
from evenpitch.dividing.turns import turns_text
from evenpitch.dividing.ways import ways, without_copies
from evenpitch.gear.gear import Gear
from evenpitch.gear.sizes import pitch_diameter
from evenpitch.job.findings import finding
from evenpitch.job.head import head_error
from evenpitch.job.order import Choice
from evenpitch.quantity.finding import Finding
from evenpitch.quantity.units import RADIAN_PER_ARCSEC
from evenpitch.rig.rig import Rig

HEAD_LEADS = 3.0
"""The head's own error is pointed out where it is so many times what the way chosen adds."""


@dataclass(frozen=True, slots=True)
class Excluded:
    """A way that cannot be here, with its reason."""

    way: str
    reason: str


@dataclass(frozen=True, slots=True)
class Indexing:
    """The ways, best first; the one chosen and why; a way by hand to go on with; errors of the head in seconds of arc."""

    methods: tuple[Method, ...]
    chosen: Method | None
    reason: str
    by_hand: Method | None
    excluded: tuple[Excluded, ...]
    head_error: float
    head_measured: bool


def way_key(method: Method) -> str:
    """The name by which one particular way is chosen; the same on page, in files and JSON."""
    return f"{method.name}: {method.words()}"


def at_pitch_line(gear: Gear, arcsec: float) -> float:
    """Micrometres at the pitch line of an angle at the work in seconds of arc."""
    return arcsec * RADIAN_PER_ARCSEC * pitch_diameter(gear) / 2 * 1000


def indexing(
    gear: Gear, rig: Rig, choice: Choice, lead_by: LeadMethod | None, cls: int, pitch_limit: float
) -> tuple[Indexing, tuple[Finding, ...]]:
    """`lead_by`: what cuts the helix of the same gear; `pitch_limit`: single pitch of class `cls`, µm."""
    error, measured = head_error(rig)
    motor_on = rig.link.motor_on if rig.link else None
    methods = without_copies(
        ways(
            gear.teeth,
            rig.head,
            rig.plates,
            rig.change_gears,
            rig.pulses_per_turn(),
            lead_method=lead_by,
            motor_on=motor_on,
            head_error_arcsec=error,
        )
    )
    chosen, why_not = _chosen(gear, methods, choice, lead_by, rig)
    by_hand = next((method for method in methods if _is_by_hand(method) and method.exact), None)
    by_hand = by_hand or next((method for method in methods if _is_by_hand(method)), None)
    made = Indexing(
        methods=methods,
        chosen=chosen,
        reason=_reason(chosen, methods, choice, lead_by, rig) if chosen else "",
        by_hand=by_hand,
        excluded=tuple(_excluded(gear, methods, rig, lead_by)),
        head_error=error,
        head_measured=measured,
    )
    return made, (*why_not, *_about(made, gear, rig, lead_by, cls, pitch_limit))


def _is_by_hand(method: Method) -> bool:
    return not isinstance(method, Pulses | PlatePulses)


def _chosen(
    gear: Gear, methods: tuple[Method, ...], choice: Choice, lead_by: LeadMethod | None, rig: Rig
) -> tuple[Method | None, list[Finding]]:
    """The way asked for, else the best; where the one asked for cannot be, the best and a stop."""
    motor_on = rig.link.motor_on if rig.link else None
    fitting_all = [method for method in methods if fits_lead(method, lead_by, motor_on)]
    best = fitting_all[0] if fitting_all else None
    if choice.way is not None:
        named = next((method for method in methods if way_key(method) == choice.way), None)
        if named is not None:
            return _fitting(named, lead_by, motor_on, rig)
        return best, [_impossible(gear, choice.way, fitting_all, "It is not among the ways of this rig for this count.")]
    if choice.dividing is not None:
        of_kind = [method for method in methods if method.name == choice.dividing]
        fitting = [method for method in of_kind if fits_lead(method, lead_by, motor_on)]
        if fitting or of_kind:
            return _fitting((fitting or of_kind)[0], lead_by, motor_on, rig)
        reason = next((gone.reason for gone in _excluded(gear, methods, rig, lead_by) if gone.way == choice.dividing), "")
        return best, [
            _impossible(gear, choice.dividing, fitting_all, reason or "None of this kind closes within 60″ on this rig.")
        ]
    if not methods:
        return None, [finding("no-way", n=gear.teeth)]
    return best or methods[0], [] if best else [_clash(methods[0], lead_by, rig)]


def _fitting(method: Method, lead_by: LeadMethod | None, motor_on: str | None, rig: Rig) -> tuple[Method, list[Finding]]:
    fits = fits_lead(method, lead_by, rig.link.motor_on if rig.link else None)
    return method, [] if fits else [_clash(method, lead_by, rig)]


def _clash(method: Method, lead_by: LeadMethod | None, rig: Rig) -> Finding:
    """Why a way and a lead cannot be together."""
    if isinstance(method, Differential) and lead_by == "change gears":
        instead = (
            "dividing by pulses, or the lead by the link"
            if rig.link
            else "a simple or block way, or a plate that holds the count"
        )
        return finding("differential-and-lead", instead=instead)
    words = f"{method.name.capitalize()}"
    if lead_by == "link":
        reason = "While the link makes the helix the motor holds the worm: by this motor only pulses divide as well."
        ways_left = (
            "pulses" if not (rig.link and rig.link.motor_on == "plate drive") else "simple, block, or the motor's plate pulses"
        )
    else:
        reason = "While change gears make the helix they hold plate and worm: only the crank on one circle is free."
        ways_left = "simple, block"
    return finding("way-impossible", way=words, n=method.divisions, reason=reason, ways=ways_left)


def _kind(method: Method) -> str:
    """The kind in words; a motor on the plate stands where change gears would."""
    return "differential by crank and motor" if isinstance(method, PlatePulses) else method.name


def _impossible(gear: Gear, way: str, methods: Sequence[Method], reason: str) -> Finding:
    kinds: list[str] = list(dict.fromkeys(method.name for method in methods)) or ["none"]
    why = reason[:1].upper() + reason[1:].rstrip(".") + "."
    return finding("way-impossible", way=way[:1].upper() + way[1:], n=gear.teeth, reason=why, ways=", ".join(kinds))


def _reason(chosen: Method, methods: tuple[Method, ...], choice: Choice, lead_by: LeadMethod | None, rig: Rig) -> str:
    if choice.way is not None or choice.dividing is not None:
        return "as you chose"
    if isinstance(chosen, Pulses) and lead_by == "link":
        return "divides while the same motor makes the helix; nothing to fit"
    if isinstance(chosen, Pulses):
        exact = "exact" if chosen.exact else f"never more than {chosen.worst_error_arcsec:.1f}″ off, and it does not add up"
        return f"{exact}; nothing to crank, nothing to fit"
    if isinstance(chosen, PlatePulses):
        return "the crank divides and the motor adds what the plate lacks"
    if isinstance(chosen, Simple):
        others = " with the motor's power off" if rig.link and rig.link.motor_on == "worm shaft" else ""
        return f"exact, by the crank alone{others}"
    if isinstance(chosen, Direct):
        return "exact, no crank: the plate on the spindle nose"
    if isinstance(chosen, Differential):
        return "exact, with change gears from spindle to plate"
    better = "exact" if chosen.exact else f"closes within {abs(chosen.closing_error_arcsec):.0f}″"
    return f"{better}, without gears"


def _excluded(gear: Gear, methods: tuple[Method, ...], rig: Rig, lead_by: LeadMethod | None) -> Iterator[Excluded]:
    names = {method.name for method in methods}
    n, on = gear.teeth, rig.link.motor_on if rig.link else None
    if "direct" not in names:
        holes = (
            f"{rig.head.direct} holes do not hold {n} spaces"
            if rig.head.direct
            else "the head has no plate on its nose that is known"
        )
        yield Excluded("direct", holes)
    if not any(isinstance(method, Simple) and method.exact for method in methods):
        yield Excluded("simple", f"no circle holds {Fraction(rig.head.ratio) / n} of a turn")
    if not any(isinstance(method, Differential) for method in methods):
        lacking = "no change gears are listed" if not rig.change_gears.teeth else f"no train of yours makes up {n}"
        yield Excluded("differential", lacking)
    if rig.pulses_per_turn() is None:
        yield Excluded("pulses", "the rig has no link whose pulses are known")
    elif on == "plate drive":
        yield Excluded("pulses", "the motor drives the plate: it adds to the crank, it does not divide alone")
    if lead_by == "change gears":
        yield Excluded("differential beside this lead", "both need the same gear bracket")
    if lead_by == "link" and on != "plate drive":
        yield Excluded(
            "crank beside this lead", "the motor holds the worm while it makes the helix; every hand move needs it uncoupled"
        )


def _about(made: Indexing, gear: Gear, rig: Rig, lead_by: LeadMethod | None, cls: int, pitch_limit: float) -> Iterator[Finding]:
    chosen = made.chosen
    if not made.methods and chosen is None:
        return
    if not any(isinstance(method, Simple | Direct) and method.exact for method in made.methods):
        kinds = ", ".join(dict.fromkeys(map(_kind, made.methods))) or "nothing else does either"
        yield finding("no-simple", n=gear.teeth, ways=kinds)
    if chosen is None:
        return
    um = at_pitch_line(gear, abs(chosen.closing_error_arcsec))
    if not isinstance(chosen, Pulses | PlatePulses) and not chosen.exact:
        yield finding("inexact", n=gear.teeth, closing=chosen.closing_error_arcsec, um=um, cls=cls, limit=pitch_limit)
    if rig.link is not None and rig.link.motor_on == "worm shaft":
        yield finding("belt-fights")
    if isinstance(chosen, PlatePulses):
        yield finding(
            "plate-pulses",
            n=gear.teeth,
            turns=turns_text(abs(chosen.plate_turns_per_work_turn())),
            pulses=round(abs(chosen.pulses_in_all)),
            alone=turns_text(chosen.approximate_number()),
        )
    if isinstance(chosen, Differential) and chosen.idlers is None:
        yield finding(
            "idlers-unknown",
            turns=turns_text(abs(chosen.plate_turns_per_work_turn())),
            sense="the same way as" if chosen.plate_sense == "with" else "against",
        )
    yield from _head(made, chosen, gear, rig)


def _head(made: Indexing, chosen: Method, gear: Gear, rig: Rig) -> Iterator[Finding]:
    own = at_pitch_line(gear, made.head_error)
    if not made.head_measured:
        yield finding("head-not-measured", um=own)
        return
    added, found = chosen.worst_error_arcsec, rig.latest_map()
    if found is not None and made.head_error > HEAD_LEADS * max(added, 1e-9):
        times = made.head_error / added if added > 0 else math.inf
        if math.isinf(times):
            yield finding("head-alone", arcsec=made.head_error, um=own, date=f"{found.date:%-d %B %Y}")
        else:
            yield finding("head-leads", arcsec=made.head_error, um=own, times=times, date=f"{found.date:%-d %B %Y}")


_SKIPS = (Block, Compound)


def skips(method: Method) -> bool:
    """Whether the spaces come in another order than 1, 2, 3."""
    return isinstance(method, _SKIPS) and method.skip > 1
