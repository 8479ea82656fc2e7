"""The cautions usual at each stage, printed on every plan, sheet and rig page they concern. The program is never the stop button."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from evenpitch.rig.rig import Rig

Stage = Literal["always", "link", "wiring", "cutting", "gears"]


@dataclass(frozen=True, slots=True)
class Caution:
    """One caution: what to do, and why. `box`: it is ticked before the cutter turns; `brief`: in the width of a sheet's column."""

    stage: Stage
    do: str
    why: str
    source: str
    box: bool = True
    brief: str = ""

    def line(self) -> str:
        """As a box on the sheet."""
        return self.brief or self.do


_PERIOD = "TM 1-1500-204-23-8"
_PRACTICE = "common practice"

CAUTIONS: tuple[Caution, ...] = (
    Caution(
        "always",
        "Guard on, arbor nut tight, cutter turning the right way.",
        "the cutter throws what is loose",
        _PERIOD,
        brief="Guard on; nut tight; turning direction checked.",
    ),
    Caution(
        "always",
        "Set the work before the cutter; knee down before moving work under it.",
        "a cutter at rest still cuts",
        _PERIOD,
        brief="Work set before cutter; knee down first.",
    ),
    Caution(
        "always",
        "Nothing measured, no chip cleared while the cutter turns.",
        "stop the spindle, then reach in",
        _PERIOD,
        brief="Nothing measured while the cutter turns.",
    ),
    Caution("always", "No gloves, no loose sleeves near cutter, gears or belt.", "they pull the hand in", _PRACTICE, box=False),
    Caution("always", "Handle cutters in a rag; use none with a cracked tooth.", "edges cut, cracks fly", _PRACTICE, box=False),
    Caution(
        "link",
        "Stop button tried: it cuts the motor's power by hardware.",
        "this program is never the stop",
        "ISO 13850:2015",
        brief="Stop button tried: it cuts the motor's power.",
    ),
    Caution(
        "link",
        "Index crank handle off or covered before the motor has power.",
        "it turns with the worm",
        "derived here",
        brief="Crank handle off or covered before power.",
    ),
    Caution(
        "link",
        "Index pin in the plate, or motor coupled to the worm: never both.",
        "the belt fights the plate",
        "derived here",
        brief="Index pin in, or motor coupled: never both.",
    ),
    Caution("link", "Rapid traverse locked out while linked.", "the work spins with the table", "derived here"),
    Caution(
        "link",
        "Hands clear of crank, belt and work before each move.",
        "the motor moves without warning",
        _PRACTICE,
        brief="Hands clear of crank and belt at each move.",
    ),
    Caution("gears", "Guard over the change gears.", "pinch points", _PRACTICE),
    Caution(
        "wiring",
        "Switch off and wait before plugging or unplugging motor or scale.",
        "a live plug destroys drives",
        _PRACTICE,
        box=False,
    ),
    Caution(
        "wiring",
        "Scale cable apart from motor and spindle cables; its screen as the scale's maker says.",
        "false counts from contactor and drive",
        _PRACTICE,
        box=False,
    ),
    Caution(
        "wiring",
        "Fuse each supply; earth the machine, the motor frame and the cabinet.",
        "a fault must trip",
        "IEC 60204-1",
        box=False,
    ),
    Caution("wiring", "Mains work by a licensed electrician, to the local code.", "licensed practice", _PRACTICE, box=False),
    Caution(
        "wiring",
        "A control that assists a hand-worked machine is still powered motion: guard the belt, motor off while changing cutters.",
        "pinch point",
        _PRACTICE,
        box=False,
    ),
    Caution(
        "always",
        "Strength is not checked. The machine's manual and local rules come first.",
        "this is a plan",
        _PRACTICE,
        box=False,
    ),
)

_PLATE_DRIVE = (
    Caution(
        "link",
        "Index pin home and the plate's stop pin out before the motor has power.",
        "the motor turns the plate",
        "derived here",
        brief="Pin home, stop pin out, before power.",
    ),
    Caution(
        "link",
        "Stop pin back in before going on by the crank alone.",
        "the plate must stand still",
        "derived here",
        brief="Stop pin in before the crank alone.",
    ),
)


def cautions(rig: Rig, *, linked: bool, geared: bool) -> tuple[Caution, ...]:
    """Those that concern this rig: `linked` where the motor does something in the job, `geared` where change gears do."""
    stages: set[Stage] = {"always"}
    if linked:
        stages |= {"link", "wiring"}
    if geared:
        stages.add("gears")
    chosen = [caution for caution in CAUTIONS if caution.stage in stages]
    if linked and rig.link is not None and rig.link.motor_on == "plate drive":
        worm_only = {"it turns with the worm", "the belt fights the plate"}
        chosen = [caution for caution in chosen if caution.why not in worm_only]
        place = next(i for i, caution in enumerate(chosen) if caution.stage == "link") + 1
        chosen[place:place] = _PLATE_DRIVE
    return tuple(chosen)
