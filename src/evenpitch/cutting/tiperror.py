"""Form error of a numbered cutter on a count of teeth it is not made for: pure involute, exact at the pitch point.

No outside figure; the two methods are the outline here and the contact of the disc cutter (helicaltip).
"""

from __future__ import annotations

import math

from evenpitch.gear.involute import involute
from evenpitch.quantity.units import Millimetre, Radian
from evenpitch.sources.citations import cites

TIP_HEIGHT = 0.9816
"""Height above the pitch line, in addenda, at which the error of the tip is taken: just inside the corner and its burr."""


@cites("derived here", formula="x = ρ sin(π/2N − inv α + inv α_ρ) at the ρ where ρ cos(...) = N m/2 + y")
def space_half_width(teeth: float, module: Millimetre, pressure_angle: Radian, height: Millimetre) -> Millimetre:
    """Half width of the tooth space of an unshifted gear, mm, at `height` mm above the line that touches its pitch circle.

    `teeth` may be a fraction. Inside the base circle the flank is drawn as a radial line, which is makers' habit, not geometry.
    """
    pitch_radius = teeth * module / 2
    base = pitch_radius * math.cos(pressure_angle)
    start = math.pi / (2 * teeth) - involute(pressure_angle)
    level = pitch_radius + height
    if level <= base * math.cos(start):
        return Millimetre(level * math.tan(start))
    radius, angle = level, start
    for _ in range(100):
        angle = start + involute(Radian(math.acos(min(1.0, base / radius))))
        closer = level / math.cos(angle)
        if abs(closer - radius) < 1e-12 * radius:
            break
        radius = max(base, closer)
    return Millimetre(radius * math.sin(angle))


@cites("derived here", formula="e = [(x_N(y) − x_N(0)) − (x_z(y) − x_z(0))] cos α")
def form_error(teeth: float, made_for: float, module: Millimetre, pressure_angle: Radian, height: Millimetre) -> Millimetre:
    """Error of the flank, mm, at `height` above the pitch line, of a form made for `made_for` teeth on a gear of `teeth`.

    Exact at the pitch line; measured square to the flank there. Positive: metal missing (above: tip relieved).
    """

    def from_pitch(count: float) -> float:
        outer = space_half_width(count, module, pressure_angle, height)
        return outer - space_half_width(count, module, pressure_angle, Millimetre(0.0))

    return Millimetre((from_pitch(made_for) - from_pitch(teeth)) * math.cos(pressure_angle))


def tip_error(
    teeth: float, made_for: float, module: Millimetre, pressure_angle: Radian, addendum: Millimetre | None = None
) -> Millimetre:
    """Error at the tip, mm, positive = tip relieved, negative = tip left heavy. `addendum`: one module where not given."""
    reach = module if addendum is None else addendum
    return form_error(teeth, made_for, module, pressure_angle, Millimetre(TIP_HEIGHT * reach))


def floor_error(teeth: float, made_for: float, module: Millimetre, pressure_angle: Radian, dedendum: Millimetre) -> Millimetre:
    """Error at the floor of the space, mm, positive = metal missing; `dedendum` mm below the pitch line."""
    return form_error(teeth, made_for, module, pressure_angle, Millimetre(-dedendum))


@cites("derived here", formula="x_c(y₀) = x_z(0);  e = (x_c(y₀ + y) − x_z(y)) cos α")
def substitute_error(
    teeth: float, module: Millimetre, pressure_angle: Radian, made_for: float, cutter_module: Millimetre, height: Millimetre
) -> tuple[Millimetre, Millimetre]:
    """A cutter of a neighbouring pitch, sunk until the space has its right width at the pitch line: (flank error, extra depth), mm.

    The error is at `height` above the pitch line, positive = metal missing. The extra depth is that of the cutter's pitch line.
    """
    wanted = space_half_width(teeth, module, pressure_angle, Millimetre(0.0))
    low, high = -float(cutter_module), float(cutter_module)
    for _ in range(60):
        middle = (low + high) / 2
        if space_half_width(made_for, cutter_module, pressure_angle, Millimetre(middle)) < wanted:
            low = middle
        else:
            high = middle
    at_height = space_half_width(made_for, cutter_module, pressure_angle, Millimetre(low + height))
    error = (at_height - space_half_width(teeth, module, pressure_angle, height)) * math.cos(pressure_angle)
    return Millimetre(error), Millimetre(low)
