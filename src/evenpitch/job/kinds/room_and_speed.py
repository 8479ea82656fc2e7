"""What may have to be said of room, travel, speed and feed."""

from __future__ import annotations

from evenpitch.quantity.finding import OWN, PRACTICE, Kind

KINDS: dict[str, Kind] = {
    "travel-short": Kind(
        "stop",
        "One space needs {need:.1f} mm of travel; {what} gives {most:.1f}.",
        "The table stops, or the reader leaves the scale, inside the cut.",
        "{instead}",
        (OWN,),
        "time_per_space",
    ),
    "scale-short": Kind(
        "look",
        "The scale is {scale:.0f} mm long, the table travels {travel:.0f}.",
        "The reader leaves the scale {over:.0f} mm before the table stops.",
        "Set table stops inside the scale's length.",
        (PRACTICE,),
        "scale",
    ),
    "head-room": Kind(
        "stop",
        "The blank is {radius:.1f} mm in radius, the head stands {centre:.1f} mm high.",
        "It would not clear the table.",
        "Raise the head and tailstock on blocks, or use another machine.",
        (OWN,),
        "outside_diameter",
    ),
    "cutter-too-small": Kind(
        "stop",
        "The {outside:.2f} mm cutter stands {reach:.2f} mm out of {what} of {across:.2f} mm; the space is {depth:.2f} mm deep.",
        "Arbor or collars run into the blank before the space is cut.",
        "Use a cutter of more than {least:.1f} mm, or a thinner arbor and collars; measure the cutter if that is not its size.",
        (OWN,),
        "depth_from_touch",
    ),
    "tailstock-fouls": Kind(
        "look",
        "At full depth the collars pass {collar:.1f} mm above the work axis; the tailstock's top is {top:.1f} mm above it.",
        "They touch before the space is cut.",
        "Use a larger cutter, smaller collars, or a longer mandrel that keeps the tailstock clear.",
        (OWN,),
        "depth_from_touch",
    ),
    "knee-short": Kind(
        "look",
        "Work axis to arbor axis is {need:.1f} mm at full depth: the knee travels {most:.1f} mm in all.",
        "Blank, head and arbor may not come together.",
        "Check it on the machine before the blank is bored.",
        (OWN,),
        "depth_from_touch",
    ),
    "table-end": Kind(
        "note",
        "Swung {angle:.1f}°, the end of the table comes back {back:.0f} mm towards the column.",
        "The scale and its cable swing with it.",
        "Run the table over its travel by hand before the cutter is fitted.",
        (OWN,),
        "table_swing",
    ),
    "no-outer-support": Kind(
        "look",
        "With the milling head swung the arbor has no outer support.",
        "It springs and chatters.",
        "Stub arbor, lighter cuts; check the reach of the head first.",
        (PRACTICE,),
        "table_swing",
    ),
    "speed-too-fast": Kind(
        "look",
        "The slowest speed is {slowest:.0f} rpm; this cutter in this material wants {wanted:.0f}.",
        "The cutter burns its edges.",
        "A smaller cutter, or a slower drive.",
        (PRACTICE,),
        "cutter_speed",
    ),
    "speeds-unknown": Kind(
        "note",
        "The machine's speeds and feeds are not known: the wanted {rpm:.0f} rpm and {feed:.0f} mm/min are shown.",
        "No machine has every speed; these were not matched to yours.",
        "Take the nearest lower ones the machine has.",
        (PRACTICE,),
        "cutter_speed",
    ),
    "material-unknown": Kind(
        "note",
        "The material {given} is not in the table: {used} is assumed.",
        "Speed and feed follow from it.",
        "Take one of: {known}.",
        (PRACTICE,),
        "material",
    ),
}
