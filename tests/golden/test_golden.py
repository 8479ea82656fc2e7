"""The text of every example job, as plan, sheet and trial piece, held word for word.

A change here is a change of what people read: look at the difference, then write the files anew with EVENPITCH_GOLDEN=write.
"""

from __future__ import annotations

import os
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from evenpitch.job.linked_gear import on_gear
from evenpitch.job.planning import plan
from evenpitch.job.proven import ProofMade, with_proofs
from evenpitch.job.trial import trial
from evenpitch.rig.rig import Rig
from evenpitch.sheet.compose.plan import compose_plan
from evenpitch.sheet.compose.proving_sheet import head_sheet, proving_sheet
from evenpitch.sheet.compose.sheet import Issue, compose_sheet
from evenpitch.sheet.compose.trial import compose_trial
from evenpitch.sheet.document import Document
from evenpitch.sheet.print_text import text
from evenpitch.store.files.job_file import order_from
from evenpitch.web.prove_answer import reading_answer
from evenpitch.web.rig_proof import prove_rig
from job.shop import EXAMPLES, museum_mill, rig_of, rig_tables

HERE = Path(__file__).parent
ISSUED = Issue(1, "12 March 2026")


def order(name: str, rig: Rig | None = None):
    """The order of an example job."""
    return order_from((EXAMPLES / f"{name}.toml").read_text(encoding="utf-8"), rig or museum_mill())


def head_swing() -> Rig:
    """The second rig of the workshop."""
    return rig_of(rig_tables("museum-mill-head-swing"))


BLOCKS = {"block.left": "99.984", "block.middle": "99.982", "block.right": "99.979", "cutter.middle": "99.983"}
MOUNTED = {
    "along.top_left": "0", "along.top_middle": "0.02", "along.top_right": "0.03", "along.front_left": "0",
    "along.front_middle": "-0.01", "along.front_right": "0.02", "dial.read": "63.493", "strokes.read": "0 0.001 0.002 0", **BLOCKS,
}  # fmt: skip
LINKED = {"link.up": "34.9911", "link.down": "34.9378", "pen.rise": "30.6"}


def proof(linked: bool) -> Document:
    """The workshop's evening with scale and link."""
    rig, pair = museum_mill(), order("timing-pair") if linked else None
    return prove_rig(
        rig, MOUNTED | (LINKED if linked else {}), order=pair, job="B" if linked else "", today=date(2026, 6, 1)
    ).document


def proven_plan() -> Document:
    """The pinion's plan with a link that was proven on it."""
    made = plan(order("timing-pair"))
    link = ProofMade(kind="link", day=date(2026, 3, 12), gear=0, lead=made.gears[0].value("lead"), of_lead=141e-6)
    return compose_plan(with_proofs(made, (link,), date(2026, 6, 1)), 0)


DOCUMENTS: dict[str, Callable[[], Document]] = {
    "loom-change-wheel-plan": lambda: compose_plan(plan(order("loom-change-wheel"))),
    "loom-change-wheel-sheet": lambda: compose_sheet(plan(order("loom-change-wheel")), 0, ISSUED),
    "loom-change-wheel-trial": lambda: compose_trial(trial(order("loom-change-wheel"))),
    "timing-pair-plan-1": lambda: compose_plan(plan(order("timing-pair")), 0),
    "timing-pair-plan-2": lambda: compose_plan(plan(order("timing-pair")), 1),
    "timing-pair-sheet-1": lambda: compose_sheet(plan(order("timing-pair")), 0, ISSUED),
    "timing-pair-head-swing-sheet-1": lambda: compose_sheet(plan(order("timing-pair", head_swing())), 0),
    "timing-pair-plan-1-proven": proven_plan,
    "proof-mounting": lambda: proof(linked=False),
    "proof-link": lambda: proof(linked=True),
    "proving-sheet": lambda: proving_sheet(museum_mill(), on_gear(order("timing-pair").works[0].gear), "28 teeth"),
    "head-sheet": lambda: head_sheet(museum_mill()),
    "wrong-reading": lambda: reading_answer({"moved": "50mm", "shown": "200mm"}).document,
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
