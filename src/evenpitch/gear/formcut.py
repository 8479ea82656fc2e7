"""The form-cut rule: a form cutter sunk past its depth moves each flank bodily, so span, pins and chord follow from one depth.

Thinning a tooth evenly is not the same thing. The span target comes from the thinning; everything else follows from the sinking
that gives that span. Spur gears exactly; helical gears to first order, from the contact line of the disc cutter.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Literal

from evenpitch.gear.chord import chordal_height, chordal_thickness, half_angle
from evenpitch.gear.disc_contact import share_across
from evenpitch.gear.gear import Gear
from evenpitch.gear.pins import (
    change_per_thickness,
    nominal_over_balls,
    nominal_over_pins,
    pin_of,
    pin_pressure_angle,
    seat_factor,
)
from evenpitch.gear.sizes import base_diameter, base_helix, pitch_diameter, roll_length_at, whole_depth
from evenpitch.gear.span import nominal_span, span_target, spanned
from evenpitch.gear.sunk import sunk_chord, sunk_thickness
from evenpitch.gear.thickness import thinned_evenly, thinned_thickness, tooth_thickness
from evenpitch.quantity.units import Millimetre
from evenpitch.sources.citations import cites

CutModel = Literal["form-cut", "thinned evenly"]

EVENLY = "no cutter named: thinned evenly, not form-cut"
NO_CONTACT = "this cutter finds no contact there: thinned evenly, not form-cut"
FIRST_ORDER = "form-cut, first order, disc cutter {outside:.4g} mm"
EXACT = "form-cut"
NONE = Millimetre(0.0)


@dataclass(frozen=True, slots=True)
class FormCut:
    """What the instruments read once the cutter is sunk by `sink` mm past the depth of no backlash. Lengths in mm.

    `thickness` is the normal arc on the pitch cylinder; the chord stands at `chordal_height` below the true outside diameter.
    The last three are what span, pins and balls lose for each millimetre deeper.
    """

    model: CutModel
    note: str
    sink: Millimetre
    spanned: int
    span: Millimetre
    pin: Millimetre
    over_pins: Millimetre
    over_balls: Millimetre
    chordal_thickness: Millimetre
    chordal_height: Millimetre
    thickness: Millimetre
    span_per_depth: float
    pins_per_depth: float
    balls_per_depth: float


@dataclass(frozen=True, slots=True)
class _Shares:
    """Metal off square to the flank per unit of sinking: at the span's contact, the pin's, and on the pitch cylinder."""

    span: float
    pin: float
    pitch: float


def _shares(gear: Gear, cutter_outside: Millimetre) -> _Shares | None:
    lean = math.cos(base_helix(gear))
    pin = pin_of(gear)
    at_pin = (base_diameter(gear) * math.tan(pin_pressure_angle(gear, pin)) - pin * lean) / 2.0
    rolls = (nominal_span(gear, spanned(gear)) * lean / 2.0, max(0.0, at_pin), roll_length_at(gear, pitch_diameter(gear)))
    found = [share_across(gear, Millimetre(roll), cutter_outside) for roll in rolls]
    span, ball, pitch = found
    return None if span is None or ball is None or pitch is None else _Shares(span, ball, pitch)


@cites("derived here", formula="spur: ΔW = 2 e sin(180° k/z);  helical: ΔW = 2 e n_x;  thinned evenly: ΔW = 2 e sin α_n")
def span_per_depth(gear: Gear, cutter_outside: Millimetre | None = None) -> float:
    """What the span over the teeth spanned loses for each unit the cutter goes deeper."""
    if gear.helix == 0.0:
        return 2.0 * math.sin(math.pi * spanned(gear) / gear.teeth)
    shares = _shares(gear, cutter_outside) if cutter_outside is not None else None
    return 2.0 * shares.span if shares else 2.0 * math.sin(gear.pressure_angle)


@cites("derived here", formula="e = (W_k − target) / (ΔW per depth)")
def sink_for_span(gear: Gear, target: Millimetre, cutter_outside: Millimetre | None = None) -> Millimetre:
    """How far past the depth of no backlash the cutter goes for the span to read `target` mm, mm."""
    return Millimetre((nominal_span(gear, spanned(gear)) - target) / span_per_depth(gear, cutter_outside))


@cites("derived here", formula="ΔM = 2 e (even z), 2 e cos(90°/z) (odd z)")
def spur_pins_per_depth(gear: Gear) -> float:
    """What the size over pins of a spur gear loses for each unit the form cutter goes deeper; exact."""
    return 2.0 * seat_factor(gear, balls=True)


@cites("derived here", formula="ΔM = 2 e n_x / (cos β_b sin φ), × cos(90°/z) for balls and odd z")
def disc_pins_per_depth(gear: Gear, share: float, *, balls: bool) -> float:
    """The same for a helical gear and a disc cutter, to first order; `share` is n_x where the pin touches."""
    lean = math.cos(base_helix(gear)) * math.sin(pin_pressure_angle(gear, pin_of(gear)))
    return 2.0 * share / lean * seat_factor(gear, balls=balls)


@cites("derived here", formula="Δs̄ = 2 e n_x / cos(α_n − ψ)")
def disc_chord_per_depth(gear: Gear, share: float) -> float:
    """What the chordal thickness of a helical gear loses, to first order; `share` is n_x on the pitch cylinder."""
    return 2.0 * share / math.cos(gear.pressure_angle - half_angle(gear))


@cites("DIN 3967:1978", "ISO 21771:2007", formula="M with x_E = x − T / (2 m_n tan α_n)")
def thinned_over_pins(gear: Gear, pin: Millimetre, *, balls: bool) -> Millimetre:
    """Over pins or balls of a tooth thinned evenly by the thinning of the gear, mm."""
    over = nominal_over_balls if balls else nominal_over_pins
    return over(thinned_evenly(gear), pin)


def targets(gear: Gear, cutter_outside: Millimetre | None = None, extra_sink: Millimetre = NONE) -> FormCut:
    """What span, pins, balls and chord should read with the thinning of the gear, and `extra_sink` mm deeper still."""
    sink = sink_for_span(gear, span_target(gear, spanned(gear)), cutter_outside) + extra_sink
    return at_sink(gear, Millimetre(sink), cutter_outside)


def at_sink(gear: Gear, sink: Millimetre, cutter_outside: Millimetre | None = None) -> FormCut:
    """What the instruments read with the cutter `sink` mm past the depth of no backlash; negative: still short of it."""
    if gear.helix == 0.0:
        return _spur(gear, sink)
    shares = _shares(gear, cutter_outside) if cutter_outside is not None else None
    if shares is None or cutter_outside is None:
        return _evenly(gear, sink, EVENLY if cutter_outside is None else NO_CONTACT)
    return _disc(gear, sink, shares, FIRST_ORDER.format(outside=cutter_outside))


def _spur(gear: Gear, sink: Millimetre) -> FormCut:
    k, pin, height = spanned(gear), pin_of(gear), chordal_height(gear)
    span_loss, pin_loss = span_per_depth(gear), spur_pins_per_depth(gear)
    size = Millimetre(nominal_over_pins(gear, pin) - sink * pin_loss)
    return FormCut(
        model="form-cut",
        note=EXACT,
        sink=sink,
        spanned=k,
        span=Millimetre(nominal_span(gear, k) - sink * span_loss),
        pin=pin,
        over_pins=size,
        over_balls=size,
        chordal_thickness=sunk_chord(gear, height, sink),
        chordal_height=height,
        thickness=sunk_thickness(gear, sink),
        span_per_depth=span_loss,
        pins_per_depth=pin_loss,
        balls_per_depth=pin_loss,
    )


def _disc(gear: Gear, sink: Millimetre, shares: _Shares, note: str) -> FormCut:
    k, pin = spanned(gear), pin_of(gear)
    pins = disc_pins_per_depth(gear, shares.pin, balls=False)
    balls = disc_pins_per_depth(gear, shares.pin, balls=True)
    return FormCut(
        model="form-cut",
        note=note,
        sink=sink,
        spanned=k,
        span=Millimetre(nominal_span(gear, k) - sink * 2.0 * shares.span),
        pin=pin,
        over_pins=Millimetre(nominal_over_pins(gear, pin) - sink * pins),
        over_balls=Millimetre(nominal_over_balls(gear, pin) - sink * balls),
        chordal_thickness=Millimetre(max(0.0, chordal_thickness(gear) - sink * disc_chord_per_depth(gear, shares.pitch))),
        chordal_height=chordal_height(gear),
        thickness=Millimetre(tooth_thickness(gear) - sink * 2.0 * shares.pitch / math.cos(gear.pressure_angle)),
        span_per_depth=2.0 * shares.span,
        pins_per_depth=pins,
        balls_per_depth=balls,
    )


def _evenly(gear: Gear, sink: Millimetre, note: str) -> FormCut:
    k, pin, slope = spanned(gear), pin_of(gear), 2.0 * math.tan(gear.pressure_angle)
    thinner = replace(gear, thinning=Millimetre(sink * slope))
    thickness, moved = thinned_thickness(thinner), thinned_evenly(thinner)
    return FormCut(
        model="thinned evenly",
        note=note,
        sink=sink,
        spanned=k,
        span=span_target(thinner, k),
        pin=pin,
        over_pins=thinned_over_pins(thinner, pin, balls=False),
        over_balls=thinned_over_pins(thinner, pin, balls=True),
        chordal_thickness=chordal_thickness(gear, thickness),
        chordal_height=chordal_height(gear),
        thickness=thickness,
        span_per_depth=2.0 * math.sin(gear.pressure_angle),
        pins_per_depth=slope * change_per_thickness(moved, pin, balls=False),
        balls_per_depth=slope * change_per_thickness(moved, pin, balls=True),
    )


@cites("derived here", formula="depth left = (W measured − target) / (ΔW per depth)")
def depth_left(gear: Gear, measured_span: Millimetre, target: Millimetre, cutter_outside: Millimetre | None = None) -> Millimetre:
    """How much deeper the cutter must go from a measured span to the target, mm; negative: already past it."""
    return Millimetre((measured_span - target) / span_per_depth(gear, cutter_outside))


def at_depth(gear: Gear, depth: Millimetre, cutter_outside: Millimetre | None = None) -> FormCut:
    """What the instruments read when the cut is `depth` mm deep from the true outside diameter."""
    return at_sink(gear, Millimetre(depth - whole_depth(gear)), cutter_outside)


def depth_table(
    gear: Gear, depths: tuple[Millimetre, ...], cutter_outside: Millimetre | None = None
) -> tuple[tuple[Millimetre, FormCut], ...]:
    """For trial cuts: each depth from the true outside diameter, mm, with what the instruments read there."""
    return tuple((depth, at_depth(gear, depth, cutter_outside)) for depth in depths)
