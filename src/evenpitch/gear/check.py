"""What no gear can be: every fault of a gear at once. What can be but should be known is a finding, made elsewhere."""

from __future__ import annotations

import math
from collections.abc import Iterator

from evenpitch.gear.gear import Gear
from evenpitch.gear.pin_choice import best_pin, touches_both_flanks
from evenpitch.gear.pins import pin_of, smallest_touching_pin
from evenpitch.gear.rack import RACKS
from evenpitch.gear.sizes import addendum, pitch_diameter, root_diameter
from evenpitch.gear.thickness import pointed_shift, thinned_evenly, thinned_thickness, tip_thickness, tooth_thickness
from evenpitch.gear.virtual import normal_section_teeth
from evenpitch.quantity.refusal import Fault, Refusal

TEETH = (5, 1000)
MODULE_MM = (0.05, 70.0)
PRESSURE_ANGLE_DEGREES = (10.0, 35.0)
HELIX_DEGREES_BELOW = 60.0
SHIFT_UP_TO = 3.0


def refuse_impossible(gear: Gear, where: str = "") -> None:
    """Raise a Refusal with every fault of the gear; `where` goes before each field, e.g. "gear 1"."""
    faults = faults_of(gear, where)
    if faults:
        raise Refusal(*faults)


def faults_of(gear: Gear, where: str = "") -> tuple[Fault, ...]:
    """Every fault of the gear; those of its shape only once its figures are sound one by one."""
    faults = list(_numbers(gear)) + list(_choices(gear))
    if not faults:
        faults = list(_shape(gear))
    return tuple(_placed(fault, where) for fault in faults)


def _placed(fault: Fault, where: str) -> Fault:
    field = f"{where}, {fault.field}" if where else fault.field
    return Fault(field, fault.given, fault.expected, fault.likely, fault.do)


def _numbers(gear: Gear) -> Iterator[Fault]:
    if isinstance(gear.teeth, bool) or gear.teeth != int(gear.teeth) or not TEETH[0] <= gear.teeth <= TEETH[1]:
        yield Fault(
            "teeth",
            f"{gear.teeth:g}",
            f"a whole number from {TEETH[0]} to {TEETH[1]}",
            "A diameter, a pitch or a tooth size may have been typed here.",
            "Count the teeth, marking the first with chalk.",
        )
    if not MODULE_MM[0] <= gear.module <= MODULE_MM[1]:
        yield Fault(
            "pitch",
            f"{gear.pitch_words()} (normal module {gear.module:.4g} mm)",
            f"a normal module from {MODULE_MM[0]:g} to {MODULE_MM[1]:g} mm",
            "Module and diametral pitch may have been mixed up.",
            'Type "module 2" or "12 DP".',
        )
    degrees = math.degrees(gear.pressure_angle)
    if not PRESSURE_ANGLE_DEGREES[0] - 1e-9 <= degrees <= PRESSURE_ANGLE_DEGREES[1] + 1e-9:
        yield Fault(
            "pressure_angle",
            f"{degrees:.6g}°",
            f"from {PRESSURE_ANGLE_DEGREES[0]:g}° to {PRESSURE_ANGLE_DEGREES[1]:g}°",
            "Usual are 14½°, 20° and 25°.",
            "Check the angle, and that it is not the helix angle.",
        )
    helix = math.degrees(gear.helix)
    if not 0.0 <= helix < HELIX_DEGREES_BELOW - 1e-9:
        yield Fault(
            "helix",
            f"{helix:.6g}°",
            f"from 0° to under {HELIX_DEGREES_BELOW:g}°",
            "The sense of the helix is its hand, not a sign; a steeper one is a worm.",
            "Give the angle without a sign, and the hand beside it.",
        )
    if not -SHIFT_UP_TO <= gear.shift <= SHIFT_UP_TO:
        yield Fault(
            "shift",
            f"{gear.shift:g}",
            f"from −{SHIFT_UP_TO:g} to {SHIFT_UP_TO:g} (a multiple of the module, not a length)",
            "A length in millimetres or thousandths may have been typed.",
            "Divide the shift by the module.",
        )
    yield from _lengths(gear)


