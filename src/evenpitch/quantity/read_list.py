"""Lists of whole numbers, from text: change gears, hole circles, the two pulleys of a belt."""

from __future__ import annotations

import re
from collections.abc import Sequence

from evenpitch.quantity.numeral import Typed, asked
from evenpitch.quantity.read_number import read_whole
from evenpitch.quantity.refusal import Fault, Refusal

LONGEST_LIST = 2000
MOST_HOLES = 1000
MOST_BELT_TEETH = 1000


def read_whole_list(text: Typed | Sequence[Typed], *, field: str, least: int, most: int, fewest: int = 0) -> tuple[int, ...]:
    """Whole numbers, between commas or spaces, in the order typed. All that is wrong with them is said at once."""
    parts = _parts(text, field)
    numbers: list[int] = []
    faults: list[Fault] = []
    for part in parts:
        try:
            numbers.append(read_whole(part, field=field, least=least, most=most))
        except Refusal as refusal:
            faults.extend(refusal.faults)
    if not faults and len(numbers) < fewest:
        expected = f"at least {fewest} whole numbers, such as 24, 28, 32"
        faults.append(Fault(field, str(text)[:80], expected, f"{len(numbers)} given.", "Write them with commas between."))
    if faults:
        raise Refusal(*faults)
    return tuple(numbers)


def _parts(text: Typed | Sequence[Typed], field: str) -> list[Typed]:
    if not isinstance(text, (str, int, float)):
        return list(text)
    if not str(text).strip():
        return []
    _, plain = asked(text, field, "whole numbers with commas between", longest=LONGEST_LIST)
    return [part for part in re.split(r"[,;\s]+", plain) if part]


def read_circles(text: str | Sequence[str | Sequence[Typed]], *, field: str) -> tuple[tuple[int, ...], ...]:
    """Hole circles of each plate: "15,16,17;21,23", a semicolon between plates; or a list of lists from a file."""
    expected = "hole circles, a semicolon between plates: 15,16,17;21,23,27"
    if isinstance(text, str):
        _, plain = asked(text, field, expected, longest=LONGEST_LIST)
        plates: list[str | Sequence[Typed]] = [plate for plate in re.split(r"[;\n]", plain) if plate.strip(" ,")]
    else:
        plates = list(text)
    found: list[tuple[int, ...]] = []
    faults: list[Fault] = []
    for number, plate in enumerate(plates, start=1):
        try:
            found.append(read_whole_list(plate, field=f"{field}, plate {number}", least=2, most=MOST_HOLES, fewest=1))
        except Refusal as refusal:
            faults.extend(refusal.faults)
    if not plates:
        faults.append(
            Fault(field, str(text)[:80], expected, "No plate was given.", "Count the holes of each circle of one plate.")
        )
    if faults:
        raise Refusal(*faults)
    return tuple(found)


def read_belt(text: Typed, *, field: str) -> tuple[int, int]:
    """Teeth of the pulley on the motor and of that on the head: "20:60" is (20, 60); "direct" is (1, 1)."""
    question, plain = asked(text, field, "the two tooth counts, motor first: 20:60")
    if plain.casefold() in {"direct", "none", "no belt"}:
        return 1, 1
    parts = [part.strip() for part in re.split(r":|/| to ", plain)]
    if len(parts) != 2:
        raise question.no(
            "One number does not tell both pulleys.", "Count the teeth of both, and write motor:head, such as 20:60."
        )
    if any(re.fullmatch(r"\d*[.,]\d+", part) for part in parts):
        raise question.no(
            "A decimal was typed. A belt ratio is rarely a round decimal, and dividing needs it exact.",
            "Belt teeth are whole numbers: 20:60. Count both pulleys.",
        )
    motor, head = (read_whole(part, field=field, least=1, most=MOST_BELT_TEETH, words=("teeth", "t")) for part in parts)
    return motor, head
