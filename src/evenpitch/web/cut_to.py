"""An issued plan, as it is kept, read as what one gear of it is cut to."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from evenpitch.checking.slip_sizes import SlipSize
from evenpitch.job.record import Cutting, PlannedPass
from evenpitch.job.standing import Moves
from evenpitch.quantity.refusal import refuse
from evenpitch.quantity.units import RADIAN_PER_ARCSEC
from evenpitch.sheet.kept_document import kept_pages
from evenpitch.store.kept import KeptRelease

SCRATCH = 0.05
"""Depth of a scratch, mm; common practice."""


@dataclass(frozen=True, slots=True)
class ToMeasure:
    """The span over `k` teeth and its limits, mm."""

    k: int
    least: float
    most: float


@dataclass(frozen=True, slots=True, kw_only=True)
class CutTo:
    """What the page at the machine needs of a plan. `line`: the gear; `outside`: of the blank, mm; `depth_share`: depth by radius.

    `slips`: what one slip of the rig is worth; plans issued by an older edition do not name them.
    """

    title: str
    line: str
    cutting: Cutting
    gears: int
    outside: float
    depth_share: float
    span: ToMeasure | None
    helical: bool
    take_up: float | None
    cautions: tuple[str, ...]
    slips: tuple[SlipSize, ...] = ()


def cut_to(release: KeptRelease, gear: int) -> CutTo:
    """One gear, 1 or 2, of an issued plan. A Refusal where the plan has no such gear or no way to divide."""
    gears = release.plan["gears"]
    if not 1 <= gear <= len(gears):
        raise refuse(
            "gear", gear, f"1 to {len(gears)}", f"Plan {release.number} has {len(gears)}.", "Leave it out for the first."
        )
    plan = gears[gear - 1]
    if plan["chosen"] is None:
        raise refuse("plan", release.number, "a plan with a way to divide", "It has none.", "Choose a way and issue it again.")
    spaces = int(_value(plan, "teeth"))
    outside = _value(plan, "outside_diameter")
    depths = {one["name"]: float(one["mm"]) for one in plan["depths"]}
    by_hand, ratio = plan["by_hand"], plan.get("worm_ratio")
    cutting = Cutting(
        plan=release.number,
        gear=gear,
        spaces=spaces,
        moves=moves_of(plan["chosen"], spaces, ratio),
        passes=_passes(plan, spaces, depths),
        by_hand=None if by_hand is None else moves_of(by_hand, spaces, ratio),
    )
    title, _, line = kept_pages(release.document)[gear - 1].title.rpartition(": ")
    lead = plan["lead"] or {}
    return CutTo(
        title=title,
        line=line,
        cutting=cutting,
        gears=len(gears),
        outside=outside,
        depth_share=depths["full"] / (outside / 2),
        span=_span(plan),
        helical=bool(_value(plan, "helix_angle")),
        take_up=lead.get("start_before_mm"),
        cautions=tuple(plan["cautions"]),
        slips=tuple(
            SlipSize(one["code"], one["words"], one["arcsec"] * RADIAN_PER_ARCSEC, one["used"]) for one in plan.get("slips", ())
        ),
    )


def _value(plan: Mapping[str, Any], name: str) -> float:
    return float(plan["figures"][name]["value"])


def _span(plan: Mapping[str, Any]) -> ToMeasure | None:
    found = next((check for check in plan["checks"] if check["name"] == "span"), None)
    if found is None:
        return None
    return ToMeasure(int(_value(plan, "spanned_teeth")), float(found["least"]), float(found["most"]))


def _passes(plan: Mapping[str, Any], spaces: int, depths: Mapping[str, float]) -> tuple[PlannedPass, ...]:
    """The scratch is always open; a plan without a face has no passes of its own, and is cut in one round."""
    planned = tuple(
        PlannedPass(one["name"], int(one["spaces"]), float(one["depth_mm"]), one["minutes"] / one["spaces"])
        for one in plan["passes"]
    )
    return (
        PlannedPass("scratch", spaces, SCRATCH, None),
        *(planned or (PlannedPass("full", spaces, depths["full"], None),)),
    )


def moves_of(way: Mapping[str, Any], spaces: int, ratio: str | None = None) -> Moves:
    """A way of dividing as a plan's JSON holds it. `ratio`: of the worm; plans issued by an older edition do not name it."""
    name = str(way["method"])
    pulses = tuple(int(one) for one in way.get("targets", ()))
    if name == "direct":
        return Moves(name, spaces, holes=int(way["spaces"]), nose_holes=int(way["plate_holes"]))
    if name == "pulses":
        return Moves(name, spaces, pulses=pulses)
    skip = int(way.get("spaces_per_index", 1))
    crank = way["crank"] if name == "compound" else way
    plate = way["plate"] if name == "compound" else {}
    sign = -1 if plate.get("sense") == "against" else 1
    gears = " × ".join(map(str, way.get("drivers", ()))), " × ".join(map(str, way.get("driven", ())))
    whole_turns, circle, holes = int(way["whole_turns"]), int(crank["circle"]), int(crank["spaces"])
    # a plate that gears turn goes with the crank, so that one turn of the work takes as many turns of the crank as its moves add up to
    moved = (
        Fraction((whole_turns * circle + holes) * spaces, circle * skip) if all(gears) or name in ("simple", "block") else None
    )
    return Moves(
        name,
        spaces,
        skip=skip,
        pulses=pulses,
        whole_turns=whole_turns,
        circle=circle,
        holes=holes,
        plate_circle=int(plate.get("circle", 0)),
        plate_holes=sign * int(plate.get("spaces", 0)),
        gears=" : ".join(gears) if all(gears) else "",
        per_turn=moved if moved is not None else None if ratio is None else Fraction(ratio),
    )
