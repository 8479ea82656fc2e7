"""Gears for the tests: the workshop's own, and those of the cases by their figures."""

from __future__ import annotations

import json
import math
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

from evenpitch.gear.gear import Gear
from evenpitch.quantity.pitch import Pitch

DATA = Path(__file__).parents[1] / "data"


@cache
def cases() -> dict[str, Any]:
    return {case["id"]: case for case in json.loads((DATA / "gears.json").read_text(encoding="utf-8"))}


def value(case: str, output: str) -> Any:
    return cases()[case]["outputs"][output]["value"]


def spur(teeth: int, module: float, degrees: float = 20.0, **more: Any) -> Gear:
    pitch = Pitch("module", Fraction(module).limit_denominator(10**9))
    return Gear(teeth=teeth, pitch=pitch, module=module, pressure_angle=math.radians(degrees), **more)


def helical(teeth: int, module: float, helix: float, degrees: float = 20.0, **more: Any) -> Gear:
    more = {"hand": "right", **more}
    return spur(teeth, module, degrees, helix=math.radians(helix), **more)


def of_transverse(teeth: int, module: float, helix: float, degrees: float, shift: float = 0.0, **more: Any) -> Gear:
    """A gear of the transverse system: module, angle and shift square to the axis."""
    beta = math.radians(helix)
    normal = math.atan(math.tan(math.radians(degrees)) * math.cos(beta))
    return helical(teeth, module * math.cos(beta), helix, math.degrees(normal), shift=shift / math.cos(beta), **more)


def by_pitch(teeth: int, pitch: float, degrees: float, **more: Any) -> Gear:
    """A spur gear by diametral pitch."""
    made = spur(teeth, 25.4 / pitch, degrees, **more)
    return Gear(
        **{name: getattr(made, name) for name in Gear.__slots__ if name != "pitch"},
        pitch=Pitch("diametral pitch", Fraction(pitch)),
    )


def wheel() -> Gear:
    """The 97-tooth take-up wheel."""
    return by_pitch(97, 12, 14.5, depth="14.5", thinning=0.06, face=19.05, pin=0.144 * 25.4)


def timing(teeth: int = 28) -> Gear:
    """One of the pair of helical timing gears."""
    hand = "right" if teeth == 28 else "left"
    return helical(teeth, 2.0, 20.0, hand=hand, thinning=0.05, face=20.0, pin=3.5)
