"""The fly cutter of the 97-tooth wheel; figures of the workshop's scenario, derived apart from this program."""

from __future__ import annotations

import math

import pytest

from cutting.gears import A
from evenpitch.cutting.flycutter import SpaceForm, fly_cutter

BIT = fly_cutter(SpaceForm(97, A.module, A.pressure_angle, A.module, 1.157 * A.module))


def test_one_arc_per_flank() -> None:
    assert BIT.arc.radius == pytest.approx(24.575, abs=0.0005)
    assert BIT.arc.off_centre == pytest.approx(25.390, abs=0.0005)
    assert BIT.arc.below_outside == pytest.approx(8.529, abs=0.0005)
    assert (round(1000 * BIT.arc.least), round(1000 * BIT.arc.most)) == (-4, 7)


@pytest.mark.parametrize(("place", "width", "depth"), [(0, 4.665, 0.026), (1, 3.325, 2.130), (2, 2.276, 4.572)])
def test_widths_to_check_the_bit_by(place: int, width: float, depth: float) -> None:
    assert 2 * BIT.checks[place].half_width == pytest.approx(width, abs=0.0005)
    assert BIT.checks[place].depth == pytest.approx(depth, abs=0.0005)


def test_the_outline_runs_from_tip_to_floor() -> None:
    assert (BIT.outline[0], BIT.outline[-1]) == (BIT.checks[0], BIT.checks[2])
    depths = [point.depth for point in BIT.outline]
    assert depths == sorted(depths)


def test_few_teeth_have_an_arc_that_stops_at_the_base_circle() -> None:
    bit = fly_cutter(SpaceForm(14, 2.0, math.radians(20), 2.0, 2.5))
    assert 0 < bit.arc.radius < 20
