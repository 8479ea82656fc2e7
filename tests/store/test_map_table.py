"""A map found at commissioning goes into the rig's file and comes out of it the same."""

import math
from datetime import date
from pathlib import Path

import pytest

from evenpitch.quantity.units import RADIAN_PER_ARCSEC
from evenpitch.rig.maps import ErrorMap, Harmonic
from evenpitch.store.files.map_table import with_map

TEXT = (Path(__file__).parents[2] / "examples" / "museum-mill.toml").read_text()


def test_a_new_map_is_appended_and_the_old_stays():
    waves = (Harmonic(1, 38 * RADIAN_PER_ARCSEC, 0.3, 2 * RADIAN_PER_ARCSEC), Harmonic(40, 14 * RADIAN_PER_ARCSEC, -1.0))
    made = with_map(TEXT, ErrorMap(date(2026, 5, 1), waves))
    assert len(made.rig.maps) == 2
    latest = made.rig.latest_map()
    assert latest.date == date(2026, 5, 1)
    for wave, kept in zip(waves, latest.harmonics, strict=True):
        assert kept.amplitude == pytest.approx(wave.amplitude, rel=1e-3)
        assert math.remainder(kept.phase - wave.phase, 2 * math.pi) == pytest.approx(0, abs=1e-3)
    assert pytest.approx(2 * RADIAN_PER_ARCSEC) == latest.harmonics[0].U
    assert latest.harmonics[1].U is None
