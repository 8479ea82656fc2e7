"""Speed of the cutter and feed of the table, from the material to what the machine has."""

from __future__ import annotations

import math
from dataclasses import dataclass

from evenpitch.cutting.materials import UNKNOWN, Material
from evenpitch.quantity.units import Millimetre
from evenpitch.sources.citations import cites

USUAL_TEETH = 12
"""Teeth of a form cutter where they were not counted; common practice."""

NEAR = 0.01
"""A speed or feed of the machine up to this share above the one wanted still counts as not above it."""


@dataclass(frozen=True, slots=True)
class Chosen:
    """What was wanted and what the machine has. `has` None: it lists none. `slowest_too_fast`: even its lowest is above."""

    wanted: float
    has: float | None
    slowest_too_fast: bool

    def value(self) -> float:
        """The machine's own value, or the wanted one where the machine lists none."""
        return self.wanted if self.has is None else self.has


@cites("common practice", formula="n = 12 V / (π D), V ft/min, D in")
def cutter_speed(surface_feet: float, outside: Millimetre) -> float:
    """Speed of the spindle, rpm, for a surface speed in feet a minute and the diameter over the cutter's teeth, mm."""
    return surface_feet * 304.8 / (math.pi * outside)


@cites("common practice", formula="feed = chip · teeth · n")
def table_feed(chip: Millimetre, teeth: int, speed: float) -> Millimetre:
    """Feed of the table, mm/min, from the feed per tooth, mm, the teeth of the cutter and its speed, rpm."""
    return Millimetre(chip * teeth * speed)


def nearest_lower(wanted: float, listed: tuple[float, ...]) -> Chosen:
    """The fastest of the machine's own list that is not above the wanted one; its slowest, and said so, where all are above."""
    if not listed:
        return Chosen(wanted, None, False)
    below = [value for value in listed if value <= wanted * (1 + NEAR)]
    return Chosen(wanted, max(below), False) if below else Chosen(wanted, min(listed), True)


@dataclass(frozen=True, slots=True)
class SpeedAndFeed:
    """Both, with the material they were taken for. Speed in rpm, feed in mm/min; `surface` in ft/min, `chip` in mm."""

    material: Material
    surface: float
    chip: Millimetre
    teeth: int
    speed: Chosen
    feed: Chosen


def speed_and_feed(
    material: Material | None,
    outside: Millimetre,
    teeth: int | None,
    speeds: tuple[float, ...],
    feeds: tuple[float, ...],
) -> SpeedAndFeed:
    """Speed and feed of a form cutter on a machine's own lists (rpm, mm/min); an unnamed material is cut as steel.

    The feed is reckoned from the speed wanted, as the trade does, so that a speed listed a little lower does not lose a feed.
    """
    stuff = material or UNKNOWN
    chip = Millimetre(stuff.chip * 25.4)
    count = teeth or USUAL_TEETH
    wanted = cutter_speed(stuff.speed, outside)
    speed = nearest_lower(wanted, speeds)
    base = speed.value() if speed.slowest_too_fast else wanted
    return SpeedAndFeed(stuff, stuff.speed, chip, count, speed, nearest_lower(table_feed(chip, count, base), feeds))
