"""Units of speeds, torques, electrical and other quantities, each with its exact factor to the unit we keep it in."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from evenpitch.quantity.units import INCH

Kind = Literal[
    "feed", "feed per tooth", "cutting speed", "rotation", "torque", "force", "time", "temperature", "temperature difference",
    "voltage", "current", "inductance", "resistance", "inertia", "frequency", "share",
]  # fmt: skip

_POUND = Fraction(45359237, 100_000_000)
"""Kilograms in a pound, exact by definition."""
_STANDARD_GRAVITY = Fraction(980665, 100_000)
"""m/s2, exact by definition."""
_KGF = _STANDARD_GRAVITY
_LBF = _POUND * _STANDARD_GRAVITY
_OZF = _LBF / 16
_FOOT = 12 * INCH / 1000
_INCH = INCH / 1000
"""Metres."""

Factors = dict[str, Fraction]


@dataclass(frozen=True, slots=True)
class Quantity:
    """A kind of quantity: the unit it is kept in, examples to type, the factor of each spelling, and what zero it counts from."""

    unit: str
    examples: str
    factors: Factors
    offsets: Factors = field(default_factory=dict)
    signed: bool = False


def _spellings(*groups: tuple[str, Fraction | int]) -> Factors:
    return {spelling: Fraction(factor) for spellings, factor in groups for spelling in spellings.split()}


QUANTITIES: dict[Kind, Quantity] = {
    "feed": Quantity(
        "mm/min",
        "60 mm/min, 1 mm/s or 3 in/min",
        _spellings(
            ("mm/min", 1),
            ("mm/s", 60),
            ("cm/min", 10),
            ("m/min", 1000),
            ("m/s", 60_000),
            ("in/min ipm", INCH),
            ("in/s ips", 60 * INCH),
            ("thou/min", INCH / 1000),
            ("ft/min", 12 * INCH),
        ),
    ),
    "feed per tooth": Quantity(
        "mm",
        "0.05 mm or 2 thou",
        _spellings(
            ("mm mm/tooth", 1), ("um um/tooth", Fraction(1, 1000)), ("in in/tooth ipt", INCH), ("thou thou/tooth", INCH / 1000)
        ),
    ),
    "cutting speed": Quantity(
        "m/min",
        "18 m/min or 60 ft/min",
        _spellings(("m/min", 1), ("m/s", 60), ("ft/min fpm sfm sfpm", _FOOT), ("in/min", _INCH), ("mm/min", Fraction(1, 1000))),
    ),
    "rotation": Quantity(
        "rpm",
        "83 rpm",
        _spellings(
            ("rpm rev/min revs/min r/min turn/min turns/min 1/min /min", 1), ("rps rev/s revs/s r/s turn/s turns/s 1/s", 60)
        ),
    ),
    "torque": Quantity(
        "Nm",
        "0.12 Nm, 17 ozf in or 1.1 lbf in",
        _spellings(
            ("nm", 1),
            ("mnm", Fraction(1, 1000)),
            ("ncm", Fraction(1, 100)),
            ("nmm", Fraction(1, 1000)),
            ("kgfm kgm", _KGF),
            ("kgfcm kgcm", _KGF / 100),
            ("gfcm gcm", _KGF / 100_000),
            ("ozfin ozin inoz inozf", _OZF * _INCH),
            ("lbfin lbin inlb inlbf", _LBF * _INCH),
            ("lbfft lbft ftlb ftlbf", _LBF * _FOOT),
        ),
    ),
    "force": Quantity(
        "N",
        "4 N, 0.4 kgf or 14 ozf",
        _spellings(
            ("n newton newtons", 1),
            ("kn", 1000),
            ("kgf kg kp", _KGF),
            ("gf g", _KGF / 1000),
            ("lbf lb lbs", _LBF),
            ("ozf oz", _OZF),
        ),
    ),
    "time": Quantity(
        "s",
        "5 ms, 0.5 s or 2 min",
        _spellings(
            ("s sec secs second seconds", 1),
            ("ms millisecond milliseconds", Fraction(1, 1000)),
            ("us microsecond microseconds", Fraction(1, 10**6)),
            ("min mins minute minutes", 60),
            ("h hr hour hours", 3600),
        ),
    ),
    "temperature": Quantity(
        "°C",
        "20 °C or 68 °F",
        _spellings(("°c c degc celsius", 1), ("°f f degf fahrenheit", Fraction(5, 9)), ("k kelvin", 1)),
        _spellings(("°f f degf fahrenheit", Fraction(-160, 9)), ("k kelvin", Fraction(-27315, 100))),
        signed=True,
    ),
    "temperature difference": Quantity(
        "K",
        "2 °C, 2 K or 4 °F",
        _spellings(("k kelvin °c c degc celsius", 1), ("°f f degf fahrenheit", Fraction(5, 9))),
        signed=True,
    ),
    "voltage": Quantity("V", "48 V", _spellings(("v volt volts", 1), ("mv", Fraction(1, 1000)), ("kv", 1000))),
    "current": Quantity(
        "A", "4 A or 800 mA", _spellings(("a amp amps ampere amperes", 1), ("ma milliamp milliamps", Fraction(1, 1000)))
    ),
    "inductance": Quantity(
        "H", "3.5 mH", _spellings(("h henry henries", 1), ("mh", Fraction(1, 1000)), ("uh", Fraction(1, 10**6)))
    ),
    "resistance": Quantity(
        "ohm", "0.7 ohm", _spellings(("ohm ohms", 1), ("mohm milliohm milliohms", Fraction(1, 1000)), ("kohm", 1000))
    ),
    "inertia": Quantity(
        "kg m2",
        "6.6e-5 kg m2 or 660 g cm2",
        _spellings(
            ("kgm2", 1),
            ("kgcm2", Fraction(1, 10**4)),
            ("gcm2", Fraction(1, 10**7)),
            ("gm2", Fraction(1, 1000)),
            ("kgmm2", Fraction(1, 10**6)),
            ("lbin2", _POUND * _INCH**2),
            ("ozin2", _POUND / 16 * _INCH**2),
        ),
    ),
    "frequency": Quantity(
        "Hz",
        "16000, 16 kHz or 16000 pulses/s",
        _spellings(
            ("hz /s 1/s pulse/s pulses/s count/s counts/s turn/s turns/s", 1),
            ("khz", 1000),
            ("/min 1/min turn/min turns/min", Fraction(1, 60)),
        ),
    ),
    "share": Quantity(
        "",
        "0.05, 5 % or 50 ppm",
        _spellings(("% percent", Fraction(1, 100)), ("‰", Fraction(1, 1000)), ("ppm", Fraction(1, 10**6))) | {"": Fraction(1)},
    ),
}
"""Every kind of quantity but lengths, angles and pitches. "kg" for a force is what a spring balance shows (common practice)."""
