"""What was understood, said back beneath a field in both systems before it is used."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from evenpitch.quantity.pitch import Pitch
from evenpitch.quantity.showing import System, degrees_text, dms, number
from evenpitch.quantity.units import INCH


@dataclass(frozen=True, slots=True)
class Echo:
    """What was typed, and what it was taken for in each system. `first`: the system it was typed in."""

    typed: str
    metric: str
    inch: str
    first: System = "metric"

    def __str__(self) -> str:
        pair = (self.metric, self.inch) if self.first == "metric" else (self.inch, self.metric)
        return f"= {pair[0]} = {pair[1]}"


def echo_length(typed: str, value_mm: Fraction) -> Echo:
    """A length: "= 3.520 in = 89.408 mm". Three decimals at least; more where a small length needs them."""
    inches = value_mm / INCH
    return Echo(typed, f"{_as_needed(value_mm, 3, 5)} mm", f"{_as_needed(inches, 3, 6)} in", _typed_system(typed))


def echo_angle(typed: str, degrees: Fraction) -> Echo:
    """An angle, in decimals and in minutes and seconds: "= 20.0867° = 20° 5′ 12″"; the same in both systems."""
    return Echo(typed, degrees_text(degrees, 4), dms(degrees))


def echo_pitch(typed: str, pitch: Pitch) -> Echo:
    """A pitch as module and as diametral pitch: "= 12 DP = module 2.1167"."""
    module = pitch.module()
    plane = " transverse" if pitch.plane == "transverse" else ""
    metric = f"module {_as_needed(Fraction(module), 0, 4)}{plane}"
    inch = f"{_as_needed(INCH / Fraction(module), 0, 4)} DP{plane}"
    return Echo(typed, metric, inch, "inch" if pitch.inch else "metric")


def _as_needed(value: Fraction, fewest: int, most: int) -> str:
    """So many decimals as the value has, within these bounds."""
    text = number(value, most)
    while text[-1] == "0" and len(text.rpartition(".")[2]) > fewest:
        text = text[:-1]
    return text.rstrip(".")


def _typed_system(typed: str) -> System:
    low = typed.casefold()
    return "inch" if any(mark in low for mark in ("in", '"', "″", "”", "thou", "tenth", "ft", "feet", "foot")) else "metric"
