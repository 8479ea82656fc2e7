"""Two gears that run together: how they mesh at the centres given, and what is wrong with them."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from evenpitch.gear.gear import Gear
from evenpitch.gear.mesh import (
    Mesh,
    backlash_normal,
    contact_ratio,
    hands_suit,
    mesh,
    normal_circular_backlash,
    overlap_ratio,
    pitches_suit,
    reference_centre_distance,
    tight_centre_distance,
    working_backlash,
    working_pressure_angle,
)
from evenpitch.job.findings import finding
from evenpitch.job.order import Order
from evenpitch.quantity.figure import Figure, figure
from evenpitch.quantity.finding import Finding
from evenpitch.quantity.showing import degrees_text
from evenpitch.quantity.units import Millimetre

LEAST_CONTACT = 1.2
"""Contact ratio below which a pair runs unevenly; common practice."""

BACKLASH_WITHIN = 0.01
"""Backlash found and wanted may differ by this, mm, before it is said."""


@dataclass(frozen=True, slots=True)
class PairPlan:
    """The pair at work, as figures."""

    mesh: Mesh
    figures: tuple[Figure, ...]


def pairing(order: Order) -> tuple[PairPlan | None, tuple[Finding, ...]]:
    """None where the two cannot mesh at all; the findings say why."""
    first, second = (work.gear for work in order.works)
    wrong = tuple(_wrong(first, second))
    if any(found.weight == "stop" for found in wrong):
        return None, wrong
    centres = order.pair.centre_distance if order.pair else None
    wanted = order.pair.backlash if order.pair else None
    at = mesh(first, second, centres)
    return PairPlan(at, _figures(first, second, at)), (
        *wrong,
        *_centres(first, second, at, given=centres is not None),
        *_backlash(at, wanted),
    )


def _wrong(first: Gear, second: Gear) -> Iterator[Finding]:
    if first.helix and not hands_suit(first, second) and first.hand == second.hand:
        other = "left" if first.hand == "right" else "right"
        yield finding("same-hands", hand=first.hand, other=other)
    elif not math.isclose(first.helix, second.helix, abs_tol=1e-9):
        angles = (degrees_text(math.degrees(gear.helix)) for gear in (first, second))
        yield finding("pair-differs", what="helix angle", first=next(angles), second=next(angles))
    if not pitches_suit(first, second):
        same_angle = math.isclose(first.pressure_angle, second.pressure_angle, abs_tol=1e-9)
        if same_angle:
            yield finding("pair-differs", what="pitch", first=first.pitch.words(), second=second.pitch.words())
        else:
            angles = (f"{math.degrees(gear.pressure_angle):.6g}°" for gear in (first, second))
            yield finding("pair-differs", what="pressure angle", first=next(angles), second=next(angles))


def _centres(first: Gear, second: Gear, at: Mesh, *, given: bool) -> Iterator[Finding]:
    if not given:
        return
    other = _other_plane(first, second, at.centre_distance)
    if other is not None:
        yield other
        return
    if at.backlash_normal_circular < 0:
        yield finding(
            "centres-too-close",
            centres=float(at.centre_distance),
            backlash=float(at.backlash_normal_circular),
            tight=float(at.centre_distance_tight),
            more=float(-at.backlash_normal_circular),
        )
    if at.contact_ratio < LEAST_CONTACT:
        yield finding("centres-far", centres=float(at.centre_distance), ratio=at.contact_ratio)


def _other_plane(first: Gear, second: Gear, centres: Millimetre) -> Finding | None:
    """A helical pair whose centres fit the size read in the other plane."""
    if not first.helix:
        return None
    reference, cosine = reference_centre_distance(first, second), math.cos(first.helix)
    swapped, plane = (reference * cosine, "transverse") if first.pitch.plane == "normal" else (reference / cosine, "normal")
    near, far = abs(swapped - centres), abs(reference - centres)
    if near < 0.1 * first.module and far > 0.5 * first.module:
        module = float(first.pitch.module())
        return finding("transverse-for-normal", given=float(reference), centres=float(centres), plane=plane, module=module)
    return None


def _backlash(at: Mesh, wanted: Millimetre | None) -> Iterator[Finding]:
    if wanted is not None and abs(at.backlash_normal_circular - wanted) > BACKLASH_WITHIN:
        more = wanted - at.backlash_normal_circular
        yield finding("backlash-differs", found=float(at.backlash_normal_circular), wanted=float(wanted), thinning=float(more))


def _figures(first: Gear, second: Gear, at: Mesh) -> tuple[Figure, ...]:
    inputs = (("z", f"{first.teeth} and {second.teeth}"), ("a", f"{at.centre_distance:.4f} mm"))

    def length(name: str, value: float, by: object, symbol: str = "", note: str = "") -> Figure:
        return figure(name, float(value), "mm", by=by, symbol=symbol, inputs=inputs, note=note)  # type: ignore[arg-type]

    found = [
        length("centre_distance", at.centre_distance, reference_centre_distance, "a"),
        length("centre_distance_reference", at.reference_centre_distance, reference_centre_distance, "a_0"),
        length("centre_distance_tight", at.centre_distance_tight, tight_centre_distance, "", "no backlash"),
        figure(
            "working_pressure_angle", math.degrees(at.working_pressure_angle), "deg", by=working_pressure_angle, inputs=inputs
        ),
        figure("contact_ratio", at.contact_ratio, "", by=contact_ratio, symbol="epsilon_alpha", inputs=inputs),
        length("backlash_normal", at.backlash_normal, backlash_normal, "j_bn", "along the line of action"),
        length(
            "backlash_normal_circular",
            at.backlash_normal_circular,
            normal_circular_backlash,
            "",
            "normal arc, working pitch cylinder",
        ),
        length("backlash_circular", at.backlash_circular, working_backlash, "j_t", "transverse arc, working pitch cylinder"),
    ]
    if at.overlap_ratio is not None:
        found.insert(5, figure("overlap_ratio", at.overlap_ratio, "", by=overlap_ratio, symbol="epsilon_beta", inputs=inputs))
    return tuple(found)
