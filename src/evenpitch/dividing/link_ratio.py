"""The link's ratio: pulses of the motor for counts of the scale, as whole numbers that a controller can hold."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from evenpitch.dividing.lead import Helix, checked_lead, helix_slope_um
from evenpitch.quantity.ratios import best_bounded, convergents, decimal_error
from evenpitch.quantity.refusal import Fault, Refusal
from evenpitch.sources.citations import cites

LARGEST = 65_535
"""The usual bound of both fields."""
DECIMALS = (2, 3, 4)


@dataclass(frozen=True, slots=True, kw_only=True)
class LinkRatio:
    """So many pulses for every so many counts. `wanted`: pulses per count; `rational`: whether the lead was given as a ratio."""

    pulses: int
    counts: int
    wanted: Fraction
    rational: bool
    helix: Helix | None = None

    @property
    def exact(self) -> bool:
        """Whether the ratio is the one wanted, to the last digit; never so for a lead with π in it."""
        return self.rational and Fraction(self.pulses, self.counts) == self.wanted

    @property
    def error_ppm(self) -> float:
        """Pulses per count, (got/wanted - 1) 1e6."""
        return float((Fraction(self.pulses, self.counts) / self.wanted - 1) * 1_000_000)

    def words(self) -> str:
        """As a person enters it."""
        return f"{self.pulses} pulses for every {self.counts} counts"

    def facts(self) -> dict[str, object]:
        """Under the fixed keys of the machine-readable answer."""
        told: dict[str, object] = {
            "pulses": self.pulses,
            "counts": self.counts,
            "words": self.words(),
            "exact": self.exact,
            "error_ppm": self.error_ppm,
            "pulses_per_count": float(self.wanted),
        }
        return told if self.helix is None else {**told, "helix_slope_um": helix_slope_um(self.helix, self.error_ppm / 1_000_000)}


@dataclass(frozen=True, slots=True, kw_only=True)
class DecimalTrap:
    """What writing the ratio with so many decimals would cost. `helix_slope_um`: None where no gear was named."""

    places: int
    written: str
    error_ppm: float
    helix_slope_um: float | None

    def facts(self) -> dict[str, object]:
        """Under the fixed keys of the machine-readable answer."""
        return {
            "places": self.places,
            "written": self.written,
            "error_ppm": self.error_ppm,
            "helix_slope_um": self.helix_slope_um,
        }


@cites("derived here", formula="pulses per count = T c/L")
def pulses_per_count(lead: Fraction | float, pulses_per_turn: Fraction, count: Fraction) -> Fraction:
    """Pulses that turn the work as the helix wants it while the table moves one count. T a turn of the work; c and L in mm."""
    lead = checked_lead(lead)
    amounts = (("pulses per turn", pulses_per_turn), ("count", count))
    faults = [
        Fault(name, str(value), "more than 0", "A sign or a digit may be wrong.", "Measure or work it out once.")
        for name, value in amounts
        if value <= 0
    ]
    if faults:
        raise Refusal(*faults)
    return pulses_per_turn * count / lead


def link_ratio(
    lead: Fraction | float,
    pulses_per_turn: Fraction,
    count: Fraction,
    *,
    largest_pulses: int = LARGEST,
    largest_counts: int = LARGEST,
    helix: Helix | None = None,
) -> LinkRatio:
    """The whole numbers nearest to the ratio wanted that the controller's fields can hold. `count`: mm of one count."""
    wanted = pulses_per_count(lead, pulses_per_turn, count)
    _check_fields(largest_pulses, largest_counts)
    nearest = best_bounded(wanted, largest_pulses, largest_counts)
    return _ratio(nearest, wanted, lead, helix)


def simpler_ratios(
    lead: Fraction | float,
    pulses_per_turn: Fraction,
    count: Fraction,
    *,
    largest_pulses: int = LARGEST,
    largest_counts: int = LARGEST,
    helix: Helix | None = None,
) -> tuple[LinkRatio, ...]:
    """Ever larger whole numbers that come ever nearer, up to the fields' bounds: for whoever likes 215 and 576 better than five digits."""
    wanted = pulses_per_count(lead, pulses_per_turn, count)
    _check_fields(largest_pulses, largest_counts)
    fitting = [
        ratio for ratio in convergents(wanted) if 1 <= ratio.numerator <= largest_pulses and ratio.denominator <= largest_counts
    ]
    best = best_bounded(wanted, largest_pulses, largest_counts)
    return tuple(_ratio(ratio, wanted, lead, helix) for ratio in dict.fromkeys([*fitting, best]))


@cites("derived here", formula="p1/q1 · L1/L2 = p2/q2")
def link_pair(
    first: Fraction | float,
    second: Fraction | float,
    pulses_per_turn: Fraction,
    count: Fraction,
    *,
    largest_pulses: int = LARGEST,
    largest_counts: int = LARGEST,
    helix: Helix | None = None,
    second_helix: Helix | None = None,
) -> tuple[LinkRatio, LinkRatio] | None:
    """Ratios for two leads with one and the same relative error, so that the leads stay in their exact proportion.

    None where the leads are in no proportion of whole numbers up to 1000 (then each is best chosen alone).
    """
    proportion = (checked_lead(first) / checked_lead(second)).limit_denominator(1000)
    if abs(float(proportion * checked_lead(second) / checked_lead(first)) - 1) > 1e-12:
        return None
    _check_fields(largest_pulses, largest_counts)
    room = (largest_pulses // proportion.numerator, largest_counts // proportion.denominator)
    if min(room) < 1:
        return None
    wanted = pulses_per_count(first, pulses_per_turn, count)
    nearest = best_bounded(wanted, *room)
    other = pulses_per_count(second, pulses_per_turn, count)
    return _ratio(nearest, wanted, first, helix), _ratio(nearest * proportion, other, second, second_helix)


def decimal_traps(
    lead: Fraction | float, pulses_per_turn: Fraction, count: Fraction, *, helix: Helix | None = None
) -> tuple[DecimalTrap, ...]:
    """What 2, 3 and 4 decimals would cost where a controller takes the ratio as a decimal number."""
    wanted = pulses_per_count(lead, pulses_per_turn, count)
    found = []
    for places in DECIMALS:
        error = float(decimal_error(wanted, places) * 1_000_000)
        written = f"{float(wanted * (1 + decimal_error(wanted, places))):.{places}f}"
        slope = None if helix is None else helix_slope_um(helix, error / 1_000_000)
        found.append(DecimalTrap(places=places, written=written, error_ppm=error, helix_slope_um=slope))
    return tuple(found)


def _ratio(ratio: Fraction, wanted: Fraction, lead: Fraction | float, helix: Helix | None) -> LinkRatio:
    return LinkRatio(
        pulses=ratio.numerator,
        counts=ratio.denominator,
        wanted=wanted,
        rational=isinstance(lead, int | Fraction),
        helix=helix,
    )


def _check_fields(largest_pulses: int, largest_counts: int) -> None:
    fields = (("largest pulses", largest_pulses), ("largest counts", largest_counts))
    faults = [
        Fault(
            name,
            str(value),
            "a whole number of 1 or more",
            "A field of 0 holds no ratio.",
            "Type what the controller's field holds.",
        )
        for name, value in fields
        if value < 1
    ]
    if faults:
        raise Refusal(*faults)
