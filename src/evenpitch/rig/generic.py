"""Usual sets to start a rig from, named by what is in them, never by a maker."""

from __future__ import annotations

from evenpitch.rig.head import ChangeGears, Plate

PLATE_SETS: dict[str, tuple[Plate, ...]] = {
    "three plates, 15 to 49 holes": (
        Plate((15, 16, 17, 18, 19, 20)),
        Plate((21, 23, 27, 29, 31, 33)),
        Plate((37, 39, 41, 43, 47, 49)),
    ),
    "one plate, two sides, 24 to 66 holes": (
        Plate((24, 25, 28, 30, 34, 37, 38, 39, 41, 42, 43)),
        Plate((46, 47, 49, 51, 53, 54, 57, 58, 59, 62, 66)),
    ),
}
"""Practical Treatise on Milling and Milling Machines, ch. IV; OD1644, fig. 11."""

GEAR_SETS: dict[str, ChangeGears] = {
    "twelve gears, 24 to 100": ChangeGears((24, 24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100)),
    "twelve gears in fives, 25 to 100": ChangeGears((25, 25, 30, 35, 40, 50, 55, 60, 70, 80, 90, 100)),
    "no change gears": ChangeGears(()),
}
"""Practical Treatise on Milling and Milling Machines, pp. 52-57 (the first); the set in fives from memory."""

RATIOS = (40, 60, 72, 80, 90, 120)
"""Worm ratios met in the trade; common practice."""

DIRECT_PLATES = (24, 30, 36, 60)
"""Holes of plates on the spindle nose; 24 is the usual one."""
