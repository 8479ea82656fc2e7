"""What to do at each of the eight checks, on this rig and for this gear."""

from __future__ import annotations

import math
from dataclasses import dataclass

from evenpitch.checking.good_to import OnGear
from evenpitch.checking.link_proof import pen_rise, wanted_angle
from evenpitch.job.proof_checks import GOOD_DIAL, GOOD_GAIN, GOOD_PEN, GOOD_TILT, CheckKind
from evenpitch.quantity.showing import number
from evenpitch.quantity.units import RADIAN_PER_ARCSEC, Millimetre
from evenpitch.rig.rig import Rig

TURNS, BLOCK, BAR, PEN = 10, Millimetre(50.0), Millimetre(50.0), Millimetre(100.0)


@dataclass(frozen=True, slots=True)
class Step:
    """`fields`: written in the row of the check; `elsewhere`: where its readings are written instead. `needs_job`: nothing without."""

    no: int
    kind: CheckKind
    title: str
    do: str
    good: str
    fields: tuple[str, ...] = ()
    elsewhere: str = ""
    unit: str = "mm"
    needs_job: bool = False


def steps_on(rig: Rig, gear: OnGear | None) -> tuple[Step, ...]:
    """The eight checks with the figures of this rig and gear."""
    screw = rig.table.screw_lead
    turned = "" if screw is None else f", {TURNS * float(screw):.3f} mm"
    dial = "0.001 of it" if screw is None else f"{number(GOOD_DIAL * TURNS * float(screw) * 1e3, 0)} µm"
    return (
        Step(
            1,
            "along the scale",
            "Along the scale body",
            "indicator left, middle, right, on top and on the front",
            "0.10 mm",
            elsewhere="readings",
        ),
        Step(2, "dial", "Whole turns of the dial", f"ten turns{turned}, lash taken up one way", dial, ("dial.read",)),
        Step(
            3,
            "strokes",
            "Strokes and noise",
            "ten full strokes to one indicator zero; spindle on and off ten times",
            "2 counts",
            ("strokes.read",),
        ),
        Step(
            4,
            "block",
            "One block, three places",
            "100 mm block between two zeros of one indicator; left, middle, right",
            f"{GOOD_GAIN * 1e6:.0f} µm in a metre",
            elsewhere="readings",
        ),
        Step(
            5,
            "near the cutter",
            "The same near the cutter",
            "indicator on the cutter's side",
            f"{GOOD_TILT:.0f} µm",
            elsewhere="readings",
        ),
        *_link_steps(rig, gear),
    )


def _link_steps(rig: Rig, gear: OnGear | None) -> tuple[Step, ...]:
    if gear is None:
        turn, good, rise, pen = "needs a helical job", "", "needs a helical job", ""
    else:
        angle = wanted_angle(BLOCK, gear.lead)
        turn = f"table 50 mm by block; bar of 100 mm on the spindle: must turn {math.degrees(angle):.4f}°"
        good = f"{number(angle / RADIAN_PER_ARCSEC * GOOD_GAIN, 0)}″"
        up = pen_rise(BAR, PEN, gear.lead)
        rise, pen = f"paper round a 50 mm bar, pen in the arbor, table 100 mm: must rise {up:.1f}", f"{GOOD_PEN:g} %"
    known = rig.head.backlash
    play = "" if known is None else f"known {number(known / RADIAN_PER_ARCSEC / 60, 1)}′"
    return (
        Step(6, "link", "Table against work", turn, good, ("link.up",), unit="°", needs_job=True),
        Step(
            7,
            "other side",
            "From the other side",
            "the same, approached the other way",
            play,
            ("link.down",),
            unit="°",
            needs_job=True,
        ),
        Step(8, "pen line", "Pen line", rise, pen, ("pen.rise", "pen.hand"), needs_job=True),
    )
