"""Bare numbers, whole numbers and ratios, from text."""

from __future__ import annotations

import re
from fractions import Fraction

from evenpitch.quantity.numeral import ALIKE, Asked, Typed, asked, take_number

_UNKNOWN = {"", "?", "??", "dont know", "do not know", "dunno", "unknown", "not known", "i dont know"}


def is_unknown(text: Typed | None) -> bool:
    """Whether the person said that it is not known: "don't know", "unknown", "?", or nothing at all."""
    if text is None:
        return True
    plain = str(text).translate(ALIKE).replace("'", "").strip().casefold().rstrip(".")
    return " ".join(plain.split()) in _UNKNOWN


def read_number(text: Typed, *, field: str, least: Fraction | int | None = None, most: Fraction | int | None = None) -> Fraction:
    """A number without a unit, exact: 14.5, 14½, 1 3/8, 1-3/8, .375, 0,375, 192 000, 6.6e-5."""
    question, plain = asked(text, field, _range("a number", least, most))
    value = _whole_text(plain, question)
    _check_range(value, question, least, most)
    return value


def read_whole(text: Typed, *, field: str, least: int, most: int, words: tuple[str, ...] = ()) -> int:
    """A whole number within its range. `words` may follow it, such as "teeth" or "holes"."""
    question, plain = asked(text, field, f"a whole number from {least} to {most}")
    value, rest = take_number(plain, question)
    if rest and rest.casefold() not in words:
        raise question.no(f"{rest!r} is not part of a number.", "Write the number alone.")
    if value.denominator != 1:
        raise question.no(f"{float(value):.7g} is not a whole number.", "Count again, and write a whole number.")
    _check_range(value, question, least, most)
    return int(value)


def read_ratio(text: Typed, *, field: str, turned_over: bool = False) -> Fraction:
    """A ratio as one exact number: 40, 40:1, 40 to 1, 5/2. "1:40" is asked back unless `turned_over` says that it may be meant."""
    question, plain = asked(text, field, "a ratio such as 40, 40:1 or 5/2")
    parts = re.split(r" ?: ?| to ", plain)
    if len(parts) > 2:
        raise question.no("More than two numbers were given.", "Write two numbers with one colon between them, such as 40:1.")
    numbers = [_whole_text(part.strip(), question) for part in parts]
    if min(numbers) <= 0:
        raise question.no("A ratio is of numbers above 0.", "Write it again, such as 40:1.")
    if len(numbers) == 2 and numbers[0] == 1 and numbers[1] > 1 and not turned_over:
        other = parts[1].strip()
        raise question.no(f"Turned over, this is {other}:1.", f"Write {other}:1 if it takes {other} turns in for one turn out.")
    return numbers[0] / numbers[1] if len(numbers) == 2 else numbers[0]


def _whole_text(plain: str, question: Asked) -> Fraction:
    value, rest = take_number(plain, question)
    if rest:
        raise question.no(f"{rest[:30]!r} is not part of a number.", "Write the number alone, like 14.5, 14½, 1 3/8 or .375.")
    return value


def _range(what: str, least: Fraction | int | None, most: Fraction | int | None) -> str:
    if least is not None and most is not None:
        return f"{what} from {_short(least)} to {_short(most)}"
    if least is not None:
        return f"{what} of at least {_short(least)}"
    return f"{what} of at most {_short(most)}" if most is not None else what


def _short(value: Fraction | int) -> str:
    return f"{float(value):.7g}"


def _check_range(value: Fraction, question: Asked, least: Fraction | int | None, most: Fraction | int | None) -> None:
    if least is not None and value < least:
        raise question.no(f"{_short(value)} is below {_short(least)}.", "Check the digits and the decimal mark.")
    if most is not None and value > most:
        raise question.no(f"{_short(value)} is above {_short(most)}.", "Check the digits and the decimal mark.")
