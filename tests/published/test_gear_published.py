"""Every printed figure about gears is reproduced to half its last digit, or the row says why print is off."""

from __future__ import annotations

import pytest

from evenpitch.sources.library import source_named
from published.row import Row
from published.rows_gear import CUT_OFF, rows


@pytest.mark.parametrize("row", rows(), ids=lambda row: f"{row.source}: {row.what}")
def test_printed_figure(row: Row) -> None:
    assert row.agrees == (row.note == ""), (row.printed, row.computed)
    assert source_named(row.source)
    assert row.held in ("text read", "from memory")


def test_what_print_has_wrong_is_counted() -> None:
    off = [row for row in rows() if not row.agrees]
    assert [row.what for row in off if row.note != CUT_OFF] == [
        "m 3, alpha 20, z1 16, z2_internal 24, x1 0, x2 0.5: alpha_w, deg",
        "m 3, alpha 20, z1 16, z2_internal 24, x1 0, x2 0.5: y",
        "m 1, alpha 20, x 0: W_z100_k12, mm",
        "m_t 3, alpha_t 20, beta 33 deg 33 min 26.3 s, z 36, x_t 0.2, dp 4.5: phi, deg",
        "m_t 3, alpha_t 20, beta 33 deg 33 min 26.3 s, z 36, x_t 0.2, dp 4.5: inv_phi_check, rad",
        "module 5.5: addendum in",
    ]
    assert sum(row.note == CUT_OFF for row in off) == 27
