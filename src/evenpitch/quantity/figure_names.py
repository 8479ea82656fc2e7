"""Every figure: its word, symbol, unit, decimals, sensible range, help, standard and trade name."""

from __future__ import annotations

from dataclasses import dataclass

_GREEK = (("alpha", "α"), ("beta", "β"), ("delta", "δ"))


@dataclass(frozen=True, slots=True)
class Name:
    """One figure of the nomenclature.

    `word`: the key in JSON. `symbol`: as the standard has it, Greek letters spelled out. `unit`: as in JSON. `places_mm`, `places_inch`:
    decimals shown in each system, no more than the figure can be trusted or set to. `least`..`most`: beyond this it is asked back.
    `standard`: a key of the library. `trade`: what people call it.
    """

    word: str
    symbol: str
    unit: str
    places_mm: int
    places_inch: int
    least: float
    most: float
    help: str
    standard: str
    trade: str

    def printed(self) -> str:
        """The symbol with its Greek letters."""
        text = self.symbol
        for spelled, letter in _GREEK:
            text = text.replace(spelled, letter)
        return text


_GEOMETRY = "ISO 21771:2007"
_LIMITS = "ISO 1328-1:2013"
_HANDBOOK = "Machinery's Handbook"
_OWN = "derived here"
_HABIT = "common practice"

