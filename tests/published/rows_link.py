"""Figures in print about motors and drawn distributions, beside ours."""

from __future__ import annotations

import math

import numpy as np

from evenpitch.link.holding import motor_step_error, torque_of_one_pulse
from evenpitch.link.prediction import interval
from published.row import Row

GUIDE = "JCGM 101:2008, 9.2.3"
MAKERS = "motor and drive notes"
DRAWN = 400_000
REPEATS = 0.02
"""To which an end of the interval repeats with so many draws."""


def rows() -> tuple[Row, ...]:
    """All of them."""
    return (*_four_rectangular(), *_motor())


def _four_rectangular() -> list[Row]:
    random = np.random.default_rng(9)
    total = (math.sqrt(3) * (2 * random.random((DRAWN, 4)) - 1)).sum(axis=1)
    note = f"{DRAWN // 1000} 000 draws: an end repeats to {REPEATS:g}"
    return [
        Row(GUIDE, f"sum of four rectangular inputs, {end} end of 95 %", printed, found, REPEATS, "from memory", note)
        for end, printed, found in zip(("lower", "upper"), ("-3.88", "3.88"), interval(total), strict=True)
    ]


def _motor() -> list[Row]:
    off = math.degrees(motor_step_error(200, 1))
    share = 100 * torque_of_one_pulse(1.0, 8)
    return [
        Row(MAKERS, "motor of 1.8 deg, 5 % of a full pulse, deg either way", "0.09", off, 0.005, "quoted second-hand"),
        Row(MAKERS, "torque that moves the rotor by one of 8 parts, % of holding", "19.5", share, 0.05, "quoted second-hand"),
    ]
