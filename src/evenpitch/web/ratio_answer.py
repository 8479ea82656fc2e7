"""The ratio question: typed words in, whole numbers for the link out."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

from evenpitch.dividing.link_ratio import LARGEST
from evenpitch.job.lead_question import RatioQuestion, ask_ratio
from evenpitch.quantity.read_length import read_length
from evenpitch.quantity.read_number import read_number, read_whole
from evenpitch.quantity.refusal import Fault, refuse
from evenpitch.sheet.answers import answer
from evenpitch.sheet.compose.lead import compose_ratio
from evenpitch.web.answer import Answer
from evenpitch.web.divide_answer import PULSES_DO, PULSES_SLIP, PULSES_WORDS
from evenpitch.web.lead_answer import LONGEST, helix_of
from evenpitch.web.typed import Collected, Typed

LARGEST_FIELD = 2**31 - 1
LARGEST_COUNT = Fraction(254, 10)
"""mm of table travel; no scale or encoder counts as coarsely as an inch."""


def ratio_question(typed: Typed) -> Answer:
    """The ratio question answered."""
    collected = Collected()
    named = collected.read(typed, "helix-of", lambda text: helix_of(text, typed.get("face")), None)
    lead: Fraction | float | None = collected.read(typed, "lead", lambda text: _length(text, "lead"), None)
    pulses = collected.read(typed, "pulses-per-turn", _pulses, None)
    count = collected.read(typed, "count", lambda text: _length(text, "count"), None)
    fields = {name: collected.read(typed, name, _field(name), LARGEST) for name in ("largest-pulses", "largest-counts")}
    if lead is None and named is not None:
        lead = float(named[0])
    for name, value, example in (("lead", lead, "514.38mm"), ("pulses-per-turn", pulses, "192000"), ("count", count, "1um")):
        asked_for = {"lead", "helix-of"} if name == "lead" else {name}
        if value is None and not collected.refused & asked_for:
            collected.faults.append(Fault(name, "", f"for example {example}", "It was left out.", f"Add --{name} {example}."))
    collected.settle()
    assert lead is not None
    assert pulses is not None
    assert count is not None
    found = ask_ratio(
        RatioQuestion(
            lead=lead,
            pulses_per_turn=pulses,
            count=count,
            largest_pulses=fields["largest-pulses"],
            largest_counts=fields["largest-counts"],
            helix=None if named is None else named[1],
            diameter=named[2] if named is not None and "lead" in typed else None,
        )
    )
    facts: dict[str, Any] = found.ratio.facts()
    shown = answer(
        "ratio",
        (),
        found.findings,
        **facts,
        simpler=[ratio.facts() for ratio in found.simpler],
        decimal_traps=[trap.facts() for trap in found.traps],
    )
    return Answer(compose_ratio(found), shown)


def _field(name: str) -> Callable[[str], int]:
    return lambda text: read_whole(text, field=name, least=1, most=LARGEST_FIELD)


def _length(text: str, field: str) -> Fraction:
    found = read_length(text, field=field)
    longest, words, example = (LARGEST_COUNT, "25.4 mm", "1um") if field == "count" else (LONGEST, "1 km", "20.25in")
    if not 0 < found <= longest:
        likely = "A sign, a digit or the unit may be wrong."
        raise refuse(field, text, f"a length above 0 and up to {words}", likely, f"Write it with its unit: {example}.")
    return found


def _pulses(text: str) -> Fraction:
    found = read_number(text, field="pulses-per-turn")
    if not 1 <= found <= 10**9:
        raise refuse("pulses-per-turn", text, PULSES_WORDS, PULSES_SLIP, PULSES_DO)
    return found
