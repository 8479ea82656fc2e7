"""Span and pins by brute force on the surface itself: parallel planes on a helicoid, a ball and a straight pin laid in a space."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
import numpy.typing as npt
import pytest
from scipy.optimize import brentq, minimize, minimize_scalar

from evenpitch.gear.gear import Gear
from evenpitch.gear.involute import involute
from evenpitch.gear.pins import nominal_over_balls, nominal_over_pins, pin_lie
from evenpitch.gear.sizes import base_diameter, pitch_diameter, transverse_pressure_angle
from evenpitch.gear.span import nominal_span
from evenpitch.gear.thickness import transverse_thickness
from gear.made import helical, spur, timing, wheel

Point = npt.NDArray[np.float64]


def flank(gear: Gear, centre: float) -> Callable[[float, float], Point]:
    """The flank on the side of growing angle of a tooth whose centre stands at the angle `centre`: (roll, along) -> point."""
    base = base_diameter(gear) / 2.0
    half = transverse_thickness(gear) / pitch_diameter(gear) + involute(transverse_pressure_angle(gear))
    turn = 2.0 * math.tan(gear.helix) / pitch_diameter(gear)

    def point(roll: float, along: float) -> Point:
        angle = centre + half - roll / base + math.atan2(roll, base) + turn * along
        radius = math.hypot(base, roll)
        return np.array([radius * math.cos(angle), radius * math.sin(angle), along])

    return point


@pytest.mark.parametrize(
    ("gear", "k"),
    [(wheel(), 8), (wheel(), 6), (timing(28), 4), (timing(56), 8), (helical(41, 2.0, 20.0), 6), (spur(13, 2.0, shift=0.25), 2)],
)
def test_span_between_parallel_planes(gear: Gear, k: int) -> None:
    """The far flank of the last of k teeth, and by a half turn about the middle the other one; the planes tilt until widest fits."""
    side = flank(gear, (k - 1) * math.pi / gear.teeth)
    base = base_diameter(gear) / 2.0

    def reach(tilt: float) -> float:
        normal = np.array([0.0, math.cos(tilt), -math.sin(tilt)])
        along = nominal_span(gear, k) * math.sin(tilt) / 2.0
        best = minimize_scalar(lambda roll: -float(normal @ side(roll, -along)), bounds=(0.0, 2.0 * base), method="bounded")
        return -2.0 * float(best.fun)

    def unevenness(tilt: float) -> float:
        """How much further the plane's contact moves along the helicoid: 0 where the plane is tangent along the tooth too."""
        normal = np.array([0.0, math.cos(tilt), -math.sin(tilt)])
        at = minimize_scalar(lambda roll: -float(normal @ side(roll, 0.0)), bounds=(0.0, 2.0 * base), method="bounded").x
        return float(normal @ (side(at, 1e-4) - side(at, -1e-4)))

    tilt = brentq(unevenness, 0.0, 1.2) if gear.helix else 0.0
    assert reach(tilt) == pytest.approx(nominal_span(gear, k), abs=1e-6)


def distance_to_flank(gear: Gear, line: tuple[Point, Point | None]) -> float:
    """Least distance from a point (or the straight line through it) to the flank of the tooth beside the space at angle 0."""
    side = flank(gear, -math.pi / gear.teeth)
    origin, direction = line
    start = np.array([pitch_diameter(gear) / 2.0 * math.sin(transverse_pressure_angle(gear)), 0.0])

    def away(where: Point) -> float:
        apart = side(float(where[0]), float(where[1])) - origin
        if direction is not None:
            apart = apart - (apart @ direction) * direction
        return float(apart @ apart)

    found = minimize(away, start, method="Nelder-Mead", options={"xatol": 1e-9, "fatol": 1e-15, "maxiter": 2000})
    return math.sqrt(float(found.fun))


def seat(gear: Gear, pin: float, lie: float | None) -> float:
    """Radius at which a ball (lie None), or a straight pin at that angle to the axis, touches the flank."""

    def gap(radius: float) -> float:
        origin = np.array([radius, 0.0, 0.0])
        direction = None if lie is None else np.array([0.0, math.sin(lie), math.cos(lie)])
        return distance_to_flank(gear, (origin, direction)) - pin / 2.0

    pitch_radius = pitch_diameter(gear) / 2.0
    return float(brentq(gap, pitch_radius - gear.module, pitch_radius + 2.5 * gear.module, xtol=1e-9))


@pytest.mark.parametrize(
    ("gear", "ball"),
    [
        (wheel(), 3.6576),
        (timing(28), 3.5),
        (helical(21, 2.0, 15.0), 3.5),
        (helical(24, 3.0, 30.0, shift=0.3), 5.5),
        (spur(13, 2.0), 4.0),
    ],
)
def test_balls_laid_in_two_spaces(gear: Gear, ball: float) -> None:
    """Two balls at the same height in opposite spaces; their centres, then the distance over them."""
    radius = seat(gear, ball, None)
    away = math.pi if gear.teeth % 2 == 0 else math.pi - math.pi / gear.teeth
    apart = math.hypot(radius - radius * math.cos(away), radius * math.sin(away))
    assert nominal_over_balls(gear, ball) == pytest.approx(apart + ball, abs=1e-6)


@pytest.mark.parametrize(("gear", "pin"), [(timing(28), 3.5), (helical(21, 2.0, 15.0), 3.5)])
def test_straight_pin_seated_in_a_helical_space(gear: Gear, pin: float) -> None:
    """The pin sinks deepest at the helix angle of its own centre; there it stands as high as a ball, so no cosine for odd counts."""
    deepest = seat(gear, pin, pin_lie(gear, pin))
    assert 2.0 * deepest + pin == pytest.approx(nominal_over_pins(gear, pin), abs=1e-6)
    for turned in (-0.01, 0.01):
        assert seat(gear, pin, pin_lie(gear, pin) + turned) > deepest
