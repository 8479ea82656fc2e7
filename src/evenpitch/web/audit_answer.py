"""The log of a link as an answer: a table of rows and the job that was cut; what it proves, to read, as JSON and as files."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from evenpitch.job.auditing import LogAudit, audit
from evenpitch.job.order import Order
from evenpitch.quantity.read_number import read_whole
from evenpitch.quantity.refusal import refuse
from evenpitch.sheet.answers import answer
from evenpitch.sheet.compose.log_audit import compose_audit
from evenpitch.store.files.readings import MOST_LOG_ROWS, read_log
from evenpitch.web.answer import Answer
from evenpitch.web.order_asked import checked_gear, order_of, read_gear
from evenpitch.web.papers import page_file, pdf
from evenpitch.web.typed import Collected, Typed


def audit_answer(
    log: bytes | str,
    job: Path | bytes | str,
    typed: Typed | None = None,
    *,
    rig: bytes | str | None = None,
    most: int = MOST_LOG_ROWS,
) -> Answer:
    """What the link really did. Typed, all optional: gear (1 or 2 of a pair), space (under the cutter when the log begins) [1].

    `most`: rows that are read.
    """
    typed, collected = typed or {}, Collected()
    which = read_gear(typed, collected)
    space = read_space(typed, collected)
    collected.settle()
    order = order_of(job, rig)
    return log_answer(audited(log, order, checked_gear(which, order), space, most))


def read_space(typed: Typed, collected: Collected) -> int:
    """The space under the cutter when the log begins."""
    return collected.read(typed, "space", lambda text: read_whole(text, field="space", least=1, most=100_000), 1)


def audited(log: bytes | str, order: Order, gear: int, space: int, most: int) -> LogAudit:
    """The log read and held against one gear of the order; a Refusal with what is wrong with it."""
    teeth = order.works[gear].gear.teeth
    if space > teeth:
        raise refuse("space", space, f"1 to {teeth}", "The gear has no such space.", "Count from space 1.")
    return audit(read_log(log, most), order, gear=gear, space=space)


def log_answer(found: LogAudit) -> Answer:
    """An audited log to read, as JSON, and as files."""
    document = compose_audit(found)
    files: dict[str, Callable[[], bytes]] = {"pdf": lambda: pdf(document), "html": lambda: page_file(document)}
    return Answer(document, answer("audit", (), found.findings, **found.facts()), files)
