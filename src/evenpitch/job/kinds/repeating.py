"""What may have to be said of cutting the same gear again on another rig."""

from __future__ import annotations

from evenpitch.quantity.finding import OWN, PRACTICE, Kind

KINDS: dict[str, Kind] = {
    "repeat-cutter": Kind(
        "look",
        "{cutter}, the cutter of the first rig, is not among those of {rig}: it is reckoned with all the same.",
        "Tooth form and targets stay those of the first gear only with the same cutter.",
        "Take it along, or plan the job anew.",
        (PRACTICE,),
        "cutter",
    ),
    "repeat-same": Kind(
        "note",
        "Nothing differs between the two rigs for this job.",
        "The old sheet was made from the same head, plates, cutters and speeds.",
        "Cut by the old sheet.",
        (OWN,),
        "dividing",
    ),
}
