"""What may have to be said of the cutter."""

from __future__ import annotations

from evenpitch.quantity.finding import OWN, PRACTICE, Kind

KINDS: dict[str, Kind] = {
    "cutter-wrong-number": Kind(
        "stop",
        "In a {set} set No. {number} is for {range} teeth; {teeth} needs No. {wanted}.",
        "The two ways of numbering run in opposite directions.",
        "Read the range engraved on the cutter and use the one for {teeth} teeth.",
        ("Practical Treatise on Milling and Milling Machines, ch. VIII", PRACTICE),
        "cutter",
    ),
    "cutter-other-angle": Kind(
        "stop",
        "{cutter} is made for {angle} pressure angle; the gear has {wanted}.",
        "Its teeth would not run with the mate.",
        "Use a cutter of {wanted}.",
        ("ISO 53:1998",),
        "cutter",
    ),
    "cutter-other-pitch": Kind(
        "stop",
        "{cutter} is not of this pitch: module {module:.4f} against {wanted:.4f}.",
        "The space would have the wrong width at every depth.",
        "Use a cutter of {pitch}.",
        ("ISO 54:1996",),
        "cutter",
    ),
    "cutter-none": Kind(
        "look",
        "No cutter of yours suits: {pitch}, {angle}, form for {teeth} teeth.",
        "The drawer on the rig page holds none of that pitch, angle and range.",
        "Borrow {borrow}, or make a fly cutter for this gear.",
        (OWN,),
        "cutter",
    ),
    "cutter-unknown": Kind(
        "look",
        "The cutter chosen, {cutter}, is not in the drawer of this rig.",
        "Its form and size are not known.",
        "Choose one of {drawer}, or add it to the rig.",
        (OWN,),
        "cutter",
    ),
    "cutter-form-unknown": Kind(
        "note",
        "{cutter} is taken as made for {lowest} teeth, the lowest of its range; a period book prints {period}.",
        "Makers differ: {first:+.0f} µm at the tip in one case, {second:+.0f} in the other.",
        "Cut a trial space and compare, or ask its maker; then write it in the rig.",
        (PRACTICE, "Modern Machine-Shop Practice"),
        "cutter",
    ),
    "cutter-tip": Kind(
        "look",
        "{cutter}, takes {um:.0f} µm at the tip; class {cls} allows {limit:.0f} µm of the whole tooth form.",
        "The gear runs, but not quietly.",
        "{instead}",
        (OWN,),
        "cutter",
    ),
    "cutter-heavy": Kind(
        "look",
        "{cutter}, leaves {um:.0f} µm too much at the tip.",
        "Heavy tips may strike the mate.",
        "Check the tips with the mate, or use a cutter made for fewer teeth.",
        (OWN,),
        "cutter",
    ),
    "helical-count": Kind(
        "note",
        "A disc cutter sees {seen:.1f} teeth here, not {teeth}: by z/cos³β alone it would be {alone:.1f}.",
        "The cutter's own diameter widens the ends of the space it leaves.",
        "Choose the cutter for {seen:.1f} teeth.",
        ("Machinery's Handbook", OWN),
        "cutter_form_teeth",
    ),
    "cutter-size-assumed": Kind(
        "note",
        "The size of the cutter is not known: {outside:.1f} mm outside and {teeth} teeth are assumed.",
        "Speed, feed, approach and time follow from it.",
        "Measure it and write it in the rig.",
        (PRACTICE,),
        "cutter_speed",
    ),
}
