"""On the gear to be cut: the lengths by which an angle or a table error becomes micrometres on the flank."""

from __future__ import annotations

import math
from dataclasses import dataclass

from evenpitch.gear.gear import Gear
from evenpitch.gear.sizes import base_diameter, base_helix, lead, pitch_diameter, transverse_pressure_angle
from evenpitch.quantity.refusal import refuse
from evenpitch.quantity.units import Millimetre, Radian


@dataclass(frozen=True, slots=True)
class OnGear:
    """Sizes of one gear: mm and radian; `lead` is infinite for a spur gear. Helix angles without their hand."""

    teeth: int
    module: Millimetre
    face: Millimetre
    diameter: Millimetre
    base_diameter: Millimetre
    helix: Radian
    base_helix: Radian
    transverse_angle: Radian
    lead: Millimetre

    @property
    def radius(self) -> float:
        """Of the pitch circle, mm."""
        return self.diameter / 2

    @property
    def base_radius(self) -> float:
        """Of the base circle, mm: helix deviations are taken along the base tangent."""
        return self.base_diameter / 2

    @property
    def helical(self) -> bool:
        """Whether anything is linked while a space is cut."""
        return self.helix > 0

    @property
    def tan_base(self) -> float:
        """What a table error counts for on the flank."""
        return math.tan(self.base_helix)


def on_gear(gear: Gear) -> OnGear:
    """The sizes; a Refusal where the face is not known."""
    if gear.face is None:
        raise refuse("gear, face", "", "the width of the face", "Helix deviations need a length.", "Type it, e.g. 20 mm.")
    return OnGear(
        teeth=gear.teeth,
        module=gear.module,
        face=gear.face,
        diameter=pitch_diameter(gear),
        base_diameter=base_diameter(gear),
        helix=Radian(abs(gear.helix)),
        base_helix=Radian(abs(base_helix(gear))),
        transverse_angle=transverse_pressure_angle(gear),
        lead=Millimetre(abs(lead(gear))),
    )
