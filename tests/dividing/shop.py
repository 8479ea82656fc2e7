"""The workshop's head, plates, gears and motor, and the printed cases."""

from __future__ import annotations

import json
from fractions import Fraction
from pathlib import Path
from typing import Any

from evenpitch.rig.generic import GEAR_SETS, PLATE_SETS
from evenpitch.rig.head import Head, Plate

HEAD = Head(ratio=Fraction(40), direct=24)
PLATES = PLATE_SETS["three plates, 15 to 49 holes"]
TWO_SIDED = PLATE_SETS["one plate, two sides, 24 to 66 holes"]
TWELVE = GEAR_SETS["twelve gears, 24 to 100"]
PULSES = Fraction(192_000)
QUARTER_INCH = Fraction(254, 40)
CASES: dict[str, Any] = json.loads((Path(__file__).parents[1] / "data" / "dividing.json").read_text(encoding="utf-8"))


def head(ratio: int | Fraction, direct: int | None = None) -> Head:
    """A head of another ratio."""
    return Head(ratio=Fraction(ratio), direct=direct)


def plate(*circles: int) -> tuple[Plate, ...]:
    """One plate of these circles."""
    return (Plate(circles),)
