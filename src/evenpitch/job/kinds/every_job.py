"""What may have to be said of every job."""

from __future__ import annotations

from evenpitch.quantity.finding import PRACTICE, Kind

KINDS: dict[str, Kind] = {
    "strength": Kind(
        "note",
        "Strength is not checked.",
        "This is geometry, dividing and cutting only.",
        "Where a failure can hurt someone, have the load worked out by one who may.",
        (PRACTICE,),
    ),
    "limits-of-form": Kind(
        "note",
        "Old 14½° cutters may be of composite form.",
        "All form figures here assume a pure involute.",
        "Cut a trial space and compare.",
        (PRACTICE,),
        "cutter",
    ),
}
