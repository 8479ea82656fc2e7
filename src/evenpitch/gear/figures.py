"""Every figure that one gear has, under its name in the nomenclature, able to explain itself."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

from evenpitch.gear.caliper import caliper_jaws, caliper_points
from evenpitch.gear.chord import chordal_height, chordal_thickness
from evenpitch.gear.formcut import (
    FormCut,
    disc_chord_per_depth,
    disc_pins_per_depth,
    spur_pins_per_depth,
    targets,
    thinned_over_pins,
)
from evenpitch.gear.gear import Gear
from evenpitch.gear.pins import nominal_over_balls, nominal_over_pins, pin_of, pin_pressure_angle, usual_pin, usual_pin_serves
from evenpitch.gear.rack import RACKS
from evenpitch.gear.sizes import (
    addendum,
    base_diameter,
    base_helix,
    base_pitch,
    circular_pitch,
    dedendum,
    lead,
    outside_diameter,
    pitch_diameter,
    root_diameter,
    transverse_module,
    transverse_pressure_angle,
    whole_depth,
)
from evenpitch.gear.span import face_needed, nominal_span, span_target, spanned, teeth_to_span
from evenpitch.gear.sunk import sunk_chord
from evenpitch.gear.thickness import tooth_thickness
from evenpitch.gear.virtual import cutter_form_teeth, virtual_teeth
from evenpitch.quantity.figure import Figure, Value, figure
from evenpitch.quantity.units import INCH, Millimetre

_UNCHOSEN = {
    True: "the usual one, 1.728 modules",
    False: "touches in the middle of the flank; 1.728 modules would fall between the flanks",
}
Inputs = tuple[tuple[str, str], ...]


def figures(gear: Gear, *, cutter_outside: Millimetre | None = None) -> tuple[Figure, ...]:
    """All figures of the gear; a disc cutter's outside diameter (mm) makes the targets of a helical gear form-cut ones."""
    cut = targets(gear, cutter_outside)
    return (
        *_given(gear),
        *_transverse(gear),
        *_diameters(gear),
        *_pitches(gear),
        *_spans(gear, cut),
        *_pins(gear, cut),
        *_chords(gear, cut),
        *_callipered(gear),
        *_virtual(gear, cutter_outside),
    )


def _number(value: float, unit: str) -> str:
    return f"{value:.7g} {unit}".strip()


def _degrees(angle: float) -> str:
    return _number(math.degrees(angle), "deg")


def _z(gear: Gear) -> tuple[str, str]:
    return "z", str(gear.teeth)


def _m(gear: Gear) -> tuple[str, str]:
    return "m_n", _number(gear.module, "mm")


def _a(gear: Gear) -> tuple[str, str]:
    return "alpha_n", _degrees(gear.pressure_angle)


def _b(gear: Gear) -> Inputs:
    return (("beta", _degrees(gear.helix)),) if gear.helix else ()


def _x(gear: Gear) -> Inputs:
    return (("x", f"{gear.shift:g}"),) if gear.shift else ()


def _mm(
    name: str, symbol: str, value: float, by: Callable[..., Any], inputs: Inputs, note: str = "", sources: tuple[str, ...] = ()
) -> Figure:
    return figure(name, float(value), "mm", by=by, symbol=symbol, inputs=inputs, note=note, sources=sources)


def _plain(name: str, symbol: str, value: Value, unit: str = "", note: str = "") -> Figure:
    return figure(name, value, unit, symbol=symbol, note=note)


