"""Made-up rigs with known errors, and the readings that a person would take on them."""

from __future__ import annotations

import json
import math
from fractions import Fraction
from pathlib import Path

import numpy as np

from evenpitch.checking.readings import HeadReading, ScaleReading
from evenpitch.quantity.units import RADIAN_PER_ARCSEC

CASES = json.loads((Path(__file__).parent.parent / "data" / "checking.json").read_text())
RATIO = Fraction(40)
ARCSEC = RADIAN_PER_ARCSEC


def case(name: str) -> dict:
    return next(one for one in CASES if one["id"] == name)


def topic(name: str) -> list[dict]:
    return [one for one in CASES if one["topic"] == name]


def scale(rng, *, gain=0.0, reversal=0.0, drift=0.0, sd=0.001, places=11, runs=3, reach=100.0, wave=None) -> list[ScaleReading]:
    """Runs out (up) and back (down), in the order of reading."""
    found = []
    total = runs * 2 * places - 1
    for run in range(1, runs + 1):
        out = np.linspace(0, reach, places)
        for direction, at in (("up", out), ("down", out[::-1])):
            for x in at:
                time = len(found) / total - 0.5
                off = gain * x + (reversal / 2 if direction == "up" else -reversal / 2) + drift * time
                off += 0.0 if wave is None else wave[1] * math.sin(2 * math.pi * x / wave[0])
                found.append(ScaleReading(run, direction, x, x + off + rng.normal(0, sd), line=len(found) + 2))
    return found


def bar(rng, waves, *, backlash=0.0, sd=3.0, degrees=None, runs=2, slope=0.0) -> list[HeadReading]:
    """Bar readings in seconds: `waves` as (per turn, amplitude, phase in degrees)."""
    at = np.arange(0, 361, 7.5) if degrees is None else degrees
    found = []
    for run in range(1, runs + 1):
        for direction in ("up", "down"):
            for degree in at:
                angle = math.radians(degree)
                off = (
                    sum(a * math.sin(h * angle + math.radians(phase)) for h, a, phase in waves) + 13 * run + slope * degree / 360
                )
                off += (backlash if direction == "down" else 0.0) + rng.normal(0, sd)
                found.append(HeadReading("bar", run, direction, angle, off * ARCSEC, len(found) + 2))
    return found


def artefact(rng, faces, waves, sd=1.0) -> list[HeadReading]:
    """An artefact turned through all its shifts; every shift has its own zero."""
    n, found = len(faces), []
    for run in range(1, n + 1):
        for place in range(n):
            angle = 2 * math.pi * place / n
            off = sum(a * math.sin(h * angle + math.radians(phase)) for h, a, phase in waves)
            off += faces[(place + run - 1) % n] + 50 * run + rng.normal(0, sd)
            found.append(HeadReading("closure", run, "up", angle, off * ARCSEC, len(found) + 2))
    return found