def _lengths(gear: Gear) -> Iterator[Fault]:
    for field, value in (("face", gear.face), ("pin", gear.pin)):
        if value is not None and not 0.0 < value < math.inf:
            yield Fault(field, f"{value:g} mm", "a length above 0", "A sign or a unit may be wrong.", f"Measure the {field}.")
    if not gear.thinning >= 0.0:
        yield Fault(
            "thinning",
            f"{gear.thinning:g} mm",
            "0 or more",
            "Tables write allowances as negative numbers; thinning is what the tooth loses.",
            "Leave out the minus sign.",
        )


def _choices(gear: Gear) -> Iterator[Fault]:
    if gear.depth not in RACKS:
        yield Fault(
            "depth",
            str(gear.depth),
            "one of " + ", ".join(RACKS),
            "It is no depth known here.",
            "Name the depth system marked on the cutter.",
        )
    if gear.hand not in ("left", "right", "none"):
        yield Fault(
            "hand",
            str(gear.hand),
            "left, right or none",
            "It is no hand known here.",
            "Look at the teeth on a gear standing on its bore axis.",
        )
    elif gear.helix > 0.0 and gear.hand == "none":
        yield Fault(
            "hand",
            "none",
            "left or right, because the helix angle is not 0",
            "The hand was forgotten.",
            "Stand the gear on a table: teeth that climb to the right are right-hand.",
        )
    elif gear.helix == 0.0 and gear.hand != "none":
        yield Fault(
            "hand",
            gear.hand,
            "none, because the helix angle is 0",
            "The helix angle was forgotten.",
            "Give the helix angle, or leave the hand out.",
        )
    most = max(1, int(normal_section_teeth(gear) / 2.0)) if 0.0 <= math.degrees(gear.helix) < HELIX_DEGREES_BELOW else 1000
    if gear.spanned is not None and (gear.spanned != int(gear.spanned) or not 1 <= gear.spanned <= most):
        yield Fault(
            "spanned",
            f"{gear.spanned:g}",
            f"a whole number from 1 to {most}",
            "More teeth than half the gear cannot be spanned.",
            "Leave it out for the usual number.",
        )
    if gear.tolerance_class is not None and gear.tolerance_class not in range(1, 12):
        yield Fault(
            "tolerance_class",
            f"{gear.tolerance_class:g}",
            "a whole number from 1 to 11 (ISO 1328-1:2013)",
            "Numbers of other systems are not the same; some count the other way.",
            "Usual are 8 for a change gear, 9 for a slow loom.",
        )


def _shape(gear: Gear) -> Iterator[Fault]:
    if root_diameter(gear) <= 0.0:
        yield Fault(
            "shift",
            f"{gear.shift:g}",
            "a gear with metal at its root",
            "The spaces would meet in the middle.",
            "Check the teeth and the shift.",
        )
    if addendum(gear) <= 0.0:
        yield Fault(
            "shift",
            f"{gear.shift:g}",
            f"above −{RACKS[gear.depth].addendum:g}",
            f"The whole tooth would lie inside the pitch diameter of {pitch_diameter(gear):.3f} mm.",
            "Check the sign of the shift.",
        )
        return
    if tip_thickness(gear) < 0.0:
        yield Fault(
            "shift",
            f"{gear.shift:g}",
            f"not above {pointed_shift(gear):.3f} for this gear",
            "The tooth would come to a point inside the outside diameter.",
            "Take less shift, a stub depth, or more teeth.",
        )
    if thinned_thickness(gear) <= 0.5 * tooth_thickness(gear):
        yield Fault(
            "thinning",
            f"{gear.thinning:g} mm",
            f"well under the tooth thickness, {tooth_thickness(gear):.3f} mm",
            "Half of the tooth would be gone. Thousandths of an inch may have been typed as millimetres.",
            'Type a unit, e.g. "0.05 mm" or "2 thou".',
        )
        return
    thinner = thinned_evenly(gear)
    if not touches_both_flanks(thinner, pin_of(gear)):
        yield Fault(
            "pin",
            f"{pin_of(gear):.4g} mm",
            f"a pin above {smallest_touching_pin(thinner):.4f} mm",
            "So small a pin falls between the flanks.",
            f"Take one near {best_pin(gear):.3f} mm, or leave it out.",
        )
