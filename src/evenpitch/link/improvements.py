"""What each improvement would buy: the same gears drawn again on the mended drive, with the same luck."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

from evenpitch.link.budget import budget
from evenpitch.link.drive import Drive
from evenpitch.link.gearing import OnGear
from evenpitch.link.prediction import Expected, expect
from evenpitch.link.resolution import resolution
from evenpitch.link.usual import Assumed, at_end
from evenpitch.quantity.units import Millimetre, Radian, Second

DRAWS = 2000
MAP_LEAVES = 0.25
"""Part of the waves that is left after targets were corrected by a map; common practice."""


@dataclass(frozen=True, slots=True)
class Improvement:
    """One thing to buy or do, and what it would leave. `mapped`: part of the head's waves left in the spacing."""

    key: str
    words: str
    able: Callable[[Drive, OnGear], bool]
    mend: Callable[[Drive], Drive]
    mapped: float = 1.0


IMPROVEMENTS: tuple[Improvement, ...] = (
    Improvement("map", "map the head and correct each space by it", lambda d, g: True, lambda d: d, MAP_LEAVES),
    Improvement(
        "seat",
        "seat the play: a drag brake, or approach each space one way",
        lambda d, g: not d.seated or d.seating > 0.05,
        lambda d: replace(d, seated=True, seating=min(d.seating, 0.05)),
    ),
    Improvement(
        "centre",
        "true the blank to half its runout",
        lambda d, g: d.eccentricity > 0,
        lambda d: replace(d, eccentricity=Millimetre(d.eccentricity / 2)),
    ),
    Improvement(
        "align",
        "set the axis twice as true",
        lambda d, g: d.axis_tilt > 0,
        lambda d: replace(d, axis_tilt=Radian(d.axis_tilt / 2)),
    ),
    Improvement(
        "steps",
        "four times as many parts in a full pulse",
        lambda d, g: d.linked,
        lambda d: replace(d, microsteps=4 * d.microsteps),
    ),
    Improvement(
        "belt",
        "a belt of 3:1 between motor and head",
        lambda d, g: d.linked and d.belt == 1,
        lambda d: replace(d, belt=3 * d.belt),
    ),
    Improvement(
        "scale", "a scale five times as fine", lambda d, g: d.linked and g.helical, lambda d: replace(d, count=d.count / 5)
    ),
    Improvement(
        "delay",
        "a link that answers in 1 ms",
        lambda d, g: d.linked and g.helical and d.latency > 0.001,
        lambda d: replace(d, latency=Second(0.001)),
    ),
    Improvement(
        "feed",
        "power feed in place of the hand",
        lambda d, g: d.linked and g.helical and d.feeding.unevenness > 0,
        lambda d: replace(d, feeding=replace(d.feeding, unevenness=0.0, difference=min(d.feeding.difference, 0.05))),
    ),
)


@dataclass(frozen=True, slots=True)
class Bought:
    """One improvement made: the deviation that decides, before and after (95 of 100), the class then, the chance of the class wanted."""

    key: str
    words: str
    symbol: str
    before: float
    after: float
    class95: int
    chance: float
    band: tuple[float, float]

    @property
    def gain(self) -> float:
        """Part of the deciding deviation that goes."""
        return 1 - self.after / self.before if self.before else 0.0

    def facts(self) -> dict[str, Any]:
        """Under the fixed keys of the machine-readable answer."""
        return {
            "key": self.key, "words": self.words, "decides": self.symbol, "before_um": self.before, "after_um": self.after,
            "class95": self.class95 if self.class95 < 12 else None, "chance": self.chance,
        }  # fmt: skip


def what_it_buys(
    drive: Drive, gear: OnGear, wanted: int, draws: int = DRAWS, seed: int = 1
) -> tuple[Expected, tuple[Bought, ...]]:
    """Every improvement that can be made here, the one that helps most first; and the same draws with none of them."""
    plain = expect(drive, gear, draws, seed)
    first = plain.decides()
    found = []
    for one in IMPROVEMENTS:
        if not one.able(drive, gear):
            continue
        mended = one.mend(drive)
        after = expect(mended, gear, draws, seed, mapped=one.mapped)
        band = (resolution(drive, gear).band, resolution(mended, gear).band)
        found.append(
            Bought(
                one.key,
                one.words,
                first.symbol,
                first.p95,
                after.quantile(first.name).p95,
                after.class95,
                after.chance(wanted),
                band,
            )
        )
    return plain, tuple(sorted(found, key=lambda bought: -bought.gain))


@dataclass(frozen=True, slots=True)
class Doubt:
    """A don't-know and what it may do: the largest source of the budget with it at one end of its range and at the other, µm."""

    what: Assumed
    low_um: float
    high_um: float

    @property
    def spread(self) -> float:
        """By how much it matters."""
        return abs(self.high_um - self.low_um)

    def facts(self) -> dict[str, Any]:
        """Under the fixed keys of the machine-readable answer."""
        return {**self.what.facts(), "um_low": self.low_um, "um_high": self.high_um}


def doubts(drive: Drive, gear: OnGear, assumed: tuple[Assumed, ...]) -> tuple[Doubt, ...]:
    """Every don't-know with its reach on this tooth, the one worth finding out first."""
    found = []
    for what in assumed:
        ends = [_together(at_end(drive, what, high=high), gear) for high in (False, True)]
        found.append(Doubt(what, *ends))
    return tuple(sorted(found, key=lambda doubt: -doubt.spread))


def _together(drive: Drive, gear: OnGear) -> float:
    return float(sum(source.size_um**2 for source in budget(drive, gear).sources) ** 0.5)
