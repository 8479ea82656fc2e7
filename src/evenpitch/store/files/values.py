"""How each kind of field in a file or form is read: the reader of `quantity`, its range, and the slips that are usual for it."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date, datetime
from difflib import get_close_matches
from fractions import Fraction
from typing import Any

from pydantic import PlainValidator
from pydantic_core import PydanticCustomError

from evenpitch.quantity.numeral import VULGAR
from evenpitch.quantity.physical_units import QUANTITIES, Kind
from evenpitch.quantity.reading import is_unknown, read_angle, read_length, read_number, read_physical, read_whole
from evenpitch.quantity.refusal import Fault, Refusal, refuse
from evenpitch.quantity.units import INCH

Number = int | float | Fraction

READ = "read"
"""The pydantic error type under which the faults of a reader travel."""


def reader(
    read: Callable[[Any], Any], expected: str, *, needed: bool = False, answered: bool = False, unknown: bool = False
) -> PlainValidator:
    """A field read from text or number. Nothing or "don't know" is None, or a fault where the field is `needed`.

    `answered`: "don't know" will do, but it must be said. `unknown`: the field itself has a word on nothing and on "don't know".
    """

    def validate(raw: Any) -> Any:
        try:
            text = text_of(raw, expected)
            if not unknown and (text is None or is_unknown(text)):
                if needed or (answered and not text):
                    raise _needed(text, expected, answered)
                return None
            return read(text)
        except Refusal as refusal:
            raise travelling(refusal) from refusal

    return PlainValidator(validate)


def travelling(refusal: Refusal) -> PydanticCustomError:
    """The faults of a refusal on their way through pydantic, which adds where they arose."""
    return PydanticCustomError(READ, "not read", {"faults": refusal.faults})


def _needed(text: str | None, expected: str, answered: bool) -> Refusal:
    if text:
        return refuse("", text, expected, "This one cannot be left open.", "Find it from the old part or the drawing first.")
    do = f"Write {expected}" + (', or "don\'t know".' if answered else ".")
    return refuse("", "", expected, "Nothing was given.", do)


def text_of(raw: Any, expected: str) -> str | None:
    """What was typed, as text: a number of a TOML file, a date, yes or no. A Refusal for a list or a table."""
    if raw is None:
        return None
    if isinstance(raw, bool):
        return "yes" if raw else "no"
    if isinstance(raw, (int, float)):
        try:
            return str(raw)
        except ValueError:  # Python prints no whole number of more than some thousand digits
            raise refuse("", "a very long number", expected, "It has thousands of digits.", f"Write {expected}.") from None
    if isinstance(raw, (str, date, datetime)):
        return raw.strip() if isinstance(raw, str) else raw.isoformat()
    kind = "a list" if isinstance(raw, (list, tuple)) else "a table" if isinstance(raw, dict) else "something else"
    raise refuse("", str(raw)[:80], expected, f"{kind.capitalize()} was given.", f"Write {expected}.")


def whole(least: int, most: int, *, needed: bool = False, words: tuple[str, ...] = ()) -> PlainValidator:
    """A whole number."""
    expected = f"a whole number from {least} to {most}"
    return reader(lambda text: read_whole(text, field="", least=least, most=most, words=words), expected, needed=needed)


def number(least: Number, most: Number, *, needed: bool = False) -> PlainValidator:
    """A number without a unit, exact."""
    low, high = Fraction(least), Fraction(most)
    expected = f"a number from {_short(low)} to {_short(high)}"
    return reader(lambda text: read_number(text, field="", least=low, most=high), expected, needed=needed)


def size(least: Number, most: Number, *, zero: bool = False, answered: bool = False) -> PlainValidator:
    """A length in millimetres, exact, from `least` to `most` mm. A number alone is mm. `zero`: 0 is taken too."""
    expected = length_range(least, most)
    return reader(lambda text: read_sized(text, least, most, zero=zero), expected, answered=answered)


def length_range(least: Number, most: Number) -> str:
    """The range of a length in both systems."""
    low, high = Fraction(least), Fraction(most)
    inch = f"{_short(low / INCH)} to {_short(high / INCH)} in"
    return f"{_short(low)} to {_short(high)} mm ({inch})"


def read_sized(text: str, least: Number, most: Number, *, zero: bool = False) -> Fraction:
    """A length within its range; outside it, the slip that would bring it in is named."""
    value = read_length(text, field="", bare="mm")
    low, high = Fraction(least), Fraction(most)
    if low <= value <= high or (zero and value == 0):
        return value
    likely, do = _length_slip(text, value, low, high)
    raise refuse("", text, length_range(low, high), likely, do)


def _length_slip(text: str, value: Fraction, low: Fraction, high: Fraction) -> tuple[str, str]:
    again = "Measure it again, and name the unit."
    if value < 0:
        return "A length below zero was typed.", again
    inch = _typed_in_inches(text)
    unit, size = ("in", INCH) if inch else ("mm", Fraction(1))
    shown = f"That is {_short(value / size)} {unit}." if not is_bare(text) else f"A number alone is in mm: {_short(value)} mm."
    other = value / INCH if inch else value * INCH
    if low <= other <= high:
        meant = f"{_short(other)} mm" if inch else f"{_short(value)} in ({_short(other)} mm)"
        return shown, f"{meant} meant? Write the unit behind the number."
    for factor in (Fraction(1, 10), Fraction(1, 100), Fraction(10), Fraction(100), Fraction(1, 1000), Fraction(1000)):
        if low <= value * factor <= high:
            meant = f"{_short(value * factor / size)} {unit}" + (f" ({_short(value * factor)} mm)" if inch else "")
            return shown, f"{meant} meant? Look for a lost or a moved decimal mark."
    return shown, again


def _typed_in_inches(text: str) -> bool:
    return bool(re.search(r"in\b|inch|\"|″|”|''|thou|tenths?|ft|feet|foot", text.casefold()))


def angle(least: Number, most: Number, *, needed: bool = False, bare_unit: str = "") -> PlainValidator:
    """An angle in degrees, exact, from `least` to `most` degrees. A number alone is degrees, or `bare_unit`."""
    low, high = Fraction(least), Fraction(most)
    expected = f"an angle from {_short(low)}° to {_short(high)}°"

    def read(text: str) -> Fraction:
        value = read_angle(with_unit(text, bare_unit), field="")
        if low <= value <= high:
            return value
        likely, do = _angle_slip(text, value, low, high)
        raise refuse("", text, expected, likely, do)

    return reader(read, expected, needed=needed)


def _angle_slip(text: str, value: Fraction, low: Fraction, high: Fraction) -> tuple[str, str]:
    shown = f"That is {_short(value)}°."
    if is_bare(text):
        for factor, unit in ((60, "arcmin"), (3600, "arcsec")):
            if low <= value / factor <= high and value / factor != 0 and high < 10:
                return (
                    f"A number alone is in degrees: {_short(value)}°.",
                    f"{_short(value)} {unit} meant? Write the unit behind it.",
                )
    for factor in (10, 100):
        if low <= value / factor <= high:
            return shown, f"{_short(value / factor)}° meant? Look for a lost decimal mark."
    if low <= -value <= high:
        return f"{shown} Which way it leans is said by the hand.", f"Write {_short(-value)}, and the hand beside it."
    return shown, "Check the digits and the decimal mark."


def physical(kind: Kind, least: float, most: float, bare: str) -> PlainValidator:
    """A quantity of another kind; a number alone is in `bare`. `least` and `most` are in the unit that the kind is kept in."""
    kept = QUANTITIES[kind].unit
    expected = f"{kind} from {least:g} to {most:g} {kept}".rstrip() + f", such as {QUANTITIES[kind].examples}"
    return reader(lambda text: read_kept(text, kind, least, most, bare, expected), expected)


def read_kept(text: str, kind: Kind, least: float, most: float, bare: str, expected: str) -> float:
    """A quantity within its range, in the unit that its kind is kept in."""
    value = read_physical(text, kind, field="", bare=bare)
    if least <= value <= most:
        return value
    likely = f"That is {value:.6g} {QUANTITIES[kind].unit}".rstrip() + "."
    raise refuse("", text, expected, likely, "Check the digits and the unit.")


def word(*allowed: str, also: dict[str, str] | None = None, needed: bool = False) -> PlainValidator:
    """One of a few words, whatever the case; `also`: other spellings and the word they mean."""
    meant = {spelt.casefold(): word for spelt, word in ((also or {}) | {each: each for each in allowed}).items()}
    expected = ", ".join(allowed[:-1]) + (" or " if len(allowed) > 1 else "") + allowed[-1]

    def read(text: str) -> str:
        found = meant.get(" ".join(text.casefold().split()))
        if found is None:
            near = _nearest(text, tuple(meant))
            do = f"{meant[near]} meant? Write that." if near else f"Write {expected}."
            raise refuse("", text, expected, "This word is not known here.", do)
        return found

    return reader(read, expected, needed=needed)


def _nearest(text: str, known: tuple[str, ...]) -> str | None:
    found = get_close_matches(text.casefold(), known, n=1, cutoff=0.6)
    return found[0] if found else None


def words(most: int, *, needed: bool = False) -> PlainValidator:
    """Free text on one line."""
    expected = f"text of at most {most} characters on one line"

    def read(text: str) -> str:
        if len(text) > most or not text.isprintable():
            likely = (
                f"It has {len(text)} characters."
                if len(text) > most
                else "There is a line end or a sign in it that cannot be printed."
            )
            raise refuse("", text, expected, likely, "Write it shorter, on one line.")
        return text

    return reader(read, expected, needed=needed)


def day() -> PlainValidator:
    """A date."""
    expected = "a date such as 2026-03-12"

    def read(text: str) -> date:
        try:
            return datetime.fromisoformat(text).date()
        except ValueError:
            raise refuse("", text, expected, "It is no date.", "Write year-month-day.") from None

    return reader(read, expected, needed=True)


def listed(one: Callable[[str], Any], expected: str) -> PlainValidator:
    """A list, or text with commas or semicolons between; a unit at the end of the text counts for all. All faults at once."""

    def validate(raw: Any) -> Any:
        parts = list(raw) if isinstance(raw, (list, tuple)) else None
        found: list[Any] = []
        faults: list[Fault] = []
        try:
            for part in parts if parts is not None else split_list(text_of(raw, expected) or ""):
                text = text_of(part, expected)
                if text is None or is_unknown(text):
                    continue
                try:
                    found.append(one(text))
                except Refusal as refusal:
                    faults += refusal.faults
        except Refusal as refusal:
            faults += refusal.faults
        if faults:
            raise travelling(Refusal(*faults))
        return tuple(found)

    return PlainValidator(validate)


def split_list(text: str) -> list[str]:
    """The parts of a list typed on one line: "½, 1, 1½ in/min". A comma between digits, without a space, is a decimal mark."""
    if is_unknown(text):
        return []
    parts = [part.strip() for part in re.split(r";|\n|,(?=\s)|,(?=\D)", text) if part.strip()]
    unit = re.search(rf"[\d{VULGAR}.]\s*([^\d\s{VULGAR}.,/+-][^\d]*)$", parts[-1]) if parts else None
    return [with_unit(part, unit.group(1)) for part in parts] if unit else parts


def is_bare(text: str) -> bool:
    """Whether it is a number without a unit."""
    return bool(re.fullmatch(rf"[+-]?[\d\s{VULGAR}.,/-]+(?:e[+-]?\d+)?", text.strip(), re.IGNORECASE))


def with_unit(text: str, unit: str) -> str:
    """The text, with the unit behind it where it is a number alone."""
    return f"{text} {unit}" if unit and is_bare(text) else text


def _short(value: Fraction) -> str:
    return f"{float(value):.6g}"


def placed(faults: tuple[Fault, ...], path: str) -> tuple[Fault, ...]:
    """The same faults, at the field of that path."""
    return tuple(Fault(path, fault.given, fault.expected, fault.likely, fault.do) for fault in faults)
