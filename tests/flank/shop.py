"""Gears and cutters that the tests of the virtual cut share."""

from __future__ import annotations

import math

from evenpitch.flank.curve import Form
from evenpitch.flank.envelope import Cut
from evenpitch.flank.exact import exact_form
from evenpitch.flank.forms import numbered_form
from evenpitch.flank.motion import Motion, true_screw
from evenpitch.flank.setting import Setting, usual_setting
from evenpitch.flank.wanted import WantedFlank, wanted_flank
from evenpitch.quantity.units import Millimetre, Radian

SECOND = math.pi / 648_000
TWENTY = Radian(math.radians(20))


def gear(teeth: int = 24, module: float = 2.0, helix: float = 20.0, face: float = 20.0) -> WantedFlank:
    """A gear of 20 degrees pressure angle; helix in degrees."""
    return wanted_flank(teeth, Millimetre(module), TWENTY, Radian(math.radians(helix)), Millimetre(face))


def numbered(teeth: int, module: float = 2.0, outside: float = 60.0, nodes: int = 96, corner: float = 0.25) -> Form:
    """A numbered cutter; corner in modules."""
    return numbered_form(teeth, Millimetre(module), TWENTY, Millimetre(outside), corner=Millimetre(corner * module), nodes=nodes)


def made_for(wanted: WantedFlank, outside: float = 60.0, nodes: int = 96) -> Form:
    """The exact form, sharp cornered."""
    return exact_form(wanted, Setting(wanted.helix, 0.0, wanted.root_radius + outside / 2), outside, nodes=nodes)


def cut(
    wanted: WantedFlank, form: Form, motion: Motion | None = None, swing: float = 0.0, offset: float = 0.0, sink: float = 0.0
) -> Cut:
    """A cut with errors of swing (degrees), offset and depth (mm)."""
    setting = usual_setting(
        Millimetre(wanted.root_radius), Millimetre(form.outside_radius), Radian(wanted.helix),
        swing_error=Radian(math.radians(swing)), offset=Millimetre(offset), sink=Millimetre(sink),
    )  # fmt: skip
    return Cut(form, setting, wanted, motion or true_screw(wanted.teeth, wanted.q))
