"""One question without a job: every size of one gear."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from evenpitch.gear.check import refuse_impossible
from evenpitch.gear.figures import figures
from evenpitch.gear.gear import Gear
from evenpitch.gear.limits import outside_validity, tolerances
from evenpitch.gear.sizes import outside_diameter
from evenpitch.gear.thickness import tip_thickness
from evenpitch.gear.undercut import is_undercut, least_shift, least_teeth
from evenpitch.job.findings import finding
from evenpitch.job.measuring import pin_findings, span_findings
from evenpitch.quantity.figure import Figure
from evenpitch.quantity.finding import Finding, by_weight
from evenpitch.quantity.units import INCH

THIN_TIP = 0.2
"""Tip thickness, in modules, under which it is pointed out; common practice."""

THIN_FACE = 1.5
"""Face, in modules, under which inches are asked after; common practice."""
USUAL_FACE = (2.0, 40.0)
"""Faces, in modules, that are met; common practice."""


@dataclass(frozen=True, slots=True)
class GearAnswer:
    """All figures of one gear; limits where a class was named."""

    gear: Gear
    figures: tuple[Figure, ...]
    limits: tuple[Figure, ...]
    tolerance_class: int | None
    findings: tuple[Finding, ...]


def ask_gear(gear: Gear) -> GearAnswer:
    """Every size of a gear; a Refusal where it cannot be."""
    refuse_impossible(gear)
    limits = tolerances(gear, gear.tolerance_class) if gear.tolerance_class is not None else ()
    found = (*shape_findings(gear), *span_findings(gear), *pin_findings(gear), *class_findings(gear, gear.tolerance_class))
    return GearAnswer(gear, figures(gear), limits, gear.tolerance_class, by_weight((*found, finding("strength"))))


def shape_findings(gear: Gear) -> tuple[Finding, ...]:
    """Undercut and thin tips; the plane that was taken, and a face that was hardly meant."""
    found = [*_plane(gear), *_face(gear)]
    if is_undercut(gear):
        found.append(finding("undercut", teeth=gear.teeth, limit=least_teeth(gear), shift=least_shift(gear)))
    tip = tip_thickness(gear)
    if tip < THIN_TIP * gear.module:
        found.append(finding("tip-thin", tip=float(tip), modules=tip / gear.module))
    return tuple(found)


def _plane(gear: Gear) -> Iterator[Finding]:
    """A size in inches beside a helix without its plane; a module is the normal one by ISO 21771."""
    pitch = gear.pitch
    if gear.helix and not pitch.plane_named and pitch.kind != "module":
        across = replace(pitch, plane="transverse")
        other = replace(gear, pitch=across, module=across.normal_module(gear.helix))
        outside = (float(outside_diameter(one)) for one in (gear, other))
        yield finding("plane-taken", pitch=pitch.words(), outside=next(outside), other=next(outside))


def _face(gear: Gear) -> Iterator[Finding]:
    """A face thinner than teeth are made, that would be a usual one in inches."""
    if gear.face is None or not gear.face / gear.module < THIN_FACE:
        return
    other = gear.face * float(INCH)
    if USUAL_FACE[0] <= other / gear.module <= USUAL_FACE[1]:
        facts = {"mm": float(gear.face), "inch": gear.face / float(INCH), "modules": gear.face / gear.module, "other": other}
        yield finding("face-thin", **facts, typed=f"{gear.face:.6g}")


def class_findings(gear: Gear, cls: int | None) -> tuple[Finding, ...]:
    """What must be known of the limits of a class."""
    if cls is None:
        return ()
    outside = outside_validity(gear)
    found = [finding("limits-from-memory", cls=cls)]
    return (finding("class-outside", what="; ".join(outside)), *found) if outside else tuple(found)
