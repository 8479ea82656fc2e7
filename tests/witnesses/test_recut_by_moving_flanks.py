"""Recut by brute force: a wheel read thick, its flanks moved bodily by the depth that the verdict gives, and spanned anew."""

from __future__ import annotations

import math

import numpy as np
import pytest

from evenpitch.gear.gear import Gear
from evenpitch.gear.involute import involute
from evenpitch.gear.sizes import base_diameter, outside_diameter, pitch_diameter, transverse_pressure_angle
from evenpitch.gear.thickness import transverse_thickness
from evenpitch.job.judging import judge
from evenpitch.job.plan import Plan
from evenpitch.store.files.readings import read_inspection
from job.shop import wheel

POINTS = 400_000


def spanned_by_planes(gear: Gear, k: int, sink: float) -> float:
    """Least distance of two parallel planes on the flanks of k teeth whose spaces were cut `sink` mm deeper than nominal.

    Every flank is moved towards the centre along the centre line of its own space; planes stand square to the line that halves the
    k teeth, so the distance is twice the largest reach of one flank of the last tooth.
    """
    base = base_diameter(gear) / 2
    roll = np.linspace(0.0, math.sqrt((outside_diameter(gear) / 2) ** 2 - base**2), POINTS)
    half = transverse_thickness(gear) / pitch_diameter(gear) + involute(transverse_pressure_angle(gear))
    half_at = half - (roll / base - np.arctan(roll / base))
    # the flank on the far side of the last of k teeth, the middle of all of them at angle 0
    middle = math.pi * (k - 1) / gear.teeth
    radius = np.hypot(base, roll)
    # beside it lies the space whose centre line the cutter followed
    space = middle + math.pi / gear.teeth
    across = radius * np.sin(middle + half_at) - sink * math.sin(space)
    return float(2 * across.max())


def _deeper(plan: Plan, span: float) -> tuple[float, float]:
    k = plan.gears[0].form_cut.spanned
    found = judge(plan, read_inspection(f"kind,space,flank,instrument,value_mm,k\nspan,1,,,{span:.6f},{k}"))
    deeper = found.rescue.deeper
    assert deeper is not None
    return deeper.deeper.value, (found.sizes[0].least + found.sizes[0].most) / 2


@pytest.mark.parametrize("teeth", [24, 43, 97, 113])
@pytest.mark.parametrize("extra", [0.06, 0.15])
def test_the_depth_given_brings_the_span_to_the_middle(teeth: int, extra: float) -> None:
    """To 0.1 µm of span."""
    plan = wheel(teeth=teeth)
    gear, k = plan.gears[0].gear, plan.gears[0].form_cut.spanned
    target = float(plan.gears[0].form_cut.span)
    # how deep that gear was when it read so, by the brute force itself
    shallow = plan.gears[0].form_cut.sink - extra
    read = spanned_by_planes(gear, k, shallow)
    assert read > target
    deeper, middle = _deeper(plan, read)
    assert spanned_by_planes(gear, k, shallow + deeper) == pytest.approx(middle, abs=0.0001)
