"""Every printed figure about motors and drawn distributions is reproduced."""

from __future__ import annotations

import pytest

from evenpitch.sources.library import source_named
from published.row import Row
from published.rows_link import rows


@pytest.mark.parametrize("row", rows(), ids=lambda row: f"{row.source}: {row.what}")
def test_printed_figure(row: Row) -> None:
    assert row.agrees, (row.printed, row.computed)
    assert source_named(row.source).held in ("from memory", "quoted second-hand", "text read")
