"""What may have to be said of the blank."""

from __future__ import annotations

from evenpitch.quantity.finding import OWN, PRACTICE, Kind

KINDS: dict[str, Kind] = {
    "blank-under": Kind(
        "look",
        "The blank is {under:.3f} mm under the nominal {nominal:.3f}; addendum left {left:.3f} of {whole:.3f} mm.",
        "It is outside {limits}; short teeth carry less and the vernier setting moves.",
        "Check the reading; else turn another blank, or accept short teeth.",
        (PRACTICE,),
        "outside_diameter",
    ),
    "blank-over": Kind(
        "look",
        "The blank is {over:.3f} mm over the nominal {nominal:.3f}.",
        "Its tips may strike the floor of the mate's spaces.",
        "Turn it down to {nominal:.3f} before cutting.",
        (PRACTICE,),
        "outside_diameter",
    ),
    "blank-other-count": Kind(
        "stop",
        "A blank of {found:.3f} mm is the outside of {count} teeth of this pitch, not of {teeth}.",
        "Its teeth would come out at the wrong depth on the wrong circle.",
        "Measure the blank again, or check the count.",
        (OWN,),
        "outside_diameter",
    ),
    "web-thin": Kind(
        "look",
        "A face of {face:.2f} mm on {outside:.1f} mm of diameter rings and springs.",
        "It chatters and is cut thick at the rim.",
        "Support it by a plate of {plate:.1f} mm, the root diameter less 4 mm.",
        (PRACTICE,),
        "face_width",
    ),
    "stack": Kind(
        "note",
        "{quantity} gears are cut as one stack of {length:.2f} mm: one count, one setting.",
        "Faces must be square and clean, the clamp wider than half the root diameter.",
        "Measure the first and the last gear of the stack.",
        (PRACTICE,),
        "quantity",
    ),
    "dust": Kind(
        "look",
        "{hazard}.",
        "What comes off is the hazard, not the cutting.",
        "{care}",
        (PRACTICE,),
        "material",
    ),
}
