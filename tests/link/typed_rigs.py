"""The four invented rigs as a person would type them, units in the names."""

from __future__ import annotations

import json

from evenpitch.rig.rig import Rig
from evenpitch.store.files.rig_file import read_rig
from link.shop import raw_rigs


def typed(letter: str) -> Rig:
    """One of the four rigs as a person would type it, units in the names."""
    raw = raw_rigs()[letter]
    left_out = ("id", "name", "belt_head_teeth", "belt_motor_teeth", "pulses_per_work_turn", "worm_ratio", "backlash_arcsec")
    lines = "".join(f"{name} = {json.dumps(value)}\n" for name, value in raw.items() if name not in left_out)
    return read_rig(
        f'name = "{raw["name"]}"\n[head]\nworm_ratio = {raw["worm_ratio"]}\nbacklash_arcsec = {raw["backlash_arcsec"]}\n'
        f'[[plate]]\ncircles = [20]\n[link]\nbelt = "{raw["belt_motor_teeth"]}:{raw["belt_head_teeth"]}"\n{lines}'
    ).rig
