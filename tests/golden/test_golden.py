"""The text of every example job, as plan, sheet and trial piece, held word for word.

A change here is a change of what people read: look at the difference, then write the files anew with EVENPITCH_GOLDEN=write.
"""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

import pytest

from evenpitch.job.planning import plan
from evenpitch.job.trial import trial
from evenpitch.rig.rig import Rig
from evenpitch.sheet.compose.plan import compose_plan
from evenpitch.sheet.compose.sheet import Issue, compose_sheet
from evenpitch.sheet.compose.trial import compose_trial
from evenpitch.sheet.document import Document
from evenpitch.sheet.print_text import text
from evenpitch.store.files.job_file import order_from
from job.shop import EXAMPLES, museum_mill, rig_of, rig_tables

HERE = Path(__file__).parent
ISSUED = Issue(1, "12 March 2026")


def order(name: str, rig: Rig | None = None):
    """The order of an example job."""
    return order_from((EXAMPLES / f"{name}.toml").read_text(encoding="utf-8"), rig or museum_mill())


def head_swing() -> Rig:
    """The second rig of the workshop."""
    return rig_of(rig_tables("museum-mill-head-swing"))


DOCUMENTS: dict[str, Callable[[], Document]] = {
    "loom-change-wheel-plan": lambda: compose_plan(plan(order("loom-change-wheel"))),
    "loom-change-wheel-sheet": lambda: compose_sheet(plan(order("loom-change-wheel")), 0, ISSUED),
    "loom-change-wheel-trial": lambda: compose_trial(trial(order("loom-change-wheel"))),
    "timing-pair-plan-1": lambda: compose_plan(plan(order("timing-pair")), 0),
    "timing-pair-plan-2": lambda: compose_plan(plan(order("timing-pair")), 1),
    "timing-pair-sheet-1": lambda: compose_sheet(plan(order("timing-pair")), 0, ISSUED),
    "timing-pair-head-swing-sheet-1": lambda: compose_sheet(plan(order("timing-pair", head_swing())), 0),
    "draft-wheel-plan": lambda: compose_plan(plan(order("draft-wheel"))),
    "draft-wheel-sheet": lambda: compose_sheet(plan(order("draft-wheel")), 0, ISSUED),
}


@pytest.mark.parametrize("name", DOCUMENTS)
def test_document_reads_as_kept(name: str) -> None:
    made = text(DOCUMENTS[name]())
    kept = HERE / f"{name}.txt"
    if os.environ.get("EVENPITCH_GOLDEN") == "write":
        kept.write_text(made + "\n", encoding="utf-8")
    assert made + "\n" == kept.read_text(encoding="utf-8")
