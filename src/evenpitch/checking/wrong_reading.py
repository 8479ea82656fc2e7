"""Moved so much, shows so much: which settings explain the factor, alone or two together, and the one test that decides."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations

from evenpitch.checking.setting_slips import Setting, Slip, slips
from evenpitch.quantity.refusal import Fault, Refusal
from evenpitch.sources.citations import cites

CLOSE = 0.002
"""A factor fits within so much of itself, or within the last figure typed if that is more."""
PAIR_COSTS = 3.0
"""Two slips at once are less likely than one, by about so much weight."""
MOST_CAUSES = 12
USUAL_SETTING = Setting()
_SAME_MARK = (
    "Go back to the same mark: it is off by the same amount, whatever the distance. Slow the stroke; check reader gap and dirt."
)
_CALIBRATE = "Calibrate the scale over five places, both ways: evenpitch scale READINGS.csv."


@dataclass(frozen=True, slots=True)
class Explanation:
    """One slip or two that explain a reading. `off`: factor shown over factor explained, less 1. Low `cost` is likely."""

    slips: tuple[Slip, ...]
    factor: Fraction
    off: float
    cost: float

    @property
    def words(self) -> str:
        """The cause in words."""
        return ", and ".join(slip.words for slip in self.slips)

    @property
    def test(self) -> str:
        """The one test that decides."""
        return " Then: ".join(dict.fromkeys(slip.test for slip in self.slips))

    def facts(self) -> dict[str, object]:
        """Under the fixed keys of the machine-readable answer."""
        return {
            "cause": self.words,
            "kinds": [slip.kind for slip in self.slips],
            "factor": self.factor,
            "fits_within_ppm": abs(self.off) * 1e6,
            "cost": self.cost,
            "test": self.test,
        }


@cites("derived here", formula="shown/moved = f₁ or f₁ f₂; cost = weight of the slips + 3 for a second one")
def explain_reading(
    moved: Fraction, shown: Fraction, setting: Setting = USUAL_SETTING, last: Fraction | int = 0
) -> tuple[Explanation, ...]:
    """What explains the reading, most likely first. `last`: the last figure typed of what was shown; empty where nothing is wrong."""
    _refuse_nothing(moved, shown)
    wanted = shown / moved
    close = max(CLOSE, float(abs(last / shown)))
    if shown == moved:
        return ()
    found = list(_periods(moved, shown, setting))
    if abs(float(wanted) - 1) <= close:
        return tuple(sorted([*found, _gain(wanted)], key=lambda one: one.cost))
    known = tuple(slips(setting))
    found += _alone(known, wanted, close)
    found += _together(known, wanted, close, {one.slips[0].factor for one in found})
    return tuple(sorted(found, key=lambda one: (one.cost, abs(one.off)))[:MOST_CAUSES])


def _refuse_nothing(moved: Fraction, shown: Fraction) -> None:
    faults = [
        Fault(name, "0", "a length or an angle other than 0", "From nothing no factor follows.", "Move further, and read again.")
        for name, value in (("moved", moved), ("shown", shown))
        if not value
    ]
    if faults:
        raise Refusal(*faults)


def _gain(wanted: Fraction) -> Explanation:
    """No setting: the scale's own gain, or the doubt of the comparison."""
    parts = (float(wanted) - 1) * 1e6
    slip = Slip(
        "gain", wanted, f"no setting: a gain of {parts:+.0f} µm in a metre, or the doubt of the comparison", 1.5, _CALIBRATE
    )
    return Explanation((slip,), wanted, 0.0, slip.weight)


def _alone(known: tuple[Slip, ...], wanted: Fraction, close: float) -> Iterator[Explanation]:
    for slip in known:
        off = _off(wanted, slip.factor)
        if abs(off) <= close:
            yield Explanation((slip,), slip.factor, off, slip.weight + abs(off) / close)


def _together(known: tuple[Slip, ...], wanted: Fraction, close: float, alone: set[Fraction]) -> Iterator[Explanation]:
    """Pairs of different kinds, neither of which explains it already."""
    target = float(wanted)
    rest = [(slip, float(slip.factor)) for slip in known if slip.factor not in alone]
    for (first, a), (second, b) in combinations(rest, 2):
        if first.kind != second.kind and abs(target / (a * b) - 1) <= close:
            factor = first.factor * second.factor
            off = _off(wanted, factor)
            yield Explanation((first, second), factor, off, first.weight + second.weight + PAIR_COSTS + abs(off) / close)


def _off(wanted: Fraction, factor: Fraction) -> float:
    return float(wanted / factor) - 1


def _periods(moved: Fraction, shown: Fraction, setting: Setting) -> Iterator[Explanation]:
    """A reading that is off by whole periods of the scale, up to five, and by no factor."""
    period = setting.period
    if not period or setting.angle:
        return
    times = (shown - moved) / period
    whole = round(times)
    if whole and abs(whole) <= 5 and abs(times - whole) <= Fraction(1, 10):
        many = "one period" if abs(whole) == 1 else f"{abs(whole)} periods"
        words = f"the scale lost {many} of {float(period) * 1000:g} µm"
        slip = Slip("scale period", shown / moved, words, 1.0, _SAME_MARK)
        yield Explanation((slip,), shown / moved, float(times - whole), 1.0 + abs(float(times - whole)))
