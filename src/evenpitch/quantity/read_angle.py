"""Angles from text, exact, in degrees."""

from __future__ import annotations

import re
from fractions import Fraction

from evenpitch.quantity.irrational import PI
from evenpitch.quantity.numeral import Asked, Typed, asked, take_number

EXPECTED = "an angle such as 20, 14½, 20°5'12\", 20d5m12s or 3.2 arcmin"

_MINUTES = ("'", "m", "min", "mins", "minute", "minutes", "arcmin", "arcmins", "arcminute", "arcminutes")
_SECONDS = ('"', "''", "s", "sec", "secs", "second", "seconds", "arcsec", "arcsecs", "arcsecond", "arcseconds")
_DEGREES = {
    **dict.fromkeys(("°", "d", "deg", "degs", "degree", "degrees"), Fraction(1)),
    **dict.fromkeys(_MINUTES, Fraction(1, 60)),
    **dict.fromkeys(_SECONDS, Fraction(1, 3600)),
}
_ALONE = {
    **dict.fromkeys(("turn", "turns"), Fraction(360)),
    **dict.fromkeys(("rad", "radian", "radians"), 180 / PI),
    **dict.fromkeys(("mrad", "milliradian", "milliradians"), 180 / PI / 1000),
    **dict.fromkeys(("urad", "microradian", "microradians"), 180 / PI / 1_000_000),
}
_LETTERS = {"d", "m", "s"}
_UNIT = re.compile(r"''|[°'\"]|[a-z]+\.?")


def read_angle(text: Typed, *, field: str) -> Fraction:
    """An angle in degrees. Exact, but for radians, where pi stands to 50 decimals. A number without a unit is degrees."""
    question, plain = asked(text, field, EXPECTED)
    plain = plain.casefold().replace("arc ", "arc")
    sign, plain = (-1, plain[1:].strip()) if plain.startswith("-") else (1, plain)
    parts = _parts(plain, question)
    if len(parts) == 1:
        return sign * _single(*parts[0], question)
    return sign * _together(parts, question)


def _parts(plain: str, question: Asked) -> list[tuple[Fraction, str]]:
    parts: list[tuple[Fraction, str]] = []
    while plain:
        value, plain = take_number(plain, question)
        if value < 0:
            raise question.no("There is a sign, or a dash, inside the angle.", "Write one sign, in front.")
        unit = _UNIT.match(plain)
        if plain and not unit:
            raise question.no(f"{plain[:30]!r} is no unit of angle.", "Use °, ' and \", or deg, arcmin, arcsec, rad, turn.")
        parts.append((value, unit.group().rstrip(".") if unit else ""))
        plain = plain[unit.end() :].strip() if unit else ""
    return parts


def _single(value: Fraction, unit: str, question: Asked) -> Fraction:
    if unit in ("m", "s"):
        word = "minutes or metres" if unit == "m" else "seconds of arc or of time"
        mark = "'" if unit == "m" else '"'
        raise question.no(f"{unit} alone may be {word}.", f"Write {float(value):.7g}{mark} for the angle.")
    if unit in _ALONE:
        return value * _ALONE[unit]
    if unit and unit not in _DEGREES:
        raise question.no(f"{unit[:30]!r} is no unit of angle.", "Use °, ' and \", or deg, arcmin, arcsec, rad, turn.")
    return value * _DEGREES.get(unit, Fraction(1))


def _together(parts: list[tuple[Fraction, str]], question: Asked) -> Fraction:
    total, before = Fraction(0), Fraction(400)
    for number, (value, unit) in enumerate(parts):
        if not unit:
            raise question.no(f"{float(value):.7g} has no mark of its own.", "Mark each part: 20°5'12\" or 20d5m12s.")
        size = _DEGREES.get(unit)
        if size is None or size >= before or (unit in _LETTERS - {"d"} and number == 0):
            raise question.no("The parts do not go degrees, minutes, seconds.", "Write them in that order: 20°5'12\".")
        if number and value >= 60:
            raise question.no(f"{float(value):.7g} is 60 or more.", "Write minutes and seconds below 60.")
        if number < len(parts) - 1 and value.denominator != 1:
            likely = f"{float(value):.7g} {unit} is not whole, yet a smaller part follows."
            raise question.no(likely, "Leave the fraction to the last part.")
        total, before = total + value * size, size
    return total
