"""Points on circles and lines, degrees anticlockwise from +x."""

from __future__ import annotations

import math

from evenpitch.sheet.drawing import Point


def polar(centre: Point, radius: float, degrees: float) -> Point:
    """The point at a radius and an angle from a centre."""
    angle = math.radians(degrees)
    return centre[0] + radius * math.cos(angle), centre[1] + radius * math.sin(angle)


def turned(point: Point, degrees: float, about: Point = (0.0, 0.0)) -> Point:
    """A point turned anticlockwise about another."""
    angle = math.radians(degrees)
    x, y = point[0] - about[0], point[1] - about[1]
    return about[0] + x * math.cos(angle) - y * math.sin(angle), about[1] + x * math.sin(angle) + y * math.cos(angle)


def along_arc(centre: Point, radius: float, start: float, end: float, chord: float = 8.0) -> tuple[Point, ...]:
    """Points along an arc from start to end in whichever sense that is, no piece longer than `chord` degrees."""
    count = max(2, math.ceil(abs(end - start) / chord))
    return tuple(polar(centre, radius, start + (end - start) * k / count) for k in range(count + 1))


def nice(least: float) -> float:
    """The smallest of 1, 2, 5 times a power of ten that is at least `least`."""
    power = 10.0 ** math.floor(math.log10(least))
    return next(m * power for m in (1, 2, 5, 10) if m * power >= least * (1 - 1e-9))


def minus(value: float, digits: int = 0, sign: bool = False) -> str:
    """A figure with the true minus; with `sign`, plus is printed too; zero has neither."""
    text = f"{value:.{digits}f}"
    if float(text) == 0:
        return text.lstrip("-")
    if value < 0:
        return "−" + text[1:]
    return "+" + text if sign else text
