"""Class by drawing whole gears: the four invented rigs on two gears, as two programs found them; no outside figure for the rigs."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

from evenpitch.link.budget import budget
from evenpitch.link.draws import draw
from evenpitch.link.limits import CLASSES, class_limits, classes_of
from evenpitch.link.prediction import Expected, expect, interval, look_at
from evenpitch.quantity.refusal import Refusal
from link.shop import drive_of, rows, sizes

H24 = {
    "A": (((7.0, 9.9), (19.2, 29.2), (13, 19.3), (3.8, 6.0), (8.1, 9.3), (9.3, 11.2)), (0.11, 0.70, 1, 1, 1, 1), 7),
    "B": (((2.1, 3.6), (6.9, 10.7), (5.2, 7.7), (1.5, 2.3), (2.3, 2.7), (2.9, 3.6)), (1, 1, 1, 1, 1, 1), 4),
    "C": (((29, 38), (55, 80), (26, 39), (19.5, 33), (33, 40), (39, 47)), (0, 0, 0, 0, 0.04, 0.76), 11),
    "C+": (((5.9, 8.7), (13.7, 20.8), (7.8, 11.6), (2.5, 4.1), (6.3, 7.5), (6.8, 8.1)), (0.46, 0.94, 1, 1, 1, 1), 7),
}
S127 = {
    "A": (((16.8, 21.2), (37.7, 50.9), (13, 19), (0.6, 1.1)), (0, 0, 0, 0.34, 0.97, 1), 9),
    "B": (((5.1, 6.1), (12.8, 17.8), (5.2, 7.7), (0.3, 0.4)), (0.75, 1, 1, 1, 1, 1), 6),
    "C": (((79, 91), (138, 171), (26, 39), (4.8, 6.6)), (0, 0, 0, 0, 0, 0), 12),
    "C+": (((15.7, 19.9), (32.2, 41.4), (7.8, 11.6), (0.4, 0.7)), (0, 0, 0, 0.55, 0.99, 1), 9),
}
SYMBOLS = {"h24": ("f_p", "F_p", "F_r", "f_H_beta", "f_f_beta", "F_beta"), "s127": ("f_p", "F_p", "F_r", "F_beta")}


@cache
def expected(name: str, letter: str, seed: int = 1) -> tuple[Expected, float]:
    drawn = draw(drive_of(letter), sizes(name), 20_000, seed)
    return look_at(drawn, class_limits(sizes(name))), float(drawn.flank_slope.std())


@pytest.mark.parametrize(("name", "letter"), [*(("h24", r) for r in H24), *(("s127", r) for r in S127)])
def test_quantiles_and_classes(name: str, letter: str) -> None:
    found, sd = expected(name, letter)
    pairs, chances, cls = (H24 if name == "h24" else S127)[letter]
    by_symbol = {q.symbol: q for q in found.quantiles}
    for symbol, (p50, p95) in zip(SYMBOLS[name], pairs, strict=True):
        q = by_symbol[symbol]
        assert q.p50 == pytest.approx(p50, rel=0.03, abs=0.3), symbol
        assert q.p95 == pytest.approx(p95, rel=0.03, abs=0.3), symbol
    assert [found.chance(c) for c in range(5, 11)] == pytest.approx(list(chances), abs=0.03)
    assert found.class95 == cls
    assert found.chance(12) == 1.0
    assert sd == pytest.approx(budget(drive_of(letter), sizes(name)).slope_u_um, rel=0.05)


def test_probabilities_repeat_over_seeds() -> None:
    first, other = expected("s127", "B")[0], expected("s127", "B", 77)[0]
    assert first.probability == pytest.approx(other.probability, abs=0.01)
    again = expect(drive_of("A"), sizes("h24"), 500, 5)
    assert again == expect(drive_of("A"), sizes("h24"), 500, 5)


@pytest.mark.parametrize("name", ["h24", "s127"])
def test_the_spacing_against_worked_draws(name: str) -> None:
    """Waves, rounding and a normal scatter of each space, 24 000 draws or so by another program: tests/data/link.json, topic mc."""
    (case,) = (case for case in rows("mc") if name.removeprefix("s").removeprefix("h") in case["id"] and name in case["id"])
    i, out = case["inputs"], case["outputs"]
    random, z, r = np.random.default_rng(4), i["z"], i["d"] / 2
    k, n = np.arange(z), 20_000
    targets = (2 * k * i["steps_per_rev"] + z) // (2 * z)
    y = np.tile((targets - k * i["steps_per_rev"] / z) * 2 * np.pi / i["steps_per_rev"] * r * 1000, (n, 1))
    for h, arcsec in i["harmonics"]:
        size = arcsec * np.pi / 648_000 * r * 1000
        y += size * np.sin(2 * np.pi * (h * k % z) / z + 2 * np.pi * random.random((n, 1)))
    y += i["sd_um"] * random.standard_normal((n, z))
    single, total = np.abs(np.diff(y, axis=1, append=y[:, :1])).max(axis=1), np.ptp(y, axis=1)
    assert np.median(single) == pytest.approx(out["fp_median"], rel=0.01)
    assert np.median(total) == pytest.approx(out["Fp_median"], rel=0.01)
    limits = class_limits(sizes(name))
    worst = np.maximum(classes_of(single, limits.single), classes_of(total, limits.cumulative))
    for cls in i["classes"]:
        assert (worst <= cls).mean() == pytest.approx(out[f"P_le_{cls}"], abs=0.015)


@pytest.mark.parametrize("case", rows("tol"), ids=lambda case: str(case["id"]))
def test_limits_of_the_classes(case: dict[str, object]) -> None:
    i, out = case["inputs"], case["outputs"]
    assert isinstance(i, dict)
    assert isinstance(out, dict)
    limits = class_limits(sizes("h24" if i["mn"] == 2 else "s127"))
    place = CLASSES.index(i["A"])
    found = (limits.single, limits.cumulative, limits.slope, limits.form, limits.total, limits.runout)
    assert [column[place] for column in found] == [out[key] for key in ("fp", "Fp", "fHb", "ffb", "Fb", "Fr")]


def test_sum_of_four_rectangular_inputs() -> None:
    """JCGM 101:2008, 9.2.3: the interval of 95 % is ±3.88. From memory."""
    random = np.random.default_rng(9)
    total = (np.sqrt(3) * (2 * random.random((400_000, 4)) - 1)).sum(axis=1)
    low, high = interval(total)
    assert (low, high) == pytest.approx((-3.88, 3.88), abs=0.02)


def test_a_class_is_the_smallest_whose_limit_is_kept() -> None:
    assert classes_of(np.array([0.0, 5.0, 5.01, 99.0]), (5.0, 7.0)).tolist() == [1, 1, 2, 3]


def test_a_map_of_the_head_and_a_head_without_a_link() -> None:
    mapped = expect(drive_of("A"), sizes("s127"), 4000, 1, mapped=0.25)
    plain = expect(drive_of("A"), sizes("s127"), 4000, 1)
    assert mapped.quantile("single_pitch").p95 < 0.7 * plain.quantile("single_pitch").p95
    by_hand = expect(drive_of("A", linked=False), sizes("s127"), 4000, 1)
    assert by_hand.quantile("single_pitch").p95 < plain.quantile("single_pitch").p95
    assert plain.decides().symbol == "f_p"
    assert expect(drive_of("C"), sizes("s127"), 2000).facts()["class95"] is None


def test_a_long_run_tells_how_far_it_is_and_can_be_stopped() -> None:
    told: list[tuple[int, int]] = []

    def progress(done: int, whole: int) -> bool:
        told.append((done, whole))
        return done < 2000

    assert expect(drive_of("B"), sizes("h24"), 20_000, progress=progress).draws == 2000
    assert told == [(1000, 20_000), (2000, 20_000)]


def test_refusals() -> None:
    with pytest.raises(Refusal, match="draws"):
        draw(drive_of("A"), sizes("h24"), 0)
    from dataclasses import replace

    drive = drive_of("A")
    with pytest.raises(Refusal, match="feed above 0"):
        draw(replace(drive, feeding=replace(drive.feeding, mean=0.0)), sizes("h24"), 10)


def test_the_hand_of_the_crank_is_looked_up_closely() -> None:
    from evenpitch.link.draws import _hand_table, _looked_up
    from evenpitch.link.motion import eccentric

    mean = np.linspace(0, 90, 10_001)
    for k in (0.4, 0.6, 0.8, 0.95):
        assert _looked_up(_hand_table(k), mean) == pytest.approx(np.cos(eccentric(mean, k)), abs=1e-4)
