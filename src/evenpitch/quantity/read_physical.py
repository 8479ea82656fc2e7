"""Speeds, torques, electrical and other quantities from text."""

from __future__ import annotations

import re

from evenpitch.quantity.numeral import Typed, asked, take_number
from evenpitch.quantity.physical_units import QUANTITIES, Kind

_WORDS = tuple(
    (re.compile(pattern), short)
    for pattern, short in (
        (r"²|\^2", "2"),
        (r"ω", "ohm"),
        (r"\binch(es)?\b|\"", "in"),
        (r"\bf(ee|oo)t\b", "ft"),
        (r"\bsurface ", ""),
        (r"\bpounds?\b", "lbf"),
        (r"\bounces?\b", "ozf"),
        (r"\bnewton met(re|er)s?\b", "nm"),
        (r"\bmillimet(re|er)s?\b", "mm"),
        (r"\bmet(re|er)s?\b", "m"),
        (r"\bper cent\b", "percent"),
        (r"\b(seconds?|sec)\b", "s"),
        (r"\bminutes?\b", "min"),
        (r"(?<=\w) (per|an?) (?=\w)|^per ", "/"),
    )
)
_INVERSE = re.compile(r"(min|s)\^?-1")
_JOINS = re.compile(r"[ ·⋅.*×-]")


def read_physical(text: Typed, kind: Kind, *, field: str, bare: str | None = None) -> float:
    """A quantity in the unit that `kind` is kept in. A number without a unit is in `bare`; where that is None it is asked back.

    Kept in: feed mm/min, cutting speed m/min, rotation rpm, torque Nm, force N, time s, temperature °C, a difference K, V, A, H, ohm,
    inertia kg m2, frequency Hz, share as a plain number.
    """
    quantity = QUANTITIES[kind]
    question, plain = asked(text, field, f"a {kind} such as {quantity.examples}")
    value, rest = take_number(plain, question)
    spelling = spelled(rest) if rest or bare is None else spelled(bare)
    if spelling not in quantity.factors:
        likely = f"{rest[:30]!r} is no unit of {kind} here." if rest else "The unit is missing."
        raise question.no(likely, f"Write it like {quantity.examples}.")
    if value < 0 and not quantity.signed:
        raise question.no("It is below 0.", "Write it without the sign.")
    return float(value * quantity.factors[spelling] + quantity.offsets.get(spelling, 0))


def spelled(unit: str) -> str:
    """A unit as the tables spell it: small letters, no spaces, dots or hyphens, "/" for per."""
    plain = unit.casefold().strip()
    if found := _INVERSE.fullmatch(plain):
        return f"1/{found.group(1)}"
    for word, short in _WORDS:
        plain = word.sub(short, plain)
    return _JOINS.sub("", plain)
