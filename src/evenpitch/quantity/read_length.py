"""Lengths from text, exact, in millimetres; and the two limits of a tolerance."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Literal

from evenpitch.quantity.numeral import Asked, Typed, asked, take_number
from evenpitch.quantity.refusal import Refusal
from evenpitch.quantity.units import INCH

EXPECTED = "a length such as 3.520 in, 1-3/8 in, 10 thou or 89.41 mm"

_PARTS_OF_MM = {
    **dict.fromkeys(("tenth", "tenths"), Fraction(1, 10)),
    **dict.fromkeys(("hundredth", "hundredths"), Fraction(1, 100)),
    **dict.fromkeys(("thousandth", "thousandths"), Fraction(1, 1000)),
}
_MILLIMETRES: dict[str, Fraction] = {
    **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeter", "millimeters"), Fraction(1)),
    **dict.fromkeys(("cm", "centimetre", "centimetres", "centimeter", "centimeters"), Fraction(10)),
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), Fraction(1000)),
    **dict.fromkeys(("um", "micron", "microns", "micrometre", "micrometres", "micrometer", "micrometers"), Fraction(1, 1000)),
    **dict.fromkeys(("in", "ins", "inch", "inches", '"', "''"), INCH),
    **dict.fromkeys(("thou", "thous", "thousandth of an inch", "thousandths of an inch"), INCH / 1000),
    **dict.fromkeys(("tenth", "tenths", "tenth of a thou", "tenths of a thou"), INCH / 10_000),
    **dict.fromkeys(("hundredth of an inch", "hundredths of an inch"), INCH / 100),
    **{f"{part} of a {unit}": size for unit in ("mm", "millimetre") for part, size in _PARTS_OF_MM.items()},
    **dict.fromkeys(("ft", "foot", "feet"), 12 * INCH),
}
"""Millimetres in each unit. A tenth is a tenth of a thou, as the trade says it (common practice)."""

_TWO_MEANINGS: dict[str, tuple[Fraction, Fraction]] = {
    **dict.fromkeys(("mil", "mils"), (Fraction(1, 1000), Fraction(1))),  # a thousandth of an inch, or a millimetre
    **dict.fromkeys(("hundredth", "hundredths"), (Fraction(1, 100), Fraction(1, 100))),
    **dict.fromkeys(("thousandth", "thousandths"), (Fraction(1, 1000), Fraction(1, 1000))),
}
"""Words of two meanings: the part of an inch, and the part of a millimetre, that each may be."""

_WORDS = ("", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
_PARTS = {"half": "1/2", "quarter": "1/4", "three quarters": "3/4", "third": "1/3", "eighth": "1/8"}
_PART_OF = re.compile(rf"(?:an? |one )?({'|'.join(_PARTS)})(?: of)?(?: an?)? (.+)")
_COUNT_OF = re.compile(rf"(an?|{'|'.join(_WORDS[1:])}) (.+)")
_FEET_FIRST = re.compile(r"(?:ft\.?|foot|feet|'(?!')) *(?=[\d.])")


def read_length(text: Typed, *, field: str, bare: Literal["mm", "in"] | None = "mm") -> Fraction:
    """A length in millimetres, exact. A number without a unit is in `bare`; where that is None it is asked back."""
    question, plain = asked(text, field, EXPECTED)
    plain = in_figures(plain.casefold())
    if plain.rstrip(".") in _TWO_MEANINGS:
        raise _which(plain.rstrip("."), Fraction(1), question)
    value, rest = take_number(plain, question)
    feet = _FEET_FIRST.match(rest)
    if feet:
        return _feet_and_inches(value, rest[feet.end() :], question)
    return value * _factor(rest, value, question, bare)


def in_figures(plain: str) -> str:
    """Number words at the head as figures: "half a thou" is "1/2 thou", "two tenths" is "2 tenths"."""
    if found := _PART_OF.fullmatch(plain):
        return f"{_PARTS[found.group(1)]} {found.group(2)}"
    if found := _COUNT_OF.fullmatch(plain):
        word = found.group(1)
        return f"{_WORDS.index(word) if word in _WORDS else 1} {found.group(2)}"
    return plain


def _feet_and_inches(feet: Fraction, rest: str, question: Asked) -> Fraction:
    inches, unit = take_number(rest, question)
    if unit.rstrip(".") not in _MILLIMETRES or _MILLIMETRES[unit.rstrip(".")] != INCH or inches < 0:
        raise question.no("Inches must follow feet.", "Write it like 1 ft 2 1/4 in.")
    return (12 * feet + (inches if feet >= 0 else -inches)) * INCH


def _factor(unit: str, value: Fraction, question: Asked, bare: Literal["mm", "in"] | None) -> Fraction:
    unit = " ".join(unit.rstrip(".").split())
    unit = unit.removeprefix("of an ").removeprefix("of a ")
    if unit in _MILLIMETRES:
        return _MILLIMETRES[unit]
    if unit in _TWO_MEANINGS:
        raise _which(unit, value, question)
    number = plain_decimal(value)
    if unit == "'":
        raise question.no(f"{number}' may be feet, or inches with a stroke left out.", f"Write {number} ft or {number} in.")
    if unit:
        raise question.no(f"{unit[:30]!r} is no unit of length here.", "Use mm, in, thou, tenths, um, cm, m or ft.")
    if bare is None:
        raise question.no(
            f"No unit: {number} mm is {plain_decimal(value / INCH, 4)} in, {number} in is {plain_decimal(value * INCH, 3)} mm.",
            f"Write {number} mm or {number} in.",
        )
    return INCH if bare == "in" else Fraction(1)


def _which(unit: str, value: Fraction, question: Asked) -> Refusal:
    of_inch, of_mm = (value * part for part in _TWO_MEANINGS[unit])
    inches, millimetres = plain_decimal(of_inch), plain_decimal(of_mm)
    return question.no(
        f"{unit!r} has two meanings, inch or millimetre: {inches} in ({plain_decimal(of_inch * INCH, 6)} mm) or {millimetres} mm?",
        f"Write {inches} in or {millimetres} mm.",
    )


def plain_decimal(value: Fraction, places: int = 9) -> str:
    """The value as a decimal, to at most so many places, without idle zeros; for the words of a refusal."""
    text = f"{float(value):.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


_PLUS_MINUS = re.compile(r"(?:±|\+ ?/ ?-|\+-)(.*)")
_BOTH = re.compile(r"([+-]? ?[^+-]*?) ?(?:/|,|;|to)? ?([+-] ?[^+-]+|0)( ?\D*)")


def read_limits(text: Typed, *, field: str, bare: Literal["mm", "in"] | None = "mm") -> tuple[Fraction, Fraction]:
    """The upper and the lower deviation of a tolerance, mm, exact: "+0/-0.05 mm", "±0.02 mm", "-1/-3 thou"."""
    question, plain = asked(text, field, "two limits such as +0/-0.05 mm or ±0.02 mm")
    plain = plain.casefold()
    if found := _PLUS_MINUS.fullmatch(plain):
        half = read_length(found.group(1).strip(), field=field, bare=bare)
        pair = (half, -half)
    else:
        pair = _two_limits(plain, question, bare)
    if pair[0] == pair[1]:
        raise question.no("Both limits are the same, which leaves no width to work in.", "Write two limits, such as +0/-0.05 mm.")
    return max(pair), min(pair)


def _two_limits(plain: str, question: Asked, bare: Literal["mm", "in"] | None) -> tuple[Fraction, Fraction]:
    found = _BOTH.fullmatch(plain)
    if not found:
        raise question.no("One limit was found, or more than two.", "Write both with their signs, such as +0/-0.05 mm.")
    (first, first_unit), (second, second_unit) = (
        take_number(part.strip(), question) for part in (found.group(1), found.group(2) + found.group(3))
    )
    if first > 0 and not found.group(1).startswith("+"):
        raise question.no("The first limit has no sign.", "Write both with their signs, such as +0.05/-0 mm.")
    unit_of_first, unit_of_second = first_unit or second_unit, second_unit or first_unit
    return first * _factor(unit_of_first, first, question, bare), second * _factor(unit_of_second, second, question, bare)
