"""Everything a plan or an inspection may have to say beside its figures, code by code; the texts stand by subject in job/kinds/.

`says` is filled with the figures of the case; `why`, `do` and the sources belong to the code. A test produces each of them.
"""

from __future__ import annotations

from evenpitch.checking.notes import NOTES as CHECKING
from evenpitch.job.kinds import (
    blank,
    cutter,
    dividing,
    every_job,
    gear,
    inspection,
    lead_and_link,
    measuring,
    pair,
    proven_rig,
    repeating,
    room_and_speed,
    virtual_cut,
)
from evenpitch.link.notes import NOTES as LINK
from evenpitch.quantity.finding import Finding, Kind

SUBJECTS = (
    gear,
    measuring,
    pair,
    blank,
    cutter,
    dividing,
    virtual_cut,
    lead_and_link,
    room_and_speed,
    inspection,
    repeating,
    proven_rig,
    every_job,
)

KINDS: dict[str, Kind] = {code: kind for subject in SUBJECTS for code, kind in subject.KINDS.items()}

EVERY_KIND: dict[str, Kind] = {**KINDS, **CHECKING, **LINK}
"""With what readings, prediction, simulation and audit may have to say: the whole of docs/findings.md."""


def finding(code: str, **facts: object) -> Finding:
    """The finding of that code with its texts filled from the facts of the case."""
    return KINDS[code].of(code, **facts)
