"""The order a question before or after the cut is about: a job by its file, its text or its name in the book, on a rig."""

from __future__ import annotations

from pathlib import Path

from evenpitch.job.order import Order
from evenpitch.quantity.read_number import read_whole
from evenpitch.quantity.refusal import refuse
from evenpitch.store.files.bounded import read_bounded
from evenpitch.store.files.job_file import read_job
from evenpitch.store.files.rig_file import read_rig
from evenpitch.web.opened import open_book
from evenpitch.web.planned import rig_of_job
from evenpitch.web.typed import Collected, Typed
from evenpitch.web.usual_rig import usual_rig


def order_of(job: Path | bytes | str, rig: bytes | str | None) -> Order:
    """The job (a path: a file, or else a name in the book; else its text) on the rig given, the book's, or the usual head."""
    if not isinstance(job, Path):
        return read_job(job).order((usual_rig() if rig is None else read_rig(rig)).rig)
    if job.is_file() or job.suffix == ".toml":
        return order_of(read_bounded(job), rig)
    with open_book() as book:
        kept = book.job(str(job))
        return read_job(kept.text).order((rig_of_job(book, kept) if rig is None else read_rig(rig)).rig)


def read_gear(typed: Typed, collected: Collected) -> int:
    """Which gear of a pair, 1 or 2."""
    return collected.read(typed, "gear", lambda text: read_whole(text, field="gear", least=1, most=2), 1)


def checked_gear(which: int, order: Order) -> int:
    """The same from 0; a Refusal where the job has no second gear."""
    if which > len(order.works):
        raise refuse("gear", which, f"1 to {len(order.works)}", "The job has no second gear.", "Leave it out.")
    return which - 1
