"""A head map as the table that goes into RIG.toml: appended, never written over, so that older maps stay."""

from __future__ import annotations

import math

from evenpitch.quantity.units import RADIAN_PER_ARCSEC
from evenpitch.rig.maps import ErrorMap, Harmonic
from evenpitch.store.files.rig_file import RigFile, read_rig


def map_table(found: ErrorMap) -> str:
    """[[map]] with its date and waves."""
    waves = "".join(f"  {_wave(wave)},\n" for wave in found.harmonics)
    return f"[[map]]\ndate = {found.date.isoformat()}\nharmonics = [\n{waves}]\n"


def _wave(wave: Harmonic) -> str:
    amplitude, phase = wave.amplitude / RADIAN_PER_ARCSEC, math.degrees(wave.phase) % 360
    doubt = "" if wave.U is None else f', U = "{wave.U / RADIAN_PER_ARCSEC:.2f} arcsec"'
    return f'{{ per_turn = {wave.per_turn}, amplitude = "{amplitude:.2f} arcsec", phase = "{phase:.1f}"{doubt} }}'


def with_map(text: str, found: ErrorMap) -> RigFile:
    """The rig's file with one more map at its end, read back."""
    return read_rig(f"{text.rstrip()}\n\n{map_table(found)}")
