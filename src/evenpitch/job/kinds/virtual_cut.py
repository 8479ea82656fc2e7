"""What may have to be said of what the cutter will really leave."""

from __future__ import annotations

from evenpitch.quantity.finding import OWN, PRACTICE, Kind

KINDS: dict[str, Kind] = {
    "cut-other-cutter": Kind(
        "look",
        "The plan reckons with {quick}, which leaves {quick_um}; {best} leaves {best_um}.",
        "{why}",
        "{do}",
        (OWN,),
        "cutter",
    ),
    "cut-over": Kind(
        "look",
        "{cutter} leaves {um} over the whole flank; class {cls} allows {limit:.0f} µm.",
        "No cutter weighed here does better, of those you own or of the standard sets that are asked.",
        "Grind a fly cutter for this gear: outline and coordinates stand on its own sheet.",
        (OWN, "ISO 1328-1:2013"),
        "cutter",
    ),
    "cut-beyond-range": Kind(
        "note",
        "{cutter} is best although {teeth:.4g} teeth lie outside its printed range, {range}.",
        "The range names the lowest count that keeps clear of the mate, not the least error.",
        "Take it, and check the tips against the mate before the run.",
        (OWN,),
        "cutter",
    ),
    "cut-reversed-number": Kind(
        "look",
        "{cutter}: {words}",
        "Module sets are numbered the other way round.",
        "Read the range on its side before it goes on the arbor.",
        (PRACTICE,),
        "cutter",
    ),
    "cut-wrong-cutter": Kind(
        "stop",
        "{cutter} cannot cut this gear: {reason}.",
        "What it leaves has no meaning for this gear.",
        "{instead}",
        (OWN,),
        "cutter",
    ),
    "cut-tip-excess": Kind(
        "look",
        "{cutter} leaves {um} at the tip, more than a third of the {limit:.0f} µm allowed.",
        "A tip left heavy strikes the flank of the mate.",
        "Ease the tips with a file or stone, or take a form for fewer teeth.",
        (OWN,),
        "cutter",
    ),
    "cut-interference": Kind(
        "look",
        "The corner of the trailing side cuts {um} below the form of {cutter}, up to {diameter:.3f} mm diameter.",
        "The disc leaves the space at an angle and its corner sweeps the start of the flank.",
        "A smaller cutter, a larger tip corner or a swing nearer the helix angle.",
        (OWN,),
        "cutter",
    ),
    "cut-undercut": Kind(
        "look",
        "The tip corner cuts {um} below the form of {cutter}, up to {diameter:.3f} mm diameter.",
        "The active flank starts at {start:.3f} mm: the corner reaches above it.",
        "A form with a smaller tip corner, or ask how much of the flank the mate really uses.",
        (OWN,),
        "cutter",
    ),
    "cut-form-start": Kind(
        "note",
        "The form of {cutter} makes the flank only from {diameter:.3f} mm diameter; the active flank starts at {start:.3f} mm.",
        "{why}",
        "Take the figures of that part as unknown, and cut a trial space.",
        (PRACTICE,),
        "cutter",
    ),
    "cut-swing": Kind(
        "note",
        "{cutter} is best {degrees}, {off} the helix angle: {um} instead of {helix_um}.",
        "The form is made for another count; a swing off the helix changes the space it leaves.",
        "Set that swing, or keep the helix angle and take the figure beside it.",
        (OWN,),
        "table_swing",
    ),
    "cut-shallow": Kind(
        "look",
        "{cutter} has the thickness {up:.2f} mm short of whole depth; of {clearance:.2f} mm of clearance {left:.2f} is left.",
        "What is left has to take up a heavy tip on the mate, a close centre distance and the runout of both.",
        "Look at the mate's outside diameter and the centre distance; or take the figure at the helix angle, or a form for more teeth.",
        (OWN,),
        "depth_from_touch",
    ),
    "cut-thinning": Kind(
        "note",
        "Thinned by depth alone, any form cutter takes {um} more at the tip: thinning {thinning:.3f} mm.",
        "Sunk further, a form takes more where the flank leans more; the quick figure of the plan leaves that out.",
        "Nothing, if the class allows it; a fly cutter ground for the thinned space has none of it.",
        (OWN,),
        "thinning",
    ),
}
