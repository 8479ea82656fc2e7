"""Fields that only a shop's files have: worm ratio, hole circles, gears in the box, cutter numbers, what the head did when tried."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable
from difflib import get_close_matches
from fractions import Fraction
from typing import Any

from pydantic import PlainValidator

from evenpitch.cutting.formcutters import number_for
from evenpitch.quantity.reading import is_unknown, read_belt, read_pitch, read_ratio, read_whole_list
from evenpitch.quantity.refusal import Refusal, refuse
from evenpitch.rig.head import IdlerTest, Sense
from evenpitch.rig.link import Belt
from evenpitch.rig.tools import Numbering
from evenpitch.store.files.values import Number, length_range, read_sized, reader, travelling, whole, with_unit

_COUNTS = {"no": 0, "none": 0, "one": 1, "two": 2, "three": 3}


def head_ratio() -> PlainValidator:
    """Crank turns for one turn of the work."""
    expected = "a worm ratio from 5 to 360, such as 40 or 40:1"

    def read(text: str) -> Fraction:
        value = read_ratio(text, field="")
        if 5 <= value <= 360:
            return value
        likely = "The crank turns this often for one turn of the work; 40 is usual."
        raise refuse("", text, expected, likely, "Turn the crank until the work has gone round once, and count.")

    return reader(read, expected, needed=True)


def plate_turns() -> PlainValidator:
    """Turns of the plate for one turn of the shaft that the motor drives."""
    expected = "a ratio such as 1, 1:2 or 3/2"
    return reader(lambda text: read_ratio(text, field="", turned_over=True), expected)


def direct_holes() -> PlainValidator:
    """Holes of the plate on the spindle nose; "none" where there is none."""
    counted = whole(2, 360, words=("holes",))
    return PlainValidator(
        lambda raw: None if isinstance(raw, str) and raw.casefold() in ("none", "no") else _called(counted, raw)
    )


def _called(validator: PlainValidator, raw: Any) -> Any:
    function: Callable[[Any], Any] = validator.func  # type: ignore[assignment]
    return function(raw)


def circles() -> PlainValidator:
    """Hole circles of one plate, 3 to 300 holes each."""
    return _whole_list(3, 300, 1, "hole circles of 3 to 300 holes, such as 15, 16, 17", once="A circle was typed twice.")


def change_gears() -> PlainValidator:
    """Change gears in the box, 8 to 300 teeth each; one owned twice is typed twice."""
    return _whole_list(8, 300, 0, "change gears of 8 to 300 teeth, such as 24, 24, 28")


def _whole_list(least: int, most: int, fewest: int, expected: str, once: str = "") -> PlainValidator:
    def validate(raw: Any) -> Any:
        try:
            if raw is None or raw == [] or (isinstance(raw, str) and is_unknown(raw)):
                if fewest:
                    do = "Count the holes of each circle of a plate."
                    raise refuse("", raw or "", expected, "Only head ratio and one plate are needed.", do)
                raw = []
            if isinstance(raw, (dict, bool)) or not isinstance(raw, (str, int, list, tuple)):
                raise refuse("", str(raw)[:80], expected, "This is no list of numbers.", f"Write {expected}.")
            parts = [_plain(part, expected) for part in raw] if isinstance(raw, (list, tuple)) else _plain(raw, expected)
            found = read_whole_list(parts, field="", least=least, most=most, fewest=fewest)
            if once and (again := [number for number, times in Counter(found).items() if times > 1]):
                raise refuse("", ", ".join(map(str, again)), expected, once, "Leave it out once, or count the holes again.")
            return found
        except Refusal as refusal:
            raise travelling(refusal) from refusal

    return PlainValidator(validate)


def _plain(part: Any, expected: str) -> str:
    if isinstance(part, bool) or not isinstance(part, (str, int)):
        raise refuse("", str(part)[:80], expected, "This is no whole number.", f"Write {expected}.")
    try:
        return str(part)
    except ValueError:  # Python prints no whole number of more than some thousand digits
        raise refuse("", "a very long number", expected, "It has thousands of digits.", f"Write {expected}.") from None


def belt() -> PlainValidator:
    """The two pulleys, motor first."""
    return reader(lambda text: Belt(*read_belt(text, field="")), "the two tooth counts, motor first: 20:60")


def pitch() -> PlainValidator:
    """A tooth size."""
    return reader(lambda text: read_pitch(text, field=""), "a pitch such as 12 DP, module 2 or 17/64 in circular", needed=True)


def cutter_number() -> PlainValidator:
    """The number a form cutter is marked with; a worn mark will do where the count it is made for is known."""
    expected = "a cutter number from 1 to 8, such as 2 or 1½"

    def read(text: str) -> str:
        plain = (
            re.sub(r"^(?:no|nr|number)\.?\s*", "", text.casefold())
            .replace("½", " 1/2")
            .replace(".5", " 1/2")
            .replace("-1/2", " 1/2")
        )
        if not re.fullmatch(r"[1-8](?: +1/2)?", plain.strip()):
            raise refuse("", text, expected, "It is on the side of the cutter.", "Write the number alone.")
        return plain.strip()[0] + ("½" if "/" in plain else "")

    def marked(text: str | None) -> str:
        if text is None or is_unknown(text):
            likely = "The mark is worn off, or was not typed." if text else "Nothing was given."
            do = "Write made_for: the count of its form, or the lowest of a range that can be read. Leave a cutter without either out."
            raise refuse("", text or "", expected, likely, do)
        return read(text)

    return reader(marked, expected, unknown=True)


def number_of_count(raw: Any) -> Any:
    """A cutter's table with the number that its made_for has in its set, where none was read on it."""
    number = raw.get("number")
    if isinstance(number, str) and number.strip() and not is_unknown(number):
        return raw
    count = re.match(r"\s*(\d{2,4})\b", str(raw.get("made_for", "")))
    if isinstance(number, (int, float)) or count is None:
        return raw
    row = number_for(int(count[1]), _numbering(raw), 15)
    return raw if row is None else {**raw, "number": row.number}


