"""Predictions kept at hand: the same words on the same rig, with the same draws, always give the same one."""

from __future__ import annotations

from functools import lru_cache

from evenpitch.dividing.link_ratio import LARGEST
from evenpitch.job.predicting import Prediction, predict
from evenpitch.store.files.job_file import read_job
from evenpitch.store.files.rig_file import read_rig

KEPT = 16
"""Predictions kept at hand."""
SEED = 1
PAGE_DRAWS, PAGE_IMPROVING = 5000, 600
"""Gears drawn while a page is waited for: a probability repeats to 0.01, and the page comes in a second or two."""
MOST_PAGE_DRAWS = 20_000


@lru_cache(maxsize=KEPT)
def predicted(
    job_text: str,
    rig_text: str,
    index: int,
    draws: int = PAGE_DRAWS,
    improving: int = PAGE_IMPROVING,
    fields: tuple[int, int] = (LARGEST, LARGEST),
) -> Prediction:
    """What the rig of one text leaves on a gear of the job of the other."""
    order = read_job(job_text).order(read_rig(rig_text).rig)
    return predict(order, draws, SEED, gear=index, improving=improving, fields=fields)
