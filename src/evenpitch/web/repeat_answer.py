"""The same job on another rig: words and files in, an answer out."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from evenpitch.job.order import Order
from evenpitch.job.repeating import repeat
from evenpitch.rig.rig import Rig
from evenpitch.sheet.answers import findings_json
from evenpitch.sheet.compose.plan_json import plan_json
from evenpitch.sheet.compose.repeating import compose_repeat
from evenpitch.store.files.rig_file import read_rig
from evenpitch.web.answer import Answer
from evenpitch.web.papers import pdf, sheet_document
from evenpitch.web.plan_answer import plan_at, together


def repeat_answer(job: Path | str, other: bytes, *, was: bytes | None = None) -> Answer:
    """The plan of a job on the rig `other`, beside what it was on its own rig or on `was`."""
    return repeated_answer(plan_at(job, was).order, read_rig(other).rig)


def repeated_answer(order: Order, other: Rig) -> Answer:
    """The same of an order at hand."""
    made = repeat(order, other)
    told: dict[str, Any] = plan_json(made.now)
    told |= {
        "command": "repeat",
        "findings": findings_json(made.findings),
        "rig": {"was": made.was.order.rig.name, "now": made.now.order.rig.name},
        "differences": [{"gear": one.gear + 1, "what": one.what, "was": one.was, "now": one.now} for one in made.differences],
        "kept": list(made.kept),
    }
    gears = range(len(made.now.gears))
    return Answer(
        compose_repeat(made), told, {"pdf": lambda: pdf(together(tuple(sheet_document(made.now, index) for index in gears)))}
    )
