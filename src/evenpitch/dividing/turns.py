"""Crank turns in words: exact, as the trade writes them."""

from __future__ import annotations

from fractions import Fraction

from evenpitch.quantity.showing import several


def turns_text(turns: Fraction) -> str:
    """The number as a short decimal where that is exact, else as a mixed number: "38.8", "41 1/11", "12/11" stays "1 1/11"."""
    if turns < 0:
        return f"-{turns_text(-turns)}"
    if (turns * 1000).denominator == 1:
        return f"{float(turns):.3f}".rstrip("0").rstrip(".")
    whole, rest = divmod(turns, 1)
    return f"{whole} {rest}" if whole else str(rest)


def move_text(whole_turns: int, circle: int, spaces: int) -> str:
    """One move of the crank: "1 turn + 9 of 21", "5 turns", "8 of 20"."""
    turns = several(whole_turns, "turn") if whole_turns else ""
    holes = f"{spaces} of {circle}" if spaces else ""
    return " + ".join(part for part in (turns, holes) if part) or "none"


def sum_text(whole_turns: int, circle: int, spaces: int) -> str:
    """One move of the crank inside a sum: "1 + 9/21", "5", "8/20"."""
    parts = [str(whole_turns)] if whole_turns or not spaces else []
    return " + ".join(parts + ([f"{spaces}/{circle}"] if spaces else []))
