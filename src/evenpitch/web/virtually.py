"""Plans cut virtually: kept at hand, for looking at one cutter after the other asks the same search again and again."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from evenpitch.job.plan import Plan
from evenpitch.web.planned import planned

if TYPE_CHECKING:
    from evenpitch.job.virtual_cutting import VirtualCut

KEPT = 24
"""Searches kept at hand."""


@lru_cache(maxsize=KEPT)
def virtually_cut(job_text: str, rig_text: str, index: int) -> tuple[Plan, VirtualCut]:
    """The plan of a job's text on a rig's text, and every cutter weighed on one of its gears."""
    from evenpitch.job.virtual_cutting import virtual_cut

    made = planned(job_text, rig_text)
    return made, virtual_cut(made.order, made.gears[index])
