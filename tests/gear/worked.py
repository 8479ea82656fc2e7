"""Every worked case of tests/data/gears.json, done by the program: case -> output -> our figure, in the unit of the case."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from typing import Any

from evenpitch.gear import limits, limits_1995
from evenpitch.gear.caliper import jaws_factor, outside_from_jaws, points_factor
from evenpitch.gear.chord import chordal_height, chordal_thickness, half_angle
from evenpitch.gear.gear import Gear
from evenpitch.gear.internal import (
    best_ring_pin,
    between_pins,
    ring_centre_distance,
    ring_inside_diameter,
    ring_pin_pressure_angle,
    ring_root_diameter,
)
from evenpitch.gear.involute import inverse_involute, involute
from evenpitch.gear.mesh import (
    backlash_normal,
    contact_ratio,
    overlap_ratio,
    reference_centre_distance,
    working_backlash,
    working_pressure_angle,
)
from evenpitch.gear.pair_shift import generating_shift_sum, pressure_angle_of_shifts, shift_sum, shortened_addendum
from evenpitch.gear.pins import (
    change_per_thickness,
    face_between_pins,
    nominal_over_balls,
    nominal_over_pins,
    pin_centre_diameter,
    pin_involute,
    pin_lie,
    pin_pressure_angle,
)
from evenpitch.gear.rack import RACKS
from evenpitch.gear.sizes import (
    addendum,
    axial_pitch,
    base_diameter,
    base_helix,
    base_pitch,
    circular_pitch,
    dedendum,
    lead,
    outside_diameter,
    pitch_diameter,
    pressure_angle_at,
    root_diameter,
    transverse_pressure_angle,
    whole_depth,
)
from evenpitch.gear.span import face_needed, nominal_span, span_contact_diameter, span_target, teeth_to_span
from evenpitch.gear.thickness import thickness_at, thinned_evenly, tooth_thickness, transverse_thickness
from evenpitch.gear.undercut import least_shift
from evenpitch.gear.virtual import normal_section_teeth, virtual_teeth
from gear.made import by_pitch, cases, helical, of_transverse, spur

Inputs = dict[str, Any]
Figures = dict[str, float]
deg, rad = math.degrees, math.radians


def worked(case: str) -> Figures:
    """Our figures for that case."""
    return WORKED[case](cases()[case]["inputs"])


def _pair(i: Inputs, x1: float = 0.0, x2: float = 0.0) -> tuple[Gear, Gear]:
    return spur(i["z1"], i["m"], i["alpha"], shift=x1), spur(i["z2"], i["m"], i["alpha"], shift=x2)


def _involutes(i: Inputs) -> Figures:
    return {f"inv_{str(a).replace('.', 'p')}": involute(rad(a)) for a in i["alpha"]}


def _inverses(i: Inputs) -> Figures:
    return {f"alpha_{n}": deg(inverse_involute(y)) for n, y in enumerate(i["inv"], 1)}


def _standard_pair(i: Inputs) -> Figures:
    a, b = _pair(i)
    return {
        "a": reference_centre_distance(a, b),
        "d1": pitch_diameter(a),
        "d2": pitch_diameter(b),
        "db1": base_diameter(a),
        "db2": base_diameter(b),
        "ha": addendum(a),
        "h": whole_depth(a),
        "da1": outside_diameter(a),
        "da2": outside_diameter(b),
        "df1": root_diameter(a),
        "df2": root_diameter(b),
        "p": circular_pitch(a),
        "pb": base_pitch(a),
        "s": tooth_thickness(a),
    }


def _spur_127(i: Inputs) -> Figures:
    g = spur(i["z"], i["m"], i["alpha"], depth="iso53-a")
    return {
        "d": pitch_diameter(g),
        "db": base_diameter(g),
        "da": outside_diameter(g),
        "df": root_diameter(g),
        "h": whole_depth(g),
        "angular_pitch": 360.0 / g.teeth,
        "W_k15": nominal_span(g, 15),
    }


def _inch_full(i: Inputs) -> Figures:
    g = by_pitch(i["z"], i["P"], 20.0)
    return {
        "d": pitch_diameter(g) / 25.4,
        "OD": outside_diameter(g) / 25.4,
        "addendum": addendum(g) / 25.4,
        "whole_depth_14p5_BS": whole_depth(replace(g, depth="14.5")) / 25.4,
        "whole_depth_20_coarse": whole_depth(g) / 25.4,
        "whole_depth_20_stub_0p8": whole_depth(replace(g, depth="stub")) / 25.4,
        "circular_pitch": circular_pitch(g) / 25.4,
        "circular_thickness": tooth_thickness(g) / 25.4,
        "module": g.module,
    }


def _inch_fine(i: Inputs) -> Figures:
    g = by_pitch(i["z"], i["P"], i["alpha"], depth="fine")
    return {
        "d": pitch_diameter(g) / 25.4,
        "OD": outside_diameter(g) / 25.4,
        "addendum": addendum(g) / 25.4,
        "dedendum": dedendum(g) / 25.4,
        "whole_depth": whole_depth(g) / 25.4,
        "clearance": (dedendum(g) - addendum(g)) / 25.4,
    }


def _racks(i: Inputs) -> Figures:
    found: Figures = {}
    for row in cases()["G1-12"]["outputs"]["rows"]:
        rack = RACKS["iso53-" + row["profile"].lower()]  # type: ignore[index]
        found |= {f"ha_{row['profile']}": rack.addendum, f"hf_{row['profile']}": rack.dedendum}
        found[f"rho_f_{row['profile']}"] = rack.root_radius or 0.0
    return found


def _lead(i: Inputs) -> Figures:
    g = helical(i["z"], i["m_n"], i["beta"])
    return {
        "d": pitch_diameter(g),
        "lead_pz": lead(g),
        "lead_alt": math.pi * pitch_diameter(g) / math.tan(g.helix),
        "p_x": axial_pitch(g),
        "z_v_cos3": virtual_teeth(g),
        "z_v_exact": normal_section_teeth(g),
    }


def _shifted_pair(i: Inputs) -> Figures:
    a, b = _pair(i, i["x1"], i["x2"])
    angle = pressure_angle_of_shifts(a, b)
    a0 = reference_centre_distance(a, b)
    centres = (base_diameter(a) + base_diameter(b)) / (2.0 * math.cos(angle))
    ha1, ha2 = shortened_addendum(a, b, centres), shortened_addendum(b, a, centres)
    return {
        "inv_alpha_w": involute(angle),
        "alpha_w": deg(angle),
        "y": (centres - a0) / a.module,
        "a": centres,
        "dw1": base_diameter(a) / math.cos(angle),
        "dw2": base_diameter(b) / math.cos(angle),
        "ha1": ha1,
        "ha2": ha2,
        "h": ha1 + dedendum(a),
        "da1": pitch_diameter(a) + 2 * ha1,
        "da2": pitch_diameter(b) + 2 * ha2,
        "df1": root_diameter(a),
        "df2": root_diameter(b),
    }


def _shift_sum_given(i: Inputs) -> Figures:
    a, b = _pair(i, i["sum_x"], 0.0)
    angle = pressure_angle_of_shifts(a, b)
    return {
        "inv_alpha_w": involute(angle),
        "alpha_w": deg(angle),
        "a": reference_centre_distance(a, b) * math.cos(rad(i["alpha"])) / math.cos(angle),
    }


def _internal_pair(i: Inputs) -> Figures:
    z2, x2 = i.get("z2", i.get("z2_internal")), i.get("x2_minus_x1", i.get("x2", 0.0))
    pinion, twin = spur(i["z1"], i["m"], i["alpha"]), spur(z2, i["m"], i["alpha"], shift=x2)
    a = ring_centre_distance(pinion, twin)
    angle = math.acos((base_diameter(twin) - base_diameter(pinion)) / (2.0 * a))
    found = {"inv_alpha_w": involute(angle), "alpha_w": deg(angle), "a": a}
    if "z2_internal" in i:
        found |= {
            "y": (a - (pitch_diameter(twin) - pitch_diameter(pinion)) / 2.0) / pinion.module,
            "d1": pitch_diameter(pinion),
            "d2": pitch_diameter(twin),
            "db1": base_diameter(pinion),
            "db2": base_diameter(twin),
            "dw1": base_diameter(pinion) / math.cos(angle),
            "dw2": base_diameter(twin) / math.cos(angle),
            "da1": outside_diameter(pinion),
            "da2": ring_inside_diameter(twin),
            "df1": root_diameter(pinion),
            "df2": ring_root_diameter(twin),
        }
    return found


def _helical_pair(i: Inputs) -> tuple[Gear, Gear]:
    return helical(i["z1"], i["m_n"], i["beta"], i["alpha_n"]), helical(i["z2"], i["m_n"], i["beta"], i["alpha_n"], hand="left")


def _helical_shifts(i: Inputs) -> Figures:
    a, b = _helical_pair(i)
    angle, transverse = working_pressure_angle(a, b, i["a"]), transverse_pressure_angle(a)
    return {
        "a_ref": reference_centre_distance(a, b),
        "alpha_t": deg(transverse),
        "alpha_wt": deg(angle),
        "inv_alpha_wt": involute(angle),
        "inv_alpha_t": involute(transverse),
        "sum_x": shift_sum(a, b, i["a"]),
    }


def _helical_backlash(i: Inputs) -> Figures:
    a, b = _helical_pair(i)
    angle = working_pressure_angle(a, b, i["a"])
    working = math.atan(math.tan(base_helix(a)) / math.cos(angle))
    along = i["j"] / math.cos(a.pressure_angle)
    at_work = i["j"] / math.cos(working) * math.cos(angle) * math.cos(base_helix(a)) / math.cos(a.pressure_angle)
    return {
        "if_j_is_normal_circular_at_reference_cyl": generating_shift_sum(a, b, i["a"], i["j"]),
        "if_j_is_along_line_of_action_jbn": generating_shift_sum(a, b, i["a"], along),
        "if_j_is_normal_circular_at_working_cyl": generating_shift_sum(a, b, i["a"], at_work),
    }


def _least_shifts(i: Inputs) -> Figures:
    return {f"xmin_z{z}": least_shift(spur(z, 1.0)) for z in i["z"]}


def _contact(i: Inputs) -> Figures:
    a, b = _pair(i, i["x1"], i["x2"])
    return {"epsilon_alpha": contact_ratio(a, b, i["a"], i["da1"], i["da2"])}


def _tip(i: Inputs) -> Figures:
    g = spur(i["z"], i["m"], i["alpha"], shift=i["x"])
    tip = thickness_at(g, i["da"])
    return {"s_a_arc": tip, "s_a_over_m": tip / g.module, "tip_pressure_angle": deg(pressure_angle_at(g, i["da"]))}


def _overlap(i: Inputs) -> Figures:
    overlap = overlap_ratio(helical(20, i["m_n"], i["beta"]), i["b"])
    return {"epsilon_beta": overlap, "epsilon_gamma": overlap + i["epsilon_alpha"]}


def _span_figures(g: Gear, k: int) -> Figures:
    span = nominal_span(g, k)
    return {
        "W_k": span,
        "k_calc_unrounded": teeth_to_span(g),
        "contact_diameter": span_contact_diameter(g, span),
        "zK": teeth_to_span(g) - 0.5,
        "min_face_width_theoretical": face_needed(g, span),
        "beta_b": deg(base_helix(g)),
        "alpha_n": deg(g.pressure_angle),
    }


def _span_transverse(i: Inputs) -> Figures:
    return _span_figures(of_transverse(i["z"], i["m_t"], i["beta"], i["alpha_t"], i["x_t"]), i["k"])


def _span_table(i: Inputs) -> Figures:
    return {f"W_z{z}_k{k}": nominal_span(spur(z, i["m"], i["alpha"]), k) for z, k in i["z_and_k"]}


def _span(i: Inputs) -> Figures:
    k = i.get("k", i.get("k_spaces"))
    if "beta" in i:
        return _span_figures(helical(i["z"], i["m_n"], i["beta"], i["alpha_n"], shift=i["x"]), k)
    return _span_figures(spur(i["z"], i["m"], i["alpha"], shift=i["x"]), k)


def _pin_figures(g: Gear, pin: float, *, balls: bool = True) -> Figures:
    over = nominal_over_balls if balls else nominal_over_pins
    return {
        "M": over(g, pin),
        "phi": deg(pin_pressure_angle(g, pin)),
        "inv_phi": pin_involute(g, pin),
        "centre_radius": pin_centre_diameter(g, pin) / 2.0,
    }


def _ring_pins(i: Inputs) -> Figures:
    if "beta" in i:
        twin = helical(i["z"], i["m_n"], i["beta"], i["alpha_n"], shift=i["x"])
    else:
        twin = spur(i["z"], i["m"], i["alpha"], shift=i["x"])
    angle = ring_pin_pressure_angle(twin, i["dp"])
    return {
        "M": between_pins(twin, i["dp"]),
        "phi": deg(angle),
        "inv_phi": involute(angle),
        "centre_radius": base_diameter(twin) / math.cos(angle) / 2.0,
        "ideal_pin": best_ring_pin(twin),
    }


def _balls_transverse(i: Inputs) -> Figures:
    g = of_transverse(i["z"], i["m_t"], 33 + 33 / 60 + 26.3 / 3600, i["alpha_t"], i["x_t"])
    found = _pin_figures(g, i["dp"])
    return {**found, "alpha_n": deg(g.pressure_angle), "inv_phi_check": found["inv_phi"]}


def _wires(i: Inputs) -> Figures:
    found = _pin_figures(spur(i["z"], 1.0, i["alpha"]), i["dp"])
    return {**found, "M_at_4DP": nominal_over_pins(by_pitch(i["z"], 4, i["alpha"]), 1.728 * 25.4 / 4) / 25.4}


def _wire_table(i: Inputs) -> Figures:
    return {f"M_z{z}": nominal_over_pins(spur(z, 1.0, i["alpha"]), i["dp"]) for z in i["z"]}


def _ring_wire_table(i: Inputs) -> Figures:
    return {f"M_z{z}": between_pins(spur(z, 1.0, i["alpha"]), i["dp"]) for z in i["z"]}


def _over_pins(i: Inputs) -> Figures:
    return _pin_figures(spur(i["z"], i["m"], i["alpha"], shift=i["x"]), i["dp"])


def _straight_pins(i: Inputs) -> Figures:
    g = helical(i["z"], i["m_n"], i["beta"], i["alpha_n"])
    found = _pin_figures(g, i["dp"], balls=False)
    return {**found, "axial_offset_of_pin_contacts": face_between_pins(g), "pin_axis_angle": deg(pin_lie(g, i["dp"]))}


def _chord_figures(g: Gear) -> Figures:
    return {
        "half_angle": deg(half_angle(g)),
        "chordal_thickness": chordal_thickness(g),
        "chordal_addendum": chordal_height(g),
        "arc_thickness": tooth_thickness(g),
        "z_v": virtual_teeth(g),
    }


def _chord(i: Inputs) -> Figures:
    return _chord_figures(spur(i["z"], i["m"], i["alpha"], shift=i["x"]))


def _chord_rack(i: Inputs) -> Figures:
    rack = spur(10**9, i["m"], i["alpha"])
    return {"chordal_thickness": chordal_thickness(rack), "chordal_addendum": chordal_height(rack)}


def _chord_transverse(i: Inputs) -> Figures:
    g = of_transverse(i["z"], i["m_t"], i["beta"], i["alpha_t"], i["x_t"])
    found = _chord_figures(g)
    # The source gives the addendum; its rounding is in the printed height.
    return {**found, "chordal_addendum": found["chordal_addendum"] - addendum(g) + i["ha"]}


def _chord_old(i: Inputs) -> Figures:
    g = by_pitch(i["z"], i["P"], 20.0)
    arc = tooth_thickness(g) / 25.4
    return {
        "exact": chordal_height(g) / 25.4,
        "approx_a_plus_t2_over_4D": 1 / i["P"] + arc * arc / (4 * i["z"] / i["P"]),
        "chordal_thickness": chordal_thickness(g) / 25.4,
    }


def _two_spans(i: Inputs) -> Figures:
    pitch = i["W_k1"] - i["W_k"]
    module = cases()["G6-02b" if i["z"] == 40 else "G6-02c"]["outputs"]["m_nominal"]["value"]
    g = spur(i["z"], module, i["alpha_is"])
    return {
        "pb_measured": pitch,
        "m_nominal": g.module,
        "m_from_pb": g.module * pitch / base_pitch(g),
        "x_from_W": (i["W_k"] - nominal_span(g, i["k"]))
        / (nominal_span(replace(g, shift=1.0), i["k"]) - nominal_span(g, i["k"])),
    }


def _tip_print(i: Inputs) -> Figures:
    found = math.pi * i["d_a"] / math.tan(rad(i["beta_a_measured"]))
    return {"lead_pz": found, "beta": deg(math.asin(math.pi * i["z"] * i["m_n"] / found))}


def _outside_alone(i: Inputs) -> Figures:
    inch, metric = by_pitch(i["z"], 10, 20.0), spur(i["z"], 2.5)
    return {
        "m_from_OD_if_x0": i["d_a"] / (i["z"] + 2),
        "DP_from_OD_if_x0": 25.4 * (i["z"] + 2) / i["d_a"],
        "x_if_m2p5": (i["d_a"] - outside_diameter(metric)) / (2 * metric.module),
        "pb_DP10_20": base_pitch(inch),
        "pb_m2p5_20": base_pitch(metric),
        "pb_DP10_14p5": base_pitch(by_pitch(i["z"], 10, 14.5)),
        "pb_m2p5_14p5": base_pitch(spur(i["z"], 2.5, 14.5)),
    }


def _odd_tips(i: Inputs) -> Figures:
    jaws = i["d_a_true"] * jaws_factor(i["z"])
    return {
        "parallel_jaws_one_tip_against_two": jaws,
        "point_to_point_widest_pair": i["d_a_true"] * points_factor(i["z"]),
        "d_a_from_jaws": outside_from_jaws(i["z"], jaws),
    }


def _thinned_or_shifted(i: Inputs) -> Figures:
    g = spur(i["z"], i["m"], i["alpha"])
    span = nominal_span(g, 3)
    thinning = (i["W_3_measured"] - span) / math.cos(g.pressure_angle)
    return {
        "W_3_nominal_x0": span,
        "x_E_from_W": thinned_evenly(replace(g, thinning=-thinning)).shift,
        "thinning_normal_arc": thinning,
        "x_from_da": (i["d_a_measured"] - outside_diameter(g)) / (2 * g.module),
        "x_E_from_df_hf1p25": (i["d_f_measured"] - root_diameter(g)) / (2 * g.module),
    }


def _limits(i: Inputs) -> Figures:
    d, m, b, a = i["d"], i["m_n"], i["b"], i["class"]
    raw = {
        "fpT": limits.single_pitch(d, m, a),
        "FpT": limits.cumulative_pitch(d, m, a),
        "fHalphaT": limits.profile_slope(d, m, a),
        "ffalphaT": limits.profile_form(d, m, a),
        "FalphaT": limits.profile_total(d, m, a),
        "fHbetaT": limits.helix_slope(d, b, a),
        "ffbetaT": limits.helix_form(d, b, a),
        "FbetaT": limits.helix_total(d, b, a),
        "FrT": limits.runout(d, m, a),
        "fuT": limits.adjacent_pitch(d, m, a),
    }
    return {f"{name}_raw": figure for name, figure in raw.items()} | {
        name: limits.rounded(figure) for name, figure in raw.items()
    }


def _limits_1995(i: Inputs) -> Figures:
    d, m, b = (math.sqrt(low * high) for low, high in (i["d_range"], i["m_range"], i["b_range"]))
    names = {"fpt": "single_pitch", "Fp": "cumulative_pitch", "Falpha": "profile_total", "Fbeta": "helix_total", "Fr": "runout"}
    return {
        f"Q{grade}_{short}": limits_1995.limits_1995(d, m, b, grade)[name]
        for grade in i["grades"]
        for short, name in names.items()
    }


def _allowances_spur(i: Inputs) -> Figures:
    g = spur(i["z"], i["m"], i["alpha"], shift=i["x"])
    upper, lower = replace(g, thinning=-i["A_sne"]), replace(g, thinning=-i["A_sni"])
    over, slope = nominal_over_pins(g, i["dp"]), change_per_thickness(g, i["dp"], balls=False)
    return {
        "W_upper": span_target(upper, i["k"]),
        "W_lower": span_target(lower, i["k"]),
        "M_nominal": over,
        "M_upper_linear": over + slope * i["A_sne"],
        "M_lower_linear": over + slope * i["A_sni"],
        "M_lower_exact": nominal_over_pins(thinned_evenly(lower), i["dp"]),
        "extra_infeed_upper": -i["A_sne"] / (2.0 * math.tan(g.pressure_angle)),
        "x_E_upper": thinned_evenly(upper).shift,
        "x_E_lower": thinned_evenly(lower).shift,
    }


def _allowances_helical(i: Inputs) -> Figures:
    g = helical(i["z"], i["m_n"], i["beta"], i["alpha_n"])
    thin = replace(g, thinning=-i["A_sn"])
    return {
        "A_W": span_target(thin, i["k"]) - nominal_span(g, i["k"]),
        "A_M_balls": i["A_sn"] * change_per_thickness(g, i["ball"], balls=True),
        "A_M_balls_exact": nominal_over_balls(thinned_evenly(thin), i["ball"]) - nominal_over_balls(g, i["ball"]),
        "transverse_thickness_change": transverse_thickness(thinned_evenly(thin)) - transverse_thickness(g),
    }


def _opened(i: Inputs) -> Figures:
    a, b = _pair(i)
    return {
        "j_wt_exact": working_backlash(a, b, i["a"]),
        "j_t_linear_2da_tan": 2.0 * (i["a"] - i["a0"]) * math.tan(a.pressure_angle),
        "j_bn_exact": backlash_normal(a, b, i["a"]),
    }


WORKED: dict[str, Callable[[Inputs], Figures]] = {
    "G1-01": _involutes,
    "G1-03": _inverses,
    "G1-04": _standard_pair,
    "G1-05": _spur_127,
    "G1-06": _inch_full,
    "G1-07": _inch_fine,
    "G1-12": _racks,
    "G1-13": _lead,
    "G2-01": _shifted_pair,
    "G2-03": _shift_sum_given,
    "G2-05": _internal_pair,
    "G2-06": _helical_shifts,
    "G2-07": _helical_backlash,
    "G2-08": _internal_pair,
    "G2-10": _least_shifts,
    "G2-13": _contact,
    "G2-14a": _tip,
    "G2-14b": _tip,
    "G2-14d": _tip,
    "G2-16": _overlap,
    "G3-03": _span_transverse,
    "G3-04": _span_table,
    "G3-06b": _span,
    "G3-06c": _span,
    "G3-06d": _span,
    "G3-07": _span,
    "G3-08": _span,
    "G4-02": _ring_pins,
    "G4-04": _balls_transverse,
    "G4-05": _wires,
    "G4-06": _wire_table,
    "G4-07": _wire_table,
    "G4-08": _ring_wire_table,
    "G4-09b": _over_pins,
    "G4-09c": _over_pins,
    "G4-09d": _over_pins,
    "G4-11": _ring_pins,
    "G4-13": _straight_pins,
    "G5-01": _chord,
    "G5-02": _chord_rack,
    "G5-04": _chord_transverse,
    "G5-06": _chord_old,
    "G6-02b": _two_spans,
    "G6-02c": _two_spans,
    "G6-03": _tip_print,
    "G6-05": _outside_alone,
    "G6-06": _odd_tips,
    "G6-07": _thinned_or_shifted,
    "G8-03": _allowances_spur,
    "G8-04": _allowances_helical,
    "G8-06": _opened,
    **{name: _limits for name in cases() if name.startswith("G7-01")},
    **{name: _limits_1995 for name in cases() if name.startswith("G7-04")},
}
"""The cases this room answers; deviations measured (G7-06) belong to checking, a generating tool (G8-07) to none."""
