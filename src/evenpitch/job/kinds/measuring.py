"""What may have to be said of measuring it with the instruments of the shop."""

from __future__ import annotations

from evenpitch.quantity.finding import OWN, PRACTICE, Kind

KINDS: dict[str, Kind] = {
    "span-face": Kind(
        "look",
        "The span over {k} teeth needs {need:.2f} mm of face; this gear has {face:.2f}.",
        "The anvils leave the flank before they touch.",
        "Measure over pins or balls, or span fewer teeth.",
        ("ISO 21771:2007",),
        "span",
    ),
    "spanned-outside": Kind(
        "stop",
        "Over {k} teeth the anvils touch {where}; {least} to {most} can be spanned.",
        "The reading would not be the span.",
        "Span {usual}.",
        ("ISO 21771:2007",),
        "span",
    ),
    "no-span": Kind(
        "look",
        "No number of teeth can be spanned on this gear.",
        "Anvils touch neither flank between form circle and tip.",
        "Measure over pins or by the gear-tooth vernier.",
        ("ISO 21771:2007",),
        "span",
    ),
    "pins-below-tips": Kind(
        "stop",
        "Over {pin:.3f} mm pins this gear would be {over:.3f} mm, but its tips read {tips:.3f}.",
        "The pins sink {sunk:.2f} mm below the tips and the anvils rest on teeth.",
        "Use pins above {least:.2f} mm, or the span.",
        ("ISO 21771:2007",),
        "over_pins",
    ),
    "pins-on-root": Kind(
        "stop",
        "A {pin:.3f} mm pin rests on the floor of the space, not on the flanks.",
        "The reading would say nothing about thickness.",
        "Use a larger pin, above {least:.2f} mm, or the span.",
        ("ISO 21771:2007",),
        "over_pins",
    ),
    "pins-above-flank": Kind(
        "look",
        "A {pin:.3f} mm pin touches outside the flank, at {at:.3f} mm diameter; the tip is at {tip:.3f}.",
        "It rides on the tip edge.",
        "Use a smaller pin, near {best:.2f} mm, or the span.",
        ("ISO 21771:2007",),
        "over_pins",
    ),
    "no-instrument": Kind(
        "look",
        "{what} {value:.3f} mm: none of your instruments reads it.",
        "They end at {most}.",
        "{instead}",
        (OWN,),
        "{about}",
    ),
    "nothing-to-measure-with": Kind(
        "look",
        "None of your instruments reads the span, the pins or the tooth of this gear.",
        "Without a reading the last cut is a guess.",
        "Add your instruments to the rig, or borrow one that reads {value:.2f} mm.",
        (PRACTICE,),
        "span",
    ),
    "thinning-large": Kind(
        "look",
        "A thinning of {thinning:.3f} mm is {share} of the tooth.",
        "0.03 to 0.05 of the module is usual.",
        "Check the digits and the unit.",
        (PRACTICE,),
        "span",
    ),
    "dp-or-module": Kind(
        "look",
        "{pitch} makes a wheel of {outside:.0f} mm; {other} would make {smaller:.2f} mm.",
        "Module and diametral pitch were perhaps mixed up.",
        "Write {other} if that was meant.",
        (OWN,),
        "outside_diameter",
    ),
    "thinning-none": Kind(
        "note",
        "No thinning: the tooth is cut to its full thickness.",
        "At nominal centres such a pair runs without backlash.",
        "Type the thinning wanted, e.g. 0.05 mm, unless the mate or the centres give it.",
        (PRACTICE,),
        "span",
    ),
}
