"""A job as kept in the book, or as a file, becomes a plan."""

from __future__ import annotations

from datetime import date
from functools import lru_cache

from evenpitch.job.plan import Plan
from evenpitch.job.planning import plan
from evenpitch.job.proven import with_proofs
from evenpitch.store.book import Book
from evenpitch.store.files.job_file import read_job
from evenpitch.store.files.rig_file import RigFile, read_rig
from evenpitch.store.kept import KeptJob
from evenpitch.web.opened import clock
from evenpitch.web.proofs_made import proofs_of
from evenpitch.web.usual_rig import usual_rig

KEPT_PLANS = 24
"""Plans kept at hand: the same words on the same rig always give the same plan."""


@lru_cache(maxsize=KEPT_PLANS)
def planned(job_text: str, rig_text: str) -> Plan:
    """The plan of a job's text on a rig's text."""
    return plan(read_job(job_text).order(_rig(rig_text).rig))


@lru_cache(maxsize=KEPT_PLANS)
def _rig(text: str) -> RigFile:
    """A rig's text, read; the jobs of one shop are on the same."""
    return read_rig(text)


def rig_of_job(book: Book, kept: KeptJob) -> RigFile:
    """The rig of a job, as it is now; the usual one where the job names none."""
    return usual_rig() if kept.rig is None else _rig(book.rig(kept.rig).text)


def plan_of(book: Book, kept: KeptJob, today: date | None = None) -> Plan:
    """The plan of a job in the book, with what was proven of its rig; `today`: what tells old from new, the clock's if left out."""
    rig = rig_of_job(book, kept)
    proofs = () if kept.rig is None else proofs_of(book, kept.rig, rig.rig, kept.name)
    return with_proofs(planned(kept.text, rig.text), proofs, today or clock().date())
