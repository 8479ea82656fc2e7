"""Text becomes numbers here, and nowhere else: the door to every reader. All raise Refusal, and say what to write instead."""

from evenpitch.quantity.gear_line import read_gear_line
from evenpitch.quantity.numeral import Typed
from evenpitch.quantity.read_angle import read_angle
from evenpitch.quantity.read_length import read_length, read_limits
from evenpitch.quantity.read_list import read_belt, read_circles, read_whole_list
from evenpitch.quantity.read_number import is_unknown, read_number, read_ratio, read_whole
from evenpitch.quantity.read_physical import read_physical
from evenpitch.quantity.read_pitch import read_pitch

__all__ = [
    "Typed",
    "is_unknown",
    "read_angle",
    "read_belt",
    "read_circles",
    "read_gear_line",
    "read_length",
    "read_limits",
    "read_number",
    "read_physical",
    "read_pitch",
    "read_ratio",
    "read_whole",
    "read_whole_list",
]