def _given(gear: Gear) -> tuple[Figure, ...]:
    typed = (("pitch", gear.pitch_words()), *_b(gear))
    exact = gear.pitch.kind == "diametral pitch" and (gear.pitch.plane == "normal" or not gear.helix)
    diametral = float(gear.pitch.value) if exact else float(INCH) / gear.module
    found = [
        _plain("teeth", "z", gear.teeth),
        figure("module", float(gear.module), "mm", symbol="m_n", inputs=typed, note="in the normal plane"),
        figure("diametral_pitch", diametral, "", symbol="P", inputs=(_m(gear),), note="teeth per inch, in the normal plane"),
        _plain("pressure_angle", "alpha_n", math.degrees(gear.pressure_angle), "deg", "in the normal plane"),
        _plain("helix_angle", "beta", math.degrees(gear.helix), "deg", "at the pitch cylinder"),
        _plain("hand", "", gear.hand),
        _plain("profile_shift", "x", float(gear.shift)),
    ]
    if gear.face is not None:
        found.append(_plain("face_width", "b", float(gear.face), "mm"))
    return tuple(found)


def _transverse(gear: Gear) -> tuple[Figure, ...]:
    return (
        _mm("transverse_module", "m_t", transverse_module(gear), transverse_module, (_m(gear), *_b(gear))),
        figure(
            "transverse_pressure_angle",
            math.degrees(transverse_pressure_angle(gear)),
            "deg",
            by=transverse_pressure_angle,
            symbol="alpha_t",
            inputs=(_a(gear), *_b(gear)),
        ),
        figure(
            "base_helix_angle",
            math.degrees(base_helix(gear)),
            "deg",
            by=base_helix,
            symbol="beta_b",
            inputs=(_a(gear), *_b(gear)),
        ),
    )


def _diameters(gear: Gear) -> tuple[Figure, ...]:
    size = (_z(gear), _m(gear), *_b(gear))
    depth = (("depth", RACKS[gear.depth].words), _m(gear), *_x(gear))
    system = RACKS[gear.depth].sources
    deeper = "before the sinking for backlash" if gear.thinning else ""
    return (
        _mm("pitch_diameter", "d", pitch_diameter(gear), pitch_diameter, size),
        _mm("outside_diameter", "d_a", outside_diameter(gear), outside_diameter, (*size, *_x(gear))),
        _mm("root_diameter", "d_f", root_diameter(gear), root_diameter, (*size, *depth[::2]), deeper),
        _mm("base_diameter", "d_b", base_diameter(gear), base_diameter, (*size, _a(gear))),
        _mm("addendum", "h_a", addendum(gear), addendum, depth, sources=(*system, "ISO 21771:2007")),
        _mm("dedendum", "h_f", dedendum(gear), dedendum, depth, deeper, sources=(*system, "ISO 21771:2007")),
        _mm("whole_depth", "h", whole_depth(gear), whole_depth, depth, deeper, sources=(*system, "ISO 21771:2007")),
    )


def _pitches(gear: Gear) -> tuple[Figure, ...]:
    found = [
        _mm("circular_pitch", "p", circular_pitch(gear), circular_pitch, (_m(gear),), "in the normal plane"),
        _mm("base_pitch", "p_b", base_pitch(gear), base_pitch, (_m(gear), _a(gear)), "in the normal plane"),
    ]
    if gear.helix:
        found.append(_mm("lead", "p_z", lead(gear), lead, (_z(gear), _m(gear), *_b(gear))))
    note = "normal arc on the pitch cylinder, without the thinning"
    found.append(_mm("tooth_thickness", "s", tooth_thickness(gear), tooth_thickness, (_m(gear), _a(gear), *_x(gear)), note))
    return tuple(found)


def _spans(gear: Gear, cut: FormCut) -> tuple[Figure, ...]:
    k = spanned(gear)
    inputs = (_z(gear), _m(gear), _a(gear), *_b(gear), *_x(gear), ("k", str(k)))
    thin = (*inputs, ("T", _number(gear.thinning, "mm")))
    chosen = "chosen by the maker" if gear.spanned is not None else ""
    return (
        figure("spanned_teeth", k, "", by=teeth_to_span, symbol="k", inputs=inputs[:-1], note=chosen),
        _mm("span", "W_k", cut.span, span_target, thin),
        _mm("span_nominal", "W_k", nominal_span(gear, k), nominal_span, inputs, "without the thinning"),
        _mm("span_face_needed", "b", face_needed(gear, cut.span), face_needed, (("W_k", _number(cut.span, "mm")), *_b(gear))),
    )


