"""The handbook's rule for the cutter of a helical gear, held against the best count that the virtual cut finds."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from evenpitch.flank.choose import form_teeth_wanted, sunk_to_thickness
from evenpitch.flank.forms import numbered_form
from evenpitch.flank.inspection import trace_figures
from evenpitch.flank.wanted import WantedFlank
from evenpitch.quantity.units import Millimetre, Radian


@dataclass(frozen=True, slots=True)
class RuleTried:
    """Counts of teeth of the form and the total profile deviation (mm) each leaves at swing = helix: z / cos^3, the rule with the
    cutter's diameter, the best that there is."""

    virtual: float
    rule: float
    best: float
    virtual_left: float
    rule_left: float
    best_left: float


def profile_left(wanted: WantedFlank, form_teeth: float, outside: Millimetre, corner: Millimetre) -> float:
    """Total profile deviation (mm) of a form of any count, sunk to the thickness, swing = helix; infinite where it leaves part uncut."""
    form = numbered_form(
        form_teeth, Millimetre(wanted.module), Radian(wanted.pressure_angle), outside, corner=corner,
        dedendum=wanted.dedendum / wanted.module, nodes=96,
    )  # fmt: skip
    u, left = sunk_to_thickness(form, wanted)
    return trace_figures(u, left).total if np.isfinite(left).all() else math.inf


def rule_tried(wanted: WantedFlank, outside: Millimetre, corner: Millimetre) -> RuleTried:
    """The rule on one gear; the best count is searched among all real numbers from half to twice the rule's."""
    from scipy.optimize import minimize_scalar  # here, for it is slow to load

    virtual, rule = wanted.teeth / math.cos(wanted.helix) ** 3, form_teeth_wanted(wanted, outside)

    def left(log_count: float) -> float:
        return profile_left(wanted, math.exp(log_count), outside, corner)

    grid = np.linspace(math.log(0.7 * rule), math.log(1.5 * rule), 17)
    values = [left(float(one)) for one in grid]
    k = int(np.argmin(values))
    bounds = (float(grid[max(k - 1, 0)]), float(grid[min(k + 1, 16)]))
    found = minimize_scalar(left, bounds=bounds, method="bounded", options={"xatol": 1e-4})  # type: ignore[no-untyped-call]
    return RuleTried(virtual, rule, math.exp(found.x), left(math.log(virtual)), left(math.log(rule)), float(found.fun))