def _numbering(raw: Any) -> Numbering:
    """The set's numbering as typed, else that of its pitch."""
    typed = str(raw.get("numbering", "")).casefold().strip()
    if typed in ("dp", "module"):
        return "dp" if typed == "dp" else "module"
    try:
        return "module" if read_pitch(str(raw.get("pitch", "")), field="").kind == "module" else "dp"
    except Refusal:
        return "dp"


def idler_test() -> PlainValidator:
    """Which way a single pair of gears turned the plate, and with how many idlers: "with the crank, 1 idler"."""
    expected = 'with or against, and the idlers: "with the crank, 1 idler"'

    def read(text: str) -> IdlerTest:
        plain = text.casefold()
        senses = [sense for sense in ("with", "against") if re.match(rf"{sense}\b", plain)]
        counts = re.findall(rf"\b(\d|{'|'.join(_COUNTS)})\b", plain)
        idlers = [_COUNTS[count] if count in _COUNTS else int(count) for count in counts]
        if not senses or len(idlers) != 1 or idlers[0] > 3:
            likely = "The way the plate turned comes first, then how many idlers were in."
            raise refuse("", text, expected, likely, "Fit one pair, turn the crank, and watch the plate.")
        sense: Sense = "with" if senses[0] == "with" else "against"
        return IdlerTest(sense, idlers[0])

    return reader(read, expected)


def needed_length(least: Number, most: Number) -> PlainValidator:
    """A length that cannot be left open."""
    return reader(lambda text: read_sized(text, least, most), length_range(least, most), needed=True)


_INSTRUMENTS = (
    "disc micrometer", "micrometer", "caliper", "gear-tooth vernier", "pins", "balls", "indicator", "gauge-block set", "height gauge",
    "square block", "V-blocks", "spring balance", "protractor", "rule",
)  # fmt: skip
"""Kinds to choose from; what a plan does with them is told by their nouns."""
_NOUNS = re.compile(
    r"\b(?:micrometers?|mikes?|calipers?|callipers?|verniers?|pins?|balls?|wires?|rollers?|indicators?|comparators?|clocks?|gauges?|gages?"
    r"|blocks?|squares?|balances?|protractors?|rules?|rulers?|parallels?|levels?|bars?|mandrels?|straight-?edges?|plates?|thermometers?)\b"
)
"""The nouns of measuring, whatever stands before them: a flange micrometer, a test indicator, a bore gauge."""


def instrument_kind() -> PlainValidator:
    """What an instrument is; a word that is none is refused, for no plan would measure with it."""
    expected = "one of " + ", ".join(_INSTRUMENTS) + ", or another with such a noun"

    def read(text: str) -> str:
        if len(text) > 60 or not text.isprintable() or not _NOUNS.search(text.casefold()):
            near = get_close_matches(text.casefold(), _INSTRUMENTS, n=1, cutoff=0.6)
            do = f"{near[0]!r} meant?" if near else "Call it as the trade does, or leave it out of the rig."
            raise refuse("", text[:80], expected, "It names no kind of measuring instrument that is known here.", do)
        return text

    return reader(read, expected, needed=True)


def instrument_range() -> PlainValidator:
    """From where to where an instrument measures: "25..50 mm", "0 to 1 in"."""
    expected = "a range of lengths such as 25..50 mm or 0 to 1 in"

    def read(text: str) -> tuple[Fraction, Fraction]:
        parts = re.split(r"\s*(?:\.\.\.?|…|–|\bto\b|(?<=\d)\s*-\s*(?=\d+(?:\.\d+)?\s*[a-z\"]*$))\s*", text)
        if len(parts) != 2:
            raise refuse("", text, expected, "Two ends are needed.", "Write from..to and the unit.")
        unit = re.search(r"([a-z\"]+)\s*$", parts[1].casefold())
        low, high = (read_sized(part, 0, 5000) for part in (with_unit(parts[0], unit.group(1) if unit else ""), parts[1]))
        if low >= high:
            raise refuse("", text, expected, "The lower end is not below the upper one.", "Write the lower end first.")
        return low, high

    return reader(read, expected)
