"""Pick up a tooth: offset, its doubt, and what it costs at the pitch line."""

from __future__ import annotations

import math

import pytest

from evenpitch.job.picking_up import Touch, pick_up
from evenpitch.quantity.refusal import Refusal
from job.inspection_cases import at, the_wheel


def _touch(space: int, off: float = 0.0) -> Touch:
    number, left, right = at(space, off)
    return Touch(number, math.radians(left), math.radians(right))


def test_three_spaces_that_agree() -> None:
    found = pick_up(the_wheel().gears[0], [_touch(1, 540), _touch(33, 542), _touch(65, 538)])
    assert math.degrees(found.offset.value) * 3600 == pytest.approx(540, abs=0.1)
    assert found.findings == ()
    assert found.at_pitch.value == pytest.approx(540 / 206264.8 * 102.658, rel=1e-3)
    assert "ahead of its old place" in found.sentence


def test_what_the_doubt_costs_in_depth() -> None:
    """±4 µm at the pitch line cleans up with 0.03 mm on the wheel (own figures of the job)."""
    found = pick_up(the_wheel().gears[0], [_touch(space) for space in range(1, 97, 8)])
    assert pytest.approx(4.1, abs=0.1) == found.at_pitch.U * 1000
    assert found.clean_up == pytest.approx(0.03, abs=0.002)


def test_across_the_datum() -> None:
    found = pick_up(
        the_wheel().gears[0], [Touch(1, math.radians(359.4), math.radians(360.4)), _touch(40, -360), _touch(70, -360)]
    )
    assert math.degrees(found.offset.value) * 3600 == pytest.approx(-360, abs=0.1)


@pytest.mark.parametrize(
    ("touches", "said"),
    [
        ([], "Nothing was typed"),
        ([_touch(1), _touch(1)], "typed twice"),
        ([Touch(98, 0.0, 0.01)], "Another gear"),
        ([Touch(1, 0.0, 0.2)], "half a pitch"),
    ],
)
def test_touches_that_cannot_be(touches: list[Touch], said: str) -> None:
    with pytest.raises(Refusal, match=said):
        pick_up(the_wheel().gears[0], touches)
