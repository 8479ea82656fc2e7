"""The link's ratio in whole numbers."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest

from dividing.shop import PULSES
from evenpitch.dividing.lead import Helix, base_helix
from evenpitch.dividing.link_ratio import decimal_traps, link_pair, link_ratio, pulses_per_count, simpler_ratios
from evenpitch.quantity.refusal import Refusal
from evenpitch.quantity.units import Millimetre, Radian

MICRON = Fraction(1, 1000)
TWENTY = Radian(math.radians(20))
FLANK = Helix(face=Millimetre(20.0), base_helix=base_helix(TWENTY, TWENTY))
LEAD_28 = math.pi * 28 * 2 / math.sin(TWENTY)
LEAD_56 = 2 * LEAD_28


@pytest.mark.parametrize(
    ("lead", "largest", "count", "fraction", "ppm"),
    [
        (LEAD_28, 999, MICRON, (215, 576), 2.2),
        (LEAD_56, 999, MICRON, (148, 793), 8.1),
        (LEAD_28, 1511, MICRON, (564, 1511), 0.9),
        (LEAD_56, 1511, MICRON, (282, 1511), 0.9),
        (LEAD_28, 360, Fraction(5, 1000), (349, 187), 2.8),
        (LEAD_56, 374, Fraction(5, 1000), (349, 374), 2.8),
    ],
)
def test_ratios_of_the_workshop(lead: float, largest: int, count: Fraction, fraction: tuple[int, int], ppm: float) -> None:
    found = link_ratio(lead, PULSES, count, largest_pulses=largest, largest_counts=largest)
    assert (found.pulses, found.counts) == fraction
    assert abs(found.error_ppm) == pytest.approx(ppm, abs=0.05)
    assert not found.exact


def test_pulses_per_count_of_the_workshop() -> None:
    assert float(pulses_per_count(LEAD_28, PULSES, MICRON)) == pytest.approx(0.373263, abs=5e-7)
    assert float(pulses_per_count(LEAD_28, PULSES, Fraction(1))) == pytest.approx(373.26306, abs=5e-6)
    assert float(pulses_per_count(LEAD_56, PULSES, MICRON)) == pytest.approx(0.186632, abs=5e-7)


def test_nothing_within_the_fields_comes_nearer() -> None:
    found = link_ratio(LEAD_28, PULSES, MICRON, largest_pulses=300, largest_counts=700)
    wanted = pulses_per_count(LEAD_28, PULSES, MICRON)
    nearest = min(abs(Fraction(round(q * wanted) or 1, q) - wanted) for q in range(1, 701) if round(q * wanted) <= 300)
    assert abs(Fraction(found.pulses, found.counts) - wanted) == nearest


def test_a_lead_that_comes_out_whole() -> None:
    found = link_ratio(Fraction(500), PULSES, MICRON, helix=FLANK)
    assert (found.pulses, found.counts, found.exact, found.error_ppm) == (48, 125, True, 0)
    assert found.words() == "48 pulses for every 125 counts"
    assert found.facts()["helix_slope_um"] == 0


def test_a_pair_keeps_its_proportion() -> None:
    pair = link_pair(LEAD_28, LEAD_56, PULSES, MICRON, largest_pulses=1200, largest_counts=1200, helix=FLANK)
    assert pair
    first, second = pair
    assert [(ratio.pulses, ratio.counts) for ratio in pair] == [(215, 576), (215, 1152)]
    assert first.error_ppm == pytest.approx(second.error_ppm, abs=1e-6)
    assert link_pair(LEAD_28, LEAD_28 * math.sqrt(2), PULSES, MICRON) is None
    assert link_pair(LEAD_28, LEAD_56, PULSES, MICRON, largest_pulses=1, largest_counts=1) is None


def test_simpler_numbers_come_ever_nearer() -> None:
    ladder = simpler_ratios(LEAD_28, PULSES, MICRON)
    errors = [abs(ratio.error_ppm) for ratio in ladder]
    assert errors == sorted(errors, reverse=True)
    assert (215, 576) in [(ratio.pulses, ratio.counts) for ratio in ladder]
    assert ladder[-1] == link_ratio(LEAD_28, PULSES, MICRON)


def test_what_decimals_cost() -> None:
    traps = decimal_traps(LEAD_28, PULSES, MICRON, helix=FLANK)
    assert [(trap.places, trap.written) for trap in traps] == [(2, "0.37"), (3, "0.373"), (4, "0.3733")]
    assert [trap.error_ppm for trap in traps] == pytest.approx(
        [(w / 0.3732630614 - 1) * 1e6 for w in (0.37, 0.373, 0.3733)], abs=0.01
    )
    slope = 20_000 * math.tan(FLANK.base_helix)
    assert [trap.helix_slope_um for trap in traps] == pytest.approx([slope * abs(trap.error_ppm) * 1e-6 for trap in traps])
    assert decimal_traps(LEAD_28, PULSES, MICRON)[0].facts()["helix_slope_um"] is None


def test_what_cannot_be() -> None:
    with pytest.raises(Refusal) as refused:
        link_ratio(500.0, Fraction(0), Fraction(0))
    assert [fault.field for fault in refused.value.faults] == ["pulses per turn", "count"]
    with pytest.raises(Refusal, match="largest counts"):
        link_ratio(500.0, PULSES, MICRON, largest_counts=0)
    with pytest.raises(Refusal, match="lead"):
        link_ratio(0.0, PULSES, MICRON)
