"""What cannot be cut at all: a swing no machine has, a cutter that misses the work or takes its neighbours away."""

from __future__ import annotations

import math

from evenpitch.flank.curve import Form
from evenpitch.flank.setting import SWING_LIMIT, Setting
from evenpitch.flank.wanted import WantedFlank
from evenpitch.quantity.refusal import Fault


def setting_faults(setting: Setting, wanted: WantedFlank, cutter_radius: float) -> tuple[Fault, ...]:
    """Faults of swing, offset and depth for this gear."""
    faults = []
    swing = math.degrees(setting.swing)
    if abs(setting.swing) > SWING_LIMIT + 1e-12:
        faults.append(Fault("setup, swivel_deg", f"{swing:g}", "from -50 to 50 degrees", "No table or head swings further.",
                            "Cut it with an end cutter or on another machine."))  # fmt: skip
    if abs(setting.offset) > 2 * wanted.module:
        faults.append(Fault("setup, offset_mm", f"{setting.offset:g}", f"at most {2 * wanted.module:g} either way",
                            "The cutter would stand a tooth away.", "Centre the cutter, or index to the next space."))  # fmt: skip
    depth = wanted.tip_radius - (setting.centre - cutter_radius)
    deepest = min(wanted.tip_radius - wanted.root_radius + wanted.module, 0.95 * wanted.tip_radius)
    if not 0 < depth <= deepest:
        faults.append(Fault("setup, sink_mm", f"depth {depth:.4g}", f"a depth of more than 0 and at most {deepest:.4g}",
                            "It misses the work, or sinks far below the root.", "Check the centre distance and the diameter."))  # fmt: skip
    return tuple(faults)


def room_faults(form: Form, setting: Setting, wanted: WantedFlank) -> tuple[Fault, ...]:
    """A cutter so wide at the tips of the teeth that it would cut the neighbours away."""
    level = setting.centre - wanted.tip_radius
    at_tip = max((float(piece.w[level <= piece.R].max(initial=0.0)) for piece in form.plus), default=0.0)
    slope = math.tan(wanted.helix) * wanted.tip_radius / wanted.pitch_radius
    room = math.pi * wanted.tip_radius / wanted.teeth / math.sqrt(1 + slope * slope)
    if at_tip > room + abs(setting.offset):
        return (Fault("cutter", f"half width {at_tip:.4g} mm at the tips of the teeth", f"less than {room:.4g} mm, half the pitch there",
                      "Form for another pitch, or too deep.", "Choose a narrower cutter."),)  # fmt: skip
    return ()
