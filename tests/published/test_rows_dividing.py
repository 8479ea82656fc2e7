"""Every printed figure about dividing is reproduced to half its last digit, or does not stand and says why."""

from __future__ import annotations

import pytest

from evenpitch.sources.library import source_named
from published.row import Row
from published.rows_dividing import STANDS_NOT, rows


@pytest.mark.parametrize("row", rows(), ids=lambda row: f"{row.source}: {row.what}")
def test_printed_figure(row: Row) -> None:
    assert row.agrees == (not row.note.startswith(STANDS_NOT)), (row.printed, row.computed)
    assert source_named(row.source).held == row.held
