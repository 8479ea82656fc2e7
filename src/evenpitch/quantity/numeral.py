"""What a person types, made plain, and the number at its head read exactly. All reading begins here."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from fractions import Fraction

from evenpitch.quantity.refusal import Refusal, refuse

Typed = str | int | float
"""What a form, a file or the command line hands over: text, or a number a file already took for one."""

LONGEST = 200
LARGEST_EXPONENT = 30

_VULGAR = {ch: Fraction(unicodedata.numeric(ch)).limit_denominator(10) for ch in "½¼¾⅓⅔⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒"}
VULGAR = "".join(_VULGAR)
"""The single characters that are fractions."""

ALIKE = str.maketrans(
    {
        **dict.fromkeys("\u2212\u2010\u2011\u2012\u2013\ufe63\uff0d", "-"),
        **dict.fromkeys("\u00a0\u202f\u2009\u200a\u2007\u2008\u2002\u2003", " "),
        **dict.fromkeys("\u2033\u201c\u201d\u2036", '"'),
        **dict.fromkeys("\u2032\u2018\u2019\u00b4\u2035", "'"),
        **dict.fromkeys("\u2044\u2215", "/"),
        **dict.fromkeys("\u00b5\u03bc", "u"),
        "\u00ba": "°",
    }
)
"""Characters that look alike and mean the same; each becomes one character, so places in the text stay where they were."""

_VULGAR_AFTER_DASH = re.compile(rf"(?<=\d)-([{VULGAR}])")
_VULGAR_ANYWHERE = re.compile(f"[{VULGAR}]")
_HEAD = re.compile(r"[+-]? ?[\d.,/ -]*")
_PER = re.compile(r"/(?=[a-zA-Z])")
_EXPONENT = re.compile(r"[eE]([+-]?\d+)")
_WHOLE = r"\d{1,3}(?: \d{3})+|\d+"
_MIXED = re.compile(rf"({_WHOLE})(?: +|-)([1-9]\d*) ?/ ?(\d+)")
_FRACTION = re.compile(r"(\d+) ?/ ?(\d+)")
_DECIMAL = re.compile(rf"({_WHOLE}|)(?:[.,](\d*))?")


@dataclass(frozen=True, slots=True)
class Asked:
    """One question to a person: the field, what was typed, what would have been right."""

    field: str
    given: str
    expected: str

    def no(self, likely: str, do: str) -> Refusal:
        """The refusal of this answer, to be raised."""
        return refuse(self.field, self.given, self.expected, likely, do)


def asked(typed: Typed, field: str, expected: str, longest: int = LONGEST) -> tuple[Asked, str]:
    """The question, and the text folded: look-alike signs made one, outer spaces gone. Refused if empty, too long or in other digits."""
    given = typed if isinstance(typed, str) else str(typed)
    question = Asked(field, given, expected)
    if isinstance(typed, bool):
        raise question.no("Yes or no was given for a number.", "Write the number.")
    if len(given) > longest:
        raise question.no(f"The text is {len(given)} characters long.", f"Write it in at most {longest}.")
    text = given.translate(ALIKE).strip()
    if not text:
        raise question.no("Nothing was typed.", f"Write {expected}.")
    for ch in text:
        if not ch.isascii() and unicodedata.decimal(ch, None) is not None:
            raise question.no(f"{ch} is a digit of another script.", "Write it with the digits 0 to 9.")
    text = _VULGAR_AFTER_DASH.sub(lambda found: f"-{_VULGAR[found.group(1)]} ", text)
    return question, _VULGAR_ANYWHERE.sub(lambda found: f" {_VULGAR[found.group()]} ", text).strip()


def take_number(text: str, question: Asked) -> tuple[Fraction, str]:
    """The number at the head of a folded text, and what follows it without outer spaces. Refused where no number stands there."""
    head = _HEAD.match(text)
    numeral = head.group() if head else ""
    if _PER.match(text, len(numeral) - 1):
        numeral = numeral[:-1]
    rest = text[len(numeral) :]
    exponent = _EXPONENT.match(rest) if numeral[-1:].isdigit() or numeral[-1:] == "." else None
    if exponent:
        rest = rest[exponent.end() :]
    numeral = numeral.strip()
    if numeral.endswith("-") and rest[:1].isalpha():
        numeral = numeral[:-1].rstrip()
    sign = -1 if numeral.startswith("-") else 1
    value = _unsigned(numeral[1:].strip() if numeral[:1] in ("+", "-") else numeral, question, rest)
    if exponent:
        value *= _power(exponent.group(1), numeral, question)
    return sign * value, rest.strip()


def _unsigned(numeral: str, question: Asked, rest: str) -> Fraction:
    _weigh_commas(numeral, question)
    if found := _MIXED.fullmatch(numeral):
        whole, over, under = (int(part.replace(" ", "")) for part in found.groups())
        if under and over >= under:
            raise question.no(f"{over}/{under} beside {whole} is a whole or more.", "Write the fraction smaller than 1.")
        return whole + _over(over, under, question)
    if found := _FRACTION.fullmatch(numeral):
        return _over(int(found.group(1)), int(found.group(2)), question)
    found = _DECIMAL.fullmatch(numeral)
    if not found or not any(ch.isdigit() for ch in numeral):
        raise _not_a_number(numeral, question, rest)
    whole_part, decimals = found.group(1).replace(" ", ""), found.group(2) or ""
    return Fraction(int(f"{whole_part}{decimals}"), 10 ** len(decimals))


def _weigh_commas(numeral: str, question: Asked) -> None:
    if "," not in numeral:
        return
    before, _, after = numeral.partition(",")
    if "," in after or "." in numeral:
        raise question.no(
            "A comma may stand once, for the decimal mark.", "Write thousands with a space, or together: 12 345.6 or 12345.6."
        )
    if not after:
        raise question.no("Nothing follows the comma.", "Write the decimals, or leave the comma out.")
    if re.fullmatch(r"[1-9]\d{0,2}", before) and re.fullmatch(r"\d{3}", after):
        raise question.no(
            f"This may be {before}.{after} or {before}{after}.",
            f"Write {before}.{after} or {before}{after}, or name the unit with a decimal point.",
        )


def _over(over: int, under: int, question: Asked) -> Fraction:
    if under == 0:
        raise question.no("A fraction over 0 has no value.", "Write the lower number of the fraction again.")
    return Fraction(over, under)


def _power(exponent: str, numeral: str, question: Asked) -> Fraction:
    if "/" in numeral or len(exponent) > 4 or abs(int(exponent)) > LARGEST_EXPONENT:
        bounds = f"-{LARGEST_EXPONENT} to {LARGEST_EXPONENT}"
        raise question.no(
            f"A power of ten of {exponent[:12]} is out of bounds.", f"Write a decimal number, or a power from {bounds}."
        )
    return Fraction(10) ** int(exponent)


def _not_a_number(numeral: str, question: Asked, rest: str) -> Refusal:
    if not numeral and rest:
        likely = f"It begins with {rest.split()[0][:30]!r}, which is no number."
    elif not any(ch.isdigit() for ch in numeral):
        likely = "There is no digit in it."
    else:
        likely = f"{numeral!r} is not one number."
    return question.no(likely, "Write it like 14.5, 14½, 1 3/8, 1-3/8 or .375.")
