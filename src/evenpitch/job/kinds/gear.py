"""What may have to be said of the gear itself and the limits of its class."""

from __future__ import annotations

from evenpitch.quantity.finding import OWN, PRACTICE, Kind

KINDS: dict[str, Kind] = {
    "undercut": Kind(
        "look",
        "{teeth} teeth are fewer than the {limit:.1f} a rack of this depth cuts without undercut.",
        "A form cutter hides it; the tip of the mate then strikes the flank near the root.",
        "Shift the profile by at least {shift:.3f}, or shorten the mate's tips.",
        ("ISO 21771:2007",),
        "teeth",
    ),
    "tip-thin": Kind(
        "look",
        "The tooth is {tip:.3f} mm thick at the tip, {modules:.2f} of the module.",
        "Under 0.2 of the module a tip chips and cannot be measured on.",
        "Less profile shift, or a smaller outside diameter.",
        (PRACTICE,),
        "outside_diameter",
    ),
    "plane-taken": Kind(
        "look",
        "{pitch} beside a helix is taken in the normal plane: outside {outside:.3f} mm; transverse it would be {other:.3f}.",
        "Old catalogues and drawings name helical gears by the transverse pitch.",
        "Write {pitch} normal or {pitch} transverse; the outside of the sample tells which.",
        (PRACTICE,),
        "outside_diameter",
    ),
    "face-thin": Kind(
        "look",
        "A face of {mm:.3f} mm ({inch:.4f} in) is {modules:.2f} of the module; {typed} in would be {other:.2f} mm.",
        "Thin as a sheet: inches were perhaps meant, and a number alone is in millimetres.",
        "Write {typed} in if that was meant.",
        (OWN,),
        "face_width",
    ),
    "class-assumed": Kind(
        "note",
        "No tolerance class was named: class {cls} is used.",
        "8 is usual for a change gear, 9 for a slow loom.",
        "Name the class of the drawing if there is one.",
        (PRACTICE,),
        "single_pitch",
    ),
    "class-outside": Kind(
        "note",
        "The limits are extrapolated: {what}.",
        "ISO 1328-1 gives no limits there.",
        "Use them as a guide only.",
        ("ISO 1328-1:2013",),
        "single_pitch",
    ),
    "limits-from-memory": Kind(
        "note",
        "The limits of class {cls} come from formulas partly recalled from memory.",
        "No text of the standard was at hand to compare with.",
        "Compare them with the standard before a class is promised to anyone.",
        ("ISO 1328-1:2013",),
        "single_pitch",
    ),
    "face-missing": Kind(
        "look",
        "The face is not known: travel, time and the helix over the face are left out.",
        "They follow from the width that is cut.",
        "Type the face, e.g. 3/4 in.",
        (PRACTICE,),
        "face_width",
    ),
}
