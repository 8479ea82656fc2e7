"""A gear line cut into pieces: quantities, the labels that name them, and words that say all by themselves."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from evenpitch.quantity.numeral import ALIKE, VULGAR, asked, take_number

PieceKind = Literal["quantity", "label", "word", "hint", "equals", "break", "unknown"]
Unit = Literal["", "bare", "angle", "length"]
Side = Literal["", "before", "after", "either"]
"""Where the number of a label usually stands."""


@dataclass(frozen=True, slots=True)
class Piece:
    """One piece of a gear line. `text` as typed; `field` what a label or word is about; `value` what a word says."""

    kind: PieceKind
    text: str
    start: int
    end: int
    field: str = ""
    value: str = ""
    unit: Unit = ""
    number: Fraction = Fraction(0)
    hyphen: bool = False
    side: Side = ""
    accepts: tuple[Unit, ...] = ()


@dataclass(frozen=True, slots=True)
class _Label:
    spelling: str
    field: str
    side: Side
    accepts: tuple[Unit, ...] = ("bare",)


_ANGLE: tuple[Unit, ...] = ("bare", "angle")
_LENGTH: tuple[Unit, ...] = ("bare", "length")
_PLANE = r"(?:normal|transverse|trans\.?)"

LABELS = (
    _Label(r"number of teeth|no\.? of teeth|tooth count|z", "teeth", "after"),
    _Label(r"teeth|tooth|t", "teeth", "before"),
    _Label(rf"(?:{_PLANE} )?(?:circular pitch|circ\.? pitch|circular|c\.?p\.?)(?: {_PLANE})?", "pitch", "either", ("length",)),
    _Label(rf"(?:{_PLANE} )?(?:diametral pitch|diametral|d\.p\.|n?dp)(?: {_PLANE})?|p", "pitch", "before"),
    _Label(rf"(?:{_PLANE} )?(?:module|mod)(?: {_PLANE})?|m_?n|m_?t|m", "pitch", "after", _LENGTH),
    _Label(r"pressure angle|pressure|p\.?a\.?", "pressure_angle", "either", _ANGLE),
    _Label(r"(?:alpha|α)_?n?", "pressure_angle", "after", _ANGLE),
    _Label(r"helix angle|helix|helical angle|spiral angle|spiral", "helix", "either", _ANGLE),
    _Label(r"beta|β", "helix", "after", _ANGLE),
    _Label(r"face width|facewidth|face|width", "face", "either", _LENGTH),
    _Label(r"wide", "face", "before", _LENGTH),
    _Label(r"b", "face", "after", _LENGTH),
    _Label(r"profile shift|shift|x", "shift", "after"),
    _Label(r"(?:tolerance |iso )?class|grade", "tolerance_class", "after"),
    _Label(r"bore", "bore", "either", _LENGTH),
    _Label(r"thinning|thinned(?: by)?", "thinning", "either", _LENGTH),
    _Label(r"outside diameter|outside|o\.?d\.?", "outside_found", "either", _LENGTH),
    _Label(r"pins?|over pins?", "pin", "either", _LENGTH),
    _Label(r"spanned|span over|k", "spanned", "after"),
    _Label(r"off", "quantity", "before"),
    _Label(r"quantity|qty\.?", "quantity", "after"),
)
"""Labels, with where their number usually stands, as seen from the label (common practice)."""

_MATERIAL = (
    r"(?:grey |gray |malleable )?cast iron|s\.?g\.? iron|(?:mild |free[- ]cutting |carbon |tool |silver |stainless |alloy |cast )?steel|"
    r"(?:phosphor |aluminium |leaded )?bronze|gun-?metal|brass|alumini?um(?: alloy)?|nylon|acetal|tufnol|en ?\d{1,2}[a-z]?"
)
_WORDS = (
    (r"(?:hand ?[=:]? ?)?(?:right(?:[- ]hand(?:ed)?)?|r\.?h\.?)", "hand", "right"),
    (r"(?:hand ?[=:]? ?)?(?:left(?:[- ]hand(?:ed)?)?|l\.?h\.?)", "hand", "left"),
    (r"spur|straight(?:[- ]cut| teeth)?", "helix", "0"),
    (r"(?:depth ?[=:]? ?)?stub(?:[- ](?:depth|teeth|tooth))?", "depth", "stub"),
    (r"depth ?[=:]? ?full|full(?:[- ]depth)?", "depth", "full"),
    (r"depth ?[=:]? ?fine|fine[- ]pitch", "depth", "fine"),
)
_HINT = r"helical|spiral gears?|screw gears?"
_FILLER = r"gears?|wheels?|pinions?|change|with|and|an?|of|the|hand|in|on|at|pitch"
_UNITS = r"(?: |-)?(?:mm|cm|inch(?:es)?|ins?\.?|thou)(?![a-z])| ?(?:\"|'')"

_NUMBER = rf"\d+ ?-?[{VULGAR}]|\d+[ -]\d+/\d+|\d+/\d+|\d*[.,]\d+|\d+|[{VULGAR}]"
_QUANTITY = re.compile(
    rf"(?P<number>(?:(?<![\w.])[+-])?(?:{_NUMBER}))"
    rf"(?:(?P<angle>(?P<joint>[ -]?)(?:°|deg(?:rees?|s)?(?![a-z])|d(?=\d))"
    rf"(?: ?(?:{_NUMBER}) ?(?:'|m(?![a-z])|min(?![a-z]))(?: ?(?:{_NUMBER}) ?(?:\"|''|s(?![a-z])|sec(?![a-z])))?)?)"
    rf"|(?P<length>{_UNITS}))?"
)
_BREAK = re.compile(r"[,;|·•()]| - ")
_WORD_END = r"(?![a-zα-ω])"
_PLAIN_WORD = re.compile(r"[^\s\d,;|·•()=:]+|.")


def pieces(text: str) -> tuple[Piece, ...]:
    """The line cut into pieces, in order; words that say nothing are left out."""
    plain = "".join(low if len(low := ch.lower()) == 1 else ch for ch in text.translate(ALIKE))
    found: list[Piece] = []
    place = 0
    while place < len(plain):
        if plain[place].isspace() or (plain[place] == "-" and found and found[-1].end == place):
            place += 1
            continue
        piece = _piece(text, plain, place)
        place = piece.end
        if piece.kind != "word" or piece.field:
            found.append(piece)
    return tuple(found)


def _piece(text: str, plain: str, at: int) -> Piece:
    if match := _BREAK.match(plain, at):
        return Piece("break", match.group(), at, match.end())
    if plain[at] in "=:":
        return Piece("equals", plain[at], at, at + 1)
    if match := _QUANTITY.match(plain, at):
        return _quantity(text, match)
    for spelling, field, value in _WORDS:
        if match := re.compile(f"(?:{spelling}){_WORD_END}").match(plain, at):
            return Piece("word", text[at : match.end()], at, match.end(), field, value)
    if match := re.compile(rf"(?:material ?[=:]? ?)?(?P<it>{_MATERIAL}){_WORD_END}").match(plain, at):
        return Piece("word", text[at : match.end()], at, match.end(), "material", text[match.start("it") : match.end("it")])
    if match := re.compile(f"(?:{_HINT}){_WORD_END}(?! angle)").match(plain, at):
        return Piece("hint", text[at : match.end()], at, match.end())
    return _label(text, plain, at) or _other(text, plain, at)


def _quantity(text: str, match: re.Match[str]) -> Piece:
    question, folded = asked(match.group("number"), "gear", "a number")
    value, _ = take_number(folded, question)
    unit: Unit = "angle" if match.group("angle") else "length" if match.group("length") else "bare"
    start, end = match.span()
    return Piece("quantity", text[start:end].strip(), start, end, unit=unit, number=value, hyphen=match.group("joint") == "-")


def _label(text: str, plain: str, at: int) -> Piece | None:
    best: Piece | None = None
    for label in LABELS:
        match = re.compile(f"(?:{label.spelling}){_WORD_END}").match(plain, at)
        if match and (best is None or match.end() > best.end):
            best = Piece("label", text[at : match.end()], at, match.end(), label.field, side=label.side, accepts=label.accepts)
    return best


def _other(text: str, plain: str, at: int) -> Piece:
    if match := re.compile(f"(?:{_FILLER}){_WORD_END}").match(plain, at):
        return Piece("word", text[at : match.end()], at, match.end())
    match = _PLAIN_WORD.match(plain, at)
    end = match.end() if match else at + 1
    return Piece("unknown", text[at:end], at, end)
