"""For any gear, cutter and setting the closed form and the slices leave the same flank, and the two flanks are mirror images."""

from __future__ import annotations

import math
import os

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenpitch.flank.case_reading import read_case
from evenpitch.flank.envelope import by_slices, deviations
from evenpitch.flank.inspection import profile_rolls

EXAMPLES = 150 if os.environ.get("EVENPITCH_FULL") == "1" else 15


@pytest.mark.long
@settings(max_examples=EXAMPLES, deadline=None)
@given(
    teeth=st.sampled_from([12, 13, 17, 24, 37, 60, 127]),
    module=st.sampled_from([0.5, 1.0, 2.0, 3.0]),
    helix=st.sampled_from([0, 10, -15, 20, -30, 45]),
    outside=st.sampled_from([50, 60, 80]),
    share=st.sampled_from([0.9, 1.0, 1.1]),
    corner=st.sampled_from([0.0, 0.125, 0.25]),
    kind=st.sampled_from(["numbered", "exact", "vee"]),
    swing=st.sampled_from([0.0, 0.2, -0.5, 1.0]),
    offset=st.sampled_from([0.0, 0.05]),
    sink=st.sampled_from([0.0, 0.03, -0.03]),
)
def test_two_routes_and_two_flanks(
    teeth: int,
    module: float,
    helix: int,
    outside: int,
    share: float,
    corner: float,
    kind: str,
    swing: float,
    offset: float,
    sink: float,
) -> None:
    count = max(12, round(share * teeth / math.cos(math.radians(helix)) ** 3))
    cutter = {
        "numbered": {"teeth": count, "module": module, "tip_corner_mm": corner * module},
        "exact": {"tip_corner_mm": 0.1 * module},
        "vee": {"included_angle_deg": 35, "tip_flat_mm": 0.6 * module, "tip_corner_mm": 0.1 * module},
    }[kind]
    case = {
        "gear": {"teeth": teeth, "module": module, "helix_deg": helix},
        "cutter": {"kind": kind, "outside_dia_mm": outside, **cutter},
        "setup": {"swivel_error_deg": swing, "offset_mm": offset, "sink_mm": sink},
    }
    cut = read_case(case).cut
    other = read_case({**case, "setup": {**case["setup"], "offset_mm": -offset}}).cut
    u = profile_rolls(cut.wanted, 31)[1:]
    middle, first = np.zeros(30), np.zeros(30, dtype=np.int64)
    found = deviations(cut, u, middle, first, 1)
    apart = 1e3 * np.abs(found - by_slices(cut, u, middle, first, 1))
    assert np.median(apart) < 0.001
    assert apart.max() < 0.05
    assert np.array_equal(found, deviations(other, u, middle, first, -1)) or kind == "exact"
    assert 1e3 * np.abs(found - deviations(other, u, middle, first, -1)).max() < 1e-6
