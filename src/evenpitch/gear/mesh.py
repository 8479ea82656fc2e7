"""Two gears on parallel shafts at a centre distance: working angle, contact, and the backlash under each of its names."""

from __future__ import annotations

import math
from dataclasses import dataclass

from evenpitch.gear.gear import Gear
from evenpitch.gear.involute import inverse_involute, involute
from evenpitch.gear.sizes import (
    base_diameter,
    base_helix,
    base_pitch,
    outside_diameter,
    pitch_diameter,
    roll_length_at,
    root_diameter,
    transverse_module,
    transverse_pressure_angle,
)
from evenpitch.gear.thickness import thinned_thickness
from evenpitch.quantity.refusal import refuse
from evenpitch.quantity.units import Millimetre, Radian
from evenpitch.sources.citations import cites


@dataclass(frozen=True, slots=True)
class Mesh:
    """A pair at work. Lengths in mm, angles in rad.

    `backlash_normal` is along the line of action (j_bn); `backlash_normal_circular` and `backlash_circular` are arcs, normal
    and transverse, on the cylinders that roll on each other at these centres; `backlash_reference` is the normal arc on the
    reference cylinders, the one that thicknesses add up to.
    """

    centre_distance: Millimetre
    reference_centre_distance: Millimetre
    centre_distance_tight: Millimetre
    working_pressure_angle: Radian
    working_helix: Radian
    contact_ratio: float
    overlap_ratio: float | None
    backlash_normal: Millimetre
    backlash_normal_circular: Millimetre
    backlash_circular: Millimetre
    backlash_reference: Millimetre
    tip_clearance: Millimetre
    mate_tip_clearance: Millimetre

    @property
    def total_contact_ratio(self) -> float | None:
        """Contact ratio and overlap together; None where no face is known."""
        return None if self.overlap_ratio is None else self.contact_ratio + self.overlap_ratio


def hands_suit(gear: Gear, mate: Gear) -> bool:
    """True where the two can mesh on parallel shafts: both spur, or equal helix and opposite hands."""
    if gear.helix == 0.0 and mate.helix == 0.0:
        return True
    return {gear.hand, mate.hand} == {"left", "right"} and math.isclose(gear.helix, mate.helix, abs_tol=1e-9)


def pitches_suit(gear: Gear, mate: Gear) -> bool:
    """True where the two have the same normal base pitch, to a part in a million."""
    return math.isclose(base_pitch(gear), base_pitch(mate), rel_tol=1e-6)


@cites("ISO 21771:2007", formula="a_0 = m_t (z_1 + z_2) / 2")
def reference_centre_distance(gear: Gear, mate: Gear) -> Millimetre:
    """Half the sum of the pitch diameters, mm."""
    return Millimetre((pitch_diameter(gear) + pitch_diameter(mate)) / 2.0)


@cites("ISO 21771:2007", formula="cos α_wt = a_0 cos α_t / a")
def working_pressure_angle(gear: Gear, mate: Gear, centre_distance: Millimetre) -> Radian:
    """Transverse pressure angle at which the pair really works, rad. Refusal where the base circles would overlap past meshing."""
    cosine = (base_diameter(gear) + base_diameter(mate)) / (2.0 * centre_distance)
    if cosine > 1.0:
        least = (base_diameter(gear) + base_diameter(mate)) / 2.0
        raise refuse(
            "centre_distance",
            f"{centre_distance:.4f} mm",
            f"more than {least:.4f} mm for these two gears",
            "The base circles would overlap.",
            "Check the centre distance, and whether the pitch given is normal or transverse.",
        )
    return Radian(math.acos(cosine))


@cites("ISO 21771:2007", formula="inv α_wt = inv α_t + (Σ s_n / m_n − π) / (z_1 + z_2);  a = a_0 cos α_t / cos α_wt")
def tight_centre_distance(gear: Gear, mate: Gear, *, thinned: bool = True) -> Millimetre:
    """Centre distance at which the pair has no backlash, mm; `thinned` False: without the thinning, by the shifts alone."""
    thickness = thinned_thickness(gear) + thinned_thickness(mate)
    if not thinned:
        thickness += gear.thinning + mate.thinning
    wanted = thickness / gear.module - math.pi
    value = involute(transverse_pressure_angle(gear)) + wanted / (gear.teeth + mate.teeth)
    if value < 0.0:
        raise refuse(
            "shift",
            f"{gear.shift:g} and {mate.shift:g}",
            "shifts at which the two gears can mesh",
            "The teeth are so thin that the pair has backlash at every centre distance.",
            "Check the sign of the shifts and the thinning.",
        )
    return Millimetre((base_diameter(gear) + base_diameter(mate)) / (2.0 * math.cos(inverse_involute(value))))


