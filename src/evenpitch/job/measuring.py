"""What to measure afterwards: targets by the form-cut rule, each with an instrument owned that reads it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from evenpitch.gear.caliper import caliper_points
from evenpitch.gear.formcut import FormCut, at_sink, sink_for_span, targets
from evenpitch.gear.gear import Gear
from evenpitch.gear.pin_choice import best_pin, least_pin, pin_seat, touches_both_flanks
from evenpitch.gear.pins import nominal_over_balls, nominal_over_pins, pin_of, usual_pin
from evenpitch.gear.sizes import outside_diameter
from evenpitch.gear.span import face_needed, span_reach, span_target, spanned
from evenpitch.job.findings import finding
from evenpitch.job.order import Work
from evenpitch.quantity.finding import Finding
from evenpitch.quantity.units import Millimetre
from evenpitch.rig.rig import Rig
from evenpitch.rig.tools import Instrument

SPAN_KINDS = ("disc micrometer", "disc", "flange micrometer", "plate micrometer")
LENGTH_KINDS = ("micrometer", "caliper", "vernier caliper")
CHORD_KINDS = ("gear-tooth vernier", "gear tooth vernier", "gear-tooth caliper")


@dataclass(frozen=True, slots=True)
class Check:
    """One thing to measure: least and most, mm; `instrument`: one owned that reads it, or ""."""

    name: str
    words: str
    least: Millimetre
    most: Millimetre
    instrument: str


def with_pin(gear: Gear, rig: Rig) -> Gear:
    """The gear with a pin to measure over: the one asked for, else the owned one nearest the usual that can be used, else the usual."""
    if gear.pin is not None:
        return gear
    owned = [size for tool in rig.instruments for size in tool.sizes if _pin_kind(tool)]
    usable = [size for size in owned if _usable(gear, size)]
    usual = usual_pin(gear)
    return replace(gear, pin=min(usable, key=lambda size: abs(size - usual))) if usable else gear


def _pin_kind(tool: Instrument) -> bool:
    return any(word in tool.kind.casefold() for word in ("pin", "ball", "wire", "roller"))


def _usable(gear: Gear, size: Millimetre) -> bool:
    if not touches_both_flanks(gear, size):
        return False
    seat = pin_seat(gear, size)
    return bool(seat.usable)


def measuring(
    work: Work, gear: Gear, rig: Rig, cutter_outside: Millimetre | None
) -> tuple[tuple[Check, ...], FormCut, tuple[Finding, ...]]:
    """The checks, the form-cut targets, and the findings of one gear (with its pin chosen)."""
    upper, lower = work.span_tolerance
    target = span_target(gear, spanned(gear))
    most, least = (
        at_sink(gear, sink_for_span(gear, Millimetre(target + limit), cutter_outside), cutter_outside) for limit in (upper, lower)
    )
    checks = tuple(_checks(gear, rig, least, most))
    return checks, targets(gear, cutter_outside), (*span_findings(gear), *pin_findings(gear), *_instruments(gear, rig, checks))


def _checks(gear: Gear, rig: Rig, least: FormCut, most: FormCut) -> Iterator[Check]:
    middle = (least.span + most.span) / 2
    if span_reach(gear) is not None:
        tool = _reads(rig, SPAN_KINDS, middle) or _reads(rig, ("caliper",), middle)
        yield Check("span", f"span over {spanned(gear)}", least.span, most.span, tool)
    pin = pin_of(gear)
    size = f"{pin / 25.4:.3f} in" if _in_thousandths(pin) else f"{pin:.4g} mm"
    if gear.helix:
        over = (least.over_balls + most.over_balls) / 2
        yield Check("over_balls", f"over {size} balls", least.over_balls, most.over_balls, _over(rig, pin, over))
    else:
        over = (least.over_pins + most.over_pins) / 2
        yield Check("over_pins", f"over {size} pins", least.over_pins, most.over_pins, _over(rig, pin, over))
    height = most.chordal_height
    vernier = next((tool.kind for tool in rig.instruments if tool.kind.casefold() in CHORD_KINDS), "")
    words = f"chord at {height:.3f} mm below the tips"
    yield Check("chordal_thickness", words, least.chordal_thickness, most.chordal_thickness, vernier)


def _in_thousandths(pin: float) -> bool:
    """Whether the pin has a round size in inches: it is called as it is marked."""
    return abs(pin / 25.4 * 1000 - round(pin / 25.4 * 1000)) < 1e-4


def _reads(rig: Rig, kinds: tuple[str, ...], value: float) -> str:
    for tool in rig.instruments:
        if any(kind in tool.kind.casefold() for kind in kinds) and _in_range(tool, value):
            return f"{tool.kind} {tool.least:.4g} to {tool.most:.4g} mm" if tool.least is not None else tool.kind
    return ""


def _in_range(tool: Instrument, value: float) -> bool:
    return tool.least is not None and tool.most is not None and tool.least <= value <= tool.most


def _over(rig: Rig, pin: Millimetre, value: float) -> str:
    owned = any(abs(size - pin) < 0.002 for tool in rig.instruments if _pin_kind(tool) for size in tool.sizes)
    return _plain_micrometer(rig, value) if owned else ""


def _plain_micrometer(rig: Rig, value: float) -> str:
    """A micrometer of that range; a caliper is too coarse for a target of a few hundredths, so it is not offered."""
    return _reads(rig, ("micrometer",), value)


def span_findings(gear: Gear) -> Iterator[Finding]:
    k, reach = spanned(gear), span_reach(gear)
    if reach is None:
        yield finding("no-span")
        return
    if not reach.holds(k):
        where = "outside the flanks, at the tips" if k > reach.most else "below the form circle"
        usual = spanned(replace(gear, spanned=None))
        yield finding("spanned-outside", k=k, where=where, least=reach.least, most=reach.most, usual=usual)
    need = face_needed(gear, span_target(gear, k))
    if gear.helix and gear.face is not None and gear.face < need:
        yield finding("span-face", k=k, need=need, face=gear.face)


def pin_findings(gear: Gear) -> Iterator[Finding]:
    pin = pin_of(gear)
    if not touches_both_flanks(gear, pin):
        return
    seat = pin_seat(gear, pin)
    least = least_pin(gear, balls=bool(gear.helix))
    if seat.on_root:
        yield finding("pins-on-root", pin=pin, least=least)
    elif seat.above_tips <= 0:
        over = nominal_over_balls(gear, pin) if gear.helix else nominal_over_pins(gear, pin)
        yield finding("pins-below-tips", pin=pin, over=over, tips=caliper_points(gear), sunk=-seat.above_tips, least=least)
    elif seat.contact_diameter > outside_diameter(gear):
        yield finding("pins-above-flank", pin=pin, at=seat.contact_diameter, tip=outside_diameter(gear), best=best_pin(gear))


def _spannable(gear: Gear) -> bool:
    """Whether the anvils reach the flanks over the count spanned, and find face enough there."""
    k, reach = spanned(gear), span_reach(gear)
    if reach is None or not reach.holds(k):
        return False
    return not gear.helix or gear.face is None or gear.face >= face_needed(gear, span_target(gear, k))


def _instruments(gear: Gear, rig: Rig, checks: tuple[Check, ...]) -> Iterator[Finding]:
    if not rig.instruments:
        return
    possible = [check for check in checks if check.name != "span" or _spannable(gear)]
    readable = [check for check in possible if check.instrument]
    if not readable:
        yield finding("nothing-to-measure-with", value=float(possible[0].most))
        return
    most = max(
        (tool.most for tool in rig.instruments if tool.most is not None and "micrometer" in tool.kind.casefold()), default=None
    )
    ends = f"{most:.4g} mm" if most is not None else "no known range"
    for check in checks:
        if not check.instrument and check.name != "chordal_thickness":
            instead = f"Use the {readable[0].words}, {readable[0].most:.3f} mm."
            what = check.words[0].upper() + check.words[1:]
            yield finding("no-instrument", what=what, value=float(check.most), most=ends, instead=instead, about=check.name)
