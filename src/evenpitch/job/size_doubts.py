"""Sizes that were hardly meant: inches for millimetres, a radius for a diameter, diametral pitch for module, a bore wider than the gear."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from evenpitch.gear.gear import Gear
from evenpitch.gear.sizes import addendum, outside_diameter, root_diameter, whole_depth
from evenpitch.gear.thickness import tooth_thickness
from evenpitch.job.findings import finding
from evenpitch.job.order import Work
from evenpitch.quantity.finding import Finding
from evenpitch.quantity.pitch import Pitch
from evenpitch.quantity.refusal import Fault
from evenpitch.quantity.units import INCH
from evenpitch.rig.rig import Rig

OVERSIZE = 1.15
"""Times its nominal a blank may be over and still be asked about, not refused: turned for another count of the same pitch."""

LARGE_BLANK = 500.0
"""mm of outside diameter beyond which the pitch is asked back where the head's height is not known; common practice."""

LARGE_THINNING = 0.15
"""Thinning, in modules, from which it is asked back: 0.03 to 0.05 is usual; common practice."""

_SLIPS = (
    ("Inches were perhaps meant: a number alone is in mm.", float(INCH)),
    ("Millimetres were perhaps meant, not inches.", 1 / float(INCH)),
    ("The radius was perhaps typed: the outside is a diameter.", 2.0),
    ("A decimal mark was perhaps lost or moved.", 0.1),
    ("A decimal mark was perhaps lost or moved.", 10.0),
)
"""What the number may have been, and what it would have to be multiplied by."""


def size_faults(work: Work, where: str) -> Iterator[Fault]:
    """Faults of what was typed about the blank beside a gear that can be."""
    yield from _outside(work, where)
    root = root_diameter(work.gear)
    if work.bore is not None and work.bore >= root:
        likely = "Inches for millimetres, or the outside of the hub, may have been typed."
        expected = f"less than the root diameter, {root:.2f} mm"
        yield Fault(f"{where}.bore", f"{work.bore:.6g} mm", expected, likely, "Measure the bore again, and name the unit.")


def _outside(work: Work, where: str) -> Iterator[Fault]:
    gear, found = work.gear, work.outside_found
    least, nominal, most = _outsides(gear)
    if found is None or least < found < most:
        return
    meant = next((words for words, factor in _SLIPS if least < found * factor < most), "")
    other = _swapped(gear)
    if not meant and other is not None and _outsides(other)[0] < found < _outsides(other)[2]:
        meant = f"That is the outside for {other.pitch.words()}: module and DP may have been mixed up."
    likely = meant or "That is the blank of another gear, or another place was measured."
    do = f"Measure over the outside again; this gear's is {nominal:.3f} mm ({nominal / INCH:.4f} in)."
    yield Fault(f"{where}.outside_found", f"{found:.6g} mm", f"{least:.2f} to {most:.2f} mm", likely, do)


def _outsides(gear: Gear) -> tuple[float, float, float]:
    """Least outside that could be meant for the gear, its own, and the most, mm."""
    nominal, depth, tip = outside_diameter(gear), whole_depth(gear), addendum(gear)
    return nominal - min(depth, 2 * tip if tip > 0 else depth), nominal, max(nominal + 2 * depth, OVERSIZE * nominal)


def _swapped(gear: Gear) -> Gear | None:
    """The gear with its number read as the other of module and diametral pitch."""
    if gear.pitch.kind == "circular pitch":
        return None
    to_inch = gear.pitch.kind == "module"
    pitch = Pitch("diametral pitch" if to_inch else "module", gear.pitch.value, gear.pitch.plane, inch=to_inch)
    return replace(gear, pitch=pitch, module=pitch.normal_module(gear.helix))


def size_findings(gear: Gear, rig: Rig) -> Iterator[Finding]:
    """Sizes that can be, but are asked back."""
    most = 2 * rig.head.centre_height if rig.head.centre_height is not None else LARGE_BLANK
    outside, other = outside_diameter(gear), _swapped(gear)
    if other is not None and outside > most >= outside_diameter(other):
        yield finding(
            "dp-or-module",
            pitch=gear.pitch.words(),
            outside=float(outside),
            other=other.pitch.words(),
            smaller=float(outside_diameter(other)),
        )
    if gear.thinning > LARGE_THINNING * gear.module:
        share = gear.thinning / tooth_thickness(gear)
        yield finding("thinning-large", thinning=float(gear.thinning), share=f"{share:.0%}")