@cites("ISO 21771:2007", formula="j_wt = 2 a (inv α_wt − inv α_wt,tight)")
def working_backlash(gear: Gear, mate: Gear, centre_distance: Millimetre) -> Millimetre:
    """Transverse arc of backlash on the working cylinders, mm; negative: the pair does not go together."""
    at_work = involute(working_pressure_angle(gear, mate, centre_distance))
    tight = involute(working_pressure_angle(gear, mate, tight_centre_distance(gear, mate)))
    return Millimetre(2.0 * centre_distance * (at_work - tight))


@cites("ISO 21771:2007", formula="j_bn = j_wt cos α_wt cos β_b")
def backlash_normal(gear: Gear, mate: Gear, centre_distance: Millimetre) -> Millimetre:
    """Backlash along the line of action, mm: what a feeler between the flanks finds."""
    angle = working_pressure_angle(gear, mate, centre_distance)
    return Millimetre(working_backlash(gear, mate, centre_distance) * math.cos(angle) * math.cos(base_helix(gear)))


@cites("ISO 21771:2007", formula="ε_α = [√(r_a1² − r_b1²) + √(r_a2² − r_b2²) − a sin α_wt] / (π m_t cos α_t)")
def contact_ratio(
    gear: Gear,
    mate: Gear,
    centre_distance: Millimetre,
    outside: Millimetre | None = None,
    mate_outside: Millimetre | None = None,
) -> float:
    """Transverse contact ratio, with the outside diameters as measured (mm) or as calculated. Undercut makes it smaller."""
    path = float(roll_length_at(gear, outside if outside is not None else outside_diameter(gear)))
    path += roll_length_at(mate, mate_outside if mate_outside is not None else outside_diameter(mate))
    path -= centre_distance * math.sin(working_pressure_angle(gear, mate, centre_distance))
    return path / (math.pi * transverse_module(gear) * math.cos(transverse_pressure_angle(gear)))


@cites("ISO 21771:2007", formula="ε_β = b sin β / (π m_n)")
def overlap_ratio(gear: Gear, face: Millimetre) -> float:
    """Overlap ratio over a common face of `face` mm."""
    return face * math.sin(gear.helix) / (math.pi * gear.module)


@cites("ISO 21771:2007", formula="tan β_w = tan β_b / cos α_wt")
def working_helix(gear: Gear, mate: Gear, centre_distance: Millimetre) -> Radian:
    """Helix angle on the cylinders that roll on each other, rad."""
    return Radian(math.atan(math.tan(base_helix(gear)) / math.cos(working_pressure_angle(gear, mate, centre_distance))))


@cites("ISO 21771:2007", formula="j_wn = j_wt cos β_w")
def normal_circular_backlash(gear: Gear, mate: Gear, centre_distance: Millimetre) -> Millimetre:
    """Normal arc of backlash on the cylinders that roll on each other, mm."""
    turned = math.cos(working_helix(gear, mate, centre_distance))
    return Millimetre(working_backlash(gear, mate, centre_distance) * turned)


def mesh(gear: Gear, mate: Gear, centre_distance: Millimetre | None = None) -> Mesh:
    """The pair at that centre distance (mm), or where its shifts alone put it. The gears must suit (hands_suit, pitches_suit)."""
    centres = centre_distance if centre_distance is not None else tight_centre_distance(gear, mate, thinned=False)
    along_action = backlash_normal(gear, mate, centres)
    faces = [face for face in (gear.face, mate.face) if face is not None]
    return Mesh(
        centre_distance=centres,
        reference_centre_distance=reference_centre_distance(gear, mate),
        centre_distance_tight=tight_centre_distance(gear, mate),
        working_pressure_angle=working_pressure_angle(gear, mate, centres),
        working_helix=working_helix(gear, mate, centres),
        contact_ratio=contact_ratio(gear, mate, centres),
        overlap_ratio=overlap_ratio(gear, min(faces)) if faces else None,
        backlash_normal=along_action,
        backlash_normal_circular=normal_circular_backlash(gear, mate, centres),
        backlash_circular=working_backlash(gear, mate, centres),
        backlash_reference=Millimetre(along_action / math.cos(gear.pressure_angle)),
        tip_clearance=Millimetre(centres - (outside_diameter(gear) + root_diameter(mate)) / 2.0),
        mate_tip_clearance=Millimetre(centres - (outside_diameter(mate) + root_diameter(gear)) / 2.0),
    )