def _pins(gear: Gear, cut: FormCut) -> tuple[Figure, ...]:
    pin = pin_of(gear)
    chosen = "chosen by the maker" if gear.pin is not None else _UNCHOSEN[usual_pin_serves(gear)]
    angle = ("phi", _degrees(pin_pressure_angle(gear, pin)))
    inputs = (_z(gear), _m(gear), _a(gear), *_b(gear), *_x(gear), ("D_M", _number(pin, "mm")), angle)
    sunk = (*inputs, ("sink", _number(cut.sink, "mm")))
    pins, balls = "straight pins between wide parallel anvils", "balls in one plane"
    bare = "without the thinning"
    rule = _pin_rule(gear, cut)
    return (
        _mm("pin_diameter", "D_M", pin, usual_pin, (_m(gear),), chosen),
        _mm("over_pins", "M", cut.over_pins, rule, sunk, f"{cut.note}; {pins}"),
        _mm("over_pins_nominal", "M", nominal_over_pins(gear, pin), nominal_over_pins, inputs, f"{bare}; {pins}"),
        _mm("over_balls", "M", cut.over_balls, rule, sunk, f"{cut.note}; {balls}"),
        _mm("over_balls_nominal", "M", nominal_over_balls(gear, pin), nominal_over_balls, inputs, f"{bare}; {balls}"),
    )


def _pin_rule(gear: Gear, cut: FormCut) -> Callable[..., Any]:
    if cut.model == "thinned evenly":
        return thinned_over_pins
    return disc_pins_per_depth if gear.helix else spur_pins_per_depth


def _chord_rule(gear: Gear, cut: FormCut) -> Callable[..., Any]:
    if cut.model == "thinned evenly":
        return chordal_thickness
    return disc_chord_per_depth if gear.helix else sunk_chord


def _chords(gear: Gear, cut: FormCut) -> tuple[Figure, ...]:
    inputs = (("z_v", f"{virtual_teeth(gear):.6g}"), _m(gear), *_x(gear))
    sunk = (*inputs, ("sink", _number(cut.sink, "mm")), ("height", _number(cut.chordal_height, "mm")))
    on = f"{cut.note}; at the chordal height, on a blank of the true outside diameter"
    return (
        _mm("chordal_thickness", "", cut.chordal_thickness, _chord_rule(gear, cut), sunk, on),
        _mm("chordal_thickness_nominal", "", chordal_thickness(gear), chordal_thickness, inputs, "without the thinning"),
        _mm("chordal_height", "", cut.chordal_height, chordal_height, inputs, "from a tip of the true outside diameter"),
    )


def _callipered(gear: Gear) -> tuple[Figure, ...]:
    inputs = (_z(gear), ("d_a", _number(outside_diameter(gear), "mm")))
    return (
        _mm("caliper_points", "", caliper_points(gear), caliper_points, inputs, "over the two nearest tips, point to point"),
        _mm("caliper_jaws", "", caliper_jaws(gear), caliper_jaws, inputs, "flat jaws"),
    )


def _virtual(gear: Gear, cutter_outside: Millimetre | None) -> tuple[Figure, ...]:
    inputs = (_z(gear), *_b(gear))
    found = [figure("virtual_teeth", virtual_teeth(gear), "", by=virtual_teeth, symbol="z_v", inputs=inputs)]
    if cutter_outside is not None:
        more = (*inputs, ("D", _number(cutter_outside, "mm")))
        value = cutter_form_teeth(gear, cutter_outside)
        found.append(figure("cutter_form_teeth", value, "", by=cutter_form_teeth, inputs=more))
    return tuple(found)
