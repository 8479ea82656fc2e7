"""What is known beside the readings of an inspection, as typed or as a file, gathered for the explanation."""

from __future__ import annotations

from evenpitch.job.auditing import audit
from evenpitch.job.explaining import Known
from evenpitch.job.found_beside import logged
from evenpitch.job.plan import Plan
from evenpitch.job.predicting import expected_of
from evenpitch.job.seen import CONTACTS, Seen
from evenpitch.link.prediction import Expected
from evenpitch.quantity.read_length import read_length
from evenpitch.quantity.refusal import Fault, Refusal
from evenpitch.store.files.readings import read_log
from evenpitch.web.typed import Typed

DRAWS = 1000
"""Gears drawn for what to expect: enough for two figures of a quantile, and no wait on the page."""
AT_HAND = 24

_drawn: dict[tuple[int, int], tuple[Plan, Expected]] = {}


def known_of(made: Plan, index: int, typed: Typed) -> Known:
    """`typed`: seen ("marks = 0.9 mm; contact = one end") and log (the CSV of the link), both optional. A Refusal with every fault."""
    faults: list[Fault] = []
    seen, log = Seen(), None
    try:
        seen = read_seen(typed.get("seen", ""))
    except Refusal as refusal:
        faults += refusal.faults
    try:
        text = typed.get("log", "")
        log = logged(audit(read_log(text), made.order, gear=index)) if text.strip() else None
    except Refusal as refusal:
        faults += [Fault("log", one.given or one.field, one.expected, one.likely, one.do) for one in refusal.faults]
    if faults:
        raise Refusal(*faults)
    return Known(seen, predicted(made, index), log)


def predicted(made: Plan, index: int) -> Expected | None:
    """What the rig is expected to leave, where it has a link; drawn once for a plan at hand."""
    if made.order.rig.link is None:
        return None
    key = (id(made), index)
    held = _drawn.get(key)
    if held is None or held[0] is not made:
        while len(_drawn) >= AT_HAND:
            _drawn.pop(next(iter(_drawn)))
        held = _drawn[key] = (made, expected_of(made.order, made.gears[index], DRAWS))
    return held[1]


def read_seen(text: str) -> Seen:
    """What was seen on the flanks: "marks = 0.9 mm; contact = one end"."""
    marks, contact = None, None
    faults: list[Fault] = []
    for part in text.split(";"):
        name, equals, value = (one.strip().casefold() for one in part.partition("="))
        if not name:
            continue
        if name == "marks" and equals:
            try:
                marks = float(read_length(value, field="seen, marks"))
            except Refusal as refusal:
                faults += refusal.faults
                continue
            if not 0 < marks <= 100:
                faults.append(_fault(part, "a distance from 0 to 100 mm", "Marks lie beside each other on one flank."))
        elif name == "contact" and value in CONTACTS:
            contact = next(one for one in CONTACTS if one == value)
        else:
            faults.append(_fault(part, f"marks = a length, or contact = {', '.join(CONTACTS)}", "Another word."))
    if faults:
        raise Refusal(*faults)
    return Seen(marks, contact)


def _fault(part: str, expected: str, likely: str) -> Fault:
    return Fault("seen", part.strip(), expected, likely, "Write marks = 0.9 mm; contact = one end.")
