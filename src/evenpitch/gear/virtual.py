"""Virtual teeth: the spur gear whose tooth form stands in for that of a helical gear."""

from __future__ import annotations

import math

from evenpitch.gear.gear import Gear
from evenpitch.gear.rack import rack_dedendum
from evenpitch.gear.sizes import base_helix
from evenpitch.quantity.units import Millimetre
from evenpitch.sources.citations import cites


@cites("Machinery's Handbook", "common practice", formula="z_v = z / cos³ β")
def virtual_teeth(gear: Gear) -> float:
    """Teeth of the virtual spur gear by the rule of the trade; used for the chordal thickness."""
    return float(gear.teeth / math.cos(gear.helix) ** 3)


@cites("DIN 3960:1987", formula="z_nx = z / (cos² β_b cos β)")
def normal_section_teeth(gear: Gear) -> float:
    """Teeth of the gear whose base circle fits the normal section exactly; a little fewer than z / cos³ β."""
    return float(gear.teeth / (math.cos(base_helix(gear)) ** 2 * math.cos(gear.helix)))


@cites("Machinery's Handbook", "derived here", formula="z_e = z / cos³ β + (D − 2 h_f) tan² β / m_n")
def cutter_form_teeth(gear: Gear, cutter_outside: Millimetre) -> float:
    """Teeth for which a disc cutter of that outside diameter (mm) should be made; D − 2 h_f is the cutter's own pitch diameter."""
    at_pitch = cutter_outside - 2.0 * rack_dedendum(gear.depth, gear.module)
    return float(virtual_teeth(gear) + at_pitch / gear.module * math.tan(gear.helix) ** 2)
