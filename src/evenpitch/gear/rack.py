"""Depth systems: the basic rack that a gear's addendum and dedendum come from."""

from __future__ import annotations

import math
from dataclasses import dataclass

from evenpitch.gear.gear import DepthSystem
from evenpitch.quantity.pitch import Pitch
from evenpitch.quantity.units import Millimetre, Radian
from evenpitch.sources.citations import cites


@dataclass(frozen=True, slots=True)
class Rack:
    """A basic rack. Factors are multiples of the normal module; `extra` is a fixed length added to the dedendum, mm.

    `root_radius` is the factor of the root radius, None where the system leaves it to the cutter's maker.
    """

    addendum: float
    dedendum: float
    extra: Millimetre = Millimetre(0.0)
    root_radius: float | None = None
    sources: tuple[str, ...] = ()
    words: str = ""


RACKS: dict[DepthSystem, Rack] = {
    "full": Rack(1.0, 1.25, sources=("ANSI B6.1", "ISO 53:1998"), words="full depth, 2.25 modules"),
    "14.5": Rack(1.0, 1.157, sources=("ANSI B6.1",), words="old full depth, 2.157 modules"),
    "stub": Rack(0.8, 1.0, sources=("ANSI B6.1",), words="stub, 1.8 modules"),
    "fine": Rack(1.0, 1.2, Millimetre(0.0508), sources=("ANSI B6.7",), words="fine pitch, 2.2 modules and 0.002 in"),
    "iso53-a": Rack(1.0, 1.25, root_radius=0.38, sources=("ISO 53:1998, A",), words="ISO 53 A, 2.25 modules"),
    "iso53-b": Rack(1.0, 1.25, root_radius=0.30, sources=("ISO 53:1998, B",), words="ISO 53 B, 2.25 modules"),
    "iso53-c": Rack(1.0, 1.25, root_radius=0.25, sources=("ISO 53:1998, C",), words="ISO 53 C, 2.25 modules"),
    "iso53-d": Rack(1.0, 1.40, root_radius=0.39, sources=("ISO 53:1998, D",), words="ISO 53 D, 2.4 modules"),
}
"""The systems by the name typed. The depth really cut is the one marked on the cutter."""


@cites("ANSI B6.1", "ANSI B6.7", "ISO 53:1998", formula="h_a = h_a* m_n")
def rack_addendum(system: DepthSystem, module: Millimetre) -> Millimetre:
    """Addendum of the basic rack, mm, at normal module `module` mm."""
    return Millimetre(RACKS[system].addendum * module)


@cites("ANSI B6.1", "ANSI B6.7", "ISO 53:1998", formula="h_f = h_f* m_n (fine pitch: + 0.002 in)")
def rack_dedendum(system: DepthSystem, module: Millimetre) -> Millimetre:
    """Dedendum of the basic rack, mm, at normal module `module` mm; the fixed 0.002 in of fine pitch does not scale."""
    rack = RACKS[system]
    return Millimetre(rack.dedendum * module + rack.extra)


def usual_depth(pressure_angle: Radian) -> DepthSystem:
    """The usual system where none is named: the old 2.157 for 14½°, else full depth (common practice)."""
    return "14.5" if abs(math.degrees(pressure_angle) - 14.5) < 0.01 else "full"


def fine_is_usual(pitch: Pitch, pressure_angle: Radian) -> bool:
    """True where the trade would ask "fine pitch?": 20 diametral pitch and finer, at 20° (ANSI B6.7, from memory)."""
    fine = pitch.kind == "diametral pitch" and pitch.value >= 20
    return fine and abs(math.degrees(pressure_angle) - 20.0) < 0.01
