"""What is asked in full only, so that the README's test command stays short."""

from __future__ import annotations

import os

import pytest


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Skip, with the reason, what is marked `full`."""
    if os.environ.get("EVENPITCH_FULL") == "1":
        return
    for item in items:
        if item.get_closest_marker("full"):
            item.add_marker(pytest.mark.skip(reason="asked in full only, as .ci/run does: EVENPITCH_FULL=1"))
