"""What may have to be said of what was proven of the rig, and how long ago."""

from __future__ import annotations

from evenpitch.quantity.finding import PRACTICE, Kind

KINDS: dict[str, Kind] = {
    "link-not-proven": Kind(
        "note",
        "The link was never proven on the gear of {teeth} teeth.",
        "A wrong ratio, sign or hand would show only in metal; a block and a bar show it in half an hour.",
        "Prove it on the rig's page, cutter off the arbor.",
        (PRACTICE,),
        "link_good",
    ),
    "link-proof-overtaken": Kind(
        "look",
        "The link was proven on the gear of {teeth} teeth, but {what} was changed since.",
        "A proof holds until a belt, a plate, the scale or the lead is changed.",
        "Prove it again, cutter off the arbor.",
        (PRACTICE,),
        "link_good",
    ),
    "link-proof-old": Kind(
        "look",
        "The link was last proven on the gear of {teeth} teeth {days} days ago, on {date}.",
        "A belt, plate or scale moved since would not show.",
        "Prove it again before a job that counts.",
        (PRACTICE,),
        "link_good",
    ),
    "scale-not-proven": Kind(
        "note",
        "The scale was never proven on this rig.",
        "A display that repeats is not yet right.",
        "Mount and prove the scale on the rig's page: dial, indicator, block.",
        (PRACTICE,),
        "link_good",
    ),
    "scale-proof-old": Kind(
        "look",
        "The scale was last proven {days} days ago, on {date}.",
        "A bracket that was knocked or a reader that was shifted would not show.",
        "Read the block again at three places.",
        (PRACTICE,),
        "link_good",
    ),
    "head-map-old": Kind(
        "look",
        "The head was last measured {days} days ago, on {date}.",
        "Wear, and a worm that was adjusted, change its waves.",
        "Measure it again before a job that counts.",
        (PRACTICE,),
        "dividing",
    ),
}