# fmt: off
FIGURES: tuple[Name, ...] = (
    Name("teeth", "z", "", 0, 0, 5, 1000, "Teeth all round; count them twice, from a chalk mark.", _GEOMETRY,
         "number of teeth"),
    Name("module", "m_n", "mm", 4, 5, 0.05, 100, "Size of the tooth: pitch diameter over teeth, in the normal plane.",
         "ISO 54:1996", "module"),
    Name("diametral_pitch", "P", "", 4, 4, 0.25, 500, "Teeth to each inch of pitch diameter, in the normal plane.", _HANDBOOK,
         "diametral pitch (DP)"),
    Name("pressure_angle", "alpha_n", "deg", 4, 4, 10, 45, "Slope of the flank of the rack, in the normal plane.", _GEOMETRY,
         "pressure angle"),
    Name("helix_angle", "beta", "deg", 4, 4, 0, 60,
         "Lean of the teeth against the axis, on the pitch cylinder; 0 is a spur gear.", _GEOMETRY, "helix angle"),
    Name("hand", "", "", 0, 0, 0, 0, "Right: held upright, the teeth rise to the right.", "ISO 1122-1:1998", "hand"),
    Name("profile_shift", "x", "", 4, 4, -1, 1.5, "How far the rack is drawn out, in modules.", _GEOMETRY, "profile shift"),
    Name("face_width", "b", "mm", 2, 3, 0.5, 1000, "Length of the teeth along the axis.", _GEOMETRY, "face"),
    Name("transverse_module", "m_t", "mm", 5, 6, 0.05, 100, "Module in the plane of rotation.", _GEOMETRY, "transverse module"),
    Name("transverse_pressure_angle", "alpha_t", "deg", 4, 4, 10, 60, "Pressure angle in the plane of rotation.", _GEOMETRY,
         "transverse pressure angle"),
    Name("base_helix_angle", "beta_b", "deg", 4, 4, 0, 60, "Lean of the teeth on the base cylinder.", _GEOMETRY,
         "base helix angle"),
    Name("pitch_diameter", "d", "mm", 3, 4, 1, 5000, "Of the cylinder that rolls without slip at nominal centres.", _GEOMETRY,
         "pitch diameter"),
    Name("outside_diameter", "d_a", "mm", 3, 4, 1, 5000, "Over the tips; what the blank is turned to.", _GEOMETRY,
         "outside diameter"),
    Name("root_diameter", "d_f", "mm", 3, 4, 0.5, 5000, "At the bottom of the spaces.", _GEOMETRY, "root diameter"),
    Name("base_diameter", "d_b", "mm", 3, 4, 0.5, 5000, "Of the circle that the involute is unwound from.", _GEOMETRY,
         "base circle"),
    Name("addendum", "h_a", "mm", 3, 4, 0, 200, "From the pitch circle out to the tip.", _GEOMETRY, "addendum"),
    Name("dedendum", "h_f", "mm", 3, 4, 0, 200, "From the pitch circle in to the root.", _GEOMETRY, "dedendum"),
    Name("whole_depth", "h", "mm", 3, 4, 0.1, 300, "From tip to root: how deep the space is in a full blank.", _GEOMETRY,
         "whole depth"),
    Name("circular_pitch", "p", "mm", 4, 5, 0.1, 400, "From tooth to tooth along the pitch circle, in the normal plane.",
         _GEOMETRY, "circular pitch"),
    Name("base_pitch", "p_b", "mm", 4, 5, 0.1, 400, "What one tooth more adds to a span, in the normal plane.", _GEOMETRY,
         "base pitch"),
    Name("lead", "p_z", "mm", 4, 5, 1, 1e6, "Length along the axis in which the helix goes once round.", _GEOMETRY, "lead"),
    Name("tooth_thickness", "s", "mm", 4, 5, 0.05, 200, "Normal arc of the tooth on the pitch cylinder.", _GEOMETRY,
         "tooth thickness"),
    Name("spanned_teeth", "k", "", 0, 0, 1, 200, "Teeth between the anvils of the span.", _GEOMETRY, "spanned teeth"),
    Name("span", "W_k", "mm", 3, 4, 0.5, 2000, "Over k teeth with a disc micrometer, thinning taken off.", _GEOMETRY,
         "span over k teeth"),
    Name("span_nominal", "W_k", "mm", 3, 4, 0.5, 2000, "The same before any thinning.", _GEOMETRY, "span, nominal"),
    Name("span_face_needed", "b", "mm", 2, 3, 0, 1000, "Least face on which both anvils of the span find tooth.", _GEOMETRY,
         "face the span needs"),
    Name("pin_diameter", "D_M", "mm", 3, 4, 0.1, 200, "Of the measuring pin or ball.", _GEOMETRY, "pin diameter"),
    Name("over_pins", "M", "mm", 3, 4, 1, 5000, "Over two straight pins in opposite spaces, between wide anvils; form-cut.",
         _GEOMETRY, "over pins"),
    Name("over_pins_nominal", "M", "mm", 3, 4, 1, 5000, "The same before any thinning.", _GEOMETRY, "over pins, nominal"),
    Name("over_balls", "M", "mm", 3, 4, 1, 5000, "Over two balls in opposite spaces; form-cut.", _GEOMETRY, "over balls"),
    Name("over_balls_nominal", "M", "mm", 3, 4, 1, 5000, "The same before any thinning.", _GEOMETRY, "over balls, nominal"),
    Name("chordal_thickness", "", "mm", 3, 4, 0.05, 200,
         "Straight across the tooth, for the gear-tooth vernier; thinning taken off.", _HANDBOOK, "chordal thickness"),
    Name("chordal_thickness_nominal", "", "mm", 3, 4, 0.05, 200, "The same before any thinning.", _HANDBOOK,
         "chordal thickness, nominal"),
    Name("chordal_height", "", "mm", 3, 4, 0.05, 200, "What the tongue of the gear-tooth vernier is set to.", _HANDBOOK,
         "chordal addendum"),
    Name("caliper_points", "", "mm", 3, 4, 1, 5000, "Over the two tips most nearly opposite, point to point.", _OWN,
         "over the tips, points"),
    Name("caliper_jaws", "", "mm", 3, 4, 1, 5000, "Over the tips with flat jaws.", _OWN, "over the tips, flat jaws"),
    Name("virtual_teeth", "z_v", "", 2, 2, 5, 10_000, "Teeth of the spur gear with the same normal curve: z/cos³ beta.",
         _GEOMETRY, "virtual teeth"),
    Name("cutter_form_teeth", "", "", 1, 1, 5, 10_000,
         "Teeth of the form that a disc cutter must have to cut this gear, its own size weighed in.", _HANDBOOK, "cutter form"),
    Name("table_swing", "", "deg", 2, 2, 0, 60, "How far table or milling head is swung.", "Machinery Repairman",
         "table swing"),
    Name("depth_from_touch", "", "mm", 2, 4, 0.05, 300,
         "How far the knee rises from touch to full depth, for the blank as turned.", _HABIT, "depth from touch"),
    Name("cutter_speed", "", "rpm", 0, 0, 1, 5000, "Turns of the arbor in a minute.", "OD1645", "cutter speed"),
    Name("table_feed", "", "mm/min", 0, 2, 1, 2000, "Travel of the table in a minute.", "OD1645", "table feed"),
    Name("time_per_space", "", "s", 0, 0, 1, 100_000, "Cut, return and index, for one space.", _OWN, "time per space"),
    Name("job_time", "", "s", 0, 0, 1, 1e7, "All passes over all spaces, without setting up.", _OWN, "job time"),
    Name("centre_distance", "a", "mm", 3, 4, 1, 5000, "Between the axes of the pair.", _GEOMETRY, "centre distance"),
    Name("centre_distance_reference", "a_0", "mm", 3, 4, 1, 10000, "Half the sum of the pitch diameters.", _GEOMETRY,
         "centres by the pitch circles"),
    Name("centre_distance_tight", "", "mm", 3, 4, 1, 10000, "Centres at which the thinned pair has no backlash.", _GEOMETRY,
         "centres without backlash"),
    Name("working_pressure_angle", "alpha_wt", "deg", 4, 4, 5, 60,
         "Pressure angle at the centres the pair runs at, in the plane of rotation.", _GEOMETRY, "working pressure angle"),
    Name("contact_ratio", "", "", 3, 3, 0, 5, "Pairs of teeth in contact, on the average.", _GEOMETRY, "contact ratio"),
    Name("overlap_ratio", "", "", 3, 3, 0, 100, "What the helix adds to the contact ratio.", _GEOMETRY, "overlap ratio"),
    Name("backlash_normal", "j_bn", "mm", 3, 4, -1, 20, "Play along the line of action: what a feeler gauge finds.", _GEOMETRY,
         "backlash along the line of action, j_bn"),
    Name("backlash_normal_circular", "", "mm", 3, 4, -1, 20, "Play as normal arc on the pitch circle.", _GEOMETRY,
         "backlash, normal circular"),
    Name("backlash_circular", "j_t", "mm", 3, 4, -1, 20, "Play as arc in the plane of rotation.", _GEOMETRY,
         "backlash, transverse circular"),
    Name("pulses_per_turn", "", "", 0, 0, 1, 1e9, "Pulses of the motor for one turn of the work.", _OWN,
         "pulses for a turn of the work"),
    Name("pulses_per_count", "", "", 6, 6, 0, 1e6, "The link ratio: pulses of the motor for one count of the scale.", _OWN,
         "link ratio"),
    Name("pulses_per_mm", "", "", 3, 3, 0, 1e6, "Pulses of the motor for a millimetre of table travel.", _OWN,
         "pulses for a millimetre"),
    Name("machine_lead", "", "mm", 3, 4, 1, 1e6, "Head ratio times screw lead: the lead with equal gears.", _HANDBOOK,
         "lead of the machine"),
    Name("single_pitch", "f_p", "um", 1, 1, 0, 10_000, "Worst error from one tooth to the next.", _LIMITS,
         "single pitch deviation"),
    Name("cumulative_pitch", "F_p", "um", 1, 1, 0, 10_000, "Greatest span of the pitch errors round the gear.", _LIMITS,
         "total cumulative pitch deviation"),
    Name("profile_total", "F_alpha", "um", 1, 1, 0, 10_000, "Error of the tooth form, root to tip.", _LIMITS,
         "total tooth form deviation"),
    Name("profile_form", "f_f_alpha", "um", 1, 1, 0, 10_000, "What is left of it when its slope is taken off.", _LIMITS,
         "tooth form, shape"),
    Name("profile_slope", "f_H_alpha", "um", 1, 1, -10_000, 10_000, "How far its mean line leans.", _LIMITS,
         "tooth form, slope"),
    Name("helix_total", "F_beta", "um", 1, 1, 0, 10_000, "Error of the flank along the face.", _LIMITS,
         "total helix deviation"),
    Name("helix_form", "f_f_beta", "um", 1, 1, 0, 10_000, "What is left of it when its slope is taken off.", _LIMITS,
         "helix, shape"),
    Name("helix_slope", "f_H_beta", "um", 1, 1, -10_000, 10_000, "How far its mean line leans over the face: the lead error.",
         _LIMITS, "helix, slope"),
    Name("runout", "F_r", "um", 1, 1, 0, 10_000, "How much a pin in the spaces moves in and out, once round.", "ISO/TR 10064-2",
         "runout"),
)
# fmt: on
"""In the order of the contract. Ranges and decimals: common practice."""
