"""The rig that is reckoned with where a job names none: a common head, and nothing known of the machine."""

from __future__ import annotations

from functools import cache

from evenpitch.rig.generic import GEAR_SETS, PLATE_SETS
from evenpitch.store.files.rig_file import RigFile, rig_from_fields

USUAL_PLATES = "three plates, 15 to 49 holes"
USUAL_GEARS = "twelve gears, 24 to 100"
USUAL_NAME = "Usual 40:1 head"


def listed(numbers: tuple[int, ...]) -> str:
    """Whole numbers as they are typed."""
    return ", ".join(map(str, numbers))


def starting_fields(plates: str = USUAL_PLATES, gears: str = USUAL_GEARS) -> dict[str, str]:
    """The fields of a rig form with the usual sets filled in; an unknown name of a set leaves its fields empty."""
    fields = {f"plate.{place}.circles": listed(plate.circles) for place, plate in enumerate(PLATE_SETS.get(plates, ()))}
    if gears in GEAR_SETS and GEAR_SETS[gears].teeth:
        fields["change_gears.teeth"] = listed(GEAR_SETS[gears].teeth)
    return fields


@cache
def usual_rig() -> RigFile:
    """40 turns of the crank, three plates, twelve change gears; common practice."""
    return rig_from_fields({"name": USUAL_NAME, "head.ratio": "40", "head.direct": "24", **starting_fields()})
