"""The head's own error, as far as it is known."""

from __future__ import annotations

from evenpitch.dividing.rank import HEAD_ERROR_ARCSEC
from evenpitch.quantity.units import RADIAN_PER_ARCSEC
from evenpitch.rig.rig import Rig


def head_error(rig: Rig) -> tuple[float, bool]:
    """The head's own error in seconds of arc, and whether it was measured: its largest wave, or the usual ±45″."""
    found = rig.latest_map()
    if found is None or not found.harmonics:
        return HEAD_ERROR_ARCSEC, False
    return max(wave.amplitude for wave in found.harmonics) / RADIAN_PER_ARCSEC, True
