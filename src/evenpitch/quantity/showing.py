"""Numbers become text here, and nowhere else: a point for the decimals, narrow spaces in thousands, a true minus, never -0."""

from __future__ import annotations

import math
from collections.abc import Callable
from fractions import Fraction
from typing import Literal

from evenpitch.quantity.names import Name, name_of
from evenpitch.quantity.ratios import round_half_up
from evenpitch.quantity.units import INCH

System = Literal["metric", "inch"]
Number = float | Fraction

NARROW = "\u202f"
"""The narrow no-break space between thousands."""
MINUS = "\u2212"
GROUPED_FROM = 10_000
"""Thousands are set apart from here on; 1979 stays as it is."""

_GLYPHS = {Fraction(1, 4): "¼", Fraction(1, 2): "½", Fraction(3, 4): "¾"}


def number(value: Number, places: int = 0, *, plus: bool = False) -> str:
    """A number with so many decimals, a half going away from 0. `plus` writes the sign of what is above 0."""
    if isinstance(value, float) and not math.isfinite(value):
        raise ValueError(f"not a number that can be shown: {value}")
    units = round_half_up(abs(Fraction(value)) * 10**places)
    whole, part = divmod(units, 10**places)
    sign = MINUS if value < 0 and units else "+" if plus and units else ""
    return f"{sign}{grouped(whole)}" + (f".{part:0{places}d}" if places else "")


def grouped(value: int) -> str:
    """A whole number with narrow spaces between thousands from 10 000 on."""
    digits = f"{abs(value):,}".replace(",", NARROW) if abs(value) >= GROUPED_FROM else str(abs(value))
    return f"{MINUS}{digits}" if value < 0 else digits


def mm(value: Number, places: int = 3, *, plus: bool = False) -> str:
    """A length in mm: "89.408 mm"."""
    return f"{number(value, places, plus=plus)} mm"


def inch(value_mm: Number, places: int = 4, *, plus: bool = False) -> str:
    """A length in mm as inches: "3.5200 in"."""
    return f"{number(Fraction(value_mm) / INCH, places, plus=plus)} in"


def both(value_mm: Number, system: System = "metric", places_mm: int = 3, places_inch: int = 4) -> str:
    """A length in both systems, the person's own first: "89.408 mm (3.5200 in)"."""
    metric, imperial = mm(value_mm, places_mm), inch(value_mm, places_inch)
    return f"{metric} ({imperial})" if system == "metric" else f"{imperial} ({metric})"


def angle_words(degrees: float) -> str:
    """An angle as the trade writes it: "14½°", "20°", else four decimals at most."""
    if abs(degrees * 2 - round(degrees * 2)) < 1e-9 and round(degrees * 2) % 2:
        return f"{int(degrees)}½°"
    text = number(degrees, 4)
    return (text.rstrip("0").rstrip(".") if "." in text else text) + "°"


def thou(value_mm: Number, places: int = 1) -> str:
    """A length in mm as thousandths of an inch: "2.4 thou"."""
    return f"{number(Fraction(value_mm) / INCH * 1000, places)} thou"


def um(value_um: Number, places: int = 0) -> str:
    """Micrometres: "17 µm"."""
    return f"{number(value_um, places)} µm"


def ppm(value: Number, places: int = 1) -> str:
    """Parts in a million, with its sign: "−8.1 ppm"."""
    return f"{number(value, places, plus=True)} ppm"


def several(count: int, word: str) -> str:
    """A count with its word: "1 turn", "3 turns"."""
    return f"{count} {word}{'' if count == 1 else 's'}"


def degrees_text(degrees: Number, places: int = 4) -> str:
    """Decimal degrees: "20.0868°"."""
    return f"{number(degrees, places)}°"


def dms(degrees: Number) -> str:
    """Degrees, minutes and seconds, to the second: "20° 5′ 12″"; rounded once, so that 60″ never stands."""
    seconds = round_half_up(abs(Fraction(degrees)) * 3600)
    whole, rest = divmod(seconds, 3600)
    minutes, seconds_left = divmod(rest, 60)
    sign = MINUS if degrees < 0 and seconds else ""
    return f"{sign}{grouped(whole)}° {minutes}′ {seconds_left}″"


def arcsec(value_arcsec: Number, places: int = 0) -> str:
    """Seconds of arc: "40″"."""
    return f"{number(value_arcsec, places)}″"


def mixed_number(value: Fraction) -> str:
    """A fraction as the trade writes it: "14½", "1 3/8", "7/5" as "1 2/5"."""
    whole, part = divmod(abs(value), 1)
    sign = MINUS if value < 0 else ""
    if not part:
        return f"{sign}{grouped(whole)}"
    text = _GLYPHS.get(part, f"{part.numerator}/{part.denominator}")
    gap = "" if part in _GLYPHS else " "
    return f"{sign}{grouped(whole)}{gap}{text}" if whole else f"{sign}{text}"


def turns(value: Fraction) -> str:
    """Turns of a crank: "6 2/3 turns", "1 turn", "½ turn"."""
    return f"{mixed_number(value)} {'turn' if abs(value) <= 1 and value else 'turns'}"


def significant(value: float, digits: int = 12) -> float:
    """The number to so many significant digits, as it goes into JSON; never -0."""
    return float(f"{value:.{digits}g}") + 0.0


_SHOWN: dict[str, Callable[[Number, int], str]] = {
    "mm": mm,
    "um": um,
    "deg": degrees_text,
    "arcsec": arcsec,
    "ppm": ppm,
}


def show(figure_name: str, value: Number, system: System = "metric") -> str:
    """A figure as the page shows it, with the decimals and the unit that the nomenclature gives it. Lengths are taken in mm."""
    return show_as(name_of(figure_name), value, system)


def show_as(name: Name, value: Number, system: System = "metric") -> str:
    """The same for a name at hand."""
    places = name.places_mm if system == "metric" else name.places_inch
    if name.unit == "mm" and system == "inch":
        return inch(value, places)
    if name.unit == "mm/min" and system == "inch":
        return f"{number(Fraction(value) / INCH, places)} in/min"
    if name.unit in _SHOWN:
        return _SHOWN[name.unit](value, places)
    return f"{number(value, places)} {name.unit}".rstrip()
