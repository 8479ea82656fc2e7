"""Tooth sizes from text: diametral pitch, module, circular pitch, in the normal or the transverse plane."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

from evenpitch.quantity.irrational import PI
from evenpitch.quantity.numeral import Asked, Typed, asked, take_number
from evenpitch.quantity.pitch import Pitch, PitchKind, Plane
from evenpitch.quantity.read_length import plain_decimal
from evenpitch.quantity.refusal import Refusal
from evenpitch.quantity.units import INCH

EXPECTED = "a pitch such as 12 DP, module 2 or 17/64 in circular pitch"
SMALLEST_MODULE, LARGEST_MODULE = Fraction(1, 20), Fraction(100)

_KINDS: dict[str, PitchKind] = {
    **dict.fromkeys(("dp", "p", "pitch", "diametral", "pd"), "diametral pitch"),
    **dict.fromkeys(("module", "mod", "m"), "module"),
    **dict.fromkeys(("circular", "circ", "cp"), "circular pitch"),
}
_PLANES: dict[str, Plane] = {
    **dict.fromkeys(("normal", "n", "norm"), "normal"),
    **dict.fromkeys(("transverse", "trans", "t"), "transverse"),
}
_BOTH_IN_ONE: dict[str, tuple[PitchKind, Plane]] = {
    "mn": ("module", "normal"),
    "mt": ("module", "transverse"),
    "ndp": ("diametral pitch", "normal"),
    "dpn": ("diametral pitch", "normal"),
    "tdp": ("diametral pitch", "transverse"),
    "dpt": ("diametral pitch", "transverse"),
    "pn": ("diametral pitch", "normal"),
    "pt": ("diametral pitch", "transverse"),
}
_UNITS = {"mm": Fraction(1), "in": INCH, "inch": INCH, '"': INCH}
_WORD = re.compile(r"[a-z_]+|\"")
_STUB_PAIRS = {
    (4, 5),
    (5, 7),
    (6, 8),
    (7, 9),
    (8, 10),
    (9, 11),
    (10, 12),
    (12, 14),
    (16, 32),
    (20, 40),
    (24, 48),
    (32, 64),
    (48, 96),
}
"""Two-number names of stub teeth and splines (from memory): the first number is the diametral pitch."""


def read_pitch(text: Typed, *, field: str) -> Pitch:
    """A tooth size, exact, in the kind and plane it was typed in. A bare number is asked back: DP or module."""
    question, plain = asked(text, field, EXPECTED)
    plain = plain.casefold().replace("m_n", "mn").replace("m_t", "mt").replace("d.p.", "dp").replace("c.p.", "cp")
    front, value, back = _about_the_number(plain, question)
    kind, plane, unit = _sort_words(_words(front, question) + _words(back, question), value, question)
    if value <= 0:
        raise question.no("A pitch is above 0.", "Write it again.")
    pitch = _pitch(kind, plane or "normal", unit, value, plain, question)
    _check_size(pitch, question)
    return replace(pitch, plane_named=plane is not None)


def _about_the_number(plain: str, question: Asked) -> tuple[str, Fraction, str]:
    start = re.search(r"[+-]?[\d.]*\d", plain)
    if not start:
        raise question.no("There is no number in it.", "Write the size, such as 12 DP or module 2.")
    value, back = take_number(plain[start.start() :], question)
    return plain[: start.start()].strip(" =:"), value, back


def _words(part: str, question: Asked) -> list[str]:
    words = _WORD.findall(part)
    if left := _WORD.sub("", part).strip(" -.=:,()"):
        raise question.no(f"{left[:30]!r} is not part of a pitch.", "Write it like 12 DP, module 2 or 17/64 in circular pitch.")
    return words


def _sort_words(words: list[str], value: Fraction, question: Asked) -> tuple[PitchKind | None, Plane | None, str]:
    kinds: list[PitchKind] = []
    planes: list[Plane] = []
    units: list[str] = []
    for word in words:
        if word in _BOTH_IN_ONE:
            kinds.append(_BOTH_IN_ONE[word][0])
            planes.append(_BOTH_IN_ONE[word][1])
        elif word in _UNITS:
            units.append(word)
        elif word in _PLANES:
            planes.append(_PLANES[word])
        elif word in _KINDS and not (word in ("p", "pitch") and ("circular" in words or "circ" in words or "diametral" in words)):
            kinds.append(_KINDS[word])
        elif word not in _KINDS and word not in ("of", "plane", "the", "in"):
            raise question.no(f"{word!r} is not part of a pitch.", "Write it like 12 DP, module 2 or 17/64 in circular pitch.")
    if len(set(kinds)) > 1 or len(set(planes)) > 1 or len(set(units)) > 1:
        raise question.no(
            f"It names two of a kind: {', '.join(sorted({*kinds, *planes}))}.", "Name one kind of pitch, in one plane."
        )
    return kinds[0] if kinds else None, planes[0] if planes else None, units[0] if units else ""


def _pitch(kind: PitchKind | None, plane: Plane, unit: str, value: Fraction, plain: str, question: Asked) -> Pitch:
    if kind is None:
        raise _which(value, unit, question)
    if kind == "diametral pitch":
        if unit:
            likely = "Diametral pitch is teeth to the inch of diameter, and has no unit."
            raise question.no(likely, f"Write {plain_decimal(value)} DP, or name another pitch.")
        _weigh_stub_name(plain, question)
        return Pitch(kind, value, plane, inch=True)
    if kind == "module":
        if unit not in ("", "mm"):
            raise question.no(
                "A module is in millimetres.", f"Write module {plain_decimal(value * INCH)} or a circular pitch in inches."
            )
        return Pitch(kind, value, plane)
    if not unit:
        number = plain_decimal(value)
        raise question.no(
            f"No unit: {number} mm is module {plain_decimal(value / PI, 4)}, {number} in is module {plain_decimal(value * INCH / PI, 4)}.",
            f"Write {number} mm circular pitch or {number} in circular pitch.",
        )
    return Pitch(kind, value * _UNITS[unit], plane, inch=unit != "mm")


def _which(value: Fraction, unit: str, question: Asked) -> Refusal:
    number = plain_decimal(value)
    if value <= 0:
        return question.no("A pitch is above 0.", "Write it again.")
    if unit:
        millimetres = value * _UNITS[unit]
        as_module, as_pitch = plain_decimal(millimetres, 4), plain_decimal(millimetres / PI, 4)
        return question.no(
            f"A length alone may be the module ({as_module} mm) or the circular pitch (module {as_pitch}).",
            f"Write module {plain_decimal(millimetres, 6)} or {number} {unit} circular pitch.",
        )
    return question.no(
        f"DP or module? {number} DP is module {plain_decimal(INCH / value, 4)}; module {number} is {plain_decimal(INCH / value, 4)} DP.",
        f"Write {number} DP or module {number}.",
    )


def _weigh_stub_name(plain: str, question: Asked) -> None:
    found = re.search(r"(?<![\d.])(\d+) ?/ ?(\d+)", plain)
    if found and (int(found.group(1)), int(found.group(2))) in _STUB_PAIRS:
        first, second = found.groups()
        likely = f"{first}/{second} may name a stub tooth of {first} DP, or the fraction {first}/{second}."
        raise question.no(likely, f"Write {first} DP, and the depth in its own field.")


def _check_size(pitch: Pitch, question: Asked) -> None:
    module = pitch.module()
    if not SMALLEST_MODULE <= module <= LARGEST_MODULE:
        likely = f"That is module {module:.4g}, outside {float(SMALLEST_MODULE):g} to {float(LARGEST_MODULE):g}."
        raise question.no(likely, "Check the digits, and whether DP or module is meant.")
